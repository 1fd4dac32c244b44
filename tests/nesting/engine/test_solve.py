"""The engine: verified lays in time, whatever is asked, and clear words where nothing can be done."""

from dataclasses import replace

import numpy as np
import pytest

from nesting.engine import several_lays, strategies
from nesting.engine import solve as engine
from nesting.errors import ProblemError
from nesting.free import arrangement as mixed
from nesting.free import section_parts, shortening
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.listen import PhaseCode
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.stop import Deadline
from nesting.verify import verify, words
from tests.nesting.shoes import STRAP, shoe


class Heard:
    """Keeps what an engine tells."""

    def __init__(self):
        self.phases = []
        self.lays = []

    def phase(self, phase):
        self.phases.append(phase)

    def better(self, lay):
        self.lays.append(lay)


def laid(problem, seconds=1.5, **options):
    lay = engine.solve(problem, stop=Deadline(seconds), **options)
    verdict = verify(problem, lay)
    assert verdict.ok, words(verdict)
    return lay


def test_counted_work_gives_the_same_lay_each_time(monkeypatch):
    monkeypatch.setattr(mixed, "TRIES", 2)
    monkeypatch.setattr(strategies, "REPEATS", 10**6)
    problem = LayProblem(Roll(500.0), shoe(1), gap_mm=2.0)
    one, two = engine.solve(problem, seed=3, work=1), engine.solve(problem, seed=3, work=1)
    assert one.placements == two.placements and one.budget == "work 1"
    assert verify(problem, one).ok
    more = engine.solve(problem, seed=3, work=2)
    assert more.length_mm <= one.length_mm
    with pytest.raises(ProblemError, match="time is given"):
        engine.solve(problem, work=1, stop=Deadline(1.0))


def test_counted_work_is_cut_short_by_no_clock(monkeypatch):
    asked = []
    monkeypatch.setattr(section_parts, "NO_CLOCK_S", 0.0)
    monkeypatch.setattr(shortening, "shorten", lambda *_, stop, tries, **__: asked.append((stop(), tries)))
    problem = LayProblem(Roll(500.0), shoe(1), gap_mm=2.0)
    for work in (1, 3):
        engine.solve(problem, work=work)
    assert asked == [(False, mixed.TRIES), (False, 3 * mixed.TRIES)]


def test_it_gets_shorter_and_every_lay_told_is_verified():
    problem = LayProblem(Roll(900.0), shoe(2), gap_mm=2.0, edge_margin_mm=5.0, end_margin_mm=10.0)
    heard = Heard()
    lay = laid(problem, listener=heard)
    lengths = [told.length_mm for told in heard.lays]
    assert lengths == sorted(lengths, reverse=True) and len(lengths) > 1
    assert lay.length_mm == lengths[-1]
    for told in heard.lays:
        assert verify(problem, told).ok
    assert heard.phases[0].code is PhaseCode.FIRST_LAYOUT
    assert lay.stopped in ("time", "finished")


@pytest.mark.parametrize("turns", [(0.0,), (0.0, 180.0), (0.0, 90.0, 180.0, 270.0), None])
def test_turns_allowed_are_kept(turns):
    items = tuple(Item(i.id, i.outline, i.demand, turns_deg=turns) for i in shoe(1))
    laid(LayProblem(Roll(500.0), items, gap_mm=1.0))


def test_pinned_pieces_and_flaws_are_honoured_by_whatever_engine_takes_over():
    ring = np.array([(200.0, 100.0), (230.0, 100.0), (230.0, 120.0), (200.0, 120.0)])
    pinned = (Placement("vamp L", 180.0, 500.0, 300.0),)
    problem = LayProblem(Roll(700.0, flaws=(Flaw(ring),)), shoe(3), gap_mm=2.0, pinned=pinned)
    lay = laid(problem)
    assert [at for at in lay.placements if at.pinned] == [replace(pinned[0], pinned=True)]


