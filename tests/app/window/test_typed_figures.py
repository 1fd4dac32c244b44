"""A figure that is still being typed counts: an action's key and a tool button do not leave the field."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QTableWidget, QTableWidgetItem

from app.window.widgets.fields import enter_typed
from tests.app.window.hands import HANG_MS, key


def setbacks(window) -> list[float | None]:
    return [edge.setback_mm for piece in window.session.style.pieces for edge in piece.edges]


def test_a_setback_being_typed_is_entered_when_an_action_is_called_by_its_key(derby) -> None:
    desk = derby.desk
    desk.select("Tongue")
    key(derby, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    field = desk.inspector.setback
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "7.3")
    assert 7.3 not in setbacks(derby)
    derby.activateWindow()
    assert QTest.qWaitForWindowActive(derby, HANG_MS)
    QTest.keyClick(field, Qt.Key.Key_0, Qt.KeyboardModifier.ControlModifier)  # show everything
    assert 7.3 in setbacks(derby)


def test_a_cell_being_typed_is_entered_when_an_action_is_called(qtbot) -> None:
    table = QTableWidget(1, 1)
    qtbot.addWidget(table)
    table.setItem(0, 0, QTableWidgetItem("2"))
    table.show()
    assert QTest.qWaitForWindowActive(table, HANG_MS)
    table.editItem(table.item(0, 0))
    editor = QApplication.focusWidget()
    QTest.keyClicks(editor, "9")
    enter_typed()
    assert table.item(0, 0).text() == "9"
