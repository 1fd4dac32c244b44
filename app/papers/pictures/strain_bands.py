"""Bands of a value over a mesh, and the contour lines between them.

The value runs straight between the means at the mesh's points; the means are taken apart for each zone of
like sheets, so that a step at the edge of the backing stays a step.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from app.papers.formats.drawing import Colour
from geometry.stretch.field.mesh import FieldMesh

Array = NDArray[np.float64]

SCALE: tuple[Colour, ...] = (
    (0.00, 0.14, 0.31),
    (0.16, 0.25, 0.43),
    (0.33, 0.36, 0.43),
    (0.47, 0.47, 0.47),
    (0.62, 0.60, 0.46),
    (0.78, 0.72, 0.41),
    (0.94, 0.87, 0.30),
)
SPECK_MM2 = 0.5
"""Gaps between bands below this come from rounding and are no contour."""

GRID_MM = 1e-4
BESIDE_MM = 0.05
"""A line of a band this near to the outline is the outline, not a contour."""


@dataclass(frozen=True, eq=False)
class StrainArea:
    """One area of a band: its colour and rings, and, in one area of it, the contours of its lower bound."""

    low: float
    colour: Colour
    rings: tuple[Array, ...]
    lower_lines: tuple[Array, ...]


def bands_of(
    mesh: FieldMesh, zones: NDArray[np.int64], values: Array, bounds: tuple[float, ...]
) -> Iterator[StrainArea]:
    """Yield the areas between the bounds; what lies below the first or above the last counts with the end.

    ``values`` (m,) and ``zones`` (m,) are of the triangles, ``bounds`` one more than SCALE has colours.
    """
    corners = _corner_values(mesh, zones, values)
    triangles = mesh.points_mm[mesh.triangles]
    lows, highs = (-np.inf, *bounds[1:-1]), (*bounds[1:-1], np.inf)
    areas = [_between(triangles, corners, low, high) for low, high in zip(lows, highs, strict=True)]
    rim = shapely.union_all(areas, grid_size=GRID_MM).boundary.buffer(BESIDE_MM)
    above: shapely.Geometry = shapely.Polygon()
    contours: list[tuple[Array, ...]] = []
    for area in reversed(areas):
        above = shapely.union(above, area, grid_size=GRID_MM)
        contours.append(_lines(above.boundary.difference(rim)))
    for low, colour, area, lines in zip(bounds[:-1], SCALE, areas, reversed(contours), strict=True):
        rest = lines
        for part in shapely.get_parts(area):
            if part.geom_type == "Polygon" and not part.is_empty:
                holes = [ring for ring in part.interiors if shapely.Polygon(ring).area > SPECK_MM2]
                rings = tuple(np.array(ring.coords) for ring in (part.exterior, *holes))
                yield StrainArea(low, colour, rings, rest)
                rest = ()


def _lines(shape: shapely.Geometry) -> tuple[Array, ...]:
    merged = shape if shape.geom_type == "LineString" else shapely.line_merge(shape)
    parts = [part for part in shapely.get_parts(merged) if part.geom_type == "LineString"]
    return tuple(shapely.get_coordinates(part) for part in parts if part.length > 2.0 * BESIDE_MM)


def _corner_values(mesh: FieldMesh, zones: NDArray[np.int64], values: Array) -> Array:
    """Return (m, 3) values at the triangles' corners: means of the zone's triangles there, by area."""
    areas = mesh.areas_mm2
    found = np.zeros(mesh.triangles.shape)
    for zone in np.unique(zones):
        own = np.flatnonzero(zones == zone)
        total, weight = np.zeros(len(mesh.points_mm)), np.zeros(len(mesh.points_mm))
        for corner in range(3):
            np.add.at(total, mesh.triangles[own, corner], (values * areas)[own])
            np.add.at(weight, mesh.triangles[own, corner], areas[own])
        found[own] = total[mesh.triangles[own]] / weight[mesh.triangles[own]]
    return found


def _between(triangles: Array, corners: Array, low: float, high: float) -> shapely.Geometry:
    """Return the area where values, straight between the corners, lie in [low, high)."""
    whole = (corners.min(axis=1) >= low) & (corners.max(axis=1) <= high)
    cut = ~whole & (corners.max(axis=1) > low) & (corners.min(axis=1) < high)
    parts = list(shapely.polygons(triangles[whole]))
    for corner_points, corner_values in zip(triangles[cut].tolist(), corners[cut].tolist(), strict=True):
        ring = [(x, y, v) for (x, y), v in zip(corner_points, corner_values, strict=True)]
        for bound, sign in ((low, 1.0), (high, -1.0)):
            ring = _clipped(ring, bound, sign)
        if len(ring) > 2:
            parts.append(shapely.Polygon([(x, y) for x, y, _ in ring]))
    return shapely.union_all(parts, grid_size=GRID_MM) if parts else shapely.Polygon()


def _clipped(
    ring: list[tuple[float, float, float]], bound: float, sign: float
) -> list[tuple[float, float, float]]:
    """Keep what of a convex ring has ``sign * (value - bound) >= 0`` (Sutherland and Hodgman 1974)."""
    if not np.isfinite(bound):
        return ring
    kept: list[tuple[float, float, float]] = []
    for a, b in zip(ring, [*ring[1:], *ring[:1]], strict=True):
        inside, next_inside = sign * (a[2] - bound) >= 0.0, sign * (b[2] - bound) >= 0.0
        if inside:
            kept.append(a)
        if inside != next_inside:
            share = (bound - a[2]) / (b[2] - a[2])
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), bound))
    return kept
