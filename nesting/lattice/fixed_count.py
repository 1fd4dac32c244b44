"""Lattices made to measure: this many columns of this many pieces, from edge to edge of the roll.

The densest lattice leaves what the width has over, and a last column that may hold next to nothing.
Here the count comes first: it is dealt out to whole columns, their pieces set evenly across the
width, and the lattice that brings such columns closest together is searched. What the pieces
stand further apart across the roll, they gain along it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from geometry.outline import ring_area_mm2
from nesting.lattice.densest import FixedMeasure, Lattice, centred, searched, swapped
from nesting.stop import Never, Stop

Array = NDArray[np.float64]

MOST_COLUMNS = 2.0
"""No more columns than this many times those the pieces would fill side by side."""

MOST_TRIED = 8
"""Numbers of columns that are tried, the fewest first."""

STARTS = 100
"""Cells that descend for each: one measure is given, and columns are far from arbitrary."""


def fitted(
    rings: tuple[Array, ...],
    count: int,
    across_mm: tuple[float, float],
    gap_mm: float,
    *,
    seed: int = 0,
    stop: Stop | None = None,
) -> Iterator[Lattice]:
    """Yield lattices whose columns hold ``count`` pieces in equal numbers, fewest columns first.

    ``rings`` are the poses of one die, one or two. A column holds one pose, or both in turn.
    """
    stop = stop or Never()
    own = tuple(centred(r) for r in rings)
    extent = np.max([np.ptp(r, axis=0) for r in own], axis=0)
    width = across_mm[1] - across_mm[0]
    least = count * abs(ring_area_mm2(own[0])) / (width * extent[0])
    tried: set[int] = set()
    for columns in range(max(1, math.ceil(least)), math.ceil(MOST_COLUMNS * least) + 2):
        each = math.ceil(count / columns)
        if each in tried or each < 2 or width <= extent[1]:
            continue
        if len(tried) == MOST_TRIED:
            return
        tried.add(each)
        pitch = (width - extent[1]) / (each - 1)
        ways = [((0,), pitch)] if len(own) == 1 else [((0, 1), pitch), ((0, 1), 2.0 * pitch), ((0,), pitch)]
        for poses, period in ways:
            if stop():
                return
            found = searched(
                [swapped(own[k]) for k in poses],
                gap_mm,
                seed=seed,
                starts=STARTS,
                keep=2,
                level=True,
                held=FixedMeasure(period, first=True),
                stop=stop,
            )
            if found:
                yield found[0].swapped(tuple(own[k] for k in poses))
