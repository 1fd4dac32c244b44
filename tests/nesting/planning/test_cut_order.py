"""The choice of lays meets the order, keeps every limit, and is as cheap as trying everything."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.errors import PlanError
from nesting.planning.cut_order import plan_cut
from nesting.planning.cut_sets import CutCosts, CutLay, CutLimits, cost_of
from nesting.stop import Deadline

COSTS = CutCosts(per_lay=5.0, per_layer=0.3, per_layer_m=2.0, per_lay_m=1.0)


def cheapest_by_trying_everything(demand, length, limits, start_mm):
    """Every plan of one or two lays, one at a time."""
    names = list(demand)
    sets = [
        s
        for s in product(*(range(demand[n] + 1) for n in names))
        if sum(s) > 0 and start_mm + sum(k * length[n] for k, n in zip(s, names, strict=True)) <= 1000.0
    ]
    lays = [CutLay(s, q) for s in sets for q in range(1, limits.max_layers + 1)]
    best = float("inf")
    for pair in [(a,) for a in lays] + list(product(lays, lays)):
        cut = [sum(lay.sets[i] * lay.layers for lay in pair) for i in range(len(names))]
        if all(demand[n] <= c <= demand[n] + limits.overcut_pairs for n, c in zip(names, cut, strict=True)):
            best = min(best, cost_of(pair, tuple(length[n] for n in names), start_mm, COSTS))
    return best


@settings(max_examples=25, deadline=None)
@given(st.tuples(st.integers(1, 5), st.integers(1, 5)), st.integers(2, 4), st.integers(0, 1))
def test_no_plan_of_two_lays_is_cheaper_than_the_one_chosen(pairs, layers, overcut):
    demand = dict(zip(("36", "37"), pairs, strict=True))
    length = {"36": 210.0, "37": 260.0}
    limits = CutLimits(layers, 1000.0, overcut=0.0, overcut_pairs=overcut, max_lays=3)
    plan = plan_cut(demand, length, limits, COSTS, start_mm=30.0)
    best = cheapest_by_trying_everything(demand, length, limits, 30.0)
    assert plan.cost <= best + 1e-9
    assert plan.bound <= plan.cost + 1e-9
    if len(plan.lays) <= 2:
        assert plan.cost == pytest.approx(best)


@settings(max_examples=6, deadline=None)
@given(
    st.lists(st.integers(0, 120), min_size=1, max_size=6).filter(any),
    st.integers(1, 30),
    st.floats(1500, 6000),
)
def test_demand_is_met_within_every_limit(pairs, layers, table_mm):
    demand = {str(36 + i): n for i, n in enumerate(pairs)}
    length = {size: 150.0 + 6.0 * i for i, size in enumerate(demand)}
    limits = CutLimits(layers, table_mm, overcut=0.05, overcut_pairs=2)
    plan = plan_cut(demand, length, limits, COSTS, start_mm=40.0, stop=Deadline(2.0))
    for size, cut in zip(demand, plan.pairs, strict=True):
        assert demand[size] <= cut <= demand[size] + max(2, int(0.05 * demand[size]))
    for lay in plan.lays:
        assert 1 <= lay.layers <= layers
        assert 40.0 + sum(n * length[s] for n, s in zip(lay.sets, demand, strict=True)) <= table_mm + 1e-3
    assert plan.cost == pytest.approx(cost_of(plan.lays, tuple(length.values()), 40.0, COSTS))


def test_a_set_longer_than_the_table_is_refused_with_both_lengths():
    with pytest.raises(PlanError, match=r"1040 mm.*1000 mm"):
        plan_cut({"41": 3}, {"41": 1000.0}, CutLimits(5, 1000.0), COSTS, start_mm=40.0)


def test_an_order_without_pairs_is_refused():
    with pytest.raises(PlanError, match="no pair"):
        plan_cut({"41": 0}, {"41": 100.0}, CutLimits(5, 1000.0), COSTS)
