"""A half piece and its mirror line -> the full piece."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
from shapely.geometry import Polygon

from geometry.errors import OutlineError
from geometry.findings import Finding, Severity
from geometry.outline import Outline, Ring
from geometry.piece import DrawnPiece, DrillHole, Mark, Notch
from geometry.said import said

if TYPE_CHECKING:  # curves would load the reader of drawings, which unfolding does not need
    from geometry.dxf.lines.curves import Points

_ON_LINE_MM = 0.1  # drawings give four decimals; a curve may end that far off its fold line


def unfold(piece: DrawnPiece, line: Points) -> tuple[DrawnPiece, Finding]:
    """Return the piece unfolded over its mirror line, and the finding that says so.

    The line must run along the boundary and the piece lie on one side of it; otherwise the piece
    stays as drawn and the finding is a warning. A pull axis along or across the line is kept: the
    mirror image has the same; an oblique one cannot hold for both halves and is reported.
    """
    origin, way = line[0], line[-1] - line[0]
    length = float(np.hypot(*way))
    if length == 0.0:
        return piece, _kept("the mirror line has no length")
    way = way / length
    normal = np.array([-way[1], way[0]])

    def mirrored(points: Points) -> Points:
        return points - 2.0 * ((points - origin) @ normal)[:, None] * normal

    ring = _unfolded_ring(piece.outline.ring_mm, origin, way, normal, length)
    if ring is None:
        sides = (piece.outline.ring_mm - origin) @ normal
        if sides.min() < -_ON_LINE_MM and sides.max() > _ON_LINE_MM:
            return piece, _kept("the mirror line runs through the piece, which is drawn in full")
        return piece, _kept("the mirror line does not lie on the boundary")
    holes: list[Points] = []
    for hole in piece.outline.holes_mm:
        folded = _unfolded_ring(hole, origin, way, normal, length)
        holes += [hole, mirrored(hole)[::-1]] if folded is None else [folded]
    try:
        outline = Outline.make(ring, holes)
    except OutlineError as error:
        return piece, _kept(said("unfolding failed ({0})", error.message))
    if not Polygon(ring).is_valid:
        return piece, _kept("unfolding would make the outline cross itself")

    def off(x: float, y: float) -> bool:
        return abs(float((np.array([x, y]) - origin) @ normal)) > _ON_LINE_MM

    def spot(x: float, y: float) -> tuple[float, float]:
        m = mirrored(np.array([[x, y]]))[0]
        return float(m[0]), float(m[1])

    turn = 2.0 * float(np.degrees(np.arctan2(way[1], way[0])))
    notches = [*piece.notches]
    for notch in piece.notches:
        if off(notch.x_mm, notch.y_mm):
            x, y = spot(notch.x_mm, notch.y_mm)
            angle = (turn - notch.angle_deg + 180.0) % 360.0 - 180.0
            notches.append(Notch(x, y, angle, notch.depth_mm, notch.width_mm, notch.kind))
    drill = [*piece.drill_holes] + [
        DrillHole(*spot(d.x_mm, d.y_mm), d.diameter_mm) for d in piece.drill_holes if off(d.x_mm, d.y_mm)
    ]
    marks = [*piece.marks] + [
        Mark(mirrored(m.points_mm), m.kind, m.closed)
        for m in piece.marks
        if any(off(float(x), float(y)) for x, y in m.points_mm)
    ]
    turns = [p for p in piece.turn_points_mm if off(*p) or _corner_kept(p, line)]
    turns += [spot(*p) for p in piece.turn_points_mm if off(*p)]
    message = "a half piece with a mirror line"
    axis = piece.pull_axis
    if axis is not None:
        lean = abs((axis.axis_deg - turn / 2.0 + 45.0) % 90.0 - 45.0)
        if lean > 0.5:
            message += f"; its grain line leans {lean:.1f} deg to it, so that it fits one half only"
    full = replace(
        piece,
        outline=outline,
        notches=tuple(notches),
        drill_holes=tuple(drill),
        marks=tuple(marks),
        turn_points_mm=tuple(turns),
    )
    half, whole = piece.outline.area_mm2, outline.area_mm2
    return full, Finding(
        code="UNFOLDED",
        severity=Severity.NOTE if "leans" not in message else Severity.WARNING,
        message=message,
        done=said("unfolded to the full piece ({0} -> {1} mm2)", f"{half:.0f}", f"{whole:.0f}"),
        advice="check that quantity and pull axis are for the full piece",
        where_mm=tuple((float(x), float(y)) for x, y in (line[0], line[-1])),
    )


def _corner_kept(point: tuple[float, float], line: Points) -> bool:
    """A turn point in the middle of the fold is gone once unfolded; one at its ends stays."""
    return any(float(np.hypot(*(np.array(point) - end))) <= 1.0 for end in (line[0], line[-1]))


def _kept(why: str) -> Finding:
    drawn_full = "drawn in full" in why
    return Finding(
        code="NOT_UNFOLDED",
        severity=Severity.NOTE if drawn_full else Severity.WARNING,
        message=why,
        done="kept as drawn",
        advice="" if drawn_full else "check whether this is a half piece",
    )


def _unfolded_ring(ring: Ring, origin: Points, way: Points, normal: Points, length: float) -> Points | None:
    """Return the ring joined to its mirror image along the line, None where it does not fit.

    The vertices on the line must form one stretch; the rest lies on one side.
    """
    side = (ring - origin) @ normal
    along = (ring - origin) @ way
    on = (np.abs(side) <= _ON_LINE_MM) & (along >= -_ON_LINE_MM) & (along <= length + _ON_LINE_MM)
    rest = side[~on]
    if on.sum() < 2 or not len(rest) or not ((rest > 0).all() or (rest < 0).all()):
        return None
    starts = np.flatnonzero(on & ~np.roll(on, 1))
    if len(starts) != 1:
        return None
    rolled = np.roll(np.arange(len(ring)), -int(starts[0]))
    stretch = int(on.sum())
    first, last = ring[rolled[0]], ring[rolled[stretch - 1]]
    free = ring[rolled[stretch:]]
    ends = [p - ((p - origin) @ normal) * normal for p in (last, first)]
    image = free - 2.0 * ((free - origin) @ normal)[:, None] * normal
    return np.vstack([ends[0][None], free, ends[1][None], image[::-1]])
