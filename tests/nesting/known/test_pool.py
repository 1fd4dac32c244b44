"""A lay that was found serves wherever it can: repeated, thinned, at a narrower gap, on a wider roll."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.outline import Outline
from nesting.free import first_layout
from nesting.items import Item
from nesting.known import Pool, exact_key, family_key
from nesting.known.derive import derived, estimate_mm
from nesting.known.pool import is_start
from nesting.known.record import demand_of, record_of
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.verify import verify

STRAP = Outline.make([(0, 0), (90, 0), (90, 25), (0, 25)])
WEDGE = Outline.make([(0, 0), (60, 0), (75, 40), (10, 55)])


def problem(straps=4, wedges=3, *, gap=2.0, width=200.0, names=("strap", "wedge")) -> LayProblem:
    items = (Item(names[0], STRAP, straps), Item(names[1], WEDGE, wedges))
    return LayProblem(Roll(width), items, gap_mm=gap, edge_margin_mm=5.0, end_margin_mm=3.0)


def found(asked: LayProblem):
    lay = first_layout.solve(asked)
    assert verify(asked, lay).ok
    return lay


def kept(*asked: LayProblem) -> Pool:
    pool = Pool()
    for each in asked:
        pool.keep(each, found(each))
    return pool


def test_the_same_question_under_other_names_gets_the_same_lay() -> None:
    lay = found(problem())
    pool = kept(problem())
    again = pool.best(problem(names=("a", "b")))
    assert again is not None and again.length_mm == pytest.approx(lay.length_mm)
    assert exact_key(problem()) == exact_key(problem(names=("a", "b")))


def test_a_lay_for_a_wider_gap_or_a_narrower_roll_serves() -> None:
    pool = kept(problem(gap=4.0, width=180.0))
    for gap, width in ((4.0, 180.0), (2.0, 180.0), (4.0, 220.0), (0.0, 300.0)):
        asked = problem(gap=gap, width=width)
        lay = pool.best(asked)
        assert lay is not None and verify(asked, lay).ok
    assert pool.best(problem(gap=5.0, width=180.0)) is None
    assert pool.best(problem(gap=4.0, width=170.0)) is None


def test_twice_the_order_takes_at_most_twice_the_lay() -> None:
    once = problem()
    lay = found(once)
    twice = problem(8, 6)
    doubled = kept(once).best(twice)
    assert doubled is not None and verify(twice, doubled).ok
    assert doubled.length_mm <= 2 * (lay.length_mm - 6.0) + 2.0 + 6.0 + 1e-6


def test_what_is_left_over_is_laid_behind_the_whole_copies() -> None:
    length = found(problem()).length_mm
    asked = problem(9, 6)  # two whole copies, and a strap more
    lay = kept(problem()).best(asked)
    assert lay is not None and verify(asked, lay).ok
    assert lay.length_mm < 3 * length - 6.0, "a third copy would be thinned to one strap"


def test_fewer_pieces_take_no_more_than_all_of_them() -> None:
    lay = found(problem())
    fewer = kept(problem()).best(problem(2, 1))
    assert fewer is not None and fewer.length_mm <= lay.length_mm
    assert verify(problem(2, 1), fewer).ok


def test_a_shape_that_no_kept_lay_holds_gets_none() -> None:
    other = replace(problem(), items=(*problem().items, Item("new", STRAP.turned(10.0), 1)))
    assert kept(problem()).best(other) is None


def test_other_margins_turns_or_flaws_are_another_family() -> None:
    base = problem()
    assert family_key(base) == family_key(problem(9, 9, gap=7.0, width=900.0))
    flaw = Flaw(np.array([(50.0, 50.0), (60.0, 50.0), (60.0, 60.0)]))
    for other in (
        replace(base, edge_margin_mm=6.0),
        replace(base, end_margin_mm=0.0),
        replace(base, roll=replace(base.roll, flaws=(flaw,))),
        replace(base, pinned=(Placement("strap", 0.0, 10.0, 10.0, True),)),
    ):
        assert family_key(other) != family_key(base)
    one_way = replace(base, items=tuple(replace(item, turns_deg=(0.0,)) for item in base.items))
    assert kept(base).best(one_way) is None, "a shape that may turn less is another shape"


def test_a_kept_lay_that_is_not_true_is_not_believed() -> None:
    asked = problem()
    known = record_of(asked, found(asked))
    shape, turn, x, y = known.placements[0]
    false = replace(known, placements=((shape, turn, x + 40.0, y + 8.0), *known.placements[1:]))
    assert derived(asked, known) is not None
    assert derived(asked, false) is None


@given(
    straps=st.integers(1, 9),
    wedges=st.integers(0, 7),
    gap=st.sampled_from([0.0, 1.0, 2.0, 3.5]),
    width=st.sampled_from([150.0, 200.0, 260.0]),
)
def test_whatever_comes_out_was_judged_and_is_never_longer_than_what_made_it(straps, wedges, gap, width):
    base, lay = question(3, 2, 2.0, 200.0, True)
    length, pool = lay.length_mm, Pool()
    pool.keep(base, lay)
    asked = problem(straps, wedges, gap=gap, width=width)
    lay = pool.best(asked)
    if gap > 2.0 or width < 200.0:
        assert lay is None
        return
    assert lay is not None and verify(asked, lay).ok
    copies = max(-(-straps // 3), -(-wedges // 2))
    assert lay.length_mm <= length + (copies - 1) * (length - 6.0 + gap) + 1e-6


def test_a_lay_from_which_most_was_taken_out_is_no_start_for_a_search() -> None:
    known = record_of(problem(40, 30), found(problem(40, 30)))
    assert is_start(problem(40, 30), known) and is_start(problem(80, 60), known)
    assert is_start(problem(20, 15), known)
    assert not is_start(problem(2, 1), known)
    thinned = derived(problem(2, 1), known)
    assert thinned is not None and verify(problem(2, 1), thinned).ok, "it serves all the same"


def in_a_row(asked: LayProblem) -> Lay:
    """One piece behind the other along the roll: what a search with no time at all may end with."""
    placed, x = [], asked.end_margin_mm
    for item in asked.items:
        left, bottom, right, _ = item.outline.bbox_mm
        for _ in range(item.demand):
            placed.append(Placement(item.id, 0.0, x - left, asked.edge_margin_mm - bottom))
            x += right - left + asked.gap_mm
    return Lay(tuple(placed), asked.length_of_mm(tuple(placed)))


@lru_cache
def question(straps: int, wedges: int, gap: float, width: float, searched: bool) -> tuple[LayProblem, Lay]:
    asked = problem(straps, wedges, gap=gap, width=width)
    lay = found(asked) if searched else in_a_row(asked)
    assert verify(asked, lay).ok
    return asked, lay


QUESTIONS = st.tuples(
    st.sampled_from([1, 2, 4]),
    st.sampled_from([0, 1, 3]),
    st.sampled_from([1.0, 2.0, 3.0]),
    st.sampled_from([150.0, 200.0]),
    st.booleans(),
)


@settings(max_examples=15, deadline=None)
@given(st.lists(QUESTIONS, min_size=3, max_size=5))
def test_once_settled_no_figure_of_a_calculation_contradicts_another(questions):
    pool, asked = Pool(), [question(*each) for each in questions]
    for each, lay in asked:
        pool.keep(each, lay)
    pool.settle()
    told = [(each, pool.best(each)) for each, _ in asked]
    for each, lay in told:
        assert lay is not None and verify(each, lay).ok
        for other, its_lay in told:
            most_mm = estimate_mm(each, record_of(other, its_lay), demand_of(each))
            assert most_mm is None or lay.length_mm <= most_mm + 1e-5
