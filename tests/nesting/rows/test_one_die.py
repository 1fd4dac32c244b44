"""Rows of one die on a roll: what a press cutter is handed."""

from __future__ import annotations

import numpy as np
import pytest

from geometry.outline import Outline
from nesting.errors import ProblemError
from nesting.items import Item
from nesting.lattice.densest import searched
from nesting.lay import Lay
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.rows import improving, production
from nesting.rows.one_die import best_strip
from nesting.verify import verify

TOE_CAP = Outline.make(
    [(np.cos(t) * 40, np.sin(t) * 52) for t in np.linspace(np.pi / 2, 3 * np.pi / 2, 25)]
    + [(np.cos(t) * 14, np.sin(t) * 34) for t in np.linspace(3 * np.pi / 2, np.pi / 2, 15)]
)
BOTH_WAYS = (0.0, 180.0)


@pytest.fixture(autouse=True)
def rows_as_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    """The rows themselves: nothing is worked into them afterwards."""
    monkeypatch.setattr(improving, "PASSES", 0)


def rows(outline: Outline, width_mm: float, count: int, turns_deg: tuple[float, ...] = BOTH_WAYS) -> Lay:
    """The rows laid at a gap of 2 mm, before the independent judge."""
    problem = LayProblem(Roll(width_mm), (Item("die", outline, count, turns_deg),), gap_mm=2.0)
    lay = production.solve(problem)
    assert lay is not None
    verdict = verify(problem, lay)
    assert verdict.ok, verdict.faults[:1]
    return lay


def test_no_rows_are_shorter_than_the_cloth_their_pieces_cover() -> None:
    assert 600.0 * rows(TOE_CAP, 600.0, 60).length_mm > 60 * TOE_CAP.area_mm2


def test_one_way_cloth_takes_no_half_turn_and_more_length() -> None:
    two, one = rows(TOE_CAP, 600.0, 40), rows(TOE_CAP, 600.0, 40, (0.0,))
    assert {at.turn_deg for at in two.placements} == {0.0, 180.0}
    assert {at.turn_deg for at in one.placements} == {0.0}
    assert one.length_mm >= two.length_mm - 1e-6


def test_rectangles_lie_as_anyone_would_lay_them() -> None:
    """50 x 40 with a gap of 2 on 250: six rows (6 * 40 + 5 * 2 = 250), five columns (5 * 50 + 4 * 2)."""
    rectangle = Outline.make([[0, 0], [50, 0], [50, 40], [0, 40]])
    assert rows(rectangle, 250.01, 30).length_mm == pytest.approx(258.0, abs=0.1)


def test_a_piece_wider_than_the_roll_is_refused_with_a_remedy() -> None:
    ring = np.asarray(TOE_CAP.ring_mm)
    with pytest.raises(ProblemError, match=r"wider than the roll.*wider roll"):
        best_strip(searched([ring, -ring], 2.0, starts=50), 10, (0.0, 90.0))
