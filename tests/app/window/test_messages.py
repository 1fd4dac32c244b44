"""What the window says stays until the next message and can be read again; error details free the buttons."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QStatusTipEvent
from PySide6.QtWidgets import QApplication, QDialogButtonBox, QLabel, QPushButton, QToolButton

from app.window.problems import ProblemDialog
from tests.app.window.hands import click


def test_a_message_stays_while_the_pointer_moves_and_the_last_ones_can_be_read_again(derby, qtbot):
    derby.desk.status.emit("Not written: the lay has 3 faults")
    click(derby.desk.view, (0.0, 0.0))
    button = next(b for b in derby.desk.findChildren(QToolButton) if b.isVisible() and b.statusTip())
    QApplication.sendEvent(button, QStatusTipEvent(button.statusTip()))
    assert derby.statusBar().currentMessage() == "Not written: the lay has 3 faults"
    assert derby.line.passing.text() == button.statusTip()
    derby.desk.status.emit("Not written: the lay has 2 faults")
    derby.desk.status.emit("Written")
    qtbot.mouseClick(derby.line.button, Qt.MouseButton.LeftButton)
    lines = derby.line.lines
    shown = [lines.item(row).text() for row in range(lines.count())]
    assert derby.line.list.isVisible()
    assert shown[:2] == ["Written", "Not written: the lay has 2 faults"]
    assert "Not written: the lay has 3 faults" not in shown, "the same again with other figures replaces it"
    qtbot.keyClick(lines, Qt.Key.Key_Escape)
    assert not derby.line.list.isVisible()


def test_where_the_pointer_was_on_one_desk_is_not_told_on_the_next(derby):
    click(derby.desk.view, (0.0, 0.0))
    assert derby.line.passing.text()
    derby.show_desk(1)
    assert not derby.line.passing.text()


def test_details_of_an_error_push_its_buttons_down_and_do_not_cover_them(derby, qtbot):
    said = (
        "the drawing holds a ring that crosses itself beside the heel, and the seam that lies against it " * 3
    )
    dialog = ProblemDialog(said, remedy=said, details="\n".join(["a line of the trace"] * 60), parent=derby)
    dialog.show()
    buttons = {button.text(): button for button in dialog.findChildren(QPushButton)}
    qtbot.mouseClick(buttons["Details"], Qt.MouseButton.LeftButton)
    shown = (dialog._more, dialog.findChild(QDialogButtonBox))

    def apart():
        boxes = [widget.geometry() for widget in shown]
        return not boxes[0].intersects(boxes[1]) and dialog.rect().contains(boxes[1])

    qtbot.waitUntil(apart)
    labels = [label for label in dialog.findChildren(QLabel) if label.wordWrap()]
    assert all(label.height() >= label.heightForWidth(label.width()) for label in labels)
    dialog.close()
    dialog.deleteLater()
