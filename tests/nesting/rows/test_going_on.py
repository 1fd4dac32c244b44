"""A lay gone on with: whatever laid it, what comes out keeps every rule and is no longer."""

from __future__ import annotations

import pytest

from nesting.free import first_layout
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.rows import going_on, improving
from nesting.rows.names import with_windows
from nesting.stop import Deadline
from nesting.verify import verify
from tests.nesting.runs import crescent, order


@pytest.fixture(autouse=True)
def one_pass(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(improving, "PASSES", 1)


class Heard:
    def __init__(self) -> None:
        self.lays = []

    def phase(self, phase) -> None:
        pass

    def better(self, lay) -> None:
        self.lays.append(lay)


def test_a_lay_gone_on_with_gets_shorter_and_every_one_told_is_verified() -> None:
    problem, heard = order(), Heard()
    start = first_layout.solve(problem)
    lay = going_on.solve(problem, start, seed=1, listener=heard)
    assert heard.lays and lay.length_mm < start.length_mm
    assert all(verify(problem, each).ok for each in heard.lays)
    assert [each.length_mm for each in heard.lays] == sorted((e.length_mm for e in heard.lays), reverse=True)
    assert lay == heard.lays[-1] and lay.engine == f"{start.engine}, shortened in windows"


def test_the_same_seed_gives_the_same_lay() -> None:
    problem = order()
    start = first_layout.solve(problem)
    one, two = (going_on.solve(problem, start, seed=4) for _ in range(2))
    assert one.placements == two.placements


def test_with_no_time_the_lay_stays_as_it_is() -> None:
    problem, stop = order(), Deadline(60.0)
    start = first_layout.solve(problem)
    stop.cancel()
    assert going_on.solve(problem, start, stop=stop) is start


def test_a_piece_that_leans_within_its_tolerance_may_go_on_leaning() -> None:
    problem = LayProblem(
        Roll(500.0), (Item("crescent", crescent(1.0), 10, turn_tolerance_deg=2.0),), gap_mm=2.0
    )
    apart = tuple(Placement("crescent", 1.0, 100.0 + 150.0 * k, 250.0) for k in range(10))
    start = Lay(apart, problem.length_of_mm(apart), engine="by hand")
    assert verify(problem, start).ok
    lay = going_on.solve(problem, start)
    assert verify(problem, lay).ok and lay.length_mm < start.length_mm / 2.0
    assert 1.0 in {at.turn_deg for at in lay.placements} <= {0.0, 1.0, 180.0}


def test_windows_are_named_once() -> None:
    assert with_windows("bands of rows") == "bands of rows, shortened in windows"
    assert with_windows(with_windows("bands of rows")) == "bands of rows, shortened in windows"
