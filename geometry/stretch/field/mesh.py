"""Triangles that follow every outline: points along all of them, a grid between, Delaunay's triangulation.

Outlines are sampled closely enough that Delaunay's triangles keep to them; a triangle belongs to a region
by its middle. No mesher with wheels for three systems and a suitable licence was found; this module does
what the field needs of one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.spatial import Delaunay

from geometry.errors import SheetError

Array = NDArray[np.float64]

SNAP_MM = 0.02
"""Outlines that run nearer than this are one line: triangles thinner than that tell nothing."""

CLEAR_SHARE = 0.62
"""Grid points keep this share of the element size from every outline, so that triangles stay well shaped."""

CLOSE_SIZES = 2.0  # the crowd of strain fades within about the size of what causes it
HOLLOW_DEG = 20.0
"""Within so many element sizes of a hole, or of a corner that turns in by more, elements are halved."""

LEAST_AREA_SHARE = 1e-4
"""Triangles below this share of an element's area are slivers between points of one line."""


@dataclass(frozen=True, eq=False)
class FieldMesh:
    """``points_mm`` (n, 2); ``triangles`` (m, 3), counter-clockwise."""

    points_mm: Array
    triangles: NDArray[np.int64]

    @property
    def middles_mm(self) -> Array:
        """(m, 2) middles of the triangles."""
        return self.points_mm[self.triangles].mean(axis=1)

    @property
    def areas_mm2(self) -> Array:
        """(m,) areas of the triangles."""
        a, b, c = (self.points_mm[self.triangles[:, k]] for k in range(3))
        return 0.5 * ((b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0]))

    @cached_property
    def _tree(self) -> shapely.STRtree:
        return shapely.STRtree(shapely.polygons(self.points_mm[self.triangles]))

    def locate(self, places_mm: Array) -> tuple[NDArray[np.int64], Array]:
        """Return the triangle of each place and (n, 3) its shares of the corners.

        A place outside is taken at the rim of the nearest triangle.
        """
        which = self._tree.nearest(shapely.points(places_mm))
        a, b, c = (self.points_mm[self.triangles[which, k]] for k in range(3))
        frame = np.stack([b - a, c - a], axis=2)
        share = np.linalg.solve(frame, (places_mm - a)[:, :, None])[:, :, 0]
        corners = np.clip(np.column_stack([1.0 - share.sum(axis=1), share]), 0.0, 1.0)
        return which, corners / corners.sum(axis=1, keepdims=True)

    def at(self, values: Array, places_mm: Array) -> Array:
        """Return (k, ...) values at places, straight between the (n, ...) values at the mesh's points."""
        which, corners = self.locate(places_mm)
        return np.asarray(np.einsum("kc,kc...->k...", corners, values[self.triangles[which]]))


@dataclass(frozen=True, eq=False)
class Rim:
    """The edges round a mesh: ``pairs`` (k, 2) of points, ``middles_mm`` and outward ``normals`` (k, 2)."""

    pairs: NDArray[np.int64]
    middles_mm: Array
    normals: Array
    lengths_mm: Array


@dataclass(frozen=True, eq=False)
class InnerEdges:
    """The edges between two triangles: ``pairs`` (k, 2) of points, ``sides`` (k, 2) of triangles."""

    pairs: NDArray[np.int64]
    sides: NDArray[np.int64]


def inner_edges(mesh: FieldMesh) -> InnerEdges:
    """Return the edges that two triangles share."""
    every = _sides(mesh)
    order = np.lexsort(np.sort(every, axis=1).T)
    ordered = np.sort(every, axis=1)[order]
    same = np.flatnonzero((ordered[1:] == ordered[:-1]).all(axis=1))
    triangle = order % len(mesh.triangles)
    return InnerEdges(every[order[same]], np.column_stack([triangle[same], triangle[same + 1]]))


def _sides(mesh: FieldMesh) -> NDArray[np.int64]:
    t = mesh.triangles
    return np.vstack([t[:, [0, 1]], t[:, [1, 2]], t[:, [2, 0]]])


def rim_of(mesh: FieldMesh) -> Rim:
    """Return the edges that only one triangle has."""
    every = _sides(mesh)
    _, first, counts = np.unique(np.sort(every, axis=1), axis=0, return_index=True, return_counts=True)
    pairs = every[first[counts == 1]]
    a, b = mesh.points_mm[pairs[:, 0]], mesh.points_mm[pairs[:, 1]]
    along = b - a
    lengths = np.hypot(*along.T)
    normals = np.column_stack([along[:, 1], -along[:, 0]]) / lengths[:, None]
    return Rim(pairs, (a + b) / 2.0, normals, lengths)


