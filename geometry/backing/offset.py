"""The strips that setbacks take off a region, edge by edge.

Every edge takes off its *strip*: the points within its setback whose nearest point on the edge
is a foot of a perpendicular. Strips are put together from one rectangle a segment, so a hollow
curve tighter than its setback needs no cleaning: only what is within the setback goes.

Where the outline turns away from the material (a reflex vertex) the rectangles gape; the gap is
closed by the *mitre* of the two offset lines. Where the turn is so sharp that the mitre of two
equal setbacks would be longer than ``mitre_limit`` of them, it is cut off at the larger setback,
square to the bisector (the turn alone decides, so that a larger setback never takes less). It
never reaches behind the face of the other strip.

Where it turns towards the material (a convex corner) and the wider strip ends short of the
narrower one's line, its offset line *runs on* straight until it meets the neighbour's line. On a
smooth boundary there is nothing to meet: the setback changes in a step square to the boundary.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, MultiPolygon, Point, Polygon
from shapely.geometry.base import BaseGeometry

from geometry import tolerances

Array = NDArray[np.float64]
Place = tuple[float, float]


@dataclass(frozen=True, eq=False)
class Side:
    """One edge of a region: its points in walking order (material on the left) and its setback.
    ``following`` is the index of the edge that starts at its end; ``corner`` says whether the
    two meet at a corner or the boundary is smooth there."""

    points: Array
    setback_mm: float
    following: int
    corner: bool

    @property
    def width_mm(self) -> float:
        """The width taken off: nothing where the setback is negative."""
        return max(self.setback_mm, 0.0)


@dataclass
class Joints:
    """Where something happened between edges that a person may want to see."""

    bevelled: list[Place] = field(default_factory=list)
    stepped: list[Place] = field(default_factory=list)


def strips(
    region: BaseGeometry, sides: Sequence[Side], mitre_limit: float, joints: Joints
) -> tuple[BaseGeometry, BaseGeometry]:
    """Return what the widths of all sides take off a region, and what they leave of it."""
    taken: list[BaseGeometry] = []
    for side in sides:
        if side.width_mm > 0.0:
            own = _band(side, mitre_limit, joints)
            taken += _touching(own.intersection(region), LineString(side.points))
    for side in sides:
        other = sides[side.following]
        if side is not other or not _is_ring(side.points):
            gap = _wedge(side, other, mitre_limit, joints)
            if gap is not None:
                taken += _touching(gap.intersection(region), Point(side.points[-1]))
    strip = shapely.union_all(taken) if taken else Polygon()
    left = region.difference(strip)
    on: list[BaseGeometry] = []
    for side in sides:
        on += _run_ons(region, left, side, sides[side.following], joints)
    if on:
        return shapely.union_all([strip, *on]), left.difference(shapely.union_all(on))
    return strip, left


def outer_strip(side: Side) -> BaseGeometry:
    """Return the band of a side's width on the far side of it (to its right)."""
    back = Side(side.points[::-1], side.width_mm, 0, False)
    return _band(back, 1.0, Joints())


def parts(shape: BaseGeometry) -> list[Polygon]:
    """Return the polygons in a shape; points and lines left by set operations are dropped."""
    if isinstance(shape, Polygon):
        return [] if shape.is_empty else [shape]
    return [p for g in getattr(shape, "geoms", ()) for p in parts(g)]


def _touching(shape: BaseGeometry, to: BaseGeometry) -> list[Polygon]:
    """Return the parts that touch an edge; the rest lies beyond a gap and is another edge's business."""
    found = parts(shape)
    if len(found) < 2:
        return found
    return [p for p in found if p.distance(to) < tolerances.SAME_POINT_MM]


