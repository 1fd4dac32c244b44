"""Whether what is drawn lies on the piece it is drawn on: asked once, while it is drawn.

A graded size may push a hole off a backing: that is a finding. But nobody draws a slit of no length, a hole
wider than the piece or a notch that cuts it in two; such a figure is a slip of the hand and is refused.
"""

from __future__ import annotations

import math
from dataclasses import replace

import shapely
from shapely.geometry import Point

from geometry.drawn.details import Detail, DrawnMark, EdgeNotch, Hole, ReliefRow, Slit, Word, notches_of
from geometry.drawn.ground import Ground
from geometry.errors import BackingError
from geometry.said import said

SHORTEST_LINE_MM = 0.5
"""A slit or mark shorter than this is a point set twice (common practice, no source)."""

EDGE_MM = 0.1
"""So far past the outline may what is drawn reach and still count as on the piece: a click at the edge."""


def require_within(ground: Ground, detail: Detail) -> None:
    """Raise BackingError for a detail that does not lie on the piece of ``ground`` as drawn."""
    if isinstance(detail, EdgeNotch | ReliefRow):
        _require_notches(ground, detail)
        return
    piece = ground.upper.outline.polygon.buffer(EDGE_MM)
    name = ground.upper.name
    match detail:
        case Hole():
            place = Point(ground.point(detail.at))
            if not piece.covers(place.buffer(detail.diameter_mm / 2.0) if detail.diameter_mm else place):
                told = said("a hole of {0} mm does not lie on the piece there", f"{detail.diameter_mm:g}")
                raise BackingError(
                    told if detail.diameter_mm > 0.0 else "the hole lies off the piece",
                    remedy="put it inside the outline, or make it smaller",
                    piece=name,
                )
        case Word():
            if not detail.text.strip() or not detail.text.isprintable():
                raise BackingError(
                    "a word needs letters or figures", remedy="type what is to be written", piece=name
                )
            too_high = detail.height_mm > _extent_mm(ground)
            if too_high or not piece.covers(Point(ground.point(detail.at))):
                raise BackingError(
                    said("a word {0} mm high does not lie on the piece there", f"{detail.height_mm:g}"),
                    remedy="put it inside the outline, or make it smaller",
                    piece=name,
                )
        case Slit() | DrawnMark():
            line = shapely.LineString(ground.line(detail.line))
            if line.length < SHORTEST_LINE_MM:
                raise BackingError("the line has no length", remedy="set its points apart", piece=name)
            if line.intersection(piece).length < SHORTEST_LINE_MM:
                raise BackingError("the line lies off the piece", remedy="draw it on the piece", piece=name)


def _require_notches(ground: Ground, detail: EdgeNotch | ReliefRow) -> None:
    piece, name = ground.upper.outline.polygon.buffer(EDGE_MM), ground.upper.name
    if detail.depth_mm <= 0.0:
        raise BackingError("a notch of no depth", remedy="give its depth in mm", piece=name)
    if isinstance(detail, ReliefRow) and detail.width_mm > detail.pitch_mm:
        raise BackingError(
            said(
                "cuts {0} mm wide meet at a pitch of {1} mm", f"{detail.width_mm:g}", f"{detail.pitch_mm:g}"
            ),
            remedy="make the pitch larger or the cuts narrower",
            piece=name,
        )
    found = notches_of(ground, detail)
    if not found and isinstance(detail, ReliefRow):
        raise BackingError(
            said("no cut fits on the stretch at a pitch of {0} mm", f"{detail.pitch_mm:g}"),
            remedy="make the pitch smaller",
            piece=name,
        )
    first, last = (detail.start, detail.stop) if isinstance(detail, ReliefRow) else (detail.at, detail.at)
    corners = [
        ground.point(replace(first, share=0.0, inward_mm=0.0, aside_mm=0.0)),
        ground.point(replace(last, share=1.0, inward_mm=0.0, aside_mm=0.0)),
    ]
    for notch in found:
        way = math.radians(notch.angle_deg)
        x = notch.x_mm + notch.depth_mm * math.cos(way)
        y = notch.y_mm + notch.depth_mm * math.sin(way)
        at_corner = any(
            math.dist((notch.x_mm, notch.y_mm), corner) < notch.depth_mm for corner in corners
        )  # there it runs out over the next edge
        off = not piece.covers(Point(x, y)) and not at_corner
        if off or max(notch.width_mm, notch.depth_mm) > _extent_mm(ground):
            size = f"{notch.depth_mm:g}", f"{notch.width_mm:g}"
            raise BackingError(
                said("a notch {0} mm deep and {1} mm wide cuts through the piece", *size),
                remedy="make it smaller",
                piece=name,
            )


def _extent_mm(ground: Ground) -> float:
    x0, y0, x1, y1 = ground.upper.outline.bbox_mm
    return float(max(x1 - x0, y1 - y0))
