"""Pieces laid one after the other, each as far back along the roll as it goes, also behind others.

The usable width is cut into rows. A piece (grown by half the gap) is known by the stretches of each row that
it covers, the lay by the stretches taken in each row. A piece is pushed along the roll exactly, since x is
not cut up: from a place in which it meets something it goes on to where that ends. Rows make a piece a little
larger, never smaller: the result keeps every gap. What fills up stays full, so the place found for a piece
is where the search for the next one like it begins, and only the most promising places are looked at: a lay
of a thousand pieces takes a tenth of a second. (Bottom-left filling: Baker, Coffman and Rivest 1980; the rest
is from memory.)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numba import njit
from numpy.typing import NDArray

from geometry.outline import rotation
from geometry.said import said
from nesting.contact.row_profiles import grown
from nesting.contact.row_spans import spans
from nesting.errors import ProblemError
from nesting.free.turns import granted_turns, turns_of
from nesting.lay import Placement
from nesting.problem import LayProblem
from nesting.tolerances import SPARE_MM

OPEN_ROWS = 1.0
"""Openings of a piece narrower than this many rows are taken for closed: nothing goes in."""

ROOM = 4.0
"""Room in a row for this many times the stretches it holds on average; more is made where it is needed."""

MANY_KINDS = 600
"""With more kinds of piece than this (items by their turns) ..."""

LOOK_BACK = 3.0
"""... a kind laid for the first time looks back along the lay this many widths of the roll only."""


@dataclass(frozen=True)
class BottomLeftLayout:
    """A layout: kind, lower row and x of each piece in the order of laying, and its length (rows' own)."""

    kind: NDArray[np.int64]
    row: NDArray[np.int64]
    x: NDArray[np.float64]
    length_mm: float


class Kinds(NamedTuple):
    """Items cut into rows.

    A kind is an item in one of its turns: item i has the kinds first[i] to last[i]. Kind k is height[k] rows
    high and covers the stretches first_span[k] to last_span[k], each in a ``row`` of the kind from ``left``
    to ``right`` (mm).
    """

    first: NDArray[np.int64]
    last: NDArray[np.int64]
    height: NDArray[np.int64]
    first_span: NDArray[np.int64]
    last_span: NDArray[np.int64]
    row: NDArray[np.int64]
    left: NDArray[np.float64]
    right: NDArray[np.float64]


class Taken(NamedTuple):
    """Stretches taken of each row of the roll: the first ``held`` of ``start`` and ``end`` (mm)."""

    start: NDArray[np.float64]
    end: NDArray[np.float64]
    held: NDArray[np.int64]


class BottomLeft:
    """The items of a problem cut into rows, to be laid in any order."""

    def __init__(self, problem: LayProblem, rows: int, *, leaning: bool = False) -> None:
        """Raises ProblemError when a piece fits in no turn. ``leaning`` tries what angle is granted too."""
        self.problem = problem
        self._grow_mm = problem.gap_mm / 2.0 + SPARE_MM
        height = problem.roll.usable_width_mm - 2.0 * problem.edge_margin_mm + 2.0 * self._grow_mm
        if height <= 2.0 * self._grow_mm:
            raise ProblemError(
                "the margins leave nothing of the usable width", remedy="make the edge margin smaller"
            )
        self.rows, self.row_mm = rows, height / rows
        self._y_mm = problem.edge_margin_mm - self._grow_mm
        self._x_mm = problem.end_margin_mm - self._grow_mm
        self.demand = demand_left(problem)
        self._cut = self._kinds(leaning)
        self._taken = _taken(problem, self._grow_mm, self._y_mm, self.row_mm, rows)
        covered = sum(
            count * max(self._cut.last_span[first:last] - self._cut.first_span[first:last], default=0)
            for count, first, last in zip(self.demand, self._cut.first, self._cut.last, strict=True)
        )
        self._room = 64 + int(ROOM * covered / rows) + max((len(row) for row in self._taken), default=0)

    def lay(self, order: NDArray[np.int64], slope: float) -> BottomLeftLayout:
        """Lay items (by number) in this order; ``slope`` is what a mm across the roll counts along it."""
        look_back = math.inf
        if len(self._turn) > MANY_KINDS:
            look_back = LOOK_BACK * self.problem.roll.usable_width_mm
        while True:
            start, end = np.empty((self.rows, self._room)), np.empty((self.rows, self._room))
            count = np.zeros(self.rows, dtype=np.int64)
            for row, taken in enumerate(self._taken):
                count[row] = len(taken)
                for k, (left, right) in enumerate(taken):
                    start[row, k], end[row, k] = left, right
            kind, row, x, length, full = laid_in_order(
                order, self._cut, self._x_mm, slope * self.row_mm, look_back, Taken(start, end, count)
            )
            if not full:
                return BottomLeftLayout(kind, row, x, float(length))
            self._room *= 2

    def placements(self, laid: BottomLeftLayout) -> tuple[Placement, ...]:
        """Return a layout as placements, the pinned pieces first."""
        pinned = tuple(replace(pin, pinned=True) for pin in self.problem.pinned)
        return pinned + tuple(
            Placement(
                self.problem.items[self._item[kind]].id,
                self._turn[kind],
                float(x + self._corner[kind][0]),
                float(self._y_mm + row * self.row_mm + self._corner[kind][1]),
            )
            for kind, row, x in zip(laid.kind, laid.row, laid.x, strict=True)
        )

    def _kinds(self, leaning: bool) -> Kinds:
        """Cut every item at its turns; those granted about them too when it fits in no other."""
        self._item: list[int] = []
        self._turn: list[float] = []
        self._corner: list[tuple[float, float]] = []
        first, last, height, first_span, last_span = [], [], [], [], []
        cut: list[tuple[NDArray[np.int64], NDArray[np.float64], NDArray[np.float64]]] = []
        spans_so_far = 0
        for number, item in enumerate(self.problem.items):
            first.append(len(self._turn))
            granted = granted_turns(item) or turns_of(item)
            for turns in (granted,) if leaning else (turns_of(item), granted):
                for turn in turns if self.demand[number] else ():
                    ring = grown(item.outline.ring_mm @ rotation(turn).T, self._grow_mm)
                    low = ring.min(axis=0)
                    each = spans(ring - low, self.row_mm, OPEN_ROWS * self.row_mm)
                    if each[0][-1] >= self.rows:
                        continue
                    cut.append(each)
                    first_span.append(spans_so_far)
                    spans_so_far += len(each[0])
                    last_span.append(spans_so_far)
                    height.append(int(each[0][-1]) + 1)
                    self._item.append(number)
                    self._turn.append(turn)
                    self._corner.append((-float(low[0]), -float(low[1])))
                if len(self._turn) > first[-1]:
                    break
            if len(self._turn) == first[-1] and self.demand[number]:
                raise ProblemError(
                    said(
                        "is wider than the roll's {0} mm less the margins in every turn allowed",
                        f"{self.problem.roll.usable_width_mm:g}",
                    ),
                    remedy="use a wider roll or allow another turn",
                    piece=item.id,
                )
            last.append(len(self._turn))
        cut = cut or [(np.zeros(0, dtype=np.int64), np.zeros(0), np.zeros(0))]
        return Kinds(
            first=np.array(first, dtype=np.int64),
            last=np.array(last, dtype=np.int64),
            height=np.array(height, dtype=np.int64),
            first_span=np.array(first_span, dtype=np.int64),
            last_span=np.array(last_span, dtype=np.int64),
            row=np.concatenate([rows for rows, _, _ in cut]),
            left=np.concatenate([left for _, left, _ in cut]),
            right=np.concatenate([right for _, _, right in cut]),
        )


def demand_left(problem: LayProblem) -> list[int]:
    """Return how many pieces of each item are asked for besides the pinned ones."""
    pinned: dict[str, int] = {}
    for pin in problem.pinned:
        pinned[pin.item_id] = pinned.get(pin.item_id, 0) + 1
    return [max(0, item.demand - pinned.get(item.id, 0)) for item in problem.items]


def _taken(
    problem: LayProblem, grow_mm: float, y_mm: float, row_mm: float, rows: int
) -> list[list[tuple[float, float]]]:
    """Return what pinned pieces and flaws take of each row, from left to right."""
    found: list[list[tuple[float, float]]] = [[] for _ in range(rows)]
    rings = [grown(pin.place(problem.by_id[pin.item_id].outline).ring_mm, grow_mm) for pin in problem.pinned]
    rings += [np.asarray(flaw.ring_mm, dtype=np.float64) for flaw in problem.roll.flaws]
    for ring in rings:
        for row, left, right in zip(*spans(ring - (0.0, y_mm), row_mm, row_mm), strict=True):
            if 0 <= row < rows:
                found[row].append((float(left), float(right)))
    return [_joined(row) for row in found]


def _joined(stretches: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    joined: list[tuple[float, float]] = []
    for left, right in sorted(stretches):
        if joined and left <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], right))
        else:
            joined.append((left, right))
    return joined


