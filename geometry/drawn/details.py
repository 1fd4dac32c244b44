"""Notches, slits, rows of relief cuts, drill holes, marks and words, on the upper, its backing, or both."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Literal

import numpy as np
import shapely
from shapely.geometry import Polygon

from geometry.backing.report import onto
from geometry.defaults import LETTERS_MM, NOTCH_DEPTH_MM, RELIEF_WIDTH_MM
from geometry.drawn.ground import Ground
from geometry.drawn.places import AtEdge, Course, Place
from geometry.findings import Finding, Severity
from geometry.mirror import mirrored_drill_hole, mirrored_lettering, mirrored_mark, mirrored_notch
from geometry.piece import BackingPiece, DrillHole, Lettering, Mark, Notch, UpperPiece
from geometry.said import said

On = Literal["upper", "backing", "both"]

ON_MM = 0.5
"""A notch this close to an outline stands on it; parts of a backing that do not overlap lie further apart."""

NotchKind = Literal["slit", "v", "t", "castle", "check", "u"]


@dataclass(frozen=True)
class EdgeNotch:
    """A notch at a place of the outline, pointing square into the material."""

    at: AtEdge
    kind: NotchKind = "slit"
    depth_mm: float = NOTCH_DEPTH_MM.value
    width_mm: float = 0.0
    on: On = "both"


@dataclass(frozen=True)
class ReliefRow:
    """Cuts along a curved edge that is folded, so that the fold lies flat: as many as keep the pitch.

    They stand evenly from ``start`` to ``stop``, ``pitch_mm`` apart or a little less; their number may differ
    from size to size.
    """

    start: AtEdge
    stop: AtEdge
    pitch_mm: float
    depth_mm: float
    width_mm: float = RELIEF_WIDTH_MM.value
    kind: NotchKind = "v"
    on: On = "upper"


@dataclass(frozen=True)
class Slit:
    """A line that is cut inside the piece."""

    line: Course
    on: On = "backing"


@dataclass(frozen=True)
class Hole:
    """A drill hole."""

    at: Place
    diameter_mm: float = 0.0
    on: On = "both"


@dataclass(frozen=True)
class DrawnMark:
    """A line drawn, not cut."""

    line: Course
    kind: Literal["line", "sew"] = "line"
    on: On = "upper"


@dataclass(frozen=True)
class Word:
    """A word on the piece; ``angle_deg`` in the frame of the base size."""

    at: Place
    text: str
    height_mm: float = LETTERS_MM.value
    angle_deg: float = 0.0
    on: On = "backing"


Detail = EdgeNotch | ReliefRow | Slit | Hole | DrawnMark | Word


@dataclass(frozen=True, eq=False)
class Details:
    """Details as they lie on a piece in one size; notches on the upper's outline."""

    notches: tuple[Notch, ...] = ()
    marks: tuple[Mark, ...] = ()
    drill_holes: tuple[DrillHole, ...] = ()
    letterings: tuple[Lettering, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether there are none."""
        return not (self.notches or self.marks or self.drill_holes or self.letterings)

    def mirrored(self) -> Details:
        """Return the details of the other hand."""
        return Details(
            tuple(mirrored_notch(n) for n in self.notches),
            tuple(mirrored_mark(m) for m in self.marks),
            tuple(mirrored_drill_hole(h) for h in self.drill_holes),
            tuple(mirrored_lettering(w) for w in self.letterings),
        )


def details_on(ground: Ground, details: Sequence[Detail], on: Literal["upper", "backing"]) -> Details:
    """Return the details of the upper or of its backing as they lie on a piece in one size."""
    notches: list[Notch] = []
    marks: list[Mark] = []
    holes: list[DrillHole] = []
    words: list[Lettering] = []
    for detail in details:
        if detail.on not in (on, "both"):
            continue
        match detail:
            case EdgeNotch() | ReliefRow():
                notches += notches_of(ground, detail)
            case Slit():
                marks.append(Mark(ground.line(detail.line), "slit", detail.line.closed))
            case DrawnMark():
                marks.append(Mark(ground.line(detail.line), detail.kind, detail.line.closed))
            case Hole():
                x, y = ground.point(detail.at)
                holes.append(DrillHole(float(x), float(y), detail.diameter_mm))
            case Word():
                x, y = ground.point(detail.at)
                words.append(Lettering(float(x), float(y), detail.text, detail.height_mm, detail.angle_deg))
    return Details(tuple(notches), tuple(marks), tuple(holes), tuple(words))


def notches_of(ground: Ground, detail: EdgeNotch | ReliefRow) -> list[Notch]:
    """Return the notches of one detail as they stand on the outline in one size."""
    return list(_relief(ground, detail)) if isinstance(detail, ReliefRow) else [_notch(ground, detail)]


def upper_with(upper: UpperPiece, details: Details) -> UpperPiece:
    """Return the upper with details on it."""
    if details.empty:
        return upper
    return replace(
        upper,
        notches=(*upper.notches, *details.notches),
        marks=(*upper.marks, *details.marks),
        drill_holes=(*upper.drill_holes, *details.drill_holes),
        letterings=(*upper.letterings, *details.letterings),
    )


def details_of_part(backing: BackingPiece, number: int) -> Details:
    """Return what is on one part of a backing: the notches of its own edge, and all that lies inside it."""
    shape = backing.outlines[number].polygon
    edge = shape.boundary
    several = len(backing.outlines) > 1
    notches = []
    for notch in backing.notches:
        if edge.distance(shapely.Point(notch.x_mm, notch.y_mm)) < ON_MM:
            way = math.radians(notch.angle_deg)
            ahead = notch.x_mm + ON_MM * math.cos(way), notch.y_mm + ON_MM * math.sin(way)
            if not several or _covered([shape], *ahead):  # else it is the neighbour's, on the other side
                notches.append(notch)
    marks = []
    for mark in backing.marks:
        line = shapely.LineString(mark.points_mm)
        own_edge = mark.kind == "lap" and edge.buffer(ON_MM).covers(line)
        if line.intersects(shape) and not own_edge:
            marks.append(mark)
    return Details(
        tuple(notches),
        tuple(marks),
        tuple(h for h in backing.drill_holes if _covered([shape], h.x_mm, h.y_mm)),
        tuple(w for w in backing.letterings if _covered([shape], w.x_mm, w.y_mm)),
    )


def cut_apart(backing: BackingPiece) -> tuple[BackingPiece, ...]:
    """Return a backing as the pieces that are cut: one of each part where parts butt or lie over each other.

    Parts of a split cannot be cut where they lie. A backing in one, or in parts that lie clear of each other,
    comes back as it is.
    """
    shapes = [outline.polygon for outline in backing.outlines]
    if all(a.distance(b) > ON_MM for a, b in combinations(shapes, 2)):
        return (backing,)
    parts = []
    for number, outline in enumerate(backing.outlines):
        own = details_of_part(backing, number)
        part = replace(
            backing,
            outlines=(outline,),
            part_names=(backing.part_name(number) or "part 1",),
            notches=own.notches,
            marks=own.marks,
            drill_holes=own.drill_holes,
            letterings=own.letterings,
        )
        parts.append(part)
    return tuple(parts)


def backings_with(
    backings: Sequence[BackingPiece], upper: UpperPiece, details: Details
) -> tuple[BackingPiece, ...]:
    """Return the layers of backing with details on them, and ``upper`` as their upper.

    Notches go straight in to each backing's own edge. What no layer reaches is left out and reported on the
    first (DETAIL_OFF_BACKING).
    """
    found = [_backing_with(backing, upper, details) for backing in backings]
    if not found or details.empty:
        return tuple(backing for backing, _ in found)
    missed = set.intersection(*(missed for _, missed in found))
    made = [backing for backing, _ in found]
    if missed:
        told = Finding(
            code="DETAIL_OFF_BACKING",
            severity=Severity.WARNING,
            message=said("drawn notches or holes that lie off the backing: {0}", len(missed)),
            done="left out on the backing",
            advice="move them, or put them on the upper only",
            piece=upper.name,
            size=upper.size,
            where_mm=tuple(sorted(missed)),
        )
        made[0] = replace(made[0], findings=(*made[0].findings, told))
    return tuple(made)


def _backing_with(
    backing: BackingPiece, upper: UpperPiece, details: Details
) -> tuple[BackingPiece, set[tuple[float, float]]]:
    """Return one layer with what lies on it, and the places of notches and holes that do not."""
    if details.empty:
        return (backing if upper is backing.upper else replace(backing, upper=upper)), set()
    shapes = [outline.polygon for outline in backing.outlines]
    widths = [abs(s) for ring in (*backing.setbacks_mm, *backing.end_setbacks_mm) for s in ring]
    reach = max(widths, default=0.0) * 2.0 + 2.0
    notches = []
    missed = set()
    for notch in details.notches:
        places = [onto(notch, shape.boundary, reach) for shape in shapes]
        near = [place for place in places if place is not None]
        if near:
            x, y = min(near, key=lambda p: math.dist(p, (notch.x_mm, notch.y_mm)))
            notches.append(replace(notch, x_mm=x, y_mm=y))
        else:
            missed.add((notch.x_mm, notch.y_mm))
    holes = [h for h in details.drill_holes if _covered(shapes, h.x_mm, h.y_mm)]
    missed |= {(h.x_mm, h.y_mm) for h in details.drill_holes if h not in holes}
    marks = [m for m in details.marks if any(shapely.LineString(m.points_mm).intersects(s) for s in shapes)]
    words = [w for w in details.letterings if _covered(shapes, w.x_mm, w.y_mm)]
    made = replace(
        backing,
        upper=upper,
        notches=(*backing.notches, *notches),
        marks=(*backing.marks, *marks),
        drill_holes=(*backing.drill_holes, *holes),
        letterings=(*backing.letterings, *words),
    )
    return made, missed


def _covered(shapes: Sequence[Polygon], x: float, y: float) -> bool:
    return any(bool(shapely.contains_xy(shape, x, y)) for shape in shapes)


def _notch(ground: Ground, drawn: EdgeNotch) -> Notch:
    x, y = ground.point(drawn.at)
    return Notch(float(x), float(y), ground.inward_deg(drawn.at), drawn.depth_mm, drawn.width_mm, drawn.kind)


def _relief(ground: Ground, row: ReliefRow) -> Iterator[Notch]:
    points = ground.stretch(row.start, row.stop)
    step = np.diff(points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    along = np.append(0.0, np.cumsum(length))
    count = max(math.ceil(along[-1] / row.pitch_mm - 1e-9) - 1, 0)  # none at the very ends
    for i in range(1, count + 1):
        at = along[-1] * i / (count + 1)
        k = int(np.clip(np.searchsorted(along, at, side="right") - 1, 0, len(step) - 1))
        x, y = points[k] + (at - along[k]) / length[k] * step[k]
        inward = float(np.degrees(np.arctan2(step[k][0], -step[k][1])))
        yield Notch(float(x), float(y), inward, row.depth_mm, row.width_mm, row.kind)
