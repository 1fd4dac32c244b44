"""A layout at once: everything laid, every limit honoured, the same each time."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.outline import Outline
from nesting.errors import ProblemError
from nesting.free import arrangement, first_layout
from nesting.items import Item
from nesting.lay import Placement
from nesting.listen import Silent
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.stop import Never
from nesting.verify import verify, words
from tests.nesting.shoes import STRAP, VAMP, shoe


def laid(problem):
    lay = first_layout.solve(problem)
    verdict = verify(problem, lay)
    assert verdict.ok, words(verdict)
    return lay


@pytest.mark.parametrize("pairs", [1, 7, 60, 300])
def test_every_piece_is_laid_with_its_gap_and_margins(pairs):
    laid(LayProblem(Roll(1400.0), shoe(pairs), gap_mm=2.0, edge_margin_mm=5.0, end_margin_mm=10.0))


def test_it_is_dense_enough_to_work_with():
    problem = LayProblem(Roll(1400.0), shoe(12), gap_mm=2.0)
    assert problem.net_area_mm2 / (1400.0 * laid(problem).length_mm) > 0.6


def test_the_same_problem_gives_the_same_lay():
    problem = LayProblem(Roll(1000.0), shoe(5), gap_mm=2.0)
    assert first_layout.solve(problem).placements == first_layout.solve(problem, seed=4).placements


def test_each_layout_tried_may_be_squeezed_and_the_shortest_lay_comes_out():
    problem = LayProblem(Roll(1000.0), shoe(4), gap_mm=2.0)
    lays = first_layout.layouts(problem, workers=2)
    assert [lay.length_mm for lay in lays] == sorted({lay.length_mm for lay in lays})
    assert lays[0].placements == first_layout.solve(problem).placements
    best = arrangement.squeezed(problem, lays[:3], stop=Never(), others=Never(), listener=Silent())
    for lay in (*lays, best):
        verdict = verify(problem, lay)
        assert verdict.ok, words(verdict)
        assert best.length_mm <= lay.length_mm


def test_a_one_way_cloth_turns_no_piece_round():
    items = tuple(
        Item(i.id, i.outline, i.demand, turns_deg=(0.0,), piece=i.piece, size=i.size, hand=i.hand)
        for i in shoe(4)
    )
    assert {at.turn_deg for at in laid(LayProblem(Roll(900.0), items)).placements} == {0.0}


def test_flaws_are_stepped_over():
    rings = [
        np.array([(x, y), (x + 30, y), (x + 30, y + 20), (x, y + 20)], dtype=float)
        for x, y in ((100, 100), (400, 600), (600, 0), (-10, 850), (300, -5))
    ]
    flaws = tuple(Flaw(ring) for ring in rings)
    laid(LayProblem(Roll(900.0, flaws=flaws), shoe(12), gap_mm=2.0))


def test_pinned_pieces_stay_and_count():
    pinned = (Placement("vamp L", 180.0, 500.0, 300.0), Placement("strap", 0.0, 200.0, 700.0))
    problem = LayProblem(Roll(900.0), shoe(3), gap_mm=2.0, pinned=pinned)
    lay = laid(problem)
    assert sum(at.pinned for at in lay.placements) == 2
    assert len(lay.placements) == problem.pieces


def test_a_piece_that_only_fits_on_its_side_is_laid_so_where_turns_are_free():
    (at,) = laid(LayProblem(Roll(60.0), (Item("strap", STRAP.turned(80.0), 1, turns_deg=None),))).placements
    assert at.turn_deg not in (0.0, 180.0)


def test_a_piece_as_wide_as_the_roll_fits():
    laid(LayProblem(Roll(130.0), (Item("vamp", VAMP, 2),), gap_mm=2.0))


def test_a_piece_wider_than_the_roll_is_named():
    with pytest.raises(ProblemError, match="vamp: is wider"):
        first_layout.solve(LayProblem(Roll(129.0), (Item("vamp", VAMP, 1),)))


def test_margins_wider_than_the_roll_are_refused():
    with pytest.raises(ProblemError, match="margin"):
        first_layout.solve(LayProblem(Roll(100.0), (Item("s", STRAP, 1),), edge_margin_mm=50.0))


@settings(deadline=None, max_examples=25)
@given(
    st.lists(
        st.tuples(st.lists(st.floats(8.0, 60.0), min_size=3, max_size=12), st.integers(1, 9)),
        min_size=1,
        max_size=6,
    ),
    st.floats(0.0, 6.0),
    st.floats(0.0, 9.0),
    st.sampled_from([(0.0,), (0.0, 180.0), (0.0, 90.0, 180.0, 270.0), (37.0, 217.0), None]),
)
def test_any_shapes_are_laid_right(shapes, gap, margin, turns):
    items = []
    for number, (radii, demand) in enumerate(shapes):
        angle = np.linspace(0.0, 2.0 * np.pi, len(radii), endpoint=False)
        ring = np.column_stack([np.cos(angle), np.sin(angle)]) * np.array(radii)[:, None]
        items.append(Item(str(number), Outline.make(ring), demand, turns_deg=turns))
    laid(LayProblem(Roll(200.0), tuple(items), gap_mm=gap, edge_margin_mm=margin, end_margin_mm=margin))


def test_small_pieces_lie_in_what_large_ones_leave_open():
    """A fork as wide as the roll, and a tongue that goes between its arms: no longer than the fork alone."""
    fork = Outline.make([(0, 0), (200, 0), (200, 30), (60, 30), (60, 70), (200, 70), (200, 100), (0, 100)])
    tongue = Outline.make([(0, 0), (130, 0), (130, 30), (0, 30)])
    lay = laid(LayProblem(Roll(100.0), (Item("fork", fork, 1), Item("tongue", tongue, 1)), gap_mm=2.0))
    assert lay.length_mm < 200.0 + 3.0


def test_threads_change_nothing():
    problem = LayProblem(Roll(1000.0), shoe(5), gap_mm=2.0)
    assert first_layout.solve(problem).placements == first_layout.solve(problem, workers=2).placements
