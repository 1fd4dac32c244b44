"""Open, change and close every chooser, field and table cell of every desk, with real events.

    python tests/app/window/real/every_field.py STYLE RECOVERY_FOLDER

Prints a line before each widget it touches, so that a crash names its widget, and ``done N`` in the end.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QPoint, QPointF, QSettings, QStandardPaths, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QLineEdit,
    QRadioButton,
    QTableWidget,
    QTabWidget,
    QTextEdit,
    QWidget,
)

from app.window.application import Shell, make_application

FIELDS = (QComboBox, QAbstractSpinBox, QLineEdit, QTextEdit, QCheckBox, QRadioButton, QTableWidget)
SETTLE_MS = 2
"""The loop runs so long, and on until what it holds is done; nothing here waits for more."""


class Driver:
    """Goes through the fields of a window; faults caught by Python are counted, crashes end the process."""

    def __init__(self, shell: Shell) -> None:
        self.window = shell.window
        assert self.window is not None
        self.touched = 0
        self.faults: list[str] = []
        sys.excepthook = self._fault
        self._closer = QTimer()
        self._closer.timeout.connect(self._close_dialogs)
        self._closer.start(30)

    def _fault(self, kind: type[BaseException], error: BaseException, trace: object) -> None:
        self.faults.append(f"{kind.__name__}: {error}")
        sys.__excepthook__(kind, error, trace)  # type: ignore[arg-type]

    def _close_dialogs(self) -> None:
        dialog = QApplication.activeModalWidget()
        if isinstance(dialog, QDialog):
            dialog.reject()

    def desk(self, number: int) -> None:
        """Go through every page and field of a desk."""
        self.window.show_desk(number)
        self.settle()
        tabs = [t for t in self.window.desks[number].findChildren(QTabWidget) if t.isVisible()]
        buttons = [b for b in self.window.desks[number].findChildren(QAbstractButton) if b.isCheckable()]
        self.fields(number)
        for tab in tabs:
            for page in range(tab.count()):
                tab.setCurrentIndex(page)
                self.fields(number)
        for button in buttons:
            if alive(button) and button.isVisible() and not isinstance(button, QCheckBox | QRadioButton):
                QTest.mouseClick(button, Qt.MouseButton.LeftButton)
                self.fields(number)

    def pieces_and_edges(self) -> None:
        """On the Draft desk, select each piece and an edge of it with the mouse; change what is offered."""
        self.window.show_desk(0)
        draft = self.window.desks[0]
        for row in range(draft.piece_list.model().rowCount()):
            rows = draft.piece_list
            rows.scrollTo(rows.model().index(row, 0))
            at = rows.visualRect(rows.model().index(row, 0)).center()
            QTest.mouseClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=at)
            self.settle()
            draft.fit_piece()
            shown = draft.board.piece(draft.selecting.piece)
            middle, _ = shown.edges[row % len(shown.edges)].point_at(0.5)
            on_edge = draft.view.viewportTransform().map(QPointF(*shown.to_board(middle))).toPoint()
            QTest.mouseMove(draft.view.viewport(), on_edge)
            QTest.mouseClick(draft.view.viewport(), Qt.MouseButton.LeftButton, pos=on_edge)
            self.settle()
            self.fields(0)
            for kind, button in draft.inspector.kinds.items():
                print(f"draft kind {kind.value} {button.isEnabled()}", flush=True)
                QTest.mouseClick(button, Qt.MouseButton.LeftButton)
                self.settle()
            for button in (draft.inspector.axis_confirm, draft.inspector.edges_confirm):
                self.keep(button, lambda button=button: QTest.mouseClick(button, Qt.MouseButton.LeftButton))

    def fields(self, number: int) -> None:
        """Touch every field that is shown now, each once; what an event makes again is found again."""
        done: set[tuple[str, str, int, int]] = set()
        while True:
            self.settle()
            fresh = [
                (key, widget)
                for widget in self.window.desks[number].findChildren(QWidget)
                if isinstance(widget, FIELDS) and widget.isVisible() and widget.isEnabled()
                if (key := name_of(widget)) not in done
            ]
            if not fresh:
                return
            key, widget = fresh[0]
            done.add(key)
            if isinstance(widget, QLineEdit) and isinstance(
                widget.parentWidget(), QAbstractSpinBox | QComboBox
            ):
                continue  # the field that it is part of is touched
            print(f"{self.window.desks[number].name} {' '.join(map(str, key))}", flush=True)
            self.touch(widget)
            self.touched += 1

    def touch(self, widget: QWidget) -> None:
        """Change one field as a person would."""
        widget.setFocus()
        if isinstance(widget, QComboBox):
            self.choose(widget)
        elif isinstance(widget, QTableWidget):
            self.cells(widget)
        elif isinstance(widget, QCheckBox | QRadioButton):
            self.keep(widget, lambda: QTest.mouseClick(widget, Qt.MouseButton.LeftButton))
            self.keep(widget, lambda: QTest.mouseClick(widget, Qt.MouseButton.LeftButton))
        elif isinstance(widget, QTextEdit):
            QTest.keyClicks(widget, "a note")
        else:
            for key in (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Up):
                self.keep(widget, lambda key=key: QTest.keyClick(widget, key))
            self.keep(widget, lambda: QTest.keyClick(widget, Qt.Key.Key_1))
            self.keep(widget, lambda: QTest.keyClick(widget, Qt.Key.Key_Return))
        self.settle()

    def choose(self, box: QComboBox) -> None:
        """Take every entry of a chooser, by keys and by mouse."""
        for entry in range(box.count()):
            if not (alive(box) and box.isVisible()):
                return
            box.showPopup()
            self.settle()
            view = box.view()
            if entry % 2 and view.isVisible():
                at = view.visualRect(view.model().index(min(entry, view.model().rowCount() - 1), 0)).center()
                QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=at)
            else:
                QTest.keyClick(view, Qt.Key.Key_Home)
                for _ in range(entry):
                    QTest.keyClick(view, Qt.Key.Key_Down)
                QTest.keyClick(view, Qt.Key.Key_Return)
            self.settle()
            if alive(box):
                box.hidePopup()

    def cells(self, table: QTableWidget) -> None:
        """Open every cell of a table, type into it, and leave it by each of the two keys."""
        for row in range(min(table.rowCount(), 4)):
            for column in range(table.columnCount()):
                if not (alive(table) and row < table.rowCount()):
                    return
                item = table.item(row, column)
                at = table.visualItemRect(item).center() if item else QPoint(4, 4)
                QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
                QTest.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
                self.settle()
                editor = QApplication.focusWidget()
                if isinstance(editor, QLineEdit):
                    QTest.keyClicks(editor, "7")
                    QTest.keyClick(editor, Qt.Key.Key_Escape if column % 2 else Qt.Key.Key_Return)
                self.settle()

    def keep(self, widget: QWidget, act: Callable[[], object]) -> None:
        """Act on a widget that is still there."""
        if alive(widget) and widget.isVisible():
            act()
            self.settle()

    def settle(self) -> None:
        """Let events run, deferred deletions too."""
        QTest.qWait(SETTLE_MS)


def alive(widget: QWidget) -> bool:
    """Whether Qt still has the widget."""
    from shiboken6 import isValid

    return isValid(widget)


def name_of(widget: QWidget) -> tuple[str, str, int, int]:
    """What tells a widget from the others, also when it was made again."""
    at = widget.mapTo(widget.window(), QPoint(0, 0))
    return type(widget).__name__, widget.accessibleName() or widget.objectName(), at.x(), at.y()


def main(style: Path, recovery: Path) -> int:
    """Drive the window over a style; returns the number of faults that Python caught."""
    QStandardPaths.setTestModeEnabled(True)
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(recovery))
    app = make_application()
    shell = Shell(app, recovery / "recovery")
    shell.settings.light, shell.settings.language = "day", "en"
    window = shell.show()
    window.resize(1360, 860)
    window.activateWindow()
    shell.begin([style])
    while shell.session.style is None:
        QTest.qWait(SETTLE_MS)
    driver = Driver(shell)
    driver.pieces_and_edges()  # before the driver has taken up another tool
    for number in range(len(window.desks)):
        driver.desk(number)
    document = shell.session.document
    assert document is not None
    document.mark_saved(recovery / "unused", document.style)
    for desk in window.desks:
        desk.stop()
    print(f"done {driver.touched}", flush=True)
    return len(driver.faults)


if __name__ == "__main__":
    sys.stdout.reconfigure(line_buffering=True)  # type: ignore[union-attr]
    status = main(Path(sys.argv[1]), Path(sys.argv[2]))
    sys.stdout.flush()
    import os

    os._exit(status)