# ------------------------------------------------------------------ compiled

NEAR_MM = 1e-9
"""Stretches that overlap by less touch: rounding."""


@njit(cache=True, nogil=True)
def _settled(taken, cut, kind, row, x):
    """The least x from ``x`` on at which a kind lies free with its lowest row on ``row``."""
    start, end, count = taken
    first, last = cut.first_span[kind], cut.last_span[kind]
    free, i = 0, first
    while free < last - first:
        at = row + cut.row[i]
        left = x + cut.left[i]
        low, high = 0, count[at]
        while low < high:  # the first stretch that ends behind the span's start
            middle = (low + high) // 2
            if end[at, middle] > left + NEAR_MM:
                high = middle
            else:
                low = middle + 1
        if low < count[at] and start[at, low] < x + cut.right[i] - NEAR_MM:
            wide = cut.right[i] - cut.left[i]
            while low + 1 < count[at] and start[at, low + 1] - end[at, low] < wide - NEAR_MM:
                low += 1
            x = end[at, low] - cut.left[i]
            free = 0
        else:
            free += 1
        i += 1
        if i == last:
            i = first
    return x


@njit(cache=True, nogil=True)
def laid_in_order(order, cut, x_mm, slope, look_back, taken):
    """Lay the items of ``order`` (numbers), cut into rows as ``Kinds``, where they cost least: x of their
    end and ``slope`` for every row above the lowest. They begin at ``x_mm``, and a kind seen for the first
    time not further back than ``look_back`` from the end so far. ``taken`` grows in place.

    Returns kind, row and x of each, the length, and whether a row had no room left for another stretch.
    """
    start, end, count = taken
    height, first_span, last_span = cut.height, cut.first_span, cut.last_span
    rows = len(count)
    least = np.empty((len(height), rows))  # no piece of this kind lies free before this x
    reach = np.empty(len(height))
    for kind in range(len(height)):
        reach[kind] = cut.right[first_span[kind] : last_span[kind]].max()
    seen = np.zeros(len(height), dtype=np.bool_)
    kinds = np.empty(len(order), dtype=np.int64)
    at_row = np.empty(len(order), dtype=np.int64)
    at_x = np.empty(len(order))
    length = 0.0
    for number in range(len(order)):
        item = order[number]
        best, best_kind, best_row, best_x = np.inf, -1, -1, 0.0
        for kind in range(cut.first[item], cut.last[item]):
            if not seen[kind]:
                seen[kind] = True
                least[kind] = (
                    max(x_mm, length - look_back) - cut.left[first_span[kind] : last_span[kind]].min()
                )
            while True:
                promised, row = np.inf, -1
                for place in range(rows - height[kind] + 1):
                    cost = least[kind, place] + slope * place
                    if cost < promised:
                        promised, row = cost, place
                promised += reach[kind]
                if row < 0 or promised >= best - NEAR_MM:
                    break
                x = _settled(taken, cut, kind, row, least[kind, row])
                least[kind, row] = x
                cost = x + slope * row + reach[kind]
                if cost < best:
                    best, best_kind, best_row, best_x = cost, kind, row, x
        kinds[number], at_row[number], at_x[number] = best_kind, best_row, best_x
        length = max(length, best_x + reach[best_kind])
        for i in range(first_span[best_kind], last_span[best_kind]):
            row = best_row + cut.row[i]
            held = count[row]
            if held == start.shape[1]:
                return kinds, at_row, at_x, length, True
            left = best_x + cut.left[i]
            while held > 0 and start[row, held - 1] > left:
                start[row, held], end[row, held] = start[row, held - 1], end[row, held - 1]
                held -= 1
            start[row, held], end[row, held] = left, best_x + cut.right[i]
            count[row] += 1
    return kinds, at_row, at_x, length, False
