"""A lay improved for hours: in rounds, each from the best so far, each kept."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.commands import solving
from app.lay.improving import ROUNDS_S, rounds_s
from app.lay.kept import KeptLays
from geometry.outline import Outline
from nesting.free import first_layout
from nesting.items import Item
from nesting.problem import LayProblem
from nesting.roll import Roll

SQUARE = Outline.make([(0, 0), (50, 0), (50, 50), (0, 50)])
PROBLEM = LayProblem(Roll(200.0), (Item("square", SQUARE, 5),), gap_mm=2.0)


@given(st.floats(0.1, 1e5))
def test_the_rounds_take_the_time_given_and_none_is_longer_than_what_may_be_lost(seconds):
    rounds = list(rounds_s(seconds))
    assert sum(rounds) == pytest.approx(seconds)
    assert max(rounds) <= max(ROUNDS_S)


def test_every_round_goes_on_from_the_best_politely_and_is_kept_at_its_end(monkeypatch, tmp_path):
    store = KeptLays(tmp_path / "lays.db")
    asked = []

    def searched(problem, *, start, seed, polite, **_):
        kept = list(store.candidates(problem))
        asked.append((start is not None, seed, polite, len(kept)))
        return start or first_layout.solve(problem)

    monkeypatch.setattr(solving, "solve_in_child", searched)
    lay = solving.solve(PROBLEM, seconds=500.0, seed=3, workers=1, store=store, improve=True)
    assert lay.length_mm == next(iter(store.candidates(PROBLEM))).length_mm
    assert [start for start, *_ in asked] == [False, True, True, True]
    assert len({seed for _, seed, *_ in asked}) == len(asked)
    assert all(polite for _, _, polite, _ in asked)
    assert [kept for *_, kept in asked] == [0, 1, 1, 1]
