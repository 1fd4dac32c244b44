"""Other orders of laying, tried one after the other: a piece laid earlier or later changes all that follows.

Begins with the best of the orders by size and keeps a change that shortens the lay. A lay of a hundred
pieces takes a fifth of a second in fine rows, so that within seconds this finds more than a general search.
"""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from numpy.typing import NDArray

from nesting.free.bottom_left import BottomLeft, BottomLeftLayout
from nesting.free.first_layout import shortest_ways
from nesting.free.ways import COARSE_ROWS, FINE_PIECES, FINE_ROWS, SLOPES
from nesting.lay import Placement
from nesting.problem import LayProblem
from nesting.stop import Stop

FEW_SHARES = (0.02, 0.05, 0.2)
"""Share of the pieces that are laid at another time, ..."""

FAR = (0.1, 0.3)
"""... and how much earlier or later, as a share of all pieces (a normal deviation)."""

NEAR = 0.02
"""How far all pieces change places a little, as a share of all."""

PROMISING = 1.02
"""Layouts longer than the shortest so far by at most this factor may become shorter when squeezed."""


def improve(
    problem: LayProblem,
    *,
    seed: int,
    stop: Stop,
    tries: int,
    workers: int,
    found: Callable[[tuple[Placement, ...]], None],
) -> None:
    """Try other orders than the largest first, of clusters where those pay; what promises something goes to
    ``found`` (from several threads).

    Ends with ``stop`` or after ``tries`` for each worker. The same for a seed and number of workers.
    """
    ways, joined = shortest_ways(problem, workers)
    rows = BottomLeft(ways.problem, FINE_ROWS if ways.problem.pieces <= FINE_PIECES else COARSE_ROWS)
    best, shortest = ways.shortest_order(workers), np.inf
    chance = np.random.default_rng(seed)
    with ThreadPoolExecutor(max(1, workers)) as threads:
        for _ in range(tries):
            if stop():
                return
            orders = [_changed(best, chance) for _ in range(max(1, workers))]
            slopes = chance.choice(SLOPES, size=len(orders))
            most_mm = shortest * PROMISING

            def laid_so(order: NDArray[np.int64], slope: float, most_mm: float = most_mm) -> BottomLeftLayout:
                each = rows.lay(order, slope)
                if each.length_mm <= most_mm and not stop():
                    placements = rows.placements(each)
                    found(placements if joined is None else joined.apart(placements))
                return each

            laid: list[BottomLeftLayout] = list(threads.map(laid_so, orders, slopes))
            first = min(range(len(laid)), key=lambda k: laid[k].length_mm)
            if laid[first].length_mm < shortest:
                shortest, best = laid[first].length_mm, orders[first]


def _changed(order: NDArray[np.int64], chance: np.random.Generator) -> NDArray[np.int64]:
    """Return an order in which some pieces, one item, or all a little, come at another time."""
    count = len(order)
    when = np.arange(count) / max(1, count)
    way = chance.random()
    if way < 0.5:
        moved = chance.random(count) < chance.choice(FEW_SHARES)
        when[moved] += chance.normal(0.0, chance.choice(FAR), moved.sum())
    elif way < 0.8:
        when[order == order[chance.integers(count)]] += chance.normal(0.0, FAR[0])
    else:
        when += chance.normal(0.0, NEAR, count)
    return order[np.argsort(when, kind="stable")]