def test_a_single_piece_is_a_lay():
    lay = laid(LayProblem(Roll(200.0), (Item("s", STRAP, 1),), end_margin_mm=5.0))
    assert lay.length_mm == pytest.approx(80.0, abs=0.01)


@pytest.mark.parametrize(
    "problem, words_expected",
    [
        (LayProblem(Roll(100.0), ()), "no piece"),
        (LayProblem(Roll(100.0), (Item("s", STRAP, 0),)), "no piece"),
        (LayProblem(Roll(100.0), (Item("s", STRAP, 1), Item("s", STRAP, 1))), "the same id"),
        (LayProblem(Roll(100.0), (Item("s", STRAP, 1),), gap_mm=-1.0), "gap"),
        (LayProblem(Roll(100.0), (Item("s", STRAP, 1, turns_deg=()),)), "no turn"),
        (LayProblem(Roll(10.0), (Item("s", STRAP, 1),)), "wider"),
        (
            LayProblem(Roll(100.0), (Item("s", STRAP, 1),), pinned=(Placement("t", 0.0, 0.0, 0.0),)),
            "not asked",
        ),
        (
            LayProblem(Roll(100.0), (Item("s", STRAP, 1),), pinned=(Placement("s", 0.0, -9.0, 0.0),)),
            "outside",
        ),
        (LayProblem(Roll(100.0, length_mm=50.0), (Item("s", STRAP, 1),)), "several lays"),
    ],
)
def test_a_question_without_an_answer_is_said_so_with_a_remedy(problem, words_expected):
    with pytest.raises(ProblemError, match=words_expected) as error:
        engine.solve(problem, stop=Deadline(1.0))
    assert error.value.remedy


def test_a_passed_deadline_still_gives_a_verified_lay():
    problem = LayProblem(Roll(900.0), shoe(20), gap_mm=2.0)
    lay = engine.solve(problem, stop=Deadline(0.0))
    assert verify(problem, lay).ok and lay.stopped == "time"


def test_an_order_too_long_for_one_lay_is_split_over_several():
    problem = LayProblem(Roll(700.0, length_mm=600.0), shoe(7), gap_mm=2.0)
    lays = several_lays.solve(problem, stop=Deadline(6.0))
    assert len(lays) > 1
    laid_pieces = {}
    for part, lay in lays:
        assert verify(part, lay).ok and lay.length_mm <= 600.0
        for at in lay.placements:
            laid_pieces[at.item_id] = laid_pieces.get(at.item_id, 0) + 1
    assert laid_pieces == {item.id: item.demand for item in problem.items}


def test_a_piece_longer_than_a_lay_may_be_is_refused():
    with pytest.raises(ProblemError, match="alone"):
        several_lays.solve(
            LayProblem(Roll(100.0, length_mm=60.0), (Item("s", STRAP, 2),)), stop=Deadline(2.0)
        )


def test_without_a_clock_the_same_seed_gives_the_same_lay(monkeypatch):
    monkeypatch.setattr(section_parts, "NO_CLOCK_S", 2.0)  # the solver's, whose lays break the pin anyway
    pinned = (Placement("strap", 0.0, 300.0, 100.0),)  # honoured by engines that count work, not time
    problem = LayProblem(Roll(700.0), shoe(1), gap_mm=2.0, pinned=pinned)
    first, second = engine.solve(problem, seed=3), engine.solve(problem, seed=3)
    assert isinstance(first, Lay) and first.placements == second.placements


def test_it_stops_soon_after_it_is_told_to():
    problem = LayProblem(Roll(900.0), shoe(4), gap_mm=2.0)
    deadline = Deadline(6000.0)  # a stop that is not heard is a test that does not end
    heard = Heard()
    heard.better = lambda lay: (heard.lays.append(lay), len(heard.lays) > 1 and deadline.cancel())
    lay = engine.solve(problem, stop=deadline, listener=heard)
    assert lay.stopped == "cancelled"
