"""Rows of one die on a roll: what a press cutter is handed."""

from __future__ import annotations

import numpy as np
import pytest

from geometry.outline import Outline
from nesting.errors import ProblemError
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.rows.one_die import RowsLayout, best_rows
from nesting.verify import verify

TOE_CAP = Outline.make(
    [(np.cos(t) * 40, np.sin(t) * 52) for t in np.linspace(np.pi / 2, 3 * np.pi / 2, 25)]
    + [(np.cos(t) * 14, np.sin(t) * 34) for t in np.linspace(3 * np.pi / 2, np.pi / 2, 15)]
)


def judged(rows: RowsLayout, outline: Outline, width: float, gap: float, count: int) -> bool:
    """The layout as a lay, before the independent judge."""
    placements = []
    for turned, (x, y) in zip(rows.turned, rows.at_mm, strict=True):
        turn = 180.0 if turned else 0.0
        low_x, low_y, high_x, high_y = outline.turned(turn).bbox_mm
        placements.append(Placement("die", turn, x - (low_x + high_x) / 2, y - (low_y + high_y) / 2))
    turns = (0.0, 180.0) if rows.turned.any() else (0.0,)
    problem = LayProblem(Roll(width), (Item("die", outline, count, turns),), gap_mm=gap)
    return verify(problem, Lay(tuple(placements), problem.length_of_mm(placements))).ok


def test_rows_are_verified_and_say_their_step_and_pitch() -> None:
    rows = best_rows(TOE_CAP, 600.0, 2.0, 60)
    assert judged(rows, TOE_CAP, 600.0, 2.0, 60)
    assert len(rows.at_mm) == 60
    assert rows.density == pytest.approx(60 * TOE_CAP.area_mm2 / (600.0 * rows.length_mm))
    assert rows.density < rows.lattice_density <= 1.0
    assert rows.step_mm[0] > abs(rows.step_mm[1]) and rows.row_mm[1] > 0
    assert rows.twin_mm is not None


def test_one_way_cloth_takes_no_half_turn_and_more_length() -> None:
    two, one = best_rows(TOE_CAP, 600.0, 2.0, 40), best_rows(TOE_CAP, 600.0, 2.0, 40, one_way=True)
    assert not one.turned.any() and one.twin_mm is None
    assert judged(one, TOE_CAP, 600.0, 2.0, 40)
    assert one.length_mm >= two.length_mm - 1e-6


def test_rectangles_lie_as_anyone_would_lay_them() -> None:
    """50 x 40 with a gap of 2 on 250: six rows (6 * 40 + 5 * 2 = 250), five columns (5 * 50 + 4 * 2)."""
    rectangle = Outline.make([[0, 0], [50, 0], [50, 40], [0, 40]])
    rows = best_rows(rectangle, 250.01, 2.0, 30)
    assert judged(rows, rectangle, 250.01, 2.0, 30)
    assert rows.length_mm == pytest.approx(258.0, abs=0.1)


def test_a_piece_wider_than_the_roll_is_refused_with_a_remedy() -> None:
    with pytest.raises(ProblemError, match=r"wider than the roll.*wider roll"):
        best_rows(TOE_CAP, 90.0, 2.0, 10)


def test_the_same_seed_gives_the_same_rows() -> None:
    one, two = best_rows(TOE_CAP, 240.0, 2.0, 6, seed=4), best_rows(TOE_CAP, 240.0, 2.0, 6, seed=4)
    assert np.array_equal(one.at_mm, two.at_mm)