def mesh_of(domain: shapely.Geometry, lines: Sequence[shapely.Geometry], size_mm: float) -> FieldMesh:
    """Return triangles over ``domain`` that follow its boundary and the boundaries of ``lines``.

    ``size_mm`` is the length of an element's side. Raises SheetError when nothing is left to divide.
    """
    domain = shapely.set_precision(domain, SNAP_MM)
    if domain.is_empty or domain.area < size_mm**2 * 1e-3:
        raise SheetError("there is no area to pull", remedy="check the outline of the piece")
    drawn = shapely.union_all(
        [domain.boundary, *(shapely.set_precision(line.boundary, SNAP_MM) for line in lines)],
        grid_size=SNAP_MM,
    )
    drawn = shapely.intersection(drawn, domain.buffer(SNAP_MM))
    whole = drawn if drawn.geom_type == "LineString" else shapely.line_merge(drawn)
    close = _close_places(domain, size_mm)
    sampled = np.vstack(
        [
            shapely.get_coordinates(shapely.segmentize(shapely.difference(whole, close), size_mm)),
            shapely.get_coordinates(shapely.segmentize(shapely.intersection(whole, close), size_mm / 2.0)),
        ]
    )
    fixed = np.unique(np.round(sampled, 6), axis=0)
    fixed = _thinned(fixed, size_mm * 0.05)
    points = np.vstack(
        [
            fixed,
            _inner_points(domain.difference(close), drawn, size_mm),
            _inner_points(shapely.intersection(domain, close), drawn, size_mm / 2.0),
        ]
    )
    triangles = Delaunay(points).simplices.astype(np.int64)
    mesh = FieldMesh(points, triangles)
    flipped = mesh.areas_mm2 < 0
    triangles[flipped] = triangles[flipped][:, ::-1]
    middles = mesh.middles_mm
    keep = shapely.contains_xy(domain, middles[:, 0], middles[:, 1])
    keep &= np.abs(mesh.areas_mm2) > LEAST_AREA_SHARE * size_mm**2
    triangles = triangles[keep]
    used, numbered = np.unique(triangles, return_inverse=True)
    if not len(triangles):
        raise SheetError("the piece is too thin for its elements", remedy="take smaller elements")
    return FieldMesh(points[used], numbered.reshape(triangles.shape).astype(np.int64))


def _thinned(points: Array, least_mm: float) -> Array:
    """Leave out points that lie nearer than ``least_mm`` to one kept before."""
    order = np.lexsort((points[:, 1], points[:, 0]))
    points = points[order]
    tree = shapely.STRtree(shapely.points(points))
    keep = np.ones(len(points), dtype=bool)
    first, second = tree.query(shapely.points(points), predicate="dwithin", distance=least_mm)
    for i, j in zip(first.tolist(), second.tolist(), strict=True):
        if i < j and keep[i]:
            keep[j] = False
    return points[keep]


def _close_places(domain: shapely.Geometry, size_mm: float) -> shapely.Geometry:
    """Where elements are half as large: round holes and hollow corners, where strains crowd."""
    places: list[shapely.Geometry] = []
    for part in shapely.get_parts(domain):
        oriented = shapely.geometry.polygon.orient(part)
        places += list(oriented.interiors)
        ring = np.array(oriented.exterior.coords)[:-1]
        before, after = ring - np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0) - ring
        turn = np.degrees(
            np.arctan2(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0], (before * after).sum(axis=1))
        )
        places += list(shapely.points(ring[turn < -HOLLOW_DEG]))
    return shapely.union_all([place.buffer(CLOSE_SIZES * size_mm) for place in places])


def _inner_points(area: shapely.Geometry, drawn: shapely.Geometry, size_mm: float) -> Array:
    """Return grid points of an area that keep clear of every outline."""
    if area.is_empty:
        return np.empty((0, 2))
    grid = _grid(area.bounds, size_mm)
    grid = grid[shapely.contains_xy(area, grid[:, 0], grid[:, 1])]
    clear = shapely.distance(shapely.points(grid), drawn) >= CLEAR_SHARE * size_mm
    return np.asarray(grid[clear])


def _grid(bounds: tuple[float, float, float, float], size_mm: float) -> Array:
    x0, y0, x1, y1 = bounds
    rows = np.arange(y0, y1 + size_mm, size_mm * np.sqrt(3.0) / 2.0)
    columns = np.arange(x0, x1 + size_mm, size_mm)
    xs, ys = np.meshgrid(columns, rows)
    xs = xs + (np.arange(len(rows)) % 2)[:, None] * size_mm / 2.0
    return np.column_stack([xs.ravel(), ys.ravel()])
