"""The general solver's processes: with clusters where those pay, and every layout told in single pieces."""

from collections import Counter

import pytest

from nesting.free import first_layout, general_solver
from nesting.free.general_solver import Search, placements_of
from nesting.items import Item
from nesting.lay import Lay
from nesting.stop import Deadline
from nesting.verify import verify, words
from tests.nesting.free.test_clusters import ORDER, SQUARE, pieces, problem_of

LONG_S = 1000.0


class Told:
    """A process that searches nothing: it keeps the job it was given and tells what it is given to tell."""

    last_words = ""

    def __init__(self, module: str, job: dict) -> None:
        self.job = job
        self.events: list[dict] = []
        self.ended = False

    def waiting_events(self) -> list[dict]:
        told, self.events = self.events, []
        return told

    def kill(self) -> None:
        self.ended = True


@pytest.fixture
def begun(monkeypatch) -> list[Told]:
    """Every process begun, in that order."""
    every: list[Told] = []

    def begin(module: str, job: dict) -> Told:
        every.append(Told(module, job))
        return every[-1]

    monkeypatch.setattr(general_solver, "Child", begin)
    return every


def asked(child: Told) -> Counter:
    return Counter({item["id"]: item["demand"] for item in child.job["items"]})


def test_every_process_searches_with_clusters_where_those_pay(begun):
    search = Search(ORDER, seed=3, stop=Deadline(LONG_S), workers=2)
    assert [asked(child) for child in begun] == 2 * [pieces(ORDER)]  # while clusters are looked for
    search.use_clusters()
    at_work = [child for child in begun if not child.ended]
    clusters = first_layout.worthwhile_clusters(ORDER).searched
    assert [asked(child) for child in at_work] == 2 * [pieces(clusters.problem)]
    assert len({child.job["seed"] for child in begun}) == len(begun)
    search.use_clusters()
    assert len(begun) == 4  # they begin again once
    search.close()
    assert all(child.ended for child in begun)


def test_where_no_clusters_pay_no_process_begins_twice(begun):
    squares = problem_of(Item("square", SQUARE, 100))
    search = Search(squares, seed=0, stop=Deadline(LONG_S), workers=2)
    search.use_clusters()
    assert [asked(child) for child in begun] == 2 * [pieces(squares)]
    assert not any(child.ended for child in begun)


def test_with_little_time_none_searches_with_clusters(begun):
    search = Search(ORDER, seed=0, stop=Deadline(general_solver.LEAST_WITH_CLUSTERS_S), workers=2)
    search.use_clusters()
    assert [asked(child) for child in begun] == [pieces(ORDER)]


def test_with_some_time_one_process_has_it_all(begun):
    """The better of two searches is behind one that has both processors, until those have long enough."""
    some_s = general_solver.LEAST_SEVERAL_S
    Search(ORDER, seed=0, stop=Deadline(some_s), workers=2)
    assert len(begun) == 1
    Search(ORDER, seed=0, stop=Deadline(LONG_S), workers=2)
    assert len(begun) == 3


def test_where_only_work_counts_nothing_is_searched_by_the_clock(begun):
    search = Search(ORDER, seed=0, stop=Deadline(LONG_S), workers=0)
    search.use_clusters()
    assert not begun


def test_what_is_found_with_clusters_is_told_in_single_pieces(begun):
    search = Search(ORDER, seed=0, stop=Deadline(LONG_S), workers=1)
    search.use_clusters()
    clusters = first_layout.worthwhile_clusters(ORDER).searched
    lay = first_layout.solve(clusters.problem)
    half_gap = ORDER.gap_mm / 2.0  # the strip begins that far outside
    placed = [[at.item_id, at.turn_deg, at.x_mm + half_gap, at.y_mm + half_gap] for at in lay.placements]
    wider = {"event": "layout", "width": lay.length_mm + 50.0, "placed": placed[:1]}
    begun[-1].events = [{"event": "layout", "width": lay.length_mm, "placed": placed}, wider]
    found = search.best()
    assert found.width_mm == lay.length_mm
    placements = placements_of(ORDER, found.placed)
    assert Counter(at.item_id for at in placements) == pieces(ORDER)
    verdict = verify(ORDER, Lay(placements, ORDER.length_of_mm(placements)))
    assert verdict.ok, words(verdict)


def test_what_was_found_before_clusters_is_kept_until_something_is_narrower(begun):
    search = Search(ORDER, seed=0, stop=Deadline(LONG_S), workers=2)
    lay = first_layout.solve(ORDER)
    placed = [[at.item_id, at.turn_deg, at.x_mm, at.y_mm] for at in lay.placements]
    begun[0].events = [{"event": "layout", "width": lay.length_mm, "placed": placed}]
    assert search.best().width_mm == lay.length_mm
    search.use_clusters()
    assert search.best().width_mm == lay.length_mm


def test_what_was_told_while_clusters_were_looked_for_is_not_lost(begun):
    search = Search(ORDER, seed=0, stop=Deadline(LONG_S), workers=2)
    lay = first_layout.solve(ORDER)
    placed = [[at.item_id, at.turn_deg, at.x_mm, at.y_mm] for at in lay.placements]
    begun[0].events = [{"event": "layout", "width": lay.length_mm, "placed": placed}]
    search.use_clusters()
    assert search.best().width_mm == lay.length_mm
