"""Which lays meet an order: sets per size and plies of each lay, at the least cost.

A lay holds ``sets`` of each size and is spread in ``layers`` (single plies face up, or pairs of
plies face to face), so it cuts ``sets * layers`` pairs of that size. The length of a lay is taken
as affine here, ``start_mm + sum(sets * length_mm)``; ``run_plan`` replaces the estimate by nested
lengths and asks again.

The search is exact while the layer numbers can be listed: for every number of lays and every
choice of layers a bound is computed (the cheapest cover of each size on its own, an unbounded
knapsack), and the choices whose bound beats the best plan are solved as integer programs in the
order of their bounds. What was not looked at is covered by a bound that is reported.

Source of the problem: cut order planning as in Degraeve & Vandebroek 1998 (Management Science)
and Jacobs-Blecha et al. 1998 (IIE Transactions), both from their abstracts; template design,
CSPLib problem 002. The method is our own.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from geometry.said import said
from nesting.errors import PlanError
from nesting.planning.cut_sets import CutCosts, CutLay, CutLimits, CutPlan, Question, cost_in, solve_layers
from nesting.stop import Never, Stop

_CHUNK = 60_000
"""Layer choices looked at together: a few tens of megabytes for the largest demand."""

_LISTED = 3
"""Lays up to which every choice of layers is listed; beyond, only improving splits are tried."""


def plan_cut(
    demand: dict[str, int],
    length_mm: dict[str, float],
    limits: CutLimits,
    costs: CutCosts,
    *,
    start_mm: float = 0.0,
    stop: Stop | None = None,
) -> CutPlan:
    """Return the cheapest lays found and a bound on the cost of any.

    ``demand`` pairs by size; ``length_mm`` what one set of a size adds to a lay's length;
    ``start_mm`` what a lay takes besides. Raises PlanError when no set fits on the table.
    """
    stop = stop or Never()
    wanted = {size: pairs for size, pairs in demand.items() if pairs > 0}
    if not wanted:
        raise PlanError("the order contains no pairs", remedy="give pairs for at least one size")
    for size in wanted:
        if start_mm + length_mm[size] > limits.max_length_mm:
            raise PlanError(
                said(
                    "one set of size {0} takes {1} mm, the table allows {2} mm",
                    size,
                    f"{start_mm + length_mm[size]:.0f}",
                    f"{limits.max_length_mm:.0f}",
                ),
                remedy="take a longer table or wider cloth",
            )
    question = _question(wanted, length_mm, start_mm, limits, costs)
    best = _one_size_a_lay(question)
    bound = np.inf
    unlisted = _LISTED
    for count in range(1, min(_LISTED, limits.max_lays) + 1):
        if _floor(question, count) >= best.cost:
            unlisted = count - 1
            break
        best, low = _search(question, count, best, stop)
        bound = min(bound, low)
        if stop():
            unlisted = count
            break
    if best.lays and not stop():
        best = _split_and_merge(question, best, stop)
    bound = min(bound, _floor(question, unlisted + 1), best.cost)
    lays = sorted(best.lays, key=lambda lay: (-lay.layers, lay.sets))
    full = [_spread(lay, demand, wanted) for lay in lays]
    return CutPlan(tuple(full), best.cost, bound)


def _question(
    wanted: dict[str, int],
    length_mm: dict[str, float],
    start_mm: float,
    limits: CutLimits,
    costs: CutCosts,
) -> Question:
    pairs = np.array(list(wanted.values()), dtype=np.int64)
    if limits.overcut is None:
        most = pairs + limits.max_layers - 1
    else:
        most = pairs + np.maximum(np.floor(pairs * limits.overcut).astype(np.int64), limits.overcut_pairs)
    lengths = np.array([length_mm[size] for size in wanted], dtype=np.float64)
    return Question(pairs, most, lengths, start_mm, limits, costs)


def _spread(lay: CutLay, demand: dict[str, int], wanted: dict[str, int]) -> CutLay:
    by_size = dict(zip(wanted, lay.sets, strict=True))
    return CutLay(tuple(by_size.get(size, 0) for size in demand), lay.layers)


def _floor(question: Question, count: int) -> float:
    """Return a cost that no plan of ``count`` or more lays can beat."""
    most = question.limits.max_layers
    metres = float(np.dot(question.demand, question.length_mm)) / 1000.0
    layers = question.costs.per_layer + question.costs.per_layer_m * question.start_mm / 1000.0
    need = max(count, np.ceil(metres * 1000.0 / question.room_mm))
    each = question.costs.per_layer_m + question.costs.per_lay_m / most
    return float(count * question.costs.per_lay + need * layers + metres * each)


def _layer_choices(question: Question, count: int) -> Iterator[NDArray[np.int64]]:
    """List non-increasing layers of ``count`` lays that can hold the order, in chunks."""
    most = question.limits.max_layers
    need = float(np.dot(question.demand, question.length_mm)) / question.room_mm
    if question.limits.max_sets:
        need = max(need, question.demand.sum() / question.limits.max_sets)
    rows: list[NDArray[np.int64]] = []
    held = 0
    for first in range(most, 0, -1):
        if first * count < need:
            break
        rest = [np.arange(1, first + 1)] * (count - 1)
        grid = np.stack(np.meshgrid(*rest, indexing="ij"), -1).reshape(-1, count - 1) if rest else None
        if grid is None:
            chunk = np.array([[first]])
        else:
            grid = grid[(np.diff(grid, axis=1) <= 0).all(axis=1)]
            chunk = np.concatenate([np.full((len(grid), 1), first), grid], axis=1)
        chunk = chunk[chunk.sum(axis=1) >= need - 1e-9]
        rows.append(chunk)
        held += len(chunk)
        if held > _CHUNK:
            yield np.concatenate(rows)
            rows, held = [], 0
    if held:
        yield np.concatenate(rows)


def _search(question: Question, count: int, best: CutPlan, stop: Stop) -> tuple[CutPlan, float]:
    """Return the best plan of ``count`` lays (or ``best``) and a bound on all such plans."""
    open_bounds: list[NDArray[np.float64]] = []
    open_layers: list[NDArray[np.int64]] = []
    low = np.inf
    for chunk in _layer_choices(question, count):
        rough = _rough_bound(question, chunk)
        chunk = chunk[rough < best.cost]
        for part in np.array_split(chunk, max(1, len(chunk) // _CHUNK)):
            if not len(part):
                continue
            if stop():
                low = min(low, float(_rough_bound(question, part).min()))
                continue
            bounds = _cover_bound(question, part)
            keep = bounds < best.cost
            open_bounds.append(bounds[keep])
            open_layers.append(part[keep])
    if not open_bounds:
        return best, low
    bounds, layers = np.concatenate(open_bounds), np.concatenate(open_layers)
    order = np.argsort(bounds, kind="stable")
    for place in order:
        if bounds[place] >= best.cost - 1e-9:
            return best, min(low, best.cost)
        if stop():
            return best, min(low, float(bounds[place]))
        solved = solve_layers(question, layers[place], best.cost - 1e-9, stop)
        best = solved.plan or best
        low = min(low, max(solved.bound, float(bounds[place])))
    return best, min(low, best.cost)


def _rough_bound(question: Question, layers: NDArray[np.int64]) -> NDArray[np.float64]:
    metres = float(np.dot(question.demand, question.length_mm)) / 1000.0
    cheapest = (question.metre_cost(layers) / layers).min(axis=1)
    return question.lay_cost(layers).sum(axis=1) + metres * cheapest


def _cover_bound(question: Question, layers: NDArray[np.int64]) -> NDArray[np.float64]:
    """Bound each choice of layers by covering every size on its own; inf where it cannot be.

    ``cheap[v]`` is the least cost per metre of set length of cutting exactly v pairs of a size.
    """
    spare_mm = float(layers.sum(axis=1).max()) * question.room_mm - float(
        np.dot(question.demand, question.length_mm)
    )
    room_for = question.demand + np.floor(spare_mm / question.length_mm + 1e-9).astype(np.int64)
    top = int(np.minimum(question.most, room_for).max())
    number = len(layers)
    cheap = np.full((top + 1, number), np.inf)
    cheap[0] = 0.0
    unit = question.metre_cost(layers)
    columns = np.arange(number)
    for value in range(1, top + 1):
        for j in range(layers.shape[1]):
            before = value - layers[:, j]
            ok = before >= 0
            cost = np.where(ok, cheap[np.maximum(before, 0), columns] + unit[:, j], np.inf)
            np.minimum(cheap[value], cost, out=cheap[value])
    bounds = question.lay_cost(layers).sum(axis=1)
    held = np.zeros(number)
    for pairs, most, length in zip(question.demand, question.most, question.length_mm, strict=True):
        window = cheap[pairs : most + 1]
        bounds = bounds + window.min(axis=0) * length / 1000.0
        reached = np.isfinite(window)
        first = np.where(reached.any(axis=0), pairs + reached.argmax(axis=0), np.inf)
        held = held + first * length
    bounds[held > layers.sum(axis=1) * question.room_mm + 1e-6] = np.inf
    return bounds


def _one_size_a_lay(question: Question) -> CutPlan:
    """Return the plain plan that always exists: each size in lays of its own."""
    lays: list[CutLay] = []
    size_count = len(question.demand)
    for i, (pairs, length) in enumerate(zip(question.demand, question.length_mm, strict=True)):
        fits = max(1, int(question.room_mm // length))
        if question.limits.max_sets:
            fits = min(fits, question.limits.max_sets)
        left = int(pairs)
        while left > 0:
            sets = min(fits, max(1, -(-left // question.limits.max_layers)))
            layers = min(question.limits.max_layers, left // sets)
            lays.append(CutLay(tuple(sets if k == i else 0 for k in range(size_count)), layers))
            left -= sets * layers
    plan = tuple(lays)
    return CutPlan(plan, cost_in(question, plan), -np.inf)


def _split_and_merge(question: Question, best: CutPlan, stop: Stop) -> CutPlan:
    """Improve plans of more lays than are listed: change one lay's layers, add or drop a lay."""
    improved = True
    while improved and not stop():
        improved = False
        layers = [lay.layers for lay in best.lays]
        for trial in _neighbours(layers, question.limits):
            if stop():
                break
            choice = np.array(trial)
            if float(_rough_bound(question, choice[None, :])[0]) >= best.cost:
                continue
            found = solve_layers(question, choice, best.cost - 1e-9, stop).plan
            if found is not None:
                best, improved = found, True
                break
    return best


def _neighbours(layers: list[int], limits: CutLimits) -> Iterator[list[int]]:
    for j in range(len(layers)):
        if len(layers) > 1:
            yield layers[:j] + layers[j + 1 :]
    for j in range(len(layers)):
        for change in (-1, 1, -2, 2, -5, 5, -10, 10):
            if 1 <= layers[j] + change <= limits.max_layers:
                yield layers[:j] + [layers[j] + change] + layers[j + 1 :]
    if len(layers) < limits.max_lays:
        for extra in sorted({1, 2, 3, 5, limits.max_layers // 2 or 1, limits.max_layers}):
            yield [*layers, min(extra, limits.max_layers)]
