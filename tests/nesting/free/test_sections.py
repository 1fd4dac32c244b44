"""Large demands as sections: nothing lost, nothing too near, joints included."""

import pytest

from nesting.free import section_parts, sections
from nesting.free.first_layout import solve as first_layout
from nesting.free.general_solver import Layout
from nesting.items import Item
from nesting.lay import Lay
from nesting.listen import Silent
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.stop import Deadline
from nesting.verify import verify, words
from tests.nesting.shoes import QUARTER, STRAP, VAMP


def asked(*demand, width=1400.0):
    outlines = (VAMP, VAMP.mirrored(), QUARTER, QUARTER.mirrored(), STRAP)
    items = tuple(Item(str(n), o, d) for n, (o, d) in enumerate(zip(outlines, demand, strict=True)))
    return LayProblem(Roll(width), items, gap_mm=2.0, edge_margin_mm=4.0, end_margin_mm=8.0)


@pytest.mark.parametrize(
    "demand",
    [(1, 1, 1, 1, 1), (60, 60, 120, 120, 60), (61, 60, 125, 120, 67), (601, 2, 3, 4, 5), (900, 0, 0, 0, 0)],
)
def test_the_parts_of_a_problem_hold_all_of_it(demand):
    problem = asked(*demand)
    held = {item.id: 0 for item in problem.items}
    for part in section_parts.parts_of(problem):
        for item in part.problem.items:
            held[item.id] += item.demand * part.times
    assert held == {item.id: item.demand for item in problem.items}


def test_a_small_demand_is_laid_whole():
    (part,) = section_parts.parts_of(asked(10, 10, 20, 20, 10))
    assert part.times == 1


def test_what_repeats_is_searched_once():
    parts = section_parts.parts_of(asked(60, 60, 120, 120, 60))
    assert len(parts) == 1 and parts[0].times > 1 and parts[0].problem.pieces <= 260


def test_what_does_not_repeat_is_cut_into_sections_of_different_pieces():
    items = tuple(Item(str(n), VAMP.turned(n / 10.0), 1) for n in range(700))
    parts = section_parts.parts_of(LayProblem(Roll(1400.0), items))
    assert len(parts) > 2 and max(part.problem.pieces for part in parts) < 300


@pytest.mark.parametrize("demand", [(60, 60, 120, 120, 60), (31, 30, 62, 61, 33)])
def test_sections_are_joined_without_a_fault(demand, monkeypatch):
    monkeypatch.setattr(sections, "_whole_is_ahead", lambda *_: False)
    problem = asked(*demand)
    start = first_layout(problem)
    stop = Deadline(5.0)
    searches = section_parts.SectionSearch(problem, seed=0, stop=stop, workers=1)
    try:
        lay = sections.solve(
            searches.problem, stop=stop, listener=Silent(), start=start, firsts=[start], searches=searches
        )
    finally:
        searches.close()
    verdict = verify(problem, lay)
    assert verdict.ok, words(verdict)
    assert lay.length_mm <= start.length_mm


def test_a_section_joined_to_its_copy_takes_less_than_its_own_length():
    problem = asked(60, 60, 120, 120, 60)
    (part,) = section_parts.parts_of(problem)
    section = first_layout(part.problem)
    whole = sections._Whole(problem, (part,), Silent(), section)
    _, period = whole._joined(section.placements)
    assert period < section.length_mm - 2.0 * problem.end_margin_mm + problem.gap_mm


class Found:
    """A search that has found a layout of its section, of so much width, or none."""

    def __init__(self, width_mm):
        self._width_mm = width_mm

    def best(self):
        return None if self._width_mm is None else Layout(self._width_mm, [])


class Left:
    def __init__(self, left_s):
        self.left_s = left_s

    def __call__(self):
        return False


def test_sections_are_given_up_for_the_whole_where_their_search_is_far_behind():
    searches = section_parts.SectionSearch(asked(60, 60, 120, 120, 60), seed=0, stop=Left(6.0), workers=0)
    (part,) = searches.parts
    whole = Lay((), 4000.0)
    same_mm = whole.length_mm / part.times
    for width_mm, ahead in ((None, True), (1.1 * same_mm, True), (1.02 * same_mm, False), (same_mm, False)):
        searches.running = Found(width_mm)
        assert sections._whole_is_ahead(searches, whole, Left(6.0)) is ahead
        assert not sections._whole_is_ahead(searches, whole, Left(60.0)), "so much time may turn it"
