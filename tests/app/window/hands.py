"""What hands do in the tests: click, drag, press keys, answer questions."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt, QTimer
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QMessageBox, QTableWidget, QWidget

from app.window.application import Shell
from app.window.canvas.view import BoardView
from app.window.shell.main_window import MainWindow
from nesting.lay import Lay
from nesting.verify import verify

ROOT = Path(__file__).resolve().parents[3]
SAMPLES = {path.parent.name: path for path in (ROOT / "sample_styles").glob("*/*.style.json")}

HANG_MS = 900_000
"""A wait this long ends a test that hangs: no slow machine takes it for what it waits for."""

LOOK_MS, MOST_LOOKS = 60, HANG_MS // 60
"""How often a dialog is looked for, and for how long."""

LOOKS_TO_FRONT = 10
"""How often a dialog that is there is asked to the front: without a window manager it may never come."""


def end(shell: Shell) -> None:
    """Close a program's window without questions."""
    window = shell.window
    if window is not None:
        document = shell.session.document
        if document is not None:
            document.mark_saved(Path("unused"), document.style)
        window.close()
        window.deleteLater()
        shell.window = None
    shell.session.close()


def on_view(view: BoardView, xy_mm: tuple[float, float]) -> QPoint:
    """Return the viewport point of a board point."""
    return view.viewportTransform().map(QPointF(*xy_mm)).toPoint()


def click(view: BoardView, xy_mm, modifiers=Qt.KeyboardModifier.NoModifier) -> None:
    """Click a board point with the left button."""
    at = on_view(view, xy_mm)
    _move(view, at, Qt.MouseButton.NoButton)
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, modifiers, at)


def drag(
    view: BoardView, *points_mm, modifiers=Qt.KeyboardModifier.NoModifier, steps: int = 6, let_go=True
) -> None:
    """Drag with the left button along board points."""
    at = [on_view(view, point) for point in points_mm]
    QTest.mousePress(view.viewport(), Qt.MouseButton.LeftButton, modifiers, at[0])
    for a, b in pairwise(at):
        for k in range(1, steps + 1):
            _move(view, a + (b - a) * (k / steps), Qt.MouseButton.LeftButton, modifiers)
    if let_go:
        QTest.mouseRelease(view.viewport(), Qt.MouseButton.LeftButton, modifiers, at[-1])


def _move(view: BoardView, at: QPoint, buttons, modifiers=Qt.KeyboardModifier.NoModifier) -> None:
    port = view.viewport()
    place = QPointF(at)
    on_screen = QPointF(port.mapToGlobal(at))
    none = Qt.MouseButton.NoButton
    event = QMouseEvent(QEvent.Type.MouseMove, place, on_screen, none, buttons, modifiers)
    QApplication.sendEvent(port, event)


def key(window: MainWindow, code: Qt.Key, modifiers=Qt.KeyboardModifier.NoModifier) -> None:
    """Press a key in the window."""
    active = QApplication.activeWindow()
    if active is None or not active.isVisible():
        window.activateWindow()  # the offscreen platform forgets it after a dialog
        assert QTest.qWaitForWindowActive(window, HANG_MS)
    QTest.keyClick(QApplication.focusWidget() or window, code, modifiers)


def type_into(table: QTableWidget, row: int, column: int, text: str) -> None:
    """Open a cell with a double click and type over it."""
    item = table.item(row, column)
    assert item is not None
    at = table.visualItemRect(item).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
    # the field that opened took the release: left held, the button kept light and language from later tests
    QTest.mouseRelease(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
    field = table.viewport().findChild(QLineEdit)
    assert field is not None, "the cell cannot be typed into"
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Return)
    QApplication.processEvents()  # the table takes the text once the key is dealt with
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)  # and lets go of the old field


def answer(button_text: str) -> None:
    """Answer the next question by the button of that text."""

    def press(box: QWidget) -> None:
        assert isinstance(box, QMessageBox)
        buttons = {button.text().replace("&", ""): button for button in box.buttons()}
        buttons[button_text].click()

    with_next_dialog(press)


def with_next_dialog(do: Callable[[QWidget], None]) -> None:
    """Do something with the next modal dialog; it is closed whatever happens, so no test hangs."""

    tries, to_front = iter(range(MOST_LOOKS)), iter(range(LOOKS_TO_FRONT))

    def act() -> None:
        dialog = QApplication.activeModalWidget()
        if dialog is None and next(tries, None) is not None:  # a slow machine: it is on its way
            QTimer.singleShot(LOOK_MS, act)
            return
        if dialog is not None and not dialog.isActiveWindow() and next(to_front, None) is not None:
            dialog.activateWindow()
            QTimer.singleShot(LOOK_MS, act)
            return
        assert dialog is not None, "no dialog came up"
        try:
            do(dialog)
        finally:
            if QApplication.activeModalWidget() is dialog:
                dialog.close()

    QTimer.singleShot(LOOK_MS, act)


def faults_of_handlers(monkeypatch) -> list[BaseException]:
    """Return a list that takes what goes wrong in the window from now on."""
    faults: list[BaseException] = []
    monkeypatch.setattr("sys.excepthook", lambda kind, error, trace: faults.append(error))
    return faults


def verified_lay(desk) -> None:
    """Let the judge look at what lies on the Lay desk."""
    table = desk.table
    assert verify(table.problem, Lay(table.placements, table.length_mm)).ok


def centre(desk, index: int) -> tuple[float, float]:
    """Return a point inside a piece on the Lay desk, mm of the roll."""
    point = desk.table.polygons[index].representative_point()
    return point.x, point.y
