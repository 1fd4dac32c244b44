"""Distances between the outlines of a lay, measured for its judge and for nobody else.

Everything here works on true outlines in double precision with GEOS predicates (through
shapely); no engine may import it, so that an engine and its judge share no error.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from geometry.outline import Ring
from nesting.tolerances import VERIFY_MM


def polygons_of(
    rings: Sequence[Ring], holes: Sequence[Sequence[Ring]], *, with_holes: bool
) -> NDArray[np.object_]:
    """Return an array of shapely polygons, one for each ring (without its holes if told so).

    A ring that crosses itself, as in a file that was tampered with, counts with all it encloses.
    """
    if not rings:
        return np.empty(0, dtype=object)
    counts = [len(ring) for ring in rings]
    shells = shapely.linearrings(np.concatenate(rings), indices=np.repeat(np.arange(len(rings)), counts))
    polygons = shapely.polygons(shells)
    if with_holes:
        for i, inner in enumerate(holes):
            if inner:
                polygons[i] = Polygon(rings[i], inner)
    for i in np.nonzero(~shapely.is_valid(polygons))[0].tolist():
        parts = shapely.get_parts(shapely.make_valid(polygons[i]))
        polygons[i] = shapely.union_all([part for part in parts.tolist() if part.area > 0.0])
    return polygons


def too_close(
    polygons: NDArray[np.object_], gap_mm: float
) -> tuple[list[tuple[int, int, float]], list[tuple[int, int, float]]]:
    """Return overlapping pairs with their depth, and pairs closer than the gap with the shortfall.

    Each pair is (i, j, mm) with i < j. Depths and shortfalls up to VERIFY_MM are no fault.
    """
    tree = shapely.STRtree(polygons)
    reach = gap_mm - VERIFY_MM
    if reach > 0:
        pairs = tree.query(polygons, predicate="dwithin", distance=reach)
    else:
        pairs = tree.query(polygons, predicate="intersects")
    pairs = pairs[:, pairs[0] < pairs[1]]
    if pairs.shape[1] == 0:
        return [], []
    first, second = polygons[pairs[0]], polygons[pairs[1]]
    distances = shapely.distance(first, second)
    overlaps: list[tuple[int, int, float]] = []
    shortfalls: list[tuple[int, int, float]] = []
    for i, j, a, b, distance in zip(*pairs, first, second, distances, strict=True):
        depth = overlap_depth_mm(a, b) if distance == 0.0 else 0.0
        if depth > VERIFY_MM:
            overlaps.append((int(i), int(j), depth))
        elif reach > 0:
            shortfalls.append((int(i), int(j), gap_mm - float(distance)))
    return overlaps, shortfalls


def overlap_depth_mm(a: Polygon, b: Polygon) -> float:
    """Return how deep two polygons lie in each other, 0 when they only touch.

    The larger of two readings: the deepest vertex of one inside the other, and the width of the
    common part (twice its inscribed radius). The first sees a corner poked in, the second two
    straight edges pushed over each other.
    """
    if not shapely.intersects(a, b):
        return 0.0
    common = shapely.intersection(a, b)
    area = shapely.area(common)
    if area == 0.0:
        return 0.0
    deepest = max(_deepest_vertex_mm(a, b), _deepest_vertex_mm(b, a))
    parts = [p for p in shapely.get_parts(common) if p.geom_type == "Polygon" and p.area > 0.0]
    # a convex part is at most 4 area / perimeter wide (Bonnesen); slivers of rounding end here
    for part in parts:
        if deepest <= VERIFY_MM and 4.0 * part.area / part.length <= VERIFY_MM / 2.0:
            continue
        finely = max(VERIFY_MM / 4.0, 0.01 * part.area**0.5)
        radius = shapely.maximum_inscribed_circle(part, tolerance=finely).length
        deepest = max(deepest, 2.0 * radius)
    return float(deepest)


def _deepest_vertex_mm(a: Polygon, b: Polygon) -> float:
    points = shapely.points(shapely.get_coordinates(a))
    inside = points[shapely.contains_properly(b, points)]
    if len(inside) == 0:
        return 0.0
    return float(shapely.distance(inside, shapely.boundary(b)).max())


def on_regions(polygons: NDArray[np.object_], regions: Sequence[Ring]) -> list[tuple[int, int, float]]:
    """Return (piece, region, depth) wherever a piece lies on a region to keep clear of."""
    found = []
    for number, ring in enumerate(regions):
        region = shapely.make_valid(Polygon(ring))
        for i in np.nonzero(shapely.intersects(polygons, region))[0]:
            depth = overlap_depth_mm(polygons[i], region)
            if depth > VERIFY_MM:
                found.append((int(i), number, depth))
    return found


def beyond_mm(
    boxes: NDArray[np.float64], low_x: float, low_y: float, high_x: float, high_y: float
) -> NDArray[np.float64]:
    """Return by how much each (n, 4) box leaves the field, 0 or less where it stays inside."""
    return np.max(
        [low_x - boxes[:, 0], low_y - boxes[:, 1], boxes[:, 2] - high_x, boxes[:, 3] - high_y], axis=0
    )
