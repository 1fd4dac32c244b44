"""Small pieces set into what large ones leave open."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from nesting.columns import Columns
from nesting.depth import depth_raster
from nesting.strip import snuggest, stamp

Array = NDArray[np.float64]


def fill(columns: Columns, dies: list[int]) -> int:
    """Set pieces of ``dies`` that are left into openings of the strip, largest first, each where it
    lies snuggest; returns how many. The strip grows no longer."""
    strip = columns.strip
    h = 2.0 * columns.cell_mm
    rasters: dict[tuple[int, int], tuple[NDArray[np.float32], Array, float]] = {}
    turned = _half_turns(columns)

    def raster(q: int, p: int) -> tuple[NDArray[np.float32], Array, float]:
        """Depth of pose p seen from pose q, and +1, or -1 when it is asked for at minus the offset."""
        hit = rasters.get((q, p))
        if hit is None:
            cells, x0, y0 = depth_raster(
                columns.contacts.rings[q], columns.contacts.rings[p], h, columns.gap_mm
            )
            box = np.array([x0, y0, cells.shape[1], cells.shape[0]], dtype=np.float64)
            hit = (cells.ravel(), box, 1.0)
            rasters[q, p] = hit
            if q in turned and p in turned:
                rasters[turned[q], turned[p]] = (hit[0], box, -1.0)
        return hit

    count = len(strip.pose)
    for d in sorted(dies, key=lambda d: -columns.dies[d].area_mm2):
        for p in columns.choices_of(columns.pose_of[d, 0]):
            if columns.left[d] > 0 and not columns.stop():
                _fill_pose(columns, d, p, h, raster)
    return len(strip.pose) - count


def _half_turns(columns: Columns) -> dict[int, int]:
    """Poses whose die has exactly the half turn of it as its other pose."""
    found = {}
    for d, die in enumerate(columns.dies):
        if len(die.rings_mm) == 2 and np.array_equal(die.rings_mm[1], -die.rings_mm[0]):
            a, b = columns.pose_of[d, 0], columns.pose_of[d, 1]
            found[a], found[b] = b, a
    return found


def _fill_pose(columns: Columns, d: int, p: int, h: float, raster) -> None:  # type: ignore[no-untyped-def]
    strip = columns.strip
    low, high = columns.contacts.low[p], columns.contacts.high[p]
    x0, y0 = -low[0], columns.across[0] - low[1]
    nx = int((strip.end_mm - high[0] - x0) / h) + 1
    ny = int((columns.across[1] - high[1] - y0) / h) + 1
    if nx < 1 or ny < 1 or strip.end_mm - high[0] < x0 or columns.across[1] - high[1] < y0:
        return
    free = np.ones((ny, nx), np.uint8)

    def mark(q: int, x: float, y: float) -> None:
        cells, box, sign = raster(q, p)
        stamp(free, h, x0, y0, x, y, cells, 0, box, sign, h, 0.1 * h)

    for q, (x, y) in zip(strip.pose.tolist(), strip.at_mm.tolist(), strict=True):
        mark(q, x, y)
    while columns.left[d] > 0:
        j, i, _ = snuggest(free, 2)
        if j < 0:
            return
        x, y = x0 + i * h, y0 + j * h
        strip.add(np.array([p]), np.array([[x, y]]))
        columns.left[d] -= 1
        mark(p, x, y)
