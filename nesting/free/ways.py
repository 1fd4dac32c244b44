"""The bottom-left layouts of a problem that promise most: the largest first, by some measure of size."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from functools import cached_property
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from nesting.free.bottom_left import BottomLeft, BottomLeftLayout
from nesting.lay import Placement
from nesting.problem import LayProblem

COARSE_ROWS, FINE_ROWS = 400, 800
"""Rows across the width: fine ones lose less (1 to 4 points of yield, measured), at four times the time."""

FINE_PIECES = 1000
"""Lays of up to this many pieces are laid in fine rows too; of more one takes a second."""

SLOPES = (0.03, 0.06, 0.0)
"""What a mm across the roll counts along it: pieces go to one edge rather than the other, so that what is
left open lies together. The first is the best on most shapes (measured; without, 0.5 points less)."""

WAYS_WORK = 12000
"""Pieces laid, over all ways tried: small lays try every way, those of thousands two."""


class Ways:
    """The layouts of one ``problem``; none is made before it is asked for, and none twice in coarse rows."""

    def __init__(self, problem: LayProblem) -> None:
        self.problem = problem
        self._laid: dict[int, BottomLeftLayout] = {}

    @property
    def shortest_mm(self) -> float:
        """Length of the shortest in coarse rows made so far; infinite while there is none."""
        return min((each.length_mm for each in self._laid.values()), default=float("inf"))

    def first(self) -> tuple[Placement, ...]:
        """Return the one that is there first; raises ProblemError when a piece fits no way."""
        return self._rows.placements(self._coarse(0))

    def coarse(self, workers: int) -> Iterator[tuple[Placement, ...]]:
        """Yield those in coarse rows, ``first`` first."""
        yield self.first()
        if any(item.turn_tolerance_deg for item in self.problem.items):
            yield self._leaning
        with ThreadPoolExecutor(max(1, workers)) as threads:
            for each in threads.map(self._coarse, self._tried[1:]):
                yield self._rows.placements(each)

    def shortest_order(self, workers: int) -> NDArray[np.int64]:
        """Return the items in the order of the shortest of all in coarse rows, each as often as laid."""
        with ThreadPoolExecutor(max(1, workers)) as threads:
            list(threads.map(self._coarse, self._tried))
        return self._orders[min(self._laid, key=lambda way: self._laid[way].length_mm)]

    def fine(self, workers: int) -> Iterator[tuple[Placement, ...]]:
        """Yield those in fine rows, the shortest in coarse rows first; none of long lays."""
        if len(self._orders[0]) > FINE_PIECES:
            return
        rows = BottomLeft(self.problem, FINE_ROWS)
        by_length = sorted(self._laid, key=lambda way: self._laid[way].length_mm)
        tries = chain(
            ((way, SLOPES[0]) for way in by_length), ((by_length[0], slope) for slope in SLOPES[1:])
        )
        with ThreadPoolExecutor(max(1, workers)) as threads:
            for each in threads.map(lambda at: rows.lay(self._orders[at[0]], at[1]), tries):
                yield rows.placements(each)

    @cached_property
    def _rows(self) -> BottomLeft:
        return BottomLeft(self.problem, COARSE_ROWS)

    @cached_property
    def _leaning(self) -> tuple[Placement, ...]:
        # a choice of more angles is not always the better choice: the shorter lay decides
        rows = BottomLeft(self.problem, COARSE_ROWS, leaning=True)
        return rows.placements(rows.lay(self._orders[0], SLOPES[0]))

    @cached_property
    def _orders(self) -> list[NDArray[np.int64]]:
        return [order_of(self._rows.demand, size) for size in sizes(self.problem)]

    @property
    def _tried(self) -> range:
        pieces = max(1, len(self._orders[0]))
        return range(max(2, min(len(self._orders), WAYS_WORK // (4 * pieces))))

    def _coarse(self, way: int) -> BottomLeftLayout:
        if way not in self._laid:
            self._laid[way] = self._rows.lay(self._orders[way], SLOPES[0])
        return self._laid[way]


def sizes(problem: LayProblem) -> tuple[NDArray[np.float64], ...]:
    """Return measures of the items' sizes by which the largest may be laid first."""
    box = np.array([item.outline.bbox_mm for item in problem.items])
    along, across = box[:, 2] - box[:, 0], box[:, 3] - box[:, 1]
    hull = np.array([item.outline.polygon.convex_hull.area for item in problem.items])
    area = np.array([item.outline.area_mm2 for item in problem.items])
    return hull, along, np.hypot(along, across) * np.sqrt(hull), across, area


def order_of(demand: list[int], size: NDArray[np.float64]) -> NDArray[np.int64]:
    """Return the items, each as often as it is asked for, the largest first."""
    largest_first = np.argsort(-size, kind="stable")
    return np.repeat(largest_first, np.array(demand, dtype=np.int64)[largest_first])
