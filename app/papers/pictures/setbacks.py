"""The setback of every edge, dimensioned: how far the backing stops short, written beside it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from app.papers.formats.drawing import Drawing
from app.papers.formats.lettering import width_mm
from app.papers.layout import pens
from app.papers.layout.marks import draw_dimension
from app.papers.pictures.pieces import scaled
from app.words import say
from geometry.backing.edges import edge_points
from geometry.piece import BackingPiece

_ALONG = (0.5, 0.38, 0.62, 0.27, 0.73, 0.16, 0.84, 0.08, 0.92)
_LEADS_MM = (3.0, 5.5, 9.0, 13.0, 18.0, 24.0, 32.0)
_FOUND_MM = 0.3  # the backing counts as standing at its setback within this

Vector = NDArray[np.float64]


def draw_setbacks(
    drawing: Drawing, backing: BackingPiece, *, scale: float = 1.0, size_mm: float = pens.SMALL
) -> list[BaseGeometry]:
    """Dimension the setback of every edge of the upper, with the edge's kind, outside the piece.

    An edge that the backing does not follow (a partial backing) is named without a figure. The
    edge of a hole too small for its words is named on the piece; what that takes is returned.
    """
    upper = backing.upper
    outline = scaled(upper.outline, scale)
    solid = outline.polygon
    border: BaseGeometry = shapely.union_all([scaled(o, scale).polygon.boundary for o in backing.outlines])
    taken: list[BaseGeometry] = [solid.buffer(0.6)]
    lines: list[BaseGeometry] = [solid.boundary.buffer(0.6), border.buffer(0.6)]
    inside: list[BaseGeometry] = []
    edges = [(r, k) for r, ring in enumerate(upper.edging.edges) for k in range(len(ring))]
    for ring, number in edges:
        points = edge_points(outline, upper.edging, ring, number)
        first, last = backing.setbacks_mm[ring][number], backing.end_setbacks_mm[ring][number]
        kind = upper.edging.edges[ring][number].kind
        places = [_at(points, share) for share in _ALONG]
        followed = [
            place
            for place, share in zip(places, _ALONG, strict=True)
            if not border.is_empty
            and border.distance(Point(place[0] - place[1] * (first + (last - first) * share) * scale))
            <= max(_FOUND_MM * scale, 0.02)
        ]
        figures = _figure(first) if first == last else say("{0} to {1}", _figure(first), _figure(last))
        text = say("{0} {1}", figures, kind) if followed else say("{0}, not backed", kind)
        setback = first
        half = np.array([width_mm(text, size_mm) / 2.0 + 0.5, size_mm * 0.5])
        if ring == 0:
            found = _label(half, followed or places, taken, _LEADS_MM)
        else:
            found = _label(half, followed or places, taken, _LEADS_MM[:1])
            if found is None:
                start = max(setback * scale, 0.0)
                leads = [start + lead for lead in _LEADS_MM[:5]]
                found = _label(half, followed or places, [*lines, *inside], leads, inwards=True)
                if found is not None:
                    inside += [found[3].buffer(0.6), LineString([found[0], found[2]]).buffer(0.6)]
        if found is None:
            continue
        point, normal, lead, box = found
        if first != last:
            at = LineString(points).project(Point(point), normalized=True)
            setback = first + (last - first) * at
        draw_dimension(drawing, point, point - normal * (setback * scale if followed else 0.0), lead)
        x0, y0, x1, _ = box.bounds
        drawing.text((x0 + x1) / 2, y0 + size_mm * 0.24, text, size_mm, "setback", anchor="middle")
        taken += [box.buffer(0.5), LineString([point, lead]).buffer(0.4)]
    return inside


def _figure(setback_mm: float) -> str:
    return f"{setback_mm:.2f}".rstrip("0").rstrip(".")


def _label(
    half: Vector,
    places: Sequence[tuple[Vector, Vector]],
    taken: Sequence[BaseGeometry],
    leads_mm: Sequence[float],
    *,
    inwards: bool = False,
) -> tuple[Vector, Vector, Vector, Polygon] | None:
    """Find the nearest free place beside an edge: (point on edge, outward, leader's end, box)."""
    for reach in leads_mm:
        for point, normal in places:
            way = -normal if inwards else normal
            lead = point + way * reach
            middle = lead + way * (float((half / np.maximum(np.abs(way), 1e-9)).min()) + 0.4)
            box = shapely.box(*(middle - half), *(middle + half))
            leader = LineString([point + way * 0.7, lead])
            own = 2 if inwards else 1  # the lines the leader must cross come first
            if not any(box.intersects(t) or (i >= own and leader.intersects(t)) for i, t in enumerate(taken)):
                return point, normal, lead, box
    return None


def _at(points: Vector, share: float) -> tuple[Vector, Vector]:
    """The point at a share of a polyline's length, and the unit normal away from the material."""
    steps = np.diff(points, axis=0)
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*steps.T))])
    k = int(np.clip(np.searchsorted(along, share * along[-1]) - 1, 0, len(steps) - 1))
    point = points[k] + steps[k] * ((share * along[-1] - along[k]) / max(along[k + 1] - along[k], 1e-12))
    tangent = steps[k] / max(float(np.hypot(*steps[k])), 1e-12)
    return point, np.array([tangent[1], -tangent[0]])
