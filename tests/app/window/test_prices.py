"""Prices typed on the Cost desk: other widths follow, the plan takes them, nothing on the way loses them."""

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.cost.per_pair import roll_width
from app.window.running.command_run import CommandRun
from tests.app.window.hands import SAMPLES, type_into


@pytest.fixture
def window(shell, monkeypatch):
    """The window on the court shoe's Cost desk; no command is run, only asked for."""
    asked = []
    monkeypatch.setattr(CommandRun, "start", lambda run, *words, **more: asked.append(words))
    assert shell.window.files.open_paths([SAMPLES["court"]])
    shell.window.show_desk(3)
    shell.window.asked = asked
    return shell.window


def prices(desk):
    return {width.width_mm: width.price_per_m for width in desk.side.widths.widths}


def test_a_width_without_a_price_of_its_own_costs_in_proportion_to_the_one_typed(window):
    desk = window.desk
    type_into(desk.side.widths, 2, 1, "9")
    named = desk.side.widths.widths[2].width_mm
    type_into(desk.side.widths, 0, 1, "4.10")
    dearer = desk.cloth.model_copy(update={"price_per_m": Decimal("4.10")})
    expected = {width: roll_width(dearer, width).price_per_m for width in prices(desk)}
    assert prices(desk) == expected | {named: Decimal(9)}
    assert desk.side.others.width_of(desk.cloth.id).price_per_m == Decimal("4.10")


def test_prices_and_ticks_stay_through_units_another_desk_and_another_light(window, shell, qtbot):
    desk = window.desk
    type_into(desk.side.widths, 0, 1, "4.10")
    desk.side.widths.cell(1, 0).setCheckState(Qt.CheckState.Unchecked)
    desk.side.seconds.set_value(7)
    before, ticked = prices(desk), desk.side.widths.ticked_keys
    window.actions_made["look.inch"].trigger()
    window.actions_made["look.mm"].trigger()
    window.show_desk(2)
    window.show_desk(3)
    QTest.mouseRelease(desk.side.widths.viewport(), Qt.MouseButton.LeftButton)  # of the double click
    with qtbot.waitSignal(window.destroyed):
        window.actions_made["look.night"].trigger()
    desk = shell.window.desk
    assert (prices(desk), desk.side.widths.ticked_keys) == (before, ticked)
    assert desk.side.others.width_of(desk.cloth.id).price_per_m == Decimal("4.10")
    assert desk.side.seconds.value == 7


def test_the_run_is_planned_at_the_price_typed(window):
    desk = window.desk
    type_into(desk.side.widths, 0, 1, "4.10")
    QTest.keyClick(window, Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier)
    desk.plan_page.fields["table"].set_value(6000)
    desk.plan_page.fields["plies"].set_value(20)
    QTest.keyClick(window, Qt.Key.Key_F10)
    command, style, *_ = window.asked[-1]
    assert command == "plan" and style.cloth(desk.cloth.id).price_per_m == Decimal("4.10")
    assert desk.cloth.price_per_m != Decimal("4.10"), "the card in the style is changed on the Cloth desk"
