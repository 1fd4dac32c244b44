"""The strips that setbacks take off a region, edge by edge.

Every edge takes off its *strip*: the points within its setback whose nearest point on the edge
is a foot of a perpendicular. Strips are put together from one rectangle per segment, so a hollow
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
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, MultiPolygon, Point, Polygon
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.backing.bands import Joints, Place, Side, band, headings, is_ring, left_of, mitre

Array = NDArray[np.float64]


def strips(
    region: BaseGeometry, sides: Sequence[Side], mitre_limit: float, joints: Joints
) -> tuple[BaseGeometry, BaseGeometry]:
    """Return what the widths of all sides take off a region, and what they leave of it."""
    taken: list[BaseGeometry] = []
    within = shapely.to_wkb(region)
    for side in sides:
        if side.widest_mm > 0.0:
            found, bevelled = _strip(side.points.tobytes(), side.setback_mm, side.end_mm, mitre_limit, within)
            taken += found
            joints.bevelled += bevelled
    for side in sides:
        other = sides[side.following]
        if side is not other or not is_ring(side.points):
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


@lru_cache(maxsize=512)
def _strip(
    points: bytes, setback_mm: float, end_mm: float | None, mitre_limit: float, region: bytes
) -> tuple[tuple[Polygon, ...], tuple[Place, ...]]:
    """Return what one side takes off a region, and its bevels; a drag asks for the other sides each time."""
    side = Side(np.frombuffer(points).reshape(-1, 2), setback_mm, 0, False, end_mm)
    joints = Joints()
    own = band(side, mitre_limit, joints).intersection(shapely.from_wkb(region))
    return tuple(_touching(own, LineString(side.points))), tuple(joints.bevelled)


def parts(shape: BaseGeometry) -> list[Polygon]:
    """Return the polygons in a shape; points and lines left by set operations are dropped."""
    if isinstance(shape, Polygon):
        return [] if shape.is_empty else [shape]
    return [p for g in getattr(shape, "geoms", ()) for p in parts(g)]


def _touching(shape: BaseGeometry, to: BaseGeometry) -> list[Polygon]:
    """Return the parts that touch an edge; the rest lies beyond a gap and belongs to another edge."""
    found = parts(shape)
    if len(found) < 2:
        return found
    return [p for p in found if p.distance(to) < tolerances.SAME_POINT_MM]


def _wedge(side: Side, other: Side, mitre_limit: float, joints: Joints) -> Polygon | None:
    """Return the mitre between two edges where the outline turns away from the material."""
    d, e = headings(side.points)[1][-1], headings(other.points)[1][0]
    cross = d[0] * e[1] - d[1] * e[0]
    if cross > 1e-12 or (cross > -1e-12 and float(d @ e) > 0.0):
        return None
    quad = mitre(side.points[-1], d, e, side.last_width_mm, other.width_mm, mitre_limit, joints)
    return None if quad is None else Polygon(quad)


def _run_ons(
    region: BaseGeometry, left: BaseGeometry, side: Side, other: Side, joints: Joints
) -> list[Polygon]:
    """Return what the wider of two strips takes by running on past a convex corner."""
    d, e = headings(side.points)[1][-1], headings(other.points)[1][0]
    cosine, sine = float(d @ e), float(d[0] * e[1] - d[1] * e[0])
    if sine < -1e-12 or side is other:
        return []
    v = side.points[-1]
    if side.last_width_mm > 0.0 and side.last_width_mm * cosine > other.setback_mm + 1e-9:
        way, n, wide = d, left_of(d), side.last_width_mm
    elif other.width_mm > 0.0 and other.width_mm * cosine > side.last_mm + 1e-9:
        way, n, wide = -e, left_of(e), other.width_mm
    else:
        return []
    reach = tolerances.RUN_ON_LIMIT * max(abs(side.last_mm), abs(other.setback_mm))
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
        d, e = headings(side.points)[1][-1], headings(other.points)[1][0]
        if d[0] * e[1] - d[1] * e[0] > -1e-12:
            continue
        v, cosine = side.points[-1], float(d @ e)
        if side.last_width_mm * cosine > max(other.width_mm, 1e-9):
            face = side.last_width_mm * left_of(d)
            horns += _horn(flaps, v, -e, left_of(e), other.width_mm, face)
        elif other.width_mm * cosine > max(side.last_width_mm, 1e-9):
            face = other.width_mm * left_of(e)
            horns += _horn(flaps, v, d, left_of(d), side.last_width_mm, face)
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