def _headings(points: Array) -> tuple[Array, Array]:
    """Return (start points, unit headings) of the segments that have a direction."""
    step = np.diff(points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    real = length > tolerances.SAME_POINT_MM
    return points[:-1][real], step[real] / length[real][:, None]


def _is_ring(points: Array) -> bool:
    return bool(np.array_equal(points[0], points[-1]))


def _left(heading: Array) -> Array:
    return np.stack([-heading[..., 1], heading[..., 0]], axis=-1)


def _band(side: Side, mitre_limit: float, joints: Joints) -> BaseGeometry:
    """Return the strip of one edge: a rectangle for every segment, a mitre for every reflex vertex.

    Runs of segments whose offset line keeps its direction make one polygon, which is the union
    of their rectangles and mitres; only where the edge is tighter than the strip is wide are
    they put together one by one.
    """
    wide = side.width_mm
    step = np.diff(side.points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    real = length > tolerances.SAME_POINT_MM
    points = np.concatenate([side.points[:-1][real], side.points[-1:]])
    heading, length = step[real] / length[real][:, None], length[real]
    normal = _left(heading)
    sine = heading[:-1, 0] * heading[1:, 1] - heading[:-1, 1] * heading[1:, 0]
    cosine = np.einsum("ij,ij->i", heading[:-1], heading[1:])
    loss = wide * sine / np.maximum(1.0 + cosine, 1e-9)  # of length, at each end of an inner vertex
    at_start, at_end = np.append(0.0, loss), np.append(loss, 0.0)
    thin = at_start + at_end > 0.99 * length  # here the offset line would turn back
    apart = (cosine < 0.5) | thin[:-1] | thin[1:]
    apart |= (sine > 0.0) & (wide * sine > 0.99 * np.minimum(length[:-1], length[1:]))
    shift = (normal[:-1] + normal[1:]) / np.maximum(1.0 + cosine, 1e-9)[:, None] * wide
    shapes: list[Polygon] = []
    ends = [0, *(np.flatnonzero(apart) + 1).tolist(), len(heading)]
    for a, b in pairwise(ends):
        shapes += _run(points[a : b + 1], wide * normal[a], shift[a : b - 1], wide * normal[b - 1])
    gaping = [i + 1 for i in np.flatnonzero(apart & ((sine < 0.0) | (cosine < -1.0 + 1e-12))).tolist()]
    for i in gaping + ([0] if _is_ring(side.points) else []):
        d, e = heading[i - 1], heading[i]  # vertex 0 of a ring: last segment in, first one out
        if i == 0 and float(d[0] * e[1] - d[1] * e[0]) >= 0.0 and float(d @ e) > -1.0 + 1e-12:
            continue
        quad = _mitre(points[i], d, e, wide, wide, mitre_limit, joints)
        if quad is not None:
            shapes.append(Polygon(quad))
    return shapely.union_all(shapes)


def _run(points: Array, first: Array, shift: Array, last: Array) -> list[Polygon]:
    """Return the band along a run of segments; in halves where it would lie over itself."""
    offset = points + np.concatenate([first[None], shift, last[None]])
    band = Polygon(np.concatenate([points, offset[::-1]]))
    if len(points) == 2 or band.is_valid:
        return [band]
    cut = len(points) // 2
    step = points[cut] - points[cut - 1], points[cut + 1] - points[cut]
    wide = float(np.hypot(*first))
    before, after = (wide * _left(d / np.hypot(*d)) for d in step)
    halves = _run(points[: cut + 1], first, shift[: cut - 1], before)
    halves += _run(points[cut:], after, shift[cut:], last)
    if float(step[0][0] * step[1][1] - step[0][1] * step[1][0]) < 0.0:
        v = points[cut]
        halves.append(Polygon([v, v + before, v + shift[cut - 1], v + after]))
    return halves


def _wedge(side: Side, other: Side, mitre_limit: float, joints: Joints) -> Polygon | None:
    """Return the mitre between two edges where the outline turns away from the material."""
    d, e = _headings(side.points)[1][-1], _headings(other.points)[1][0]
    cross = d[0] * e[1] - d[1] * e[0]
    if cross > 1e-12 or (cross > -1e-12 and float(d @ e) > 0.0):
        return None
    quad = _mitre(side.points[-1], d, e, side.width_mm, other.width_mm, mitre_limit, joints)
    return None if quad is None else Polygon(quad)


def _mitre(
    v: Array, d: Array, e: Array, wide_d: float, wide_e: float, mitre_limit: float, joints: Joints
) -> Array | None:
    """Return the polygon between two strips that end and start at ``v`` with a right turn between.

    ``d`` and ``e`` are the headings in and out. The polygon is what lies between the two end
    faces and within both offset lines, so that neither strip is cut short by the other.
    """
    widest = max(wide_d, wide_e)
    if widest == 0.0:
        return None
    n, m = _left(d), _left(e)
    cosine, sine = float(d @ e), float(d[1] * e[0] - d[0] * e[1])  # sine of the right turn
    a, b = v + wide_d * n, v + wide_e * m
    if wide_e < wide_d * cosine:  # the other's offset line meets this strip's end face
        return np.array([v, v + wide_e / cosine * n, b]) if wide_e > 0.0 else None
    if wide_d < wide_e * cosine:
        return np.array([v, a, v + wide_d / cosine * m]) if wide_d > 0.0 else None
    if mitre_limit**2 * (1.0 + cosine) / 2.0 >= 1.0:  # the mitre of equal widths is 1 / cos(turn / 2)
        return np.array([v, a, a + (wide_e - wide_d * cosine) / sine * d, b])
    joints.bevelled.append((float(v[0]), float(v[1])))
    out = (d - e) / np.hypot(*(d - e))
    p = a + (widest - wide_d * float(n @ out)) / float(d @ out) * d
    q = b - (widest - wide_e * float(m @ out)) / -float(e @ out) * e
    return np.array([v, a, p, q, b])


def _run_ons(
    region: BaseGeometry, left: BaseGeometry, side: Side, other: Side, joints: Joints
) -> list[Polygon]:
    """Return what the wider of two strips takes by running on past a convex corner."""
    d, e = _headings(side.points)[1][-1], _headings(other.points)[1][0]
    cosine, sine = float(d @ e), float(d[0] * e[1] - d[1] * e[0])
    if sine < -1e-12 or side is other:
        return []
    v = side.points[-1]
    if side.width_mm > 0.0 and side.width_mm * cosine > other.setback_mm + 1e-9:
        way, n, wide = d, _left(d), side.width_mm
    elif other.width_mm > 0.0 and other.width_mm * cosine > side.setback_mm + 1e-9:
        way, n, wide = -e, _left(e), other.width_mm
    else:
        return []
    reach = tolerances.RUN_ON_LIMIT * max(abs(side.setback_mm), abs(other.setback_mm))
    met = _run_on(region, left, v, way, n, wide, reach) if side.corner else None
    if met is None:
        joints.stepped.append((float(v[0]), float(v[1])))
    return met or []


def _run_on(
    region: BaseGeometry, left: BaseGeometry, v: Array, d: Array, n: Array, wide: float, reach: float
) -> list[Polygon] | None:
    """Return what lies beside the run-on of an offset line; None when the line meets nothing.

    The line starts beside ``v``, ``wide`` to the ``n`` side, and runs towards ``d`` for up to
    ``reach`` within the region. Where it starts within another edge's strip (this edge being
    shorter than that strip), it counts from where it comes out.
    """
    lane = Polygon([v, v + reach * d, v + reach * d + wide * n, v + wide * n])
    face = LineString([v, v + wide * n])
    within = [p for p in parts(lane.intersection(region)) if _adjoins(p, face)]
    if not within:
        return []
    lane_left = as_shape(within).intersection(left)
    out: list[Point] = []
    start = v + 0.999 * wide * n  # just inside the lane, where set operations are sure
    for run in _stretches(LineString([start, start + reach * d]).intersection(as_shape(within)), start)[:1]:
        if run.distance(Point(start)) < tolerances.SAME_POINT_MM:
            out = [_middle(s) for s in _stretches(run.intersection(lane_left), start)[:1]]
    met = []
    for part in parts(lane_left):
        if _adjoins(part, face) or any(part.distance(p) < tolerances.SAME_POINT_MM for p in out):
            if float(((np.asarray(part.exterior.coords) - v) @ d).max()) > reach - tolerances.SAME_POINT_MM:
                return None
            met.append(part)
    return met


def _adjoins(part: Polygon, face: LineString) -> bool:
    """Whether a part lies along a face, not just at a point of it."""
    shared = face.intersection(part.buffer(tolerances.SAME_POINT_MM)).length
    return bool(shared > min(1e-3, 0.1 * face.length))


def _stretches(shape: BaseGeometry, start: Array) -> list[LineString]:
    """Return the stretches of a line, the nearest to its start first."""
    merged = shapely.line_merge(shape) if shape.geom_type == "MultiLineString" else shape
    lines = [g for g in getattr(merged, "geoms", [merged]) if isinstance(g, LineString)]
    lines = [g for g in lines if g.length > tolerances.SAME_POINT_MM]
    return sorted(lines, key=lambda g: g.distance(Point(start)))


def _middle(line: LineString) -> Point:
    return line.interpolate(0.5, normalized=True)


def trimmed(flaps: BaseGeometry, sides: Sequence[Side]) -> BaseGeometry:
    """Return what is added outside, cut where it would stick out beyond a neighbour's line.

    Seen from outside an obtuse corner gapes, and a flap's square end would pass the neighbour's
    line. Nothing has to be covered there, so the two lines meet instead. ``sides`` are walked
    with the outside on their left.
    """
    horns: list[BaseGeometry] = []
    for side in sides:
        other = sides[side.following]
        if side is other or not side.corner:
            continue
        d, e = _headings(side.points)[1][-1], _headings(other.points)[1][0]
        if d[0] * e[1] - d[1] * e[0] > -1e-12:
            continue
        v, cosine = side.points[-1], float(d @ e)
        if side.width_mm * cosine > max(other.width_mm, 1e-9):
            face = side.width_mm * _left(d)
            horns += _horn(flaps, v, -e, _left(e), other.width_mm, face)
        elif other.width_mm * cosine > max(side.width_mm, 1e-9):
            face = other.width_mm * _left(e)
            horns += _horn(flaps, v, d, _left(d), side.width_mm, face)
    return flaps.difference(shapely.union_all(horns)) if horns else flaps


def _horn(flaps: BaseGeometry, v: Array, d: Array, n: Array, low: float, face: Array) -> list[Polygon]:
    """Return what of the flap that ends on ``face`` lies more than ``low`` beyond the neighbour's line."""
    high = float(np.hypot(*face))
    reach = tolerances.RUN_ON_LIMIT * high
    start = v + low * n - high * d
    stop = v + low * n + reach * d
    lane = Polygon([start, stop, stop + high * n, start + high * n])
    found = [p for p in parts(lane.intersection(flaps)) if _adjoins(p, LineString([v, v + face]))]
    ends = [float(((np.asarray(p.exterior.coords) - v) @ d).max()) for p in found]
    return found if max(ends, default=0.0) < reach - tolerances.SAME_POINT_MM else []


def cleaned(shape: BaseGeometry) -> BaseGeometry:
    """Return a shape without the hairs and needless vertices that set operations leave."""
    return shapely.set_precision(shape, tolerances.GRID_MM).simplify(5.0 * tolerances.GRID_MM)


def as_shape(polygons: Sequence[Polygon]) -> BaseGeometry:
    """Return polygons as one shape."""
    return MultiPolygon(list(polygons)) if len(polygons) != 1 else polygons[0]
