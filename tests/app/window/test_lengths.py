"""Lengths and figures as people read them: mm or inch, metres or yards, point or comma."""

import pytest

from app.window.desks.draft.board_hold import HoldMark
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import ClothLengthField, LengthField
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


def test_a_field_letters_its_unit_where_there_is_room(qtbot) -> None:
    lengths = Lengths()
    wide, narrow = (LengthField("Gap", lengths) for _ in range(2))
    for field, width in ((wide, 96), (narrow, 64)):
        qtbot.addWidget(field)
        field.setFixedWidth(width)
        field.show()
    assert wide.textMargins().right() > 0 and narrow.textMargins().right() == 0


def test_cloth_is_typed_in_metres_or_in_yards_and_kept_in_metres(qtbot) -> None:
    length = ClothLengthField("Roll length", Lengths(Unit.INCH))
    rate = ClothLengthField("Spreading cost", Lengths(Unit.INCH), rate=True, digits=3)
    for field in (length, rate):
        qtbot.addWidget(field)
    assert length.from_text("50") == pytest.approx(45.72)  # a yard is 0.9144 m (agreement of 1959)
    assert rate.from_text("0.9144") == pytest.approx(1.0), "what a metre costs is more than what a yard does"
    assert (length.to_text(45.72), rate.to_text(1.0)) == ("50", "0.914")


def test_a_name_too_long_for_its_box_keeps_both_its_ends(qtbot) -> None:
    box = Chooser()
    qtbot.addWidget(box)
    box.addItems(["37", "Cotton twill 150, EVA dots"])
    box.resize(120, 26)
    assert box.shown_text == "37"
    box.setCurrentIndex(1)
    assert box.shown_text.startswith("Cot") and box.shown_text.endswith("ots") and "…" in box.shown_text
