"""The cutter's hands in millimetres, without Qt."""

import pytest

from app.tools.lay_hands import Dragging, LayHands, Picked, PiecesMoved, PutDown, SweepBox
from app.tools.lay_table import LayTable, put_back, swapped, turned
from app.tools.pointer import Pointer
from geometry.outline import Outline
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.verify import verify
from nesting.verify.fault import FaultKind

WEDGE = Outline.make([(0, 0), (20, 0), (20, 10), (0, 6)])


@pytest.fixture
def problem() -> LayProblem:
    return LayProblem(
        roll=Roll(100.0, flaws=(Flaw(Outline.make([(80, 80), (90, 80), (90, 90)]).ring_mm),)),
        items=(Item("w", WEDGE, 3),),
        gap_mm=2.0,
        edge_margin_mm=5.0,
    )


@pytest.fixture
def table(problem) -> LayTable:
    return LayTable(problem, (Placement("w", 0.0, 10, 20), Placement("w", 0.0, 40, 20, True)))


def at(x: float, y: float, **held) -> Pointer:
    return Pointer(x, y, px_per_mm=4.0, **held)


def test_a_piece_is_dragged_and_says_by_how_much_it_is_too_close(table):
    hands = LayHands()
    assert hands.press(table, at(15, 23)) == [Picked(frozenset({0}))]
    (shown,) = hands.move(at(24, 23))
    assert isinstance(shown, Dragging) and (shown.dx_mm, shown.dy_mm) == (9, 0)
    (clash,) = shown.clashes
    assert clash.other == 1 and not clash.overlap and clash.amount_mm == pytest.approx(1.0)
    (shown,) = hands.move(at(30, 23))
    assert shown.clashes[0].overlap
    (laid,) = hands.release(at(24, 23))
    assert isinstance(laid, PiecesMoved)
    assert (laid.placements[0].x_mm, laid.placements[1].x_mm) == (25, 40)


def test_a_click_selects_shift_adds_and_a_sweep_takes_all(table):
    hands = LayHands()
    hands.press(table, at(15, 23))
    assert hands.release(at(15, 23)) == []
    hands.press(table, at(45, 23, shift=True))
    hands.release(at(45, 23, shift=True))
    assert hands.chosen == {0, 1}
    hands.press(table, at(0, 0))
    hands.release(at(0, 0))
    assert hands.chosen == frozenset()
    hands.press(table, at(0, 0))
    hands.move(at(70, 50))
    assert hands.release(at(70, 50)) == [SweepBox(None), Picked(frozenset({0, 1}))]


def test_a_pinned_piece_stays(table):
    hands = LayHands()
    hands.press(table, at(45, 23))
    assert hands.move(at(60, 60)) == []
    assert hands.release(at(60, 60)) == [PutDown()]


def test_control_keeps_to_one_direction_and_escape_gives_up(table):
    hands = LayHands()
    hands.press(table, at(15, 23))
    (shown,) = hands.move(at(17, 40, control=True))
    assert (shown.dx_mm, shown.dy_mm) == (0, 17)
    assert PutDown() in hands.cancel()
    assert hands.release(at(17, 40)) == []


def test_margins_and_flaws_clash_as_the_judge_says(table):
    assert [c.other for c in table.clashes([0], 0, -17)] == [-1]
    assert [c.other for c in table.clashes([0], 68, 60)] == [-2]
    laid = Lay(table.moved([0], 0, -17), 100.0)
    assert FaultKind.OUTSIDE in {fault.kind for fault in verify(table.problem, laid).faults}


def test_what_does_not_lie_on_the_roll_is_on_the_side_table_and_can_be_put_back(table):
    assert table.missing == {"w": 1}
    full = LayTable(table.problem, put_back(table, "w"))
    assert full.missing == {} and full.clashes([2]) == []
    there = LayTable(table.problem, put_back(table, "w", (150.0, 60.0)))
    x0, y0, x1, y1 = there.polygons[2].bounds
    assert ((x0 + x1) / 2, (y0 + y1) / 2) == pytest.approx((150.0, 60.0))


def test_turning_by_half_keeps_the_middle_and_swapping_exchanges_places(table):
    half = LayTable(table.problem, turned(table, [0], 180.0))
    assert half.polygons[0].bounds == pytest.approx(table.polygons[0].bounds)
    assert half.placements[0].turn_deg == 180.0 and half.off_axis_deg(0) == 0.0
    other = swapped(table, 0, 1)
    assert (other[0].x_mm, other[1].x_mm) == (40, 10)


def test_a_piece_turned_off_the_tight_direction_says_by_how_many_degrees(problem):
    table = LayTable(problem, (Placement("w", 7.5, 30, 30),))
    assert table.off_axis_deg(0) == pytest.approx(7.5)


def test_a_turn_by_degrees_keeps_the_middle_and_is_off_the_tight_direction_by_as_much(table):
    one = LayTable(table.problem, turned(table, [0], 1.0))
    assert one.off_axis_deg(0) == pytest.approx(1.0)
    x0, y0, x1, y1 = one.polygons[0].bounds
    a0, b0, a1, b1 = table.polygons[0].bounds
    assert (x0 + x1, y0 + y1) == pytest.approx((a0 + a1, b0 + b1))
    back = LayTable(table.problem, turned(one, [0], -1.0))
    assert back.off_axis_deg(0) == 0.0
