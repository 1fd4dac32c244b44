"""Pieces cut from a remnant lie on cloth, whatever the remnant's outline."""

import pytest

from geometry.outline import Outline
from nesting.engine import solve as engine
from nesting.errors import ProblemError
from nesting.items import Item
from nesting.problem import LayProblem
from nesting.remnant import remnant_roll
from nesting.stop import Deadline
from nesting.verify import verify

L_SHAPE = Outline.make([(100, 50), (700, 50), (700, 250), (320, 250), (320, 600), (100, 600)])


def test_what_is_not_cloth_is_a_flaw():
    roll = remnant_roll(L_SHAPE, 90.0)
    assert (roll.length_mm, roll.usable_width_mm) == (600.0, 550.0)
    assert len(roll.flaws) == 1
    assert Outline.make(roll.flaws[0].ring_mm).area_mm2 == pytest.approx(600 * 550 - L_SHAPE.area_mm2)


def test_a_hole_in_a_remnant_is_a_flaw_too():
    holed = Outline.make([(0, 0), (100, 0), (100, 100), (0, 100)], [[(40, 40), (60, 40), (60, 60), (40, 60)]])
    roll = remnant_roll(holed, 0.0)
    assert [Outline.make(flaw.ring_mm).area_mm2 for flaw in roll.flaws] == [400.0]


def test_a_pair_of_pieces_lies_on_the_remnant():
    piece = Outline.make([(0, 0), (160, 0), (150, 90), (10, 90)])
    items = (Item("left", piece, 2), Item("right", piece.mirrored(), 2))
    problem = LayProblem(remnant_roll(L_SHAPE, 0.0), items, gap_mm=2.0)
    lay = engine.solve(problem, stop=Deadline(3.0), workers=1)
    assert verify(problem, lay).ok
    cloth = L_SHAPE.moved(-100, -50).polygon.buffer(1e-3)
    for placement in lay.placements:
        assert cloth.contains(placement.place(problem.item(placement.item_id).outline).polygon)


def test_a_remnant_that_crosses_itself_is_refused():
    with pytest.raises(ProblemError, match="crosses itself"):
        remnant_roll(Outline.make([(0, 0), (100, 90), (100, 0), (0, 100)]), 0.0)


def test_slanted_edges_and_holes_keep_the_margin():
    slanted = Outline.make([(0, 0), (600, 40), (520, 500), (60, 430)], [[(300, 200), (330, 200), (330, 230)]])
    roll = remnant_roll(slanted, 0.0, 5.0)
    piece = Outline.make([(0, 0), (90, 0), (90, 50), (0, 50)])
    problem = LayProblem(roll, (Item("piece", piece, 14),), gap_mm=2.0, edge_margin_mm=5.0, end_margin_mm=5.0)
    lay = engine.solve(problem, stop=Deadline(2.0), workers=1)
    assert verify(problem, lay).ok
    for placement in lay.placements:
        away = placement.place(piece).polygon.distance(slanted.polygon.boundary)
        assert away >= 5.0 - 1e-3
