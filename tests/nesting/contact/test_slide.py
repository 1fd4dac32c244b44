"""A piece slides until it touches, keeps the gap to 0.01 mm, and never passes through another."""

import pytest
from shapely.affinity import translate

from geometry.outline import Outline
from nesting.contact.slide import slide
from nesting.items import Item
from nesting.lay import Placement
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll

SQUARE = Outline.make([(0, 0), (10, 0), (10, 10), (0, 10)])
ROUND = Outline.make([(5, 0), (9, 2), (10, 5), (9, 8), (5, 10), (1, 8), (0, 5), (1, 2)])


def problem(outline=SQUARE, gap=2.0, flaws=()) -> LayProblem:
    return LayProblem(
        roll=Roll(100.0, flaws=flaws),
        items=(Item("a", outline, 2),),
        gap_mm=gap,
        edge_margin_mm=5.0,
        end_margin_mm=3.0,
    )


def at(x: float, y: float) -> Placement:
    return Placement("a", 0.0, x, y)


def test_to_the_margins_of_the_roll():
    lay = [at(40, 40)]
    assert slide(problem(), lay, 0, 180) == pytest.approx(37, abs=0.01)
    assert slide(problem(), lay, 0, 90) == pytest.approx(45, abs=0.01)
    assert slide(problem(), lay, 0, -90) == pytest.approx(35, abs=0.01)


def test_towards_the_open_end_it_stays():
    assert slide(problem(), [at(40, 40)], 0, 0) == 0.0


def test_to_the_gap_before_another_piece():
    assert slide(problem(), [at(60, 40), at(10, 45)], 0, 180) == pytest.approx(38, abs=0.01)


def test_past_a_piece_that_is_out_of_the_way():
    assert slide(problem(), [at(60, 40), at(10, 60)], 0, 180) == pytest.approx(57, abs=0.01)


def test_round_pieces_touch_at_the_gap_exactly():
    lay = [at(70, 43), at(20, 40)]
    moved = slide(problem(ROUND), lay, 0, 180)
    a = translate(ROUND.polygon, 70 - moved, 43)
    b = translate(ROUND.polygon, 20, 40)
    assert 2.0 - 0.01 <= a.distance(b) <= 2.02


def test_a_piece_that_lies_too_close_already_does_not_move_on():
    assert slide(problem(), [at(21, 40), at(10, 40)], 0, 180) == 0.0


def test_a_flaw_stops_it():
    flaw = Flaw(SQUARE.moved(10, 45).ring_mm)
    assert slide(problem(flaws=(flaw,)), [at(60, 40)], 0, 180) == pytest.approx(40, abs=0.01)
