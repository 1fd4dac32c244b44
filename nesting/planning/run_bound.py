"""What no plan of a run can beat: cloth without any waste, the lays chosen at their best for it.

No lay is shorter than the area of its pieces, grown by half the gap, over the width (``bound``).
That length is affine in the sets, so ``cut_order`` can look for the cheapest plan at it, and its own
proven bound also holds for every plan of nested lays, which are longer.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal

from nesting.bound import grown_area_mm2
from nesting.planning.cut_order import plan_cut
from nesting.planning.cut_sets import CutCosts, CutLimits
from nesting.problem import LayProblem
from nesting.stop import Stop


@dataclass(frozen=True)
class BareLengths:
    """No lay of these sets is shorter than ``start_mm + sum(sets * per_set_mm)``."""

    per_set_mm: dict[str, float]
    start_mm: float = 0.0


@dataclass(frozen=True)
class RunBound:
    """Metres and money that no plan can beat, each for itself."""

    metres: float
    money: Decimal


def bare_lengths(one_set: dict[str, LayProblem]) -> BareLengths:
    """Return the bare lengths of sizes from the lay of one set of each, all on one roll."""
    problems = list(one_set.values())
    margin = min(problem.edge_margin_mm for problem in problems)
    width = problems[0].roll.usable_width_mm - 2.0 * margin
    gap = min(problem.gap_mm for problem in problems)
    ends = 2.0 * min(problem.end_margin_mm for problem in problems)
    return BareLengths(
        {size: grown_area_mm2(problem, gap) / (width + gap) for size, problem in one_set.items()}, ends - gap
    )


def run_bound(
    demand: dict[str, int],
    bare: BareLengths,
    limits: CutLimits,
    costs: CutCosts,
    plies_per_layer: int,
    end_loss_mm: float,
    stop: Stop,
) -> RunBound:
    """Return what no plan within the limits can beat; looser, but as true, when stopped.

    ``costs`` as ``plan_cut`` takes them; ``end_loss_mm`` at each end of a ply.
    Raises PlanError when not even the bare pieces fit.
    """
    bare_mm = sum(pairs * bare.per_set_mm[size] for size, pairs in demand.items())
    layers = max(1, math.ceil(bare_mm / (limits.max_length_mm - bare.start_mm) - 1e-9))
    metres = (bare_mm + layers * (2.0 * end_loss_mm + bare.start_mm)) / 1000.0
    plan = plan_cut(demand, bare.per_set_mm, limits, costs, start_mm=bare.start_mm, stop=stop)
    money = Decimal(str(max(0.0, plan.bound))).quantize(Decimal("0.000001"), ROUND_FLOOR)
    return RunBound(plies_per_layer * metres, money)
