"""A layout at once, to work with until a better one is found.

The usable width is cut into rows. A piece (grown by half the gap) is known by the leftmost and
rightmost point of its outline in each row; the lay by a front, the furthest point taken in each
row. A piece is pushed against the front from the right, exactly, since x is not cut up; the next
piece is the one that wastes least behind it for its size. Rows make a piece a little larger,
never smaller: the result keeps every gap. Large demands are laid as equal sections repeated.
Flaws and pinned pieces are stepped over.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.outline import rotation
from geometry.said import said
from nesting.contact.row_profiles import Block, RowField, blocks_of, grown, profile, stepped_over
from nesting.errors import ProblemError
from nesting.free.general_solver import granted_turns
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.listen import Listener, Phase, PhaseCode, Silent
from nesting.problem import LayProblem
from nesting.stop import Never, Stop
from nesting.tolerances import SPARE_MM

ROWS = 400
"""Rows across the width on small lays: a piece of shoe size spans twenty or more."""

SECTION_PIECES = (80, 260)
"""Larger demands are laid as equal sections of at least and at most so many pieces."""

ACTIVE_WORK = 4e5
"""Kinds of piece looked at per step, times steps: keeps 6,000 different pieces within seconds."""

FREE_TURNS_DEG = (0.0, 90.0, 180.0, 270.0)
"""Turns tried for a piece that may be turned freely, besides those that make it narrowest."""

WEIGHTS = ((1.2, 2.5), (1.5, 4.0), (1.0, 1.5), (1.2, 8.0), (2.0, 1.5), (1.0, 1.0), (1.5, 1.5), (2.0, 4.0))
"""Ways to judge the next piece: (power of its area, weight of how far it reaches). The shortest
lay of all is kept. Found by trial on invented shoe pieces and textile shapes."""

LEANING = 5
"""Turns looked at for each one allowed where an angle is granted (``granted_turns``)."""

WAYS_WORK = 600
"""Pieces laid, over all ways tried: small lays try every way, large ones two."""


@dataclass(frozen=True)
class _Kind:
    """An item at one turn: ``left``/``right`` (rows) relative to its corner, ``corner`` of the item's
    origin relative to the lower left corner of the grown piece."""

    item: int
    turn_deg: float
    left: NDArray[np.float64]
    right: NDArray[np.float64]
    corner: tuple[float, float]
    area_mm2: float

    @property
    def rows(self) -> int:
        return len(self.left)


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 1,
    work: int | None = None,
) -> Lay:
    """Return a lay of ``problem``: the same for every seed, on one processor, by the work it takes.

    Raises ProblemError when a piece fits no way.
    """
    stop, listener = stop or Never(), listener or Silent()
    listener.phase(Phase(PhaseCode.FIRST_LAYOUT))
    grow = problem.gap_mm / 2.0 + SPARE_MM
    demand = _demand_left(problem)
    total = sum(demand)
    field = _field(problem, grow, total)
    kinds = _kinds(problem, field, grow, demand)
    leaning = any(item.turn_tolerance_deg for item in problem.items)
    blocks = blocks_of(problem, field, grow)
    best: Lay | None = None
    ways = [(kinds, weights) for weights in WEIGHTS[: max(2, WAYS_WORK // max(1, total))]]
    if leaning:  # a choice of more angles is not always the better choice: the shorter lay decides
        kinds = _kinds(problem, field, grow, demand, leaning=True)
        ways += [(kinds, weights) for weights in WEIGHTS[: max(1, WAYS_WORK // (LEANING * max(1, total)))]]
    pinned = tuple(replace(pin, pinned=True) for pin in problem.pinned)
    for kinds, weights in ways:
        placements = pinned + _lay_out(field, kinds, blocks, demand, weights, problem.items)
        lay = Lay(
            placements, problem.length_of_mm(placements), engine="first layout", seed=seed, stopped="finished"
        )
        if best is None or lay.length_mm < best.length_mm:
            best = lay
            listener.better(lay)
        if stop():
            break
    assert best is not None
    return best


def turns_of(item: Item) -> tuple[float, ...]:
    """Return the turns an engine without free rotation tries for an item."""
    if item.turns_deg is not None:
        return item.turns_deg
    box = np.asarray(shapely.minimum_rotated_rectangle(item.outline.polygon).exterior.coords)
    sides = np.diff(box[:3], axis=0)
    angle = float(np.degrees(np.arctan2(*sides[0][::-1])))
    lying = tuple((quarter - angle) % 360.0 for quarter in FREE_TURNS_DEG)
    return tuple(dict.fromkeys(FREE_TURNS_DEG + lying))


def _demand_left(problem: LayProblem) -> list[int]:
    pinned: dict[str, int] = {}
    for pin in problem.pinned:
        pinned[pin.item_id] = pinned.get(pin.item_id, 0) + 1
    return [max(0, item.demand - pinned.get(item.id, 0)) for item in problem.items]


def _field(problem: LayProblem, grow: float, total: int) -> RowField:
    height = problem.roll.usable_width_mm - 2.0 * problem.edge_margin_mm + 2.0 * grow
    if height <= 2.0 * grow:
        raise ProblemError(
            "the margins leave nothing of the usable width", remedy="make the edge margin smaller"
        )
    rows = ROWS if total <= 1500 else ROWS // 2
    return RowField(problem.edge_margin_mm - grow, height / rows, rows, problem.end_margin_mm - grow)


def _kinds(
    problem: LayProblem, field: RowField, grow: float, demand: Sequence[int], *, leaning: bool = False
) -> list[_Kind]:
    """Every item at its turns, those it is granted about them too when ``leaning`` or when it fits in no
    other."""
    kinds: list[_Kind] = []
    for number, item in enumerate(problem.items):
        if not demand[number]:
            continue
        before = len(kinds)
        leaning_turns = granted_turns(item) or turns_of(item)
        for turns in (leaning_turns,) if leaning else (turns_of(item), leaning_turns):
            for turn in turns:
                ring = grown(item.outline.ring_mm @ rotation(turn).T, grow)
                low = ring.min(axis=0)
                left, right = profile(ring - low, field.row_mm)
                if len(left) > field.rows:
                    continue
                kinds.append(_Kind(number, turn, left, right, (-low[0], -low[1]), item.outline.area_mm2))
            if len(kinds) > before:
                break
        if len(kinds) == before:
            raise ProblemError(
                said(
                    "is wider than the roll's {0} mm less the margins in every turn allowed",
                    f"{problem.roll.usable_width_mm:g}",
                ),
                remedy="use a wider roll or allow another turn",
                piece=item.id,
            )
    return kinds


# ------------------------------------------------------------------ pushing pieces against the front


@dataclass
class _Found:
    """The best place of each kind of one height: lower row, x, what it costs."""

    numbers: list[int]
    left: NDArray[np.float64]
    right: NDArray[np.float64]
    x: NDArray[np.float64]
    waste: NDArray[np.float64]


class _Front:
    """The furthest point taken in each row, and where each active kind would lie against it."""

    def __init__(self, field: RowField, blocks: list[Block]) -> None:
        self.field = field
        self.blocks = blocks
        self.x = np.full(field.rows, field.x_mm)
        self.found: dict[int, _Found] = {}

    def watch(self, kinds: Sequence[_Kind], numbers: Sequence[int]) -> None:
        """Look at these kinds (of ``kinds``) from now on."""
        by_rows: dict[int, list[int]] = {}
        for number in numbers:
            by_rows.setdefault(kinds[number].rows, []).append(number)
        self.found = {}
        for rows, group in by_rows.items():
            places = self.field.rows - rows + 1
            empty = np.zeros((len(group), places))
            left = np.array([kinds[n].left for n in group])
            right = np.array([kinds[n].right for n in group])
            self.found[rows] = _Found(group, left, right, empty, empty.copy())
        self._look(0, self.field.rows)

    def drop(self, gone: set[int]) -> None:
        """Stop looking at these kinds."""
        for rows, found in list(self.found.items()):
            keep = [i for i, n in enumerate(found.numbers) if n not in gone]
            if len(keep) == len(found.numbers):
                continue
            if not keep:
                del self.found[rows]
                continue
            self.found[rows] = _Found(
                [found.numbers[i] for i in keep],
                *(a[keep] for a in (found.left, found.right, found.x, found.waste)),
            )

    def take(self, row: int, x: float, right: NDArray[np.float64]) -> None:
        """A piece now lies there."""
        rows = slice(row, row + len(right))
        self.x[rows] = np.maximum(self.x[rows], x + right)
        self._look(row, row + len(right))

    def _look(self, low: int, high: int) -> None:
        for rows, found in self.found.items():
            first, last = max(0, low - rows + 1), min(high, self.field.rows - rows + 1)
            if first >= last:
                continue
            window = np.lib.stride_tricks.sliding_window_view(self.x[first : last + rows - 1], rows)
            x = (window[None, :, :] - found.left[:, None, :]).max(axis=2)
            if self.blocks:
                for i in range(len(x)):
                    x[i] = stepped_over(x[i], first, found.left[i], found.right[i], self.blocks)
            behind = x * rows + found.left.sum(axis=1)[:, None] - window.sum(axis=1)[None, :]
            found.x[:, first:last] = x
            found.waste[:, first:last] = behind * self.field.row_mm

    def best(self, kinds: Sequence[_Kind], weights: tuple[float, float]) -> tuple[int, int, float]:
        """Return (kind, lower row, x) of the piece that wastes least for its size."""
        power, reach = weights
        low = float(self.x.min())
        best = (math.inf, -1, -1, 0.0)
        for rows, found in self.found.items():
            area = np.array([kinds[n].area_mm2 for n in found.numbers])
            middle = found.x + ((found.left + found.right).mean(axis=1) / 2.0)[:, None]
            cost = (found.waste + reach * rows * self.field.row_mm * (middle - low)) / (area**power)[:, None]
            at = int(np.argmin(cost))
            i, row = divmod(at, cost.shape[1])
            if cost[i, row] < best[0]:
                best = (float(cost[i, row]), found.numbers[i], row, float(found.x[i, row]))
        return best[1:]


def _lay_out(
    field: RowField,
    kinds: list[_Kind],
    blocks: list[Block],
    demand: Sequence[int],
    weights: tuple[float, float],
    items: Sequence[Item],
) -> tuple[Placement, ...]:
    front = _Front(field, blocks)
    placed: list[tuple[int, int, float]] = []
    left_over = list(demand)
    while (sections := equal_sections(left_over)) > 1:
        each = [count // sections for count in left_over]
        placed += _repeated(front, kinds, _filled(_Front(field, []), kinds, each, weights), sections)
        left_over = [count - sections * one for count, one in zip(left_over, each, strict=True)]
    placed += _filled(front, kinds, left_over, weights)
    return tuple(
        Placement(
            items[kinds[number].item].id,
            kinds[number].turn_deg,
            float(x + kinds[number].corner[0]),
            float(field.y_mm + row * field.row_mm + kinds[number].corner[1]),
        )
        for number, row, x in placed
    )


def equal_sections(demand: Sequence[int]) -> int:
    """Return into how many equal sections a demand is best split: the fewest pieces left over."""
    total = sum(demand)
    low, high = SECTION_PIECES
    best = (math.inf, 1)
    for sections in range(max(2, math.ceil(total / high)), total // low + 1):
        left_over = sum(count % sections for count in demand)
        if total - left_over >= sections * low:
            best = min(best, (left_over, sections))
    return best[1]


def _repeated(
    front: _Front, kinds: Sequence[_Kind], section: Sequence[tuple[int, int, float]], times: int
) -> list[tuple[int, int, float]]:
    """Push a section against the front ``times`` times, as if it were one piece."""
    low = np.full(front.field.rows, np.inf)
    high = np.full(front.field.rows, -np.inf)
    for number, row, x in section:
        rows = slice(row, row + kinds[number].rows)
        low[rows] = np.minimum(low[rows], x + kinds[number].left)
        high[rows] = np.maximum(high[rows], x + kinds[number].right)
    placed = []
    for _ in range(times):
        move = np.array([float((front.x - low).max())])
        if front.blocks:
            reach = np.isfinite(low)
            ends = np.where(reach, low, low[reach].min()), np.where(reach, high, low[reach].min())
            move = stepped_over(move, 0, *ends, front.blocks)
        placed += [(number, row, x + float(move[0])) for number, row, x in section]
        front.take(0, float(move[0]), high)
    return placed


def _filled(
    front: _Front, kinds: list[_Kind], demand: Sequence[int], weights: tuple[float, float]
) -> list[tuple[int, int, float]]:
    """Return (kind, lower row, x) of every piece of ``demand``, pushed against the front in turn."""
    left = list(demand)
    total = sum(left)
    active = max(8, int(ACTIVE_WORK / max(1, total) ** 1.5))
    waiting = sorted((n for n, kind in enumerate(kinds) if left[kind.item]), key=lambda n: -kinds[n].area_mm2)
    watched = waiting[:active]
    waiting = waiting[active:]
    front.watch(kinds, watched)
    placed = []
    for _ in range(total):
        number, row, x = front.best(kinds, weights)
        kind = kinds[number]
        left[kind.item] -= 1
        placed.append((number, row, x))
        if left[kind.item] == 0:
            gone = {n for n in watched if kinds[n].item == kind.item}
            waiting = [n for n in waiting if kinds[n].item != kind.item]
            watched = [n for n in watched if n not in gone]
            front.drop(gone)
            if waiting:
                watched, waiting = watched + waiting[: len(gone)], waiting[len(gone) :]
                front.take(row, x, kind.right)
                front.watch(kinds, watched)
                continue
        front.take(row, x, kind.right)
    return placed
