"""A run plan meets the order with nested lays that fit the table, and says how good it is."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.outline import Outline
from nesting.errors import PlanError
from nesting.free import first_layout
from nesting.items import Item
from nesting.planning.length_model import LengthModel
from nesting.planning.run_plan import CuttingTable, Rates, lay_money, plan_run, plies_from_height
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.verify import verify

WIDTH_MM = 700.0
RATES = Rates(Decimal("3.20"), Decimal("12"), Decimal("0.06"), Decimal("1.50"))


def piece(size):
    scale = 1.0 + 0.03 * (int(size) - 36)
    return Outline.make([(0, 0), (150 * scale, 10), (140 * scale, 80), (20, 95 * scale)])


def problem(sets):
    items = []
    for size, n in sets.items():
        outline = piece(size)
        items += [
            Item(f"{size} left", outline, n, size=size, hand="left"),
            Item(f"{size} right", outline.mirrored(), n, size=size, hand="right"),
        ]
    return LayProblem(Roll(WIDTH_MM), tuple(items), gap_mm=2.0)


def nest(sets, seconds):
    asked = problem(sets)
    lay = first_layout.solve(asked)
    assert verify(asked, lay).ok
    return lay


def area(sizes):
    return {size: 2 * piece(size).area_mm2 for size in sizes}


@settings(max_examples=6, deadline=None)
@given(st.lists(st.integers(0, 40), min_size=2, max_size=4).filter(any), st.integers(2, 12))
def test_every_pair_ordered_is_cut_by_lays_that_fit_the_table(pairs, plies):
    demand = {str(36 + i): n for i, n in enumerate(pairs)}
    table = CuttingTable(2000.0, plies)
    plan = plan_run(demand, area(demand), WIDTH_MM, table, RATES, nest, seconds=4.0)
    for size, wanted in demand.items():
        assert wanted <= plan.cut[size] <= wanted + max(2, int(0.02 * wanted))
    for lay in plan.lays:
        assert 1 <= lay.plies <= plies
        assert lay.length_mm <= table.room_mm + 1e-6
        assert verify(problem(lay.sets), lay.nested).ok
    assert plan.metres == pytest.approx(
        sum(lay.plies * (lay.length_mm + 2 * table.end_loss_mm) for lay in plan.lays) / 1000
    )
    assert plan.cost == sum(lay_money(lay.length_mm, lay.plies, table, RATES) for lay in plan.lays)
    assert plan.bound_m <= plan.metres
    assert plan.bound_cost <= plan.cost


def test_face_to_face_spreads_an_even_number_of_plies():
    demand = {"36": 10, "37": 14}
    half = {size: mm2 / 2 for size, mm2 in area(demand).items()}
    plan = plan_run(
        demand, half, WIDTH_MM, CuttingTable(2000.0, 7), RATES, nest, mode="face-to-face", seconds=3.0
    )
    assert all(lay.plies % 2 == 0 and lay.plies <= 6 for lay in plan.lays)
    assert all(plan.cut[size] >= pairs for size, pairs in demand.items())


def test_one_ply_cannot_be_spread_face_to_face():
    with pytest.raises(PlanError, match="two plies"):
        plan_run({"36": 1}, area(["36"]), WIDTH_MM, CuttingTable(2000.0, 1), RATES, nest, mode="face-to-face")


def test_nested_lengths_correct_the_estimate():
    model = LengthModel(WIDTH_MM, area(["36"]))
    for sets in (4, 8, 16):
        bare = sets * area(["36"])["36"] / WIDTH_MM
        model = model.with_lay(bare * WIDTH_MM, 55.0 + bare / 0.8)
    start, packing = model.start_and_packing
    assert start == pytest.approx(55.0, abs=6.0)
    assert packing == pytest.approx(0.8, abs=0.02)


def test_the_height_of_the_stack_limits_the_plies():
    """120 mm clear stroke over 0.45 mm cloth: 266 plies lie below it (arithmetic)."""
    assert plies_from_height(120.0, 0.45) == 266
    with pytest.raises(PlanError):
        plies_from_height(120.0, 0.0)


def test_money_of_a_lay_is_decimal_and_exact():
    table = CuttingTable(6000.0, 30, end_loss_mm=20.0)
    assert lay_money(3200.0, 10, table, RATES) == Decimal("12") + 10 * Decimal("3.24") * Decimal(
        "3.26"
    ) + Decimal("3.2") * Decimal("1.50")


def test_a_stopped_plan_is_still_a_whole_plan():
    class Stopped:
        left_s = 0.0

        def __call__(self):
            return True

    demand = {"36": 12, "37": 9}
    plan = plan_run(demand, area(demand), WIDTH_MM, CuttingTable(2000.0, 6), RATES, nest, stop=Stopped())
    assert all(plan.cut[size] >= pairs for size, pairs in demand.items())
    assert any(len(lay.sets) > 1 for lay in plan.lays), "lays of one size each are no plan"
