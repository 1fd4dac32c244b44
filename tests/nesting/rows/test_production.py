"""Long runs: every piece laid, every lay verified, the same seed the same lay."""

from __future__ import annotations

import pytest

from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.listen import Phase, PhaseCode
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.rows import improving, production
from nesting.stop import Deadline
from nesting.verify import verify
from tests.nesting.runs import crescent, order


class Heard:
    def __init__(self) -> None:
        self.lays: list[Lay] = []
        self.codes: list[PhaseCode] = []

    def phase(self, phase: Phase) -> None:
        self.codes.append(phase.code)

    def better(self, lay: Lay) -> None:
        self.lays.append(lay)


def test_every_lay_of_a_run_is_verified_and_shorter_than_the_one_before(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(improving, "PASSES", 1)
    problem, heard = order(), Heard()
    lay = production.solve(problem, seed=1, listener=heard)
    assert lay is not None and heard.lays
    for each in heard.lays:
        assert verify(problem, each).ok
    lengths = [each.length_mm for each in heard.lays]
    assert lengths == sorted(lengths, reverse=True)
    assert lay.length_mm == lengths[-1]


def test_the_same_seed_gives_the_same_lay(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(improving, "PASSES", 1)
    one, two = production.solve(order(), seed=3), production.solve(order(), seed=3)
    assert one is not None and two is not None
    assert one.placements == two.placements


def test_one_die_is_laid_in_rows(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(improving, "PASSES", 1)
    problem = LayProblem(Roll(500.0), (Item("crescent", crescent(1.0), 40),), gap_mm=2.0)
    lay = production.solve(problem)
    assert lay is not None and verify(problem, lay).ok


def test_with_no_time_there_is_no_lay_rather_than_half_of_one() -> None:
    stop = Deadline(60.0)
    stop.cancel()
    assert production.solve(order(), stop=stop) is None


def test_with_a_clock_few_pieces_for_columns_are_left_to_the_search(monkeypatch: pytest.MonkeyPatch) -> None:
    heard = Heard()
    assert production.solve(order(), stop=Deadline(600.0), listener=heard) is None
    assert not heard.lays
    monkeypatch.setattr(improving, "PASSES", 1)
    assert production.solve(order()) is not None, "without a clock there is time for everything"


def test_a_run_laid_in_a_hurry_is_whole_and_verified(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(production, "LEAST_IN_COLUMNS", 0.0)  # a small order, for the test's sake
    problem, stop = order(), Deadline(600.0)

    class Cancels(Heard):
        def better(self, lay: Lay) -> None:
            super().better(lay)
            stop.cancel()

    heard = Cancels()
    monkeypatch.setattr(production._Pace, "__call__", lambda self: True)
    lay = production.solve(problem, stop=stop, listener=heard)
    assert lay is not None and len(lay.placements) == problem.pieces
    assert all(verify(problem, each).ok for each in heard.lays)


def test_what_the_bands_have_no_time_for_lies_behind_them(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(production, "LEAST_IN_COLUMNS", 0.0)  # a small order, for the test's sake
    problem, heard = order(), Heard()
    third = problem.pieces // 3
    monkeypatch.setattr(
        production._KeepsTime,
        "__call__",
        lambda self: sum(self._columns.left.values()) < problem.pieces - third,
    )
    lay = production.solve(problem, stop=Deadline(600.0), listener=heard)
    assert lay is not None and len(lay.placements) == problem.pieces
    assert verify(problem, lay).ok and heard.lays[-1] == lay


@pytest.mark.parametrize("sampling_s", [0.0, 1e9])
def test_where_there_is_no_time_to_sample_depths_only_windows_are_worked_on(
    monkeypatch: pytest.MonkeyPatch, sampling_s: float
) -> None:
    monkeypatch.setattr(production, "LEAST_IN_COLUMNS", 0.0)  # a small order, for the test's sake
    monkeypatch.setattr(production, "BESIDE_S", 1e9)
    monkeypatch.setattr(production, "SAMPLING_S_PER_PAIR", sampling_s)
    problem, stop = order(), Deadline(600.0)

    class CancelsInWindows(Heard):
        def phase(self, phase: Phase) -> None:
            super().phase(phase)
            if phase.code == PhaseCode.WINDOWS:
                stop.cancel()

    heard = CancelsInWindows()
    lay = production.solve(problem, stop=stop, listener=heard)
    assert lay is not None and verify(problem, lay).ok
    assert heard.codes[-1] == PhaseCode.WINDOWS
    assert (PhaseCode.OPENINGS in heard.codes) == (sampling_s == 0.0)


def test_cancel_is_heard_while_windows_are_worked_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """After the first lay the windows go on without end; a cancel ends them, and with them this test."""
    monkeypatch.setattr(production, "LEAST_IN_COLUMNS", 0.0)  # a small order, for the test's sake
    problem, stop = order(), Deadline(6000.0)

    class Cancels(Heard):
        def better(self, lay: Lay) -> None:
            super().better(lay)
            stop.cancel()

    heard = Cancels()
    lay = production.solve(problem, stop=stop, listener=heard)
    assert lay is not None and verify(problem, lay).ok


def test_many_pinned_pieces_and_few_repeats_are_left_to_other_engines() -> None:
    problem = order()
    assert production.suits(problem)
    assert not production.suits(order(1))
    pinned = tuple(Placement("crescent 38 left", 0.0, 60.0 + 100.0 * k, 60.0, pinned=True) for k in range(5))
    from dataclasses import replace

    assert not production.suits(replace(problem, pinned=pinned))


def test_bands_laid_once_more_are_laid_in_another_order(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(production, "improved", lambda *given, **how: iter(()))
    usual, one, two, again = (
        production.solve(order(24), seed=seed, another=another)
        for seed, another in ((1, False), (1, True), (2, True), (1, True))
    )
    assert usual is not None and one is not None and two is not None and again is not None
    assert all(verify(order(24), lay).ok for lay in (usual, one, two))
    assert one.placements == again.placements
    assert len({lay.placements for lay in (usual, one, two)}) > 1
