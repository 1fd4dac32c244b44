"""A map of strain over the pieces: bands of one colour scale, contour lines between them for a print in grey.

The scale runs dark blue to yellow, evenly in lightness, and keeps its order for every kind of colour vision
(in the manner of cividis: Nunez, Anderton and Renslow, PLOS ONE 2018; the steps from memory).
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from app.papers.formats.drawing import Colour, Drawing, Pen
from app.papers.layout import pens
from geometry.stretch.field.mesh import FieldMesh, Rim
from geometry.stretch.field.upper import FieldCase, FieldUpper

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

CONTOUR = Pen(0.1, colour=pens.WHITE)
THROAT = Pen(0.45, (2.0, 1.2), pens.INK)
PREDICTED = Pen(0.7, colour=(0.75, 0.10, 0.10))


def largest_strain(strain: Array) -> Array:
    """Return (m,) largest principal strains of (m, 3) strains."""
    ex, ey, g = strain.T
    return np.asarray((ex + ey) / 2.0 + np.hypot((ex - ey) / 2.0, g / 2.0))


def at_points(mesh: FieldMesh, values: Array) -> Array:
    """Return (n,) values at the mesh's points: means of their triangles, weighted by area."""
    areas = mesh.areas_mm2
    total, weight = np.zeros(len(mesh.points_mm)), np.zeros(len(mesh.points_mm))
    for corner in range(3):
        np.add.at(total, mesh.triangles[:, corner], values * areas)
        np.add.at(weight, mesh.triangles[:, corner], areas)
    return total / weight


def bands(
    points: Array, triangles: NDArray[np.int64], values: Array, low: float, high: float
) -> list[shapely.Polygon]:
    """Return the parts of triangles where values, straight between the corners, lie in [low, high)."""
    found = []
    for corners in triangles:
        ring = [(*points[c], values[c]) for c in corners]
        for bound, sign in ((low, 1.0), (high, -1.0)):
            ring = _clipped(ring, bound, sign)
        if len(ring) > 2:
            found.append(shapely.Polygon([(x, y) for x, y, _ in ring]))
    return found


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


def steps_of(peak: float) -> tuple[float, ...]:
    """Return the bounds of the bands: round per cents from 0 to about the peak."""
    width = next(w for w in (0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 1.0) if w * len(SCALE) >= peak)
    return tuple(width * k for k in range(len(SCALE) + 1))


def strain_map(
    upper: FieldUpper,
    mesh: FieldMesh,
    rim: Rim,
    case: FieldCase,
    bounds: tuple[float, ...],
    *,
    exaggerated: float = 1.0,
) -> Drawing:
    """Return the map in mm, x along the pull, the piece drawn as it is deformed.

    The throat's reference is dashed, the predicted line full; ``exaggerated`` multiplies the displacements.
    """
    drawing = Drawing()
    points = mesh.points_mm + exaggerated * case.moved_mm
    nodal = at_points(mesh, largest_strain(case.strain))
    for low, high, colour in zip(bounds[:-1], (*bounds[1:-1], np.inf), SCALE, strict=True):
        parts = bands(points, mesh.triangles, nodal, low, high)
        for part in shapely.get_parts(shapely.union_all(parts, grid_size=1e-4)) if parts else ():
            if part.geom_type != "Polygon":
                continue
            holes = [ring for ring in part.interiors if shapely.Polygon(ring).area > SPECK_MM2]
            rings = [part.exterior.coords, *(ring.coords for ring in holes)]
            drawing.fill([np.array(ring) for ring in rings], colour)
            for ring in rings:
                drawing.line(np.array(ring), CONTOUR, "marks", closed=True)
    for pair in rim.pairs:
        drawing.line(points[pair], pens.RULE, "upper")
    if upper.throat_mm is not None:
        _throat(drawing, upper, mesh, case, exaggerated)
    return drawing


def draw_legend(
    drawing: Drawing, x_mm: float, y_mm: float, bounds: tuple[float, ...], *, wide_mm: float = 9.0
) -> None:
    """Draw the scale lying, its bounds in per cent below."""
    for k, colour in enumerate(SCALE):
        drawing.fill_box((x_mm + k * wide_mm, y_mm, x_mm + (k + 1) * wide_mm, y_mm + 4.0), colour)
    drawing.box((x_mm, y_mm, x_mm + len(SCALE) * wide_mm, y_mm + 4.0), pens.HAIR, "frame")
    for k, bound in enumerate(bounds):
        text = f"{100.0 * bound:g}"
        drawing.text(x_mm + k * wide_mm, y_mm - 3.2, text, pens.TINY, anchor="middle", colour=pens.INK)
    drawing.text(
        x_mm + len(SCALE) * wide_mm + 4.0, y_mm + 0.8, "largest strain, %", pens.SMALL, colour=pens.INK
    )


def _throat(
    drawing: Drawing, upper: FieldUpper, mesh: FieldMesh, case: FieldCase, exaggerated: float
) -> None:
    """The throat's mark across the piece, and where the model puts it."""
    assert upper.throat_mm is not None
    x, y = upper.throat_mm[1]
    low, high = mesh.points_mm[:, 1].min(), mesh.points_mm[:, 1].max()
    heel = int(np.hypot(*(mesh.points_mm - upper.throat_mm[0]).T).argmin())
    across = shapely.LineString([(x, low - 1.0), (x, high + 1.0)])
    crossing = across.intersection(shapely.union_all([piece.region for piece in upper.pieces]))
    parts = [part for part in shapely.get_parts(crossing) if part.geom_type == "LineString"]
    if not parts:
        return
    nearest = min(parts, key=lambda part: part.distance(shapely.Point(x, y)))
    line = shapely.get_coordinates(shapely.segmentize(nearest, 2.0))
    drawing.line(line, THROAT, "marks")
    which = [int(np.hypot(*(mesh.points_mm - point).T).argmin()) for point in line]
    moved = line + exaggerated * (case.moved_mm[which] - case.moved_mm[heel] * (1.0, 0.0))
    drawing.line(moved, PREDICTED, "marks")
