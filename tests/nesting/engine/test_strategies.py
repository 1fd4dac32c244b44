"""Which engines lay which order, and that every engine is asked in one way."""

import math
from dataclasses import replace

import numpy as np
import pytest

from geometry.outline import Outline
from nesting.engine import solve as engine
from nesting.engine import task as tasks
from nesting.engine.engines import ENGINES
from nesting.engine.holes import FilledHoles
from nesting.engine.incumbent import Best
from nesting.engine.strategies import STRATEGIES, strategy_for
from nesting.engine.task import Task
from nesting.files.wire import Told, told_from_json, told_to_json
from nesting.free import arrangement, first_layout, shortening
from nesting.free.sampling import WHOLE
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.listen import PHASE_WORDS, Phase, PhaseCode
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.rows import going_on, improving, production
from nesting.rows.names import WINDOWS, with_windows
from nesting.stop import Deadline, Never
from nesting.verify import verify

TAB = Outline.make([(0, 0), (60, 0), (70, 25), (20, 30)])


class Left:
    """A stop that has so many seconds left, whatever the clock says."""

    def __init__(self, left_s):
        self.left_s = left_s

    def __call__(self):
        return self.left_s <= 0.0


def order(*demands):
    items = tuple(Item(str(n), TAB, demand) for n, demand in enumerate(demands))
    return LayProblem(Roll(300.0), items, gap_mm=1.0)


CHOSEN = [
    ((1, 1, 1), math.inf, "search"),
    ((40,), math.inf, "rows of one die"),
    ((40,), 2.0, "search"),  # too short for rows to come to anything
    ((700,), 20.0, "rows of one die"),
    ((30, 30), math.inf, "bands beside the search"),
    ((30, 30), 60.0, "search"),  # too few: bands never were the better lay
    ((150, 150), 60.0, "search"),  # time enough to search sections
    ((150, 150), 12.0, "bands, and a search only if they come to little"),
    ((150, 150), 1.3, "search"),
    ((400, 400), 6.0, "bands, and a search only if they come to little"),
    ((400, 400), 1.5, "search"),  # too short for bands of so many
    ((10,) * 40, 1.6, "search"),  # there they would come in haste or too late
    ((10,) * 40, 2.3, "bands, and a search only if they come to little"),
    ((20,) * 300, 15.0, "search"),  # and of so many items
    ((1,) * 700, 60.0, "search"),  # many pieces, but none repeats
]


@pytest.mark.parametrize(("demands", "left_s", "name"), CHOSEN)
def test_the_order_and_the_time_choose_the_engines(demands, left_s, name):
    assert strategy_for(order(*demands), Left(left_s)).name == name


SHORTENED, IN_PARTS = "shortening of the lay found before", "bands a part at a time"


