"""Sizes of one shape that follow each other in one lattice, instead of a band for each.

Where a band of one size ends and that of the next begins, rows do not meet and cloth is lost. In
one lattice, that of the largest, the rows run on: each size takes its own length along the roll and
the height of the largest across it. Which sizes are best joined is a shortest path over their order.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

FRONT = 0.35
"""What a change of lattice costs, in lengths of the piece over the whole width (measured on the
quarters of a sample style: 0.4, on its vamps: 0.3)."""


def graded_runs(
    sizes: list[tuple[float, float, int]], looseness: float, width_mm: float
) -> list[tuple[int, int]]:
    """Return ranges of sizes to be laid in one lattice each, in their order, for the least cloth.

    ``sizes``: (length along the roll, area, pieces) of each; ``looseness``: area of a lattice cell
    over that of the piece in it.
    """
    best: list[tuple[float, int]] = [(0.0, 0)]
    for end in range(1, len(sizes) + 1):
        ways = []
        for first in range(end):
            run = sizes[first:end]
            length, area = max(run)[:2]
            # a smaller piece takes the height of the largest and its own length
            cloth = sum(n * area * looseness * own / length for own, _, n in run)
            ways.append((best[first][0] + cloth + FRONT * length * width_mm, first))
        best.append(min(ways))
    runs, end = [], len(sizes)
    while end:
        runs.append((best[end][1], end))
        end = best[end][1]
    return runs[::-1]


def graded(at: Array, ratio: Array, reach_mm: float) -> Array:
    """Return places drawn together along the roll: at a piece of ``ratio`` (n,) the length of the
    lattice's own, steps shrink as far, but no more than at any piece within ``reach_mm`` of it."""
    order = np.argsort(at[:, 0], kind="stable")
    x, r = at[order, 0], ratio[order]
    first = np.searchsorted(x, x - reach_mm)
    last = np.searchsorted(x, x + reach_mm, side="right")
    local = np.maximum(np.maximum(r[first], r[last - 1]), r)  # sizes run in order
    step = np.diff(x) * np.maximum(local[:-1], local[1:])
    done = at.copy()
    done[order, 0] = x[0] + np.concatenate([[0.0], np.cumsum(step)])
    return done
