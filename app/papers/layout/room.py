"""Where lettering finds room: inside a shape clear of its lines, or beside it clear of the rest."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.affinity import rotate
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from geometry.outline import rotation

_GRID = 15  # places tried along each side of a shape


@dataclass(frozen=True)
class Spot:
    """A block's centre, its angle, and by how much it had to be shrunk to fit."""

    x_mm: float
    y_mm: float
    angle_deg: float
    scale: float


def spot_inside(
    shape: BaseGeometry,
    width_mm: float,
    height_mm: float,
    angles_deg: Sequence[float],
    *,
    smallest: float = 0.4,
) -> Spot | None:
    """Return where a block of that size fits inside ``shape``, as large and as central as it can.

    The angles are tried in order at each size; a later angle is taken only when it allows a
    clearly larger block. None when not even ``smallest`` times the size fits.
    """
    best: Spot | None = None
    for angle in angles_deg:
        turned = rotate(shape, -angle, origin=(0, 0))
        scale = 1.0
        while scale >= smallest and (best is None or scale > best.scale * 1.3):
            place = _place(turned, width_mm * scale, height_mm * scale)
            if place is not None:
                x, y = rotation(angle) @ place
                best = Spot(float(x), float(y), angle, scale)
                break
            scale *= 0.87
    return best


def _place(shape: BaseGeometry, width: float, height: float) -> tuple[float, float] | None:
    if shape.is_empty:
        return None
    x0, y0, x1, y1 = shape.bounds
    if x1 - x0 < width or y1 - y0 < height:
        return None
    xs = np.linspace(x0 + width / 2.0, x1 - width / 2.0, _GRID)
    ys = np.linspace(y0 + height / 2.0, y1 - height / 2.0, _GRID)
    x, y = (a.ravel() for a in np.meshgrid(xs, ys))
    boxes = shapely.box(x - width / 2.0, y - height / 2.0, x + width / 2.0, y + height / 2.0)
    shapely.prepare(shape)
    fits = shapely.contains_properly(shape, boxes)
    if not fits.any():
        return None
    middle = shape.representative_point() if not isinstance(shape, Polygon) else shape.centroid
    far = np.where(fits, np.hypot(x - middle.x, (y - middle.y) * 1.5), np.inf)
    at = int(far.argmin())
    return float(x[at]), float(y[at])


def free_box(
    width_mm: float,
    height_mm: float,
    within: tuple[float, float, float, float],
    lines: Iterable[BaseGeometry],
) -> tuple[tuple[float, float], bool]:
    """Return the lower left corner of a box in a window that crosses the fewest lines.

    The flag says whether it crosses none. Corners of the window come first among equals.
    """
    x0, y0, x1, y1 = within
    xs = np.linspace(x0, max(x0, x1 - width_mm), max(2, int((x1 - x0 - width_mm) / 4.0) + 1))
    ys = np.linspace(y0, max(y0, y1 - height_mm), max(2, int((y1 - y0 - height_mm) / 4.0) + 1))
    x, y = (a.ravel() for a in np.meshgrid(xs, ys))
    boxes = shapely.box(x, y, x + width_mm, y + height_mm)
    crossed = np.zeros(len(boxes))
    shapes = [line for line in lines if not line.is_empty]
    if shapes:
        tree = shapely.STRtree(boxes)
        for shape in shapes:
            hit = tree.query(shape, predicate="intersects")
            crossed[hit] += shapely.length(shapely.intersection(boxes[hit], shape)) + 1.0
    side = np.minimum(x - x0, x1 - width_mm - x) + np.minimum(y - y0, y1 - height_mm - y)
    at = int(np.lexsort((side, crossed))[0])
    return (float(x[at]), float(y[at])), bool(crossed[at] == 0.0)
