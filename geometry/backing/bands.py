"""The band that one edge takes off: its width to the left of it, joined over its own vertices.

``offset`` says how the bands of several edges meet.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from geometry import tolerances

Array = NDArray[np.float64]
Place = tuple[float, float]


@dataclass(frozen=True, eq=False)
class Side:
    """One edge of a region: its points in walking order (material on the left) and its setback.
    ``following`` is the index of the edge that starts at its end; ``corner`` says whether the
    two meet at a corner or the boundary is smooth there. ``end_mm`` is the setback at its end, None
    where it is the same all along; between them it changes in proportion to the length walked."""

    points: Array
    setback_mm: float
    following: int
    corner: bool
    end_mm: float | None = None

    @property
    def tapered(self) -> bool:
        """Whether the setback changes along the edge."""
        return self.end_mm is not None and self.end_mm != self.setback_mm

    @property
    def last_mm(self) -> float:
        """The setback at the end of the edge."""
        return self.setback_mm if self.end_mm is None else self.end_mm

    @property
    def width_mm(self) -> float:
        """The width taken off at the start: nothing where the setback is negative."""
        return max(self.setback_mm, 0.0)

    @property
    def last_width_mm(self) -> float:
        """The width taken off at the end."""
        return max(self.last_mm, 0.0)

    @property
    def widest_mm(self) -> float:
        """The largest width taken off."""
        return max(self.width_mm, self.last_width_mm)

    def turned(self, following: int, *, inside_out: bool = False) -> Side:
        """Return the edge walked the other way; ``inside_out`` takes setbacks for what runs past."""
        sign = -1.0 if inside_out else 1.0
        end = None if self.end_mm is None else sign * self.setback_mm
        return Side(self.points[::-1], sign * self.last_mm, following, self.corner, end)


@dataclass
class Joints:
    """Where something happened between edges that a person may want to see."""

    bevelled: list[Place] = field(default_factory=list)
    stepped: list[Place] = field(default_factory=list)


def outer_strip(side: Side) -> BaseGeometry:
    """Return the band of a side's width on the far side of it (to its right)."""
    return band(side.turned(0), 1.0, Joints())


def headings(points: Array) -> tuple[Array, Array]:
    """Return (start points, unit headings) of the segments that have a direction."""
    step = np.diff(points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    real = length > tolerances.SAME_POINT_MM
    return points[:-1][real], step[real] / length[real][:, None]


def is_ring(points: Array) -> bool:
    return bool(np.array_equal(points[0], points[-1]))


def left_of(heading: Array) -> Array:
    return np.stack([-heading[..., 1], heading[..., 0]], axis=-1)


def band(side: Side, mitre_limit: float, joints: Joints) -> BaseGeometry:
    """Return the strip of one edge: a rectangle for every segment, a mitre for every reflex vertex.

    Runs of segments whose offset line keeps its direction make one polygon, which is the union
    of their rectangles and mitres; only where the edge is tighter than the strip is wide are
    they put together one by one.
    """
    if side.tapered:
        return _tapered_band(side, mitre_limit, joints)
    wide = side.width_mm
    step = np.diff(side.points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    real = length > tolerances.SAME_POINT_MM
    points = np.concatenate([side.points[:-1][real], side.points[-1:]])
    heading, length = step[real] / length[real][:, None], length[real]
    normal = left_of(heading)
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
    for i in gaping + ([0] if is_ring(side.points) else []):
        d, e = heading[i - 1], heading[i]  # vertex 0 of a ring: last segment in, first one out
        if i == 0 and float(d[0] * e[1] - d[1] * e[0]) >= 0.0 and float(d @ e) > -1.0 + 1e-12:
            continue
        quad = mitre(points[i], d, e, wide, wide, mitre_limit, joints)
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
    before, after = (wide * left_of(d / np.hypot(*d)) for d in step)
    halves = _run(points[: cut + 1], first, shift[: cut - 1], before)
    halves += _run(points[cut:], after, shift[cut:], last)
    if float(step[0][0] * step[1][1] - step[0][1] * step[1][0]) < 0.0:
        v = points[cut]
        halves.append(Polygon([v, v + before, v + shift[cut - 1], v + after]))
    return halves


def _tapered_band(side: Side, mitre_limit: float, joints: Joints) -> BaseGeometry:
    """Return the strip of an edge whose width changes with the length walked.

    A trapezoid for every segment: a point of the material whose foot on the segment lies at length u
    is within exactly when it is nearer than the width at u. At a reflex vertex, the mitre of the width there.
    """
    points, widths = tapered(side)
    step = np.diff(points, axis=0)
    heading = step / np.hypot(step[:, 0], step[:, 1])[:, None]
    normal = left_of(heading)
    low, high = np.maximum(widths[:-1], 0.0), np.maximum(widths[1:], 0.0)
    shapes: list[Polygon] = []
    for i in np.flatnonzero((low > 0.0) | (high > 0.0)).tolist():
        a, b, n = points[i], points[i + 1], normal[i]
        shapes.append(Polygon([a, b, b + high[i] * n, a + low[i] * n]))
    around = is_ring(side.points) and high[-1] > 0.0
    for i in range(0 if around else 1, len(heading)):
        d, e = heading[i - 1], heading[i]
        if i == 0 and float(d[0] * e[1] - d[1] * e[0]) < 0.0:
            quad = mitre(points[0], d, e, float(high[-1]), float(low[0]), mitre_limit, joints)
            shapes += [] if quad is None else [Polygon(quad)]
        elif low[i] > 0.0 and float(d[0] * e[1] - d[1] * e[0]) < 0.0:
            quad = mitre(points[i], d, e, float(low[i]), float(low[i]), mitre_limit, joints)
            if quad is not None:
                shapes.append(Polygon(quad))
    return shapely.union_all(shapes)


def tapered(side: Side) -> tuple[Array, Array]:
    """Return the points of an edge and the setback at each, a point put in where it passes zero."""
    step = np.diff(side.points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    real = length > tolerances.SAME_POINT_MM
    points = np.concatenate([side.points[:-1][real], side.points[-1:]])
    along = np.append(0.0, np.cumsum(length[real]))
    first, last = side.setback_mm, side.last_mm
    widths = first + (last - first) * along / along[-1]
    if first * last < 0.0:
        zero = along[-1] * first / (first - last)
        k = int(np.searchsorted(along, zero))
        if min(abs(along - zero)) > tolerances.SAME_POINT_MM:
            share = (zero - along[k - 1]) / (along[k] - along[k - 1])
            between = points[k - 1] + share * (points[k] - points[k - 1])
            points, widths = np.insert(points, k, between, axis=0), np.insert(widths, k, 0.0)
    return points, widths


def mitre(
    v: Array, d: Array, e: Array, wide_d: float, wide_e: float, mitre_limit: float, joints: Joints
) -> Array | None:
    """Return the polygon between two strips that end and start at ``v`` with a right turn between.

    ``d`` and ``e`` are the headings in and out. The polygon is what lies between the two end
    faces and within both offset lines, so that neither strip is cut short by the other.
    """
    widest = max(wide_d, wide_e)
    if widest == 0.0:
        return None
    n, m = left_of(d), left_of(e)
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
