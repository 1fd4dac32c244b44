"""Pieces as rows: where an outline starts and ends in each row across the roll.

A row holds every point of the outline within it, so a profile is never smaller than the piece.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.outline import Ring


def grown(ring: Ring, grow: float) -> NDArray[np.float64]:
    """Return a ring grown by ``grow`` mm at least: corners are mitred, never rounded short."""
    polygon = shapely.Polygon(ring).buffer(grow, join_style="mitre", mitre_limit=2.0)
    return np.asarray(polygon.exterior.coords)[:-1]


def profile(ring: NDArray[np.float64], row_mm: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the leftmost and rightmost x of a ring (lowest y = 0) in each row."""
    rows = max(1, math.ceil(ring[:, 1].max() / row_mm - 1e-9))
    start, end = ring, np.roll(ring, -1, axis=0)
    levels = np.arange(1, rows) * row_mm
    dy = end[:, 1] - start[:, 1]
    with np.errstate(divide="ignore", invalid="ignore"):
        t = (levels[:, None] - start[None, :, 1]) / dy[None, :]
    x = np.where((t >= 0.0) & (t <= 1.0), start[None, :, 0] + t * (end - start)[None, :, 0], np.nan)
    left = np.full(rows, np.inf)
    right = np.full(rows, -np.inf)
    at = np.minimum((ring[:, 1] / row_mm).astype(int), rows - 1)
    np.minimum.at(left, at, ring[:, 0])
    np.maximum.at(right, at, ring[:, 0])
    if rows > 1:
        low, high = np.nanmin(x, axis=1), np.nanmax(x, axis=1)
        for side in (slice(0, rows - 1), slice(1, rows)):  # a level bounds the row below and the row above
            left[side] = np.minimum(left[side], low)
            right[side] = np.maximum(right[side], high)
    return left, right
