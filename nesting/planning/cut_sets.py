"""The cheapest sets for lays whose layers are given: an integer program, by HiGHS.

``cut_order`` decides which layers are worth asking about.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

from nesting.defaults import MOST_LAYS
from nesting.stop import Stop

_CLOSE = 1e-6
"""Relative gap at which a choice of layers counts as solved; it stays in the bound that is told."""

_LISTED_WAYS = 3000
"""Ways to cut all sizes that are worth listing; above, whole numbers of sets are solved faster."""

_PATIENCE_S = 3.0
"""Longest a single choice of layers is worked on; what is left open stays in the bound."""


@dataclass(frozen=True)
class CutLimits:
    """What a lay may be.

    ``max_layers`` layers at the most (pairs of plies when face to face); ``max_length_mm`` of
    nested pieces on the table, end allowances already taken off; ``max_sets`` in one lay;
    ``overcut`` is the share of a size's pairs that may be cut too many (None = no limit), never
    less than ``overcut_pairs``; ``max_lays`` is how many lays the search tries (the plain plan of
    one size a lay may have more).
    """

    max_layers: int
    max_length_mm: float
    max_sets: int | None = None
    overcut: float | None = None
    overcut_pairs: int = 0
    max_lays: int = MOST_LAYS.value


@dataclass(frozen=True)
class CutCosts:
    """Cost rates in one currency unit: per lay, per layer, per layer-metre and per lay-metre.

    ``per_layer`` carries the end loss of a layer; ``per_layer_m`` cloth and spreading;
    ``per_lay_m`` cutting.
    """

    per_lay: float
    per_layer: float = 0.0
    per_layer_m: float = 0.0
    per_lay_m: float = 0.0


@dataclass(frozen=True)
class CutLay:
    """One lay: ``sets`` in the order of the demand, spread in ``layers``."""

    sets: tuple[int, ...]
    layers: int


@dataclass(frozen=True)
class CutPlan:
    """Lays that meet the demand; ``cost`` is reached, ``bound`` cannot be beaten."""

    lays: tuple[CutLay, ...]
    cost: float
    bound: float

    @property
    def gap(self) -> float:
        """Share of the cost that might still be saved."""
        return 0.0 if self.cost <= 0 else max(0.0, (self.cost - self.bound) / self.cost)

    @property
    def pairs(self) -> tuple[int, ...]:
        """Pairs cut of each size."""
        return tuple(
            sum(lay.sets[i] * lay.layers for lay in self.lays) for i in range(len(self.lays[0].sets))
        )


@dataclass(frozen=True)
class Solved:
    """The plan found for a choice of layers, and what no plan with these layers can beat."""

    plan: CutPlan | None
    bound: float


@dataclass(frozen=True)
class Question:
    demand: NDArray[np.int64]
    most: NDArray[np.int64]
    length_mm: NDArray[np.float64]
    start_mm: float
    limits: CutLimits
    costs: CutCosts

    def lay_cost(self, layers: NDArray[np.int64]) -> NDArray[np.floating]:
        """Cost of each lay before any set lies in it."""
        per_layer = self.costs.per_layer + self.costs.per_layer_m * self.start_mm / 1000.0
        return self.costs.per_lay + layers * per_layer + self.costs.per_lay_m * self.start_mm / 1000.0

    def metre_cost(self, layers: NDArray[np.int64]) -> NDArray[np.floating]:
        """Cost of a metre of lay in this many layers."""
        return layers * self.costs.per_layer_m + self.costs.per_lay_m

    @property
    def room_mm(self) -> float:
        return self.limits.max_length_mm - self.start_mm


def cost_of(
    lays: tuple[CutLay, ...], length_mm: tuple[float, ...], start_mm: float, costs: CutCosts
) -> float:
    """Return what lays cost at affine lengths."""
    total = 0.0
    for lay in lays:
        metres = (start_mm + float(np.dot(lay.sets, length_mm))) / 1000.0
        total += (
            costs.per_lay
            + lay.layers * (costs.per_layer + costs.per_layer_m * metres)
            + costs.per_lay_m * metres
        )
    return total


def cost_in(question: Question, lays: tuple[CutLay, ...]) -> float:
    return cost_of(lays, tuple(question.length_mm), question.start_mm, question.costs)


def solve_layers(question: Question, layers: NDArray[np.int64], below: float, stop: Stop) -> Solved:
    """Return the cheapest sets for given layers, if they cost less than ``below``.

    Where the ways to cover each size can be listed, one is chosen for each so that every lay keeps
    its length (a multiple-choice knapsack, whose relaxation is tight); else the sets themselves
    are the unknowns. Both by HiGHS.
    """
    ways = [_ways(question, i, layers) for i in range(len(question.demand))]
    if any(way is not None and not len(way) for way in ways):
        return Solved(None, np.inf)
    listed = [way for way in ways if way is not None]
    count = sum(len(way) for way in listed)
    if len(listed) < len(ways) or count > _LISTED_WAYS:
        owner, sets, pick = _set_columns(question, layers)
        upper = np.floor(question.most[owner] / (sets @ layers))
    else:
        owner = np.repeat(np.arange(len(ways)), [len(way) for way in listed])
        sets = np.concatenate(listed)
        rows = csr_matrix((np.ones(count), (owner, np.arange(count))))
        pick = LinearConstraint(rows, 1.0, 1.0)
        upper = np.ones(count)
    lengths = question.length_mm[owner][:, None] * sets
    constraints = [pick, LinearConstraint(lengths.T, -np.inf, question.room_mm + 1e-6)]
    if question.limits.max_sets:
        constraints.append(LinearConstraint(sets.T, -np.inf, question.limits.max_sets))
    cost = lengths @ question.metre_cost(layers) / 1000.0
    result = milp(
        cost,
        integrality=np.ones_like(cost),
        bounds=Bounds(0, upper),
        constraints=constraints,
        options={"mip_rel_gap": _CLOSE, "time_limit": min(_PATIENCE_S, max(0.05, stop.left_s))},
    )
    fixed = float(question.lay_cost(layers).sum())
    low = np.inf if result.status == 2 else fixed + (result.mip_dual_bound or 0.0)
    if result.x is None:
        return Solved(None, low)
    chosen = np.zeros((len(ways), len(layers)), dtype=int)
    for row in np.flatnonzero(result.x > 0.5):
        chosen[owner[row]] += sets[row] * round(result.x[row])
    plan = tuple(
        CutLay(tuple(int(n) for n in chosen[:, j]), int(layers[j]))
        for j in range(len(layers))
        if chosen[:, j].any()
    )
    reached = cost_in(question, plan)
    return Solved(CutPlan(plan, reached, -np.inf) if reached < below else None, low)


def _set_columns(
    question: Question, layers: NDArray[np.int64]
) -> tuple[NDArray[np.int64], NDArray[np.int64], LinearConstraint]:
    """Return one column a size and lay (a single set), and the rows that meet the demand."""
    sizes, lays = len(question.demand), len(layers)
    owner = np.repeat(np.arange(sizes), lays)
    sets = np.tile(np.eye(lays, dtype=np.int64), (sizes, 1))
    rows = csr_matrix((np.tile(layers, sizes).astype(float), (owner, np.arange(sizes * lays))))
    return owner, sets, LinearConstraint(rows, question.demand, question.most)


def _ways(question: Question, size: int, layers: NDArray[np.int64]) -> NDArray[np.int64] | None:
    """Return the ways (n, lays) to cut a size in these lays from which no set can be left out.

    None when there are too many to list.
    """
    need, most = int(question.demand[size]), int(question.most[size])
    room = int((question.room_mm + 1e-6) // question.length_mm[size])
    if question.limits.max_sets:
        room = min(room, question.limits.max_sets)
    ways = np.zeros((1, 0), dtype=np.int64)
    cut = np.zeros(1, dtype=np.int64)
    for j, deep in enumerate(layers):
        last = j == len(layers) - 1
        if last:
            each = np.maximum(0, -(-(need - cut) // deep))
            ways, cut = np.column_stack([ways, each]), cut + each * deep
            keep = (each <= room) & (cut <= most)
        else:
            tries = np.arange(min(room, -(-need // deep)) + 1)
            if len(ways) * len(tries) > 20 * _LISTED_WAYS:
                return None
            ways = np.column_stack([np.repeat(ways, len(tries), axis=0), np.tile(tries, len(ways))])
            cut = np.repeat(cut, len(tries)) + ways[:, -1] * deep
            keep = (cut <= most) & (cut + int(layers[j + 1 :].sum()) * room >= need)
        ways, cut = ways[keep], cut[keep]
    spare = np.where(ways > 0, cut[:, None] - layers[None, :], 0)
    return ways[(spare < need).all(axis=1)]