def test_a_lay_found_before_in_about_that_time_is_gone_on_with():
    for pieces, laid_by, searched_s, again in (
        (800, "bands of rows", 12.0, False),
        (800, "bands of rows, shortened in windows", 24.0, False),
        (800, "bands of rows", 3.0, True),  # with four times the time its bands come out better
        (800, "first layout, in sections", 60.0, True),  # bands have time: they come out better
        (300, "first layout, squeezed", 12.0, True),
        (300, "first layout, squeezed, shortened as a whole", 3.0, True),
        (60, "first layout, squeezed", 12.0, True),  # too few: a search of the whole
    ):
        start = Lay((), 1000.0, engine=laid_by, searched_s=searched_s)
        chosen = strategy_for(order(pieces // 2, pieces // 2), Left(12.0), start).name
        assert (chosen != SHORTENED) == again, (pieces, laid_by)


@pytest.mark.parametrize(
    ("laid_by", "again"),
    [
        ("spyrrow and squeezing, in sections", False),
        ("spyrrow and squeezing, in sections, shortened in windows", True),  # nothing left to shorten
    ],
)
def test_what_a_search_laid_is_shortened_once_and_then_searched_for_again(laid_by, again):
    start = Lay((), 1000.0, engine=laid_by, searched_s=60.0)
    assert (strategy_for(order(150, 150), Left(60.0), start).name != SHORTENED) == again


def test_bands_that_came_to_little_before_are_not_tried_again_in_the_same_time():
    for searched_s, name in ((12.0, "search"), (3.0, "bands, and a search only if they come to little")):
        start = Lay((), 1000.0, engine=f"first layout, {WHOLE}", searched_s=searched_s)
        assert strategy_for(order(150, 150), Left(12.0), start).name == name


def test_a_long_time_is_for_other_bands_once_those_found_are_shortened():
    for laid_by, again in (("bands of rows", False), ("bands of rows, shortened in windows", True)):
        start = Lay((), 1000.0, engine=laid_by, searched_s=60.0)
        assert (strategy_for(order(400, 400), Left(60.0), start).name != SHORTENED) == again


def test_a_long_lay_without_time_for_bands_gets_a_part_of_them_each_time():
    start = Lay((), 1000.0, engine="first layout", searched_s=0.5)
    assert strategy_for(order(400, 400), Left(1.5), start).name == IN_PARTS
    laid = replace(start, engine="bands of rows")
    assert strategy_for(order(400, 400), Left(1.5), laid).name == SHORTENED
    assert strategy_for(order(400, 400), Left(1.5)).name == "search"
    thinned = replace(start, searched_s=0.0)  # of another order's lay: nobody searched for this one
    assert strategy_for(order(400, 400), Left(1.5), thinned).name == "search"


def test_with_pinned_pieces_a_lay_found_before_is_laid_again():
    pinned = replace(order(400, 400), pinned=(Placement("0", 0.0, 10.0, 10.0, pinned=True),))
    for left_s, laid_by in ((12.0, "bands of rows"), (2.0, "bands of rows"), (2.0, "first layout, squeezed")):
        start = Lay((), 1000.0, engine=laid_by, searched_s=12.0)
        assert strategy_for(pinned, Left(left_s), start).name not in (SHORTENED, IN_PARTS)


def test_round_flaws_a_lay_found_before_is_laid_again():
    flaw = Flaw(np.array([(10.0, 10.0), (20.0, 10.0), (20.0, 20.0)]))
    flawed = replace(order(400, 400), roll=Roll(300.0, flaws=(flaw,)))
    start = Lay((), 1000.0, engine="bands of rows", searched_s=12.0)
    assert strategy_for(flawed, Left(12.0), start).name != SHORTENED


def test_where_the_layout_at_once_breaks_a_rule_bands_have_nothing_to_be_ahead_of(monkeypatch):
    problem = order(3, 3)
    heap = Lay(tuple(Placement(item.id, 0.0, 0.0, 0.0) for item in problem.items for _ in range(3)), 70.0)
    monkeypatch.setattr(first_layout, "at_once", lambda problem, seed: heap)
    task = Task(
        FilledHoles(problem), Best(FilledHoles(problem), Heard()), seed=0, stop=Never(), workers=1, work=1
    )
    assert not task.layout_at_once() and task.goes_on_from is None
    monkeypatch.undo()
    assert task.layout_at_once() and verify(problem, task.goes_on_from).ok


def test_bands_are_weighed_against_the_layout_at_once_and_not_the_lay_found_before(monkeypatch):
    """Bands end ahead of a good lay that their first one is behind of."""
    problem = order(3, 3)
    places = [item.id for item in problem.items for _ in range(3)]
    apart = tuple(Placement(name, 0.0, 200.0 * n, 0.0) for n, name in enumerate(places))
    found = first_layout.solve(problem)
    monkeypatch.setattr(
        first_layout, "at_once", lambda problem, seed: Lay(apart, problem.length_of_mm(apart))
    )

    def bands(problem, *, listener, **how):
        listener.better(found)
        return found

    monkeypatch.setattr(production, "solve", bands)
    best = Best(FilledHoles(problem), Heard())
    best.better(found)
    task = Task(FilledHoles(problem), best, seed=0, stop=Never(), workers=1, work=1)
    assert task.layout_at_once() and task.goes_on_from.length_mm == found.length_mm
    assert task.bands()
    monkeypatch.setattr(first_layout, "at_once", lambda problem, seed: found)
    task.layout_at_once()
    assert not task.bands(), "not ahead of the layout at once"


def test_a_lay_searched_for_before_is_not_laid_again_where_it_is_shortened_as_a_whole(monkeypatch):
    problem = order(3, 3)
    found = first_layout.solve(problem)
    made = []
    monkeypatch.setattr(first_layout, "layouts", lambda problem, **_: made.append(found) or [found])
    for searched_s, left_s, times in ((3.0, 3.0, 0), (0.0, 3.0, 1), (3.0, 600.0, 1)):
        best = Best(FilledHoles(problem), Heard())
        best.better(replace(found, searched_s=searched_s))
        task = Task(FilledHoles(problem), best, seed=0, stop=Left(left_s), workers=1, work=None)
        made.clear()
        task.first_layout()
        assert len(made) == times, (searched_s, left_s)


def test_bands_of_few_pieces_get_a_part_of_the_time_and_are_shortened_as_a_whole(monkeypatch):
    problem = order(3, 3)
    found, given, done = first_layout.solve(problem), [], []

    def share(stop, seconds):
        given.append(seconds)
        return Left(seconds)

    monkeypatch.setattr(tasks, "Share", share)
    monkeypatch.setattr(production, "solve", lambda problem, **how: found)
    monkeypatch.setattr(shortening, "shorten", lambda *_, **how: done.append("as a whole"))
    monkeypatch.setattr(going_on, "solve", lambda *_, **how: done.append("in windows"))
    for most, long, left_s, bands_s, how in (
        (6, 6, 20.0, 8.4, "as a whole"),
        (5, 6, 20.0, 20.0, "in windows"),
        (5, 6, 100.0, 42.0, "as a whole"),
        (5, 5, 100.0, 100.0, "in windows"),
    ):
        monkeypatch.setattr(tasks, "MOST_AFTER_BANDS", most)
        monkeypatch.setattr(tasks, "MOST_IN_LONG", long)
        best = Best(FilledHoles(problem), Heard())
        task = Task(FilledHoles(problem), best, seed=0, stop=Left(left_s), workers=1, work=None)
        given.clear(), done.clear()
        assert task.layout_at_once() and task.bands()
        assert given == pytest.approx([bands_s], abs=0.01)
        task.shorten(found)
        assert set(done) == {how}, "so is a lay found before"


def test_a_lay_says_once_what_shortened_it():
    twice = f"bands of rows, {WINDOWS}, {WHOLE}"
    assert with_windows(twice) == twice and with_windows(WHOLE) == f"{WHOLE}, {WINDOWS}"


def test_every_strategy_is_the_choice_for_some_order():
    chosen = {name for *_, name in CHOSEN} | {SHORTENED, IN_PARTS}
    assert chosen == {strategy.name for strategy in STRATEGIES}


def test_something_always_suits():
    assert STRATEGIES[-1].suits(order(1), Deadline(0.0), None)


@pytest.mark.parametrize("name", ENGINES)
def test_every_engine_takes_the_same_question_and_answers_with_a_lay(name, monkeypatch):
    monkeypatch.setattr(arrangement, "TRIES", 1)
    monkeypatch.setattr(improving, "PASSES", 0)
    problem = order(18, 18)
    lay = ENGINES[name]()(problem, seed=1, stop=Never(), listener=None, workers=1, work=1)
    assert lay is not None and verify(problem, lay).ok


def test_an_engine_that_does_not_suit_answers_nothing():
    free = LayProblem(Roll(300.0), (Item("any way", TAB, 40, turns_deg=None),))
    assert ENGINES["bands"]()(free, work=1) is None


class Heard:
    """Keeps the codes of the phases."""

    def __init__(self):
        self.codes = set()

    def phase(self, phase):
        self.codes.add(phase.code)

    def better(self, lay):
        pass


def test_only_where_something_is_fixed_it_is_said_to_be_worked_around(monkeypatch):
    monkeypatch.setattr(arrangement, "TRIES", 1)
    flaw = Flaw(np.array([(10.0, 10.0), (20.0, 10.0), (20.0, 20.0)]))
    for flaws, said in (((), PhaseCode.SHORTEN), ((flaw,), PhaseCode.AROUND_FIXED)):
        heard = Heard()
        items = (Item("a", TAB, 3), Item("b", TAB.mirrored(), 3))
        engine.solve(LayProblem(Roll(100.0, flaws=flaws), items), listener=heard, work=1)
        assert heard.codes & {PhaseCode.SHORTEN, PhaseCode.AROUND_FIXED} == {said}


def test_every_phase_has_its_words_and_comes_through_the_wire():
    assert set(PHASE_WORDS) == set(PhaseCode)
    for code in PhaseCode:
        for phase in (Phase(code), Phase(code).of_section(2, 3, 1), Phase(code).of_section(1, 1, 4)):
            told = Told("phase", 1.5, phase=phase)
            assert told_from_json(told_to_json(told)) == told
    assert Phase(PhaseCode.SEARCH).of_section(2, 3, 1).words == "search, section 2 of 3"
    assert Phase(PhaseCode.SEARCH).of_section(1, 1, 4).words == "search, a section laid 4 times"
