"""Cut planning against published optima and cases proven by full enumeration.

C1-C3: template design, CSPLib problem 002 (proposed by B. Smith): 9 slots a template, demands in
thousands; seen in the library's own page. C7, C8: our own small cases, their optima proven by
enumerating every plan.
"""

import pytest

from nesting.planning.cut_order import plan_cut
from nesting.planning.cut_sets import CutCosts, CutLimits

CATFOOD = dict(zip("abcdefg", (250, 255, 260, 500, 500, 800, 1100), strict=True))
SHEETS_ONLY = CutCosts(per_lay=1e-4, per_layer=1.0)
FEWEST_LAYS = CutCosts(per_lay=1000.0, per_layer_m=1.0)


def unit(demand):
    return dict.fromkeys(demand, 1.0)


def checked(plan, demand, slots, layers):
    for size, pairs in zip(demand, plan.pairs, strict=True):
        assert pairs >= demand[size]
    for lay in plan.lays:
        assert sum(lay.sets) <= slots
        assert 1 <= lay.layers <= layers
    assert plan.bound <= plan.cost + 1e-9
    return plan


@pytest.mark.parametrize(("templates", "sheets"), [(1, 550), (2, 418), (3, 408)])
def test_template_design_takes_as_few_sheets_as_published(templates, sheets):
    most = 600 if templates < 3 else 260  # the published three templates need no more
    plan = plan_cut(CATFOOD, unit(CATFOOD), CutLimits(most, 9.0, 9, max_lays=templates), SHEETS_ONLY)
    checked(plan, CATFOOD, 9, most)
    assert len(plan.lays) == templates
    assert sum(lay.layers for lay in plan.lays) == sheets


def test_no_template_plan_goes_below_the_published_bound_of_407_223_sheets():
    plan = plan_cut(CATFOOD, unit(CATFOOD), CutLimits(600, 9.0, 9, max_lays=2), SHEETS_ONLY)
    assert sum(lay.layers for lay in plan.lays) >= 407.223


def test_c7_needs_three_lays_and_one_pair_too_many():
    demand = dict(zip("abcde", (54, 84, 91, 60, 29), strict=True))
    plan = checked(plan_cut(demand, unit(demand), CutLimits(35, 4.0, 4), FEWEST_LAYS), demand, 4, 35)
    assert len(plan.lays) == 3
    assert sum(plan.pairs) == 319
    assert plan.gap < 1e-9


def test_c8_is_cut_exactly_in_two_lays():
    demand = dict(zip(("36", "37", "38", "39", "40", "41"), (60, 120, 180, 180, 120, 60), strict=True))
    plan = checked(plan_cut(demand, unit(demand), CutLimits(60, 6.0, 6), FEWEST_LAYS), demand, 6, 60)
    assert len(plan.lays) == 2
    assert plan.pairs == tuple(demand.values())
    assert plan.gap < 1e-9
