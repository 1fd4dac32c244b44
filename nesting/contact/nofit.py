"""Where one piece may not lie relative to another: the no-fit region, gap included.

The region holds every move of B at which B overlaps A or comes nearer to it than the gap. For
simple outlines it is bounded by the sweep of one boundary along the other (the Minkowski sum of A
and -B; Bennell & Oliveira, "The geometry of nesting problems", EJOR 2008); a part of the plane
enclosed by the sweep is free, a hole of the region, only where a trial placement actually is: B in
a bay or hole of A and not B covering A.

Safe side: outlines are rounded to whole units of 1/SCALE mm and the region is grown by a little
more than the gap (GROWN_MM), so a move outside the region always keeps the gap. It is too large
by at most EXCESS_MM.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import pyclipper
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from geometry.outline import Outline

SCALE = 1e4
"""Units per mm of the integer coordinates that pyclipper works in: 0.1 micrometre."""

ARC_MM = 1e-3
"""Rounded corners of the region are polylines within this of the arc."""

GROWN_MM = 7e-4 + ARC_MM
"""Added to the gap: the arc's chord, and what roundings of crossing edges to whole units can move a
sharp hollow of the region (4e-4 mm seen; nearly twice that is allowed for)."""

EXCESS_MM = 3e-3
"""The region exceeds the true one by no more than this."""


@dataclass(frozen=True)
class Nofit:
    """The no-fit region as polygons in mm; free holes are holes of the polygons."""

    polygons: tuple[Polygon, ...]

    @property
    def region(self) -> MultiPolygon:
        """All of it as one geometry."""
        return MultiPolygon(self.polygons)

    def forbids(self, moves_mm: NDArray[np.float64]) -> NDArray[np.bool_]:
        """Return for each (n, 2) move of B whether it lies inside the region."""
        region = self.region
        shapely.prepare(region)
        return np.asarray(shapely.contains_xy(region, moves_mm[:, 0], moves_mm[:, 1]))


@lru_cache(maxsize=8192)
def nofit(a: Outline, b: Outline, gap_mm: float = 0.0, holes: bool = True) -> Nofit:
    """Return the no-fit region of ``b`` moved about ``a``, both turned as they shall lie.

    ``holes`` False closes the holes of both outlines first. Results are cached.
    """
    rings_a = a.rings_mm if holes else a.rings_mm[:1]
    rings_b = b.rings_mm if holes else b.rings_mm[:1]
    sweep: list[list[tuple[int, int]]] = []
    for ring_a in rings_a:
        path = _whole(ring_a)
        for ring_b in rings_b:
            pattern = _whole(-ring_b)
            swept = pyclipper.MinkowskiSum(pattern, path, True)
            sweep.extend(swept)
    tree = _grown(sweep, gap_mm + GROWN_MM)
    solid_a = Polygon(rings_a[0], rings_a[1:])
    solid_b = Polygon(rings_b[0], rings_b[1:])
    found: list[Polygon] = []
    _collect(tree, found, lambda move: _is_free(solid_a, solid_b, move))
    return Nofit(tuple(found))


def _grown(paths: list[list[tuple[int, int]]], by_mm: float) -> pyclipper.PyPolyNode:
    offset = pyclipper.PyclipperOffset(2.0, ARC_MM * SCALE)
    offset.AddPaths(paths, pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON)
    return offset.Execute2(by_mm * SCALE)


def _collect(
    node: pyclipper.PyPolyNode, found: list[Polygon], is_free: Callable[[shapely.Point], bool]
) -> None:
    for outer in node.Childs:
        holes: list[NDArray[np.float64]] = []
        _collect_holes(outer, holes, found, is_free)
        found.append(Polygon(_mm(outer.Contour), holes))


def _collect_holes(
    outer: pyclipper.PyPolyNode,
    holes: list[NDArray[np.float64]],
    found: list[Polygon],
    is_free: Callable[[shapely.Point], bool],
) -> None:
    """Keep the free holes of ``outer``; a hole where B lies covered is filled, with what it surrounds."""
    for inner in outer.Childs:
        ring = _mm(inner.Contour)
        if is_free(Polygon(ring, [_mm(c.Contour) for c in inner.Childs]).representative_point()):
            holes.append(ring)
            _collect(inner, found, is_free)
        else:
            for island in inner.Childs:
                _collect_holes(island, holes, found, is_free)


def _is_free(a: Polygon, b: Polygon, move: shapely.Point) -> bool:
    moved = shapely.transform(b, lambda xy: xy + (move.x, move.y))
    return not shapely.intersects(a, moved)


def _whole(ring: NDArray[np.float64]) -> list[tuple[int, int]]:
    return [(int(x), int(y)) for x, y in np.rint(ring * SCALE)]


def _mm(path: list[list[int]]) -> NDArray[np.float64]:
    return np.asarray(path, dtype=np.float64) / SCALE
