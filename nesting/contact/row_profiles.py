"""Pieces and obstacles as rows: where an outline starts and ends in each row across the roll.

A row holds every point of the outline within it, so a profile is never smaller than the piece.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.outline import Ring
from nesting.problem import LayProblem


@dataclass(frozen=True)
class RowField:
    """The rows of the roll: ``y_mm`` of the first, height of each, how many, x where the lay starts."""

    y_mm: float
    row_mm: float
    rows: int
    x_mm: float


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


@dataclass(frozen=True)
class Block:
    """Something to step over: rows from ``row`` on, and where it starts and ends in each."""

    row: int
    left: NDArray[np.float64]
    right: NDArray[np.float64]


def blocks_of(problem: LayProblem, field: RowField, grow: float) -> list[Block]:
    """Return pinned pieces and flaws, as far as they lie on the field, from left to right."""
    rings = [grown(pin.place(problem.by_id[pin.item_id].outline).ring_mm, grow) for pin in problem.pinned]
    rings += [np.asarray(flaw.ring_mm, dtype=np.float64) for flaw in problem.roll.flaws]
    blocks = []
    for ring in rings:
        first = math.floor((ring[:, 1].min() - field.y_mm) / field.row_mm)
        shifted = ring - (0.0, field.y_mm + first * field.row_mm)
        below = shifted.copy()
        below[:, 1] = np.maximum(below[:, 1], 0.0)
        left, right = profile(below, field.row_mm)
        skip = max(0, -first)
        left, right = left[skip:], right[skip:]
        keep = field.rows - max(0, first)
        if keep > 0 and len(left):
            blocks.append(Block(max(0, first), left[:keep], right[:keep]))
    return sorted(blocks, key=lambda block: float(block.left.min()))


def stepped_over(
    x: NDArray[np.float64],
    first_row: int,
    left: NDArray[np.float64],
    right: NDArray[np.float64],
    blocks: list[Block],
) -> NDArray[np.float64]:
    """Move each x (for lower rows first_row, first_row + 1, ...) right until no block is hit."""
    x = x.copy()
    rows = len(left)
    for k in range(len(x)):
        moved = True
        while moved:
            moved = False
            for block in blocks:
                low = max(first_row + k, block.row)
                high = min(first_row + k + rows, block.row + len(block.left))
                if low >= high:
                    continue
                mine = slice(low - first_row - k, high - first_row - k)
                its = slice(low - block.row, high - block.row)
                hit = (x[k] + left[mine] < block.right[its]) & (x[k] + right[mine] > block.left[its])
                if hit.any():
                    x[k] = float((block.right[its] - left[mine]).max()) + 1e-9
                    moved = True
    return x
