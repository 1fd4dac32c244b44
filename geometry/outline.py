"""A closed outline with holes, in millimetres."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from shapely.geometry import Polygon

from geometry.errors import OutlineError
from geometry.said import said

Ring = NDArray[np.float64]
"""(n, 2) float64 in mm, n >= 3, without a repeated closing vertex, read-only."""


def ring_area_mm2(ring: ArrayLike) -> float:
    """Return the signed area of a ring: positive when it runs counter-clockwise."""
    p = np.asarray(ring, dtype=np.float64)
    p = p - p[0]  # near the origin, so that far-away drawings lose no digits
    x, y = p.T
    after_x, after_y = np.concatenate([p[1:], p[:1]]).T
    return float(0.5 * np.sum(x * after_y - after_x * y))


def as_ring(points: ArrayLike, *, ccw: bool) -> Ring:
    """Return ``points`` as a read-only ring running the way asked for, first vertex kept.

    Raises OutlineError when there are fewer than three points, a coordinate is not finite,
    or the ring encloses nothing.
    """
    ring = np.array(points, dtype=np.float64)
    if ring.ndim != 2 or ring.shape[1] != 2:
        raise OutlineError("an outline needs pairs of coordinates", remedy="check the file")
    if len(ring) > 1 and np.array_equal(ring[0], ring[-1]):
        ring = ring[:-1]
    if len(ring) < 3:
        raise OutlineError(
            said("an outline needs three points, there are {0}", len(ring)), remedy="redraw it"
        )
    if not np.isfinite(ring).all():
        raise OutlineError("an outline has a coordinate that is not a number", remedy="redraw it")
    area = ring_area_mm2(ring)
    if area == 0.0:
        raise OutlineError("an outline encloses no area", remedy="redraw it")
    if (area > 0) != ccw:
        ring = np.concatenate([ring[:1], ring[:0:-1]])
    ring.flags.writeable = False
    return ring


@dataclass(frozen=True, eq=False)
class Outline:
    """An outer ring (counter-clockwise) and its holes (clockwise).

    Material lies to the left of the walking direction everywhere. Build it with ``make``,
    which turns rings the right way; vertex 0 of each ring stays vertex 0.
    """

    ring_mm: Ring
    holes_mm: tuple[Ring, ...] = ()

    @staticmethod
    def make(ring: ArrayLike, holes: Iterable[ArrayLike] = ()) -> Outline:
        """Return the outline of ``ring`` less ``holes``; raises OutlineError as ``as_ring``."""
        return Outline(as_ring(ring, ccw=True), tuple(as_ring(h, ccw=False) for h in holes))

    @staticmethod
    def of_polygon(polygon: Polygon) -> Outline:
        """Return the outline of a shapely polygon."""
        return Outline.make(
            np.asarray(polygon.exterior.coords)[:-1, :2],
            [np.asarray(hole.coords)[:-1, :2] for hole in polygon.interiors],
        )

    @property
    def rings_mm(self) -> tuple[Ring, ...]:
        """The outer ring, then the holes."""
        return (self.ring_mm, *self.holes_mm)

    @property
    def polygon(self) -> Polygon:
        """The shapely polygon of this outline."""
        return Polygon(self.ring_mm, self.holes_mm)

    @property
    def area_mm2(self) -> float:
        """Net area: holes taken off."""
        return sum(ring_area_mm2(ring) for ring in self.rings_mm)

    @property
    def perimeter_mm(self) -> float:
        """Length of all rings."""
        return float(sum(np.hypot(*(np.roll(ring, -1, axis=0) - ring).T).sum() for ring in self.rings_mm))

    @property
    def bbox_mm(self) -> tuple[float, float, float, float]:
        """(min x, min y, max x, max y)."""
        low, high = self.ring_mm.min(axis=0), self.ring_mm.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    def moved(self, dx_mm: float, dy_mm: float) -> Outline:
        """Return the outline moved."""
        return self._each(lambda ring: ring + (dx_mm, dy_mm))

    def turned(self, angle_deg: float, about_mm: tuple[float, float] = (0.0, 0.0)) -> Outline:
        """Return the outline turned counter-clockwise; multiples of 90 degrees are exact."""
        matrix = rotation(angle_deg)
        return self._each(lambda ring: (ring - about_mm) @ matrix.T + about_mm)

    def mirrored(self) -> Outline:
        """Return the mirror image across the x axis (y -> -y): a left piece becomes a right one.

        Vertex i of a ring of n becomes vertex (n - i) % n, so rings keep running the right way.
        """
        return Outline(
            *(lambda rings: (rings[0], tuple(rings[1:])))(
                [_frozen(np.concatenate([r[:1], r[:0:-1]]) * (1.0, -1.0)) for r in self.rings_mm]
            )
        )

    def _each(self, change: Callable[[Ring], NDArray[np.float64]]) -> Outline:
        rings = [_frozen(change(ring)) for ring in self.rings_mm]
        return Outline(rings[0], tuple(rings[1:]))

    def __eq__(self, other: object) -> bool:
        return (
            isinstance(other, Outline)
            and len(self.holes_mm) == len(other.holes_mm)
            and all(np.array_equal(a, b) for a, b in zip(self.rings_mm, other.rings_mm, strict=True))
        )

    def __hash__(self) -> int:
        return hash(tuple(ring.tobytes() for ring in self.rings_mm))


def rotation(angle_deg: float) -> NDArray[np.float64]:
    """Return the (2, 2) matrix of a counter-clockwise turn, exact at multiples of 90 degrees."""
    quarter, rest = divmod(angle_deg, 90.0)
    if rest == 0.0:
        c, s = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    else:
        angle = np.radians(angle_deg)
        c, s = float(np.cos(angle)), float(np.sin(angle))
    return np.array([[c, -s], [s, c]])


def _frozen(ring: NDArray[np.float64]) -> Ring:
    ring.flags.writeable = False
    return ring
