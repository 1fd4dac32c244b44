"""Plies come from rolls: no ply across a flaw, pairs of plies from one lot, little wasted."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.errors import PlanError
from nesting.planning.roll_allocation import Spread, StockRoll, allocate, stretches


def check(allocation, spreads, rolls):
    for spread in spreads:
        assert sum(use.plies.get(spread.lay, 0) for use in allocation.uses) == spread.plies
        assert all(use.plies.get(spread.lay, 0) % spread.step == 0 for use in allocation.uses)
    ply = {s.lay: s.ply_m for s in spreads}
    for use in allocation.uses:
        taken = sum(n * ply[lay] for lay, n in use.plies.items())
        assert taken <= use.length_m + 1e-6
        assert use.left_m == pytest.approx(use.length_m - taken)
    total = sum(use.length_m for use in allocation.uses)
    kept = sum(use.left_m for use in allocation.remnants)
    used = sum(use.used_m for use in allocation.uses)
    assert total == pytest.approx(used + kept + allocation.waste_m)


def test_a_61_m_roll_gives_twelve_plies_of_5_04_m_and_leaves_0_52_m():
    """Worked out by hand: 61 - 12 x 5.04 = 0.52, with 4 cm end loss a ply (source: ``nesting.defaults``)."""
    spreads = (Spread("A", 5.04, 12),)
    rolls = (StockRoll("R1", 61.0),)
    allocation = allocate(spreads, rolls)
    check(allocation, spreads, rolls)
    assert allocation.uses[0].left_m == pytest.approx(0.52)
    assert allocation.waste_m == pytest.approx(0.52)


def test_no_ply_is_spread_across_a_flaw():
    roll = StockRoll("R1", 30.0, flaws_m=((9.0, 9.5), (20.0, 20.2)))
    assert stretches(roll) == [(0.0, 9.0), (9.5, 10.5), (20.2, pytest.approx(9.8))]
    spreads = (Spread("A", 4.0, 6),)
    allocation = allocate(spreads, (roll,))
    check(allocation, spreads, (roll,))
    assert [use.plies["A"] for use in allocation.uses] == [2, 2, 2]
    assert allocation.flaw_m == pytest.approx(0.7)


def test_face_to_face_plies_come_in_twos_from_one_roll():
    spreads = (Spread("A", 4.0, 6, step=2),)
    rolls = (StockRoll("R1", 17.0, "lot 1"), StockRoll("R2", 13.0, "lot 2"))
    check(allocate(spreads, rolls), spreads, rolls)
    with pytest.raises(PlanError, match="cut into plies"):
        allocate(spreads, (StockRoll("R1", 13.0), StockRoll("R2", 13.0)))


def test_remnants_worth_keeping_are_preferred_to_an_end_that_is_not():
    spreads = (Spread("A", 2.0, 10),)
    rolls = (StockRoll("R1", 20.5), StockRoll("R2", 10.9), StockRoll("R3", 10.9))
    allocation = allocate(spreads, rolls, keep_m=1.0)
    check(allocation, spreads, rolls)
    assert allocation.waste_m == 0.0
    assert all(use.left_m >= 1.0 for use in allocation.remnants)
    short = allocate(spreads, rolls[:1], keep_m=1.0)
    assert short.waste_m == pytest.approx(0.5)


def test_too_little_cloth_says_how_many_metres_are_missing():
    with pytest.raises(PlanError, match=r"10\.00 m short"):
        allocate((Spread("A", 5.0, 4),), (StockRoll("R1", 10.0),))


def test_a_flaw_beyond_the_roll_is_refused():
    with pytest.raises(PlanError, match="R1"):
        stretches(StockRoll("R1", 10.0, flaws_m=((9.0, 11.0),)))


def fits_longest_first(spreads, rolls):
    """Whether the plies fit as anyone would try first: the longest first, each on the first roll it fits."""
    left = [roll.length_m for roll in rolls]
    cuts = [spread.ply_m * spread.step for spread in spreads for _ in range(spread.plies // spread.step)]
    for cut in sorted(cuts, reverse=True):
        roll = next((i for i, length in enumerate(left) if length >= cut), None)
        if roll is None:
            return False
        left[roll] -= cut
    return True


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.floats(1.0, 6.0), st.integers(1, 12)), min_size=1, max_size=3),
    st.lists(st.floats(10.0, 60.0), min_size=1, max_size=5),
    st.sampled_from([1, 2]),
)
def test_metres_add_up_whatever_the_rolls(lays, lengths, step):
    spreads = tuple(Spread(f"L{i}", round(ply, 2), plies * step, step) for i, (ply, plies) in enumerate(lays))
    rolls = tuple(StockRoll(f"R{i}", round(length, 1)) for i, length in enumerate(lengths))
    try:
        allocation = allocate(spreads, rolls, seconds=10.0)
    except PlanError:
        assert not fits_longest_first(spreads, rolls)
    else:
        check(allocation, spreads, rolls)
