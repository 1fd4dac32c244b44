"""The costing clerk's desk, by mouse and keys: order, widths, prices, results, export."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit

from tests.app.window.hands import SAMPLES

pytestmark = pytest.mark.slow


@pytest.fixture
def desk(shell, qtbot):
    window = shell.window
    assert window.files.open_paths([SAMPLES["court"]])
    shown = next(desk for desk in window.desks if desk.name == "cost")
    window.show_desk(window.desks.index(shown))
    qtbot.wait(10)
    shown.seconds.set_value(1)
    yield shown
    shown.stop()


def type_into(table, row, column, text):
    """Open a cell with a double click and type over it."""
    at = table.visualItemRect(table.item(row, column)).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
    field = table.viewport().findChild(QLineEdit)
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)
    QApplication.processEvents()  # the table takes the text once the key is dealt with


def untick_all_but(desk, rows):
    for row in range(desk.widths.rowCount()):
        if row not in rows:
            desk.widths.cell(row, 0).setCheckState(Qt.CheckState.Unchecked)


def small_order(desk):
    for row in range(desk.order.rowCount()):
        type_into(desk.order, row, 1, "2" if row < 2 else "0")


def test_the_order_beside_the_style_is_shown(desk):
    assert sum(desk.order.pairs.values()) > 0
    assert desk.total.text().startswith(str(sum(desk.order.pairs.values())))


def test_typed_pairs_count_and_nonsense_does_not(desk):
    type_into(desk.order, 0, 1, "7")
    size = desk.order.item(0, 0).text()
    assert desk.order.pairs[size] == 7
    type_into(desk.order, 0, 1, "many")
    assert desk.order.pairs[size] == 7
    assert desk.order.item(0, 1).text() == "7"


def test_widths_are_counted_one_after_another_and_a_price_moves_the_money(desk, qtbot, tmp_path):
    small_order(desk)
    untick_all_but(desk, (0, 1))
    QTest.keyClick(desk.window(), Qt.Key.Key_F9)
    assert desk.comparison.running and desk.busy()
    qtbot.waitUntil(lambda: len(desk.comparison.results) == 2, timeout=120_000)
    assert not desk.comparison.running
    assert desk.result_table.rowCount() == 2
    own = desk.widths.widths[0]
    result = desk.comparison.results[own.width_mm]
    metres = Decimal(f"{result.row['metres_per_pair']:.6f}")
    assert result.cost_per_pair == (metres * own.price_per_m).quantize(Decimal("0.0001"))
    type_into(desk.widths, 0, 1, "10")
    assert desk.comparison.results[own.width_mm].cost_per_pair == (metres * 10).quantize(Decimal("0.0001"))
    desk.copy_tables()
    assert str(desk.comparison.results[own.width_mm].cost_per_pair) in QGuiApplication.clipboard().text()
    desk.export(tmp_path / "figures")
    assert {path.suffix for path in (tmp_path / "figures").iterdir()} == {".pdf", ".csv", ".xlsx"}
    assert desk.grab().save(str(tmp_path / "cost.png"))


def test_stopping_ends_the_process_and_keeps_what_is_counted(desk, qtbot):
    small_order(desk)
    QTest.keyClick(desk.window(), Qt.Key.Key_F9)
    assert desk.comparison.running
    QTest.keyClick(desk.window(), Qt.Key.Key_F9, Qt.KeyboardModifier.ShiftModifier)
    assert not desk.comparison.running
    assert desk.comparison.results == {}


def test_an_order_of_other_sizes_is_refused_in_words(desk, qtbot, tmp_path):
    order = tmp_path / "order.csv"
    order.write_text("size,pairs\n99,4\n")
    said = []
    desk.status.connect(said.append)
    before = desk.order.pairs
    desk.open_order(order)
    assert "99" in said[-1]
    assert desk.order.pairs == before


def test_an_edit_of_the_style_lets_go_of_old_figures(desk, qtbot):
    small_order(desk)
    untick_all_but(desk, (0,))
    desk.compare()
    qtbot.waitUntil(lambda: len(desk.comparison.results) == 1, timeout=120_000)
    style = desk.session.style
    desk.session.apply(
        "gap", style.model_copy(update={"rules": style.rules.model_copy(update={"gap_mm": 3.0})})
    )
    assert desk.comparison.results == {}


def test_a_run_is_planned_a_lay_kept_in_other_plies_and_the_rest_planned_anew(desk, qtbot, tmp_path):
    small_order(desk)
    for row in range(3):
        type_into(desk.order, row, 1, "6")
    QTest.keyClick(desk.window(), Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier)
    assert desk.pages.currentIndex() == 1
    page = desk.plan_page
    for name, value in (("table", 900), ("plies", 3), ("seconds", 5)):
        page.fields[name].set_value(value)
    QTest.keyClick(desk.window(), Qt.Key.Key_F10)
    assert page.run.running and desk.busy()
    qtbot.waitUntil(lambda: page.payload is not None, timeout=120_000)
    first = page.payload["lays"][0]
    assert sum(page.payload["pairs_cut"].values()) >= 18
    type_into(page.table, 0, 1, str(first["plies"] - 1))
    assert page.table.kept(0)
    before = page.payload
    QTest.keyClick(desk.window(), Qt.Key.Key_F10)
    qtbot.waitUntil(lambda: page.payload is not before, timeout=120_000)
    again = page.payload["lays"][0]
    assert again["plies"] == first["plies"] - 1
    assert again["sets"] == first["sets"]
    page.export(tmp_path / "plan")
    assert (tmp_path / "plan" / "run-plan.pdf").exists()
