"""A production run: which lays, how many plies, nested and verified, at the least cost.

Estimated lengths steer the choice of lays (``cut_order``); each chosen lay is nested; the nested
length corrects the estimate (``length_model``); the choice is made again until it stands.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Literal

from geometry.said import said
from nesting.defaults import END_LOSS_MM, OVERCUT_PAIRS, OVERCUT_SHARE, PLAN_SECONDS
from nesting.errors import PlanError
from nesting.lay import Lay
from nesting.planning.cut_order import plan_cut
from nesting.planning.cut_sets import CutCosts, CutLay, CutLimits, CutPlan
from nesting.planning.length_model import LengthModel
from nesting.planning.run_bound import BareLengths, run_bound
from nesting.stop import Never, Share, Stop

Mode = Literal["face-up", "face-to-face"]

ROUNDS = 6
"""Times that lays are chosen again from corrected lengths before the best so far is kept."""

WORTH = 0.002
"""A promised saving smaller than this share of the cost is not worth nesting other lays for."""

SEARCH_SHARE = 0.45
"""Share of the time spent on choosing lays at the most; the rest improves the lays of the plan chosen."""


CHOICE_S = 2.0
"""Least time for a choice of lays."""

BOUND_S = 10.0
"""Longest that the bound on the cost is worked on; then it is looser, and as true."""


@dataclass(frozen=True)
class CuttingTable:
    """Where the run is cut.

    ``length_mm`` of the table; ``end_loss_mm`` is cloth lost at *each* end of every ply (its default
    and source stand in ``nesting.defaults``; a setting). ``max_plies`` at the most.
    """

    length_mm: float
    max_plies: int
    end_loss_mm: float = END_LOSS_MM.value

    @property
    def room_mm(self) -> float:
        """Longest lay: the table less the ends."""
        return self.length_mm - 2.0 * self.end_loss_mm


@dataclass(frozen=True)
class Rates:
    """What things cost, in one currency."""

    cloth_per_m: Decimal
    per_lay: Decimal = Decimal("0")
    spread_per_ply_m: Decimal = Decimal("0")
    cut_per_lay_m: Decimal = Decimal("0")


@dataclass(frozen=True)
class RunLay:
    """One lay of a plan: ``sets`` pairs by size in one ply (face up) or two (face to face)."""

    sets: dict[str, int]
    plies: int
    length_mm: float
    nested: Lay


@dataclass(frozen=True)
class RunPlan:
    """Lays that meet the order. ``metres`` counts end loss; ``bound_m`` what no plan can beat.

    ``choice_gap`` is what choosing other lays could still save at the lengths estimated;
    ``gap`` is the distance of the cost from the proven bound, which takes cloth without waste.
    """

    lays: tuple[RunLay, ...]
    mode: Mode
    ordered: dict[str, int]
    cut: dict[str, int]
    metres: float
    bound_m: float
    cost: Decimal
    bound_cost: Decimal
    choice_gap: float
    rounds: int
    notes: tuple[str, ...] = field(default=())

    @property
    def gap(self) -> float:
        """Share of the cost above the proven bound."""
        return 0.0 if self.cost == 0 else float((self.cost - self.bound_cost) / self.cost)


def plies_from_height(height_mm: float, thickness_mm: float) -> int:
    """Return how many plies of a cloth lie under a cutting height; at least one.

    Common practice, no source: the stack must not be higher than the knife's clear stroke.
    """
    if thickness_mm <= 0 or height_mm <= 0:
        raise PlanError(
            "cutting height and cloth thickness must be above zero", remedy="measure them and set them"
        )
    return max(1, int(height_mm / thickness_mm + 1e-9))


def rates_to_costs(rates: Rates, table: CuttingTable, plies_per_layer: int) -> CutCosts:
    """Return the rates as ``cut_order`` takes them: per layer of one or two plies."""
    per_ply_m = float(rates.cloth_per_m + rates.spread_per_ply_m)
    return CutCosts(
        per_lay=float(rates.per_lay),
        per_layer=plies_per_layer * per_ply_m * 2.0 * table.end_loss_mm / 1000.0,
        per_layer_m=plies_per_layer * per_ply_m,
        per_lay_m=float(rates.cut_per_lay_m),
    )


def lay_money(length_mm: float, plies: int, table: CuttingTable, rates: Rates) -> Decimal:
    """Return what one lay costs: cloth and spreading with end loss, cutting, set-up."""
    ply_m = Decimal(str(round(length_mm + 2.0 * table.end_loss_mm, 3))) / 1000
    lay_m = Decimal(str(round(length_mm, 3))) / 1000
    return (
        rates.per_lay
        + plies * ply_m * (rates.cloth_per_m + rates.spread_per_ply_m)
        + lay_m * rates.cut_per_lay_m
    )


def plan_run(
    demand: dict[str, int],
    area_mm2: dict[str, float],
    usable_width_mm: float,
    table: CuttingTable,
    rates: Rates,
    nest: Callable[[dict[str, int], float], Lay],
    *,
    mode: Mode = "face-up",
    max_sets: int | None = None,
    overcut: float | None = OVERCUT_SHARE.value,
    overcut_pairs: int = OVERCUT_PAIRS.value,
    bare: BareLengths | None = None,
    seconds: float = PLAN_SECONDS.value,
    stop: Stop | None = None,
    tell: Callable[[str], None] = lambda text: None,
) -> RunPlan:
    """Return a plan whose every lay is nested.

    ``demand`` pairs by size (keys may be style and size); ``area_mm2`` net area of what one set
    puts into the lay (both hands face up, one hand face to face); ``bare`` what a lay takes at the
    least (without it: its net area); ``nest(sets, seconds)`` returns
    a verified lay and its length in mm. Raises PlanError when the order cannot be cut.
    """
    stop = stop or Never()
    per_layer = plies_per_layer(mode)
    if table.max_plies < per_layer:
        raise PlanError("face to face needs two plies", remedy="allow at least two plies")
    limits = CutLimits(table.max_plies // per_layer, table.room_mm, max_sets, overcut, overcut_pairs)
    costs = rates_to_costs(rates, table, per_layer)
    model = LengthModel(usable_width_mm, area_mm2)
    sizes = [size for size in demand if demand[size] > 0]
    known: dict[tuple[int, ...], Lay] = {}
    best: tuple[Decimal, CutPlan] | None = None
    whole = Share(stop, seconds)
    budget = Share(stop, seconds * SEARCH_SHARE)
    rounds = 0
    wanted = {size: demand[size] for size in sizes}
    while rounds < ROUNDS or (best is None and rounds < 4 * ROUNDS):
        rounds += 1
        tell(said("round {0}: choosing lays", rounds))
        plan = plan_cut(
            wanted,
            model.per_set_mm(),
            limits,
            costs,
            start_mm=model.start_mm,
            # a first plan is worth seconds that are already over: without them it would be a poor one
            stop=Share(Never() if best is None else stop, max(CHOICE_S, seconds * SEARCH_SHARE / ROUNDS)),
        )
        if best is not None and plan.cost > float(best[0]) * (1.0 - WORTH):
            break  # what the corrected lengths still promise is within their own error
        fits = True
        for lay in plan.lays:
            if lay.sets not in known:
                share = max(1.0, min(budget.left_s, seconds * 0.3) / (len(plan.lays) * 2))
                tell(said("round {0}: nesting a lay with sets of pieces: {1}", rounds, sum(lay.sets)))
                known[lay.sets] = nest(dict(zip(sizes, lay.sets, strict=True)), share)
                area = sum(n * area_mm2[size] for n, size in zip(lay.sets, sizes, strict=True))
                model = model.with_lay(area, known[lay.sets].length_mm)
            fits = fits and known[lay.sets].length_mm <= table.room_mm + 1e-6
        if fits:
            money = _money(plan, known, per_layer, table, rates)
            if best is None or money < best[0]:
                best = (money, plan)
        else:
            longest = max(known[lay.sets].length_mm / _estimate(model, lay, sizes) for lay in plan.lays)
            limits = CutLimits(
                limits.max_layers,
                limits.max_length_mm / min(max(longest, 1.02), 1.2),
                max_sets,
                overcut,
                overcut_pairs,
            )
        if best is not None and (budget() or stop()):
            break  # until there is a plan, time does not count: a person asked for one
    if best is None:
        raise PlanError(
            "no lay found that fits the table", remedy="allow a longer table, more time or fewer sets"
        )
    chosen = best[1]
    # a lay's share of the time that is left, by the cloth it takes
    weights = [lay.layers * known[lay.sets].length_mm for lay in chosen.lays]
    for number, lay in enumerate(chosen.lays):
        if whole():
            break
        tell(said("improving the lay with sets of pieces: {0}", sum(lay.sets)))
        share = whole.left_s * weights[number] / sum(weights[number:])
        again = nest(dict(zip(sizes, lay.sets, strict=True)), max(1.0, share))
        if again.length_mm < known[lay.sets].length_mm:
            known[lay.sets] = again
    lays = tuple(
        RunLay(
            {size: n for size, n in zip(sizes, lay.sets, strict=True) if n},
            lay.layers * per_layer,
            known[lay.sets].length_mm,
            known[lay.sets],
        )
        for lay in chosen.lays
    )
    return complete(
        RunPlan(
            lays=lays,
            mode=mode,
            ordered=dict(demand),
            cut={size: 0 for size in demand} | dict(zip(sizes, chosen.pairs, strict=True)),
            metres=0.0,
            bound_m=0.0,
            cost=Decimal(0),
            bound_cost=Decimal(0),
            choice_gap=chosen.gap,
            rounds=rounds,
        ),
        bare or BareLengths(model.bare_mm()),
        table,
        rates,
        max_sets=max_sets,
        overcut=overcut,
        overcut_pairs=overcut_pairs,
    )


def complete(
    plan: RunPlan,
    bare: BareLengths,
    table: CuttingTable,
    rates: Rates,
    *,
    max_sets: int | None = None,
    overcut: float | None = None,
    overcut_pairs: int = 0,
    stop: Stop | None = None,
) -> RunPlan:
    """Return a plan with metres, money and bounds counted afresh from its lays and order.

    The bounds hold for every plan within these limits (``overcut`` None: for any overcut).
    """
    per_layer = plies_per_layer(plan.mode)
    limits = CutLimits(table.max_plies // per_layer, table.room_mm, max_sets, overcut, overcut_pairs)
    costs = rates_to_costs(rates, table, per_layer)
    patience = Share(stop or Never(), BOUND_S)
    bound = run_bound(plan.ordered, bare, limits, costs, per_layer, table.end_loss_mm, patience)
    return replace(
        plan,
        metres=sum(lay.plies * (lay.length_mm + 2.0 * table.end_loss_mm) for lay in plan.lays) / 1000.0,
        cost=sum((lay_money(lay.length_mm, lay.plies, table, rates) for lay in plan.lays), Decimal(0)),
        bound_m=bound.metres,
        bound_cost=bound.money,
    )


def plies_per_layer(mode: Mode) -> int:
    """Return how many plies give a lay's sets once."""
    return 2 if mode == "face-to-face" else 1


def _estimate(model: LengthModel, lay: CutLay, sizes: list[str]) -> float:
    per_set = model.per_set_mm()
    return model.start_mm + sum(n * per_set[size] for n, size in zip(lay.sets, sizes, strict=True))


def _money(
    plan: CutPlan,
    known: dict[tuple[int, ...], Lay],
    per_layer: int,
    table: CuttingTable,
    rates: Rates,
) -> Decimal:
    return sum(
        (lay_money(known[lay.sets].length_mm, lay.layers * per_layer, table, rates) for lay in plan.lays),
        Decimal("0"),
    )
