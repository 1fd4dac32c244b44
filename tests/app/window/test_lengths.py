"""Lengths and figures as people read them: mm or inch, metres or yards, point or comma."""

import pytest

from app.window.desks.draft.board_hold import HoldMark
from app.window.widgets.lengths import Lengths, Unit


def test_a_roll_is_measured_in_metres_or_yards():
    assert Lengths().roll_text(2310.0) == "2.310 m"
    assert Lengths(Unit.INCH).roll_text(914.4) == "1.000 yd"  # the yard is 0.9144 m (agreement of 1959)


def test_figures_take_the_decimal_point_of_the_language():
    italian = Lengths(decimal_point=",")
    assert italian.percent(0.656) == "65,6 %" and italian.decimal(1.0) == "1,0"
    assert italian.roll_text(763.0) == "0,763 m"


@pytest.mark.parametrize(("typed", "mm"), [("12,5", 12.5), ("1/4 in", 6.35), ('2"', 50.8), ("3 mm", 3.0)])
def test_typed_lengths_are_read_with_either_point_and_either_unit(typed, mm):
    assert Lengths().read_mm(typed) == pytest.approx(mm)


def test_what_a_hold_line_gives_is_lettered_in_the_unit_shown() -> None:
    mark = HoldMark((2.54, 5.08), 7.62, "good")
    assert mark.text(Lengths()) == "2.5-5.1 / 7.6 mm"
    assert mark.text(Lengths(Unit.INCH, ",")) == "0,100-0,200 / 0,300 in"
    assert HoldMark().text(Lengths()) == ""
