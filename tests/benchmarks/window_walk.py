"""A random walk of real mouse and key events over all desks of the window: what breaks, and what blocks.

    xvfb-run -a -s "-screen 0 1600x1000x24" env QT_QPA_PLATFORM=xcb \\
        .venv/bin/python tests/benchmarks/window_walk.py [--events 10000] [--seed 1] [--samples court,derby]

The events are shared evenly among the samples, each walked through English by day, Italian by night and so
on. The walk is seeded and counted; it knows no clock. Printed are the faults (exceptions that nobody caught,
with the event that met them) and the longest times for which the window answered nothing. A crash ends the
program: the last line of the file named by ``--log`` is the event that did it. Exit status 1: a fault.
"""

from __future__ import annotations

import argparse
import faulthandler
import os
import random
import sys
import tempfile
import threading
import traceback
from collections.abc import Callable
from pathlib import Path
from types import TracebackType

from silences import Silences

ROOT = Path(__file__).resolve().parents[2]
sys.path[0] = str(ROOT)  # the packages themselves, not the benchmarks named after them

# ruff: noqa: E402
from PySide6.QtCore import QModelIndex, QPoint, QPointF, QSettings, QStandardPaths, Qt, QTimer
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QDialog,
    QFileDialog,
    QLineEdit,
    QMenu,
    QMessageBox,
    QPlainTextEdit,
    QSlider,
    QTableView,
    QTextEdit,
    QWidget,
)
from shiboken6 import isValid

from app.style.document import Document
from app.style.file import load_style
from app.window.application import Shell, make_application
from app.window.canvas.view import BoardView
from app.window.shell.main_window import MainWindow

NOT_WALKED = ("file.quit", "file.close", "help.tour")
"""What would end the walk or lead it off the desks."""

LOOKS = ("look.italian", "look.night", "look.english", "look.day")
PLAIN, SHIFT, CTRL, ALT = (
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
)
KEYS = [
    getattr(Qt.Key, f"Key_{name}")
    for name in [
        "A",
        "B",
        "C",
        "D",
        "E",
        "G",
        "H",
        "K",
        "L",
        "M",
        "N",
        "P",
        "R",
        "S",
        "T",
        "U",
        "X",
        "1",
        "2",
        "3",
        "4",
        "5",
    ]
]
KEYS += [
    getattr(Qt.Key, f"Key_{name}")
    for name in ["Left", "Right", "Up", "Down", "Tab", "Escape", "Delete", "Return", "Home"]
]
CONTROLLED = [
    getattr(Qt.Key, f"Key_{name}")
    for name in ["Z", "Y", "Z", "Y", "A", "T", "D", "Insert", "Delete", "Left", "Right", "Up", "Down"]
]
TEXTS = ("7", "1,5", "-3", "0", "", "abc", "36:2", "12.25", "1e9", "90<0<45")


class Walk:
    """Chooses and sends events; ``faults`` and ``silences`` are what came of them."""

    def __init__(self, shell: Shell, seed: int, log: Path) -> None:
        self.shell = shell
        self.random = random.Random(seed)
        self.answers = random.Random(seed + 1)  # dialogs come when they come: a stream of their own
        self.log = log.open("w", encoding="utf-8")
        self.event = ""
        self.sent = 0
        self.faults: list[str] = []
        self.silences = Silences(lambda: f"{self.sent} {self.event}")
        sys.excepthook = self._fault
        self._answer = QTimer()
        self._answer.timeout.connect(self._answer_what_is_open)
        self._answer.start(25)

    def _fault(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        told = "".join(traceback.format_exception(kind, error, trace)[-3:])
        self.faults.append(f"after event {self.sent} ({self.event}):\n{told}")
        self.log.write(f"FAULT {told}\n")  # a crash that follows must not take it along
        self.log.flush()

    def _answer_what_is_open(self) -> None:
        """Use an open menu or dialog a little, and close it."""
        popup = QApplication.activePopupWidget()
        if popup is not None:
            key = self.answers.choice([Qt.Key.Key_Escape, Qt.Key.Key_Down, Qt.Key.Key_Return])
            if isinstance(popup, QMenu) and key is Qt.Key.Key_Return:
                key = Qt.Key.Key_Escape  # what menus hold is chosen by the walk itself
            QTest.keyClick(popup, key)
            return
        dialog = QApplication.activeModalWidget()
        if isinstance(dialog, QDialog):
            fields = [f for f in dialog.findChildren(QLineEdit) if f.isVisible() and f.isEnabled()]
            if fields and not isinstance(dialog, QFileDialog | QMessageBox) and self.answers.random() < 0.6:
                QTest.keyClicks(self.answers.choice(fields), self.answers.choice(TEXTS))
            else:
                dialog.reject()

    # -- events -------------------------------------------------------------------------------
    def walk(self, sample: Path, events: int) -> None:
        """Send so many events to the window over a sample."""
        ways: list[tuple[int, Callable[[], None]]] = [
            (5, self._go_to_desk),
            (16, self._press_button),
            (14, self._press_key),
            (12, self._on_board),
            (12, self._choose),
            (14, self._enter_text),
            (12, self._cell),
            (6, self._menu),
            (3, self._slide),
            (4, self._wheel),
        ]
        weights, acts = zip(*ways, strict=True)
        self.say(f"open {sample.name}")
        self.shell.session.open(Document(load_style(sample), sample))
        self.settle()
        for number in range(events):
            if number % 150 == 149:
                self._look(LOOKS[(number // 150) % len(LOOKS)])
                self.settle()
            try:
                self.random.choices(acts, weights)[0]()
            except RuntimeError:  # the hand lost its widget: a change of light came between two keys
                assert self.shell.window is not None
            self.settle()
            self.sent += 1
            if self.shell.session.document is None:
                self.shell.session.open(Document(load_style(sample), sample))

    def say(self, text: str) -> None:
        """Note an event before it is sent."""
        self.event = text
        self.log.write(f"{self.sent} {text}\n")
        self.log.flush()

    def settle(self) -> None:
        """Let the window answer; dialogs are closed, deferred deletions happen."""
        QTest.qWait(1)
        while QApplication.activeModalWidget() is not None or QApplication.activePopupWidget() is not None:
            QTest.qWait(25)

    def _window(self) -> MainWindow:
        assert self.shell.window is not None
        return self.shell.window

    def _any(self, *kinds: type[QWidget]) -> QWidget | None:
        window = self._window()
        room = window.desk or window
        found = [
            w for w in room.findChildren(QWidget) if isinstance(w, kinds) and w.isVisible() and w.isEnabled()
        ]
        return self.random.choice(found) if found else None

    def _go_to_desk(self) -> None:
        key = self.random.choice([Qt.Key.Key_F5, Qt.Key.Key_F6, Qt.Key.Key_F7, Qt.Key.Key_F8])
        self.say(f"key {key.name}")
        QTest.keyClick(self._window(), key)

    def _press_button(self) -> None:
        button = self._any(QAbstractButton)
        if button is not None:
            self.say(f"click {_called(button)}")
            QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    def _press_key(self) -> None:
        with_keys, keys = self.random.choice(
            [(PLAIN, KEYS), (PLAIN, KEYS), (CTRL, CONTROLLED), (SHIFT, KEYS[-9:]), (ALT, KEYS[-14:])]
        )
        key = self.random.choice(keys)
        to = QApplication.focusWidget() or self._window()
        self.say(f"key {with_keys.name} {key.name} to {_called(to)}")
        QTest.keyClick(to, key, with_keys)

    def _on_board(self) -> None:
        view = self._any(BoardView)
        if not isinstance(view, BoardView):
            return
        port = view.viewport()
        a, b = self._point(port), self._point(port)
        button = self.random.choices(list(Qt.MouseButton)[1:3], [9, 1])[0]
        modifiers = self.random.choice([PLAIN, PLAIN, SHIFT, CTRL, ALT])
        what = self.random.choice(["click", "drag", "double"])
        self.say(f"{what} board {button.name} {a.toTuple()} {b.toTuple()}")
        QTest.mouseMove(port, a)
        if what == "double":
            QTest.mouseDClick(port, Qt.MouseButton.LeftButton, modifiers, a)
        elif what == "click" or button is not Qt.MouseButton.LeftButton:
            QTest.mouseClick(port, button, modifiers, a)
        else:
            QTest.mousePress(port, button, modifiers, a)
            for k in range(1, 4):
                QTest.mouseMove(port, a + (b - a) * k / 3)
            QTest.mouseRelease(port, button, modifiers, b)

    def _choose(self) -> None:
        box = self._any(QComboBox)
        if not isinstance(box, QComboBox) or not box.count():
            return
        entry = self.random.randrange(box.count())
        self.say(f"choose {entry} of {_called(box)}")
        box.setFocus()
        QTest.keyClick(box, Qt.Key.Key_Home)
        for _ in range(entry):
            self.settle()  # each key is an event of its own
            if isValid(box):
                QTest.keyClick(box, Qt.Key.Key_Down)

    def _enter_text(self) -> None:
        field = self._any(QLineEdit, QTextEdit, QPlainTextEdit)
        if field is None:
            return
        text = self.random.choice(TEXTS)
        end = self.random.choice([Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Tab, Qt.Key.Key_Up])
        self.say(f"type {text!r} {end.name} into {_called(field)}")
        field.setFocus()
        QTest.keyClick(field, Qt.Key.Key_A, CTRL)
        QTest.keyClicks(field, text)
        if isValid(field):
            QTest.keyClick(field, end)

    def _cell(self) -> None:
        table = self._any(QAbstractItemView)
        if (
            not isinstance(table, QAbstractItemView)
            or table.model() is None
            or not table.model().rowCount(QModelIndex())
        ):
            return
        row = self.random.randrange(table.model().rowCount(QModelIndex()))
        columns = table.model().columnCount(QModelIndex()) if isinstance(table, QTableView) else 1
        column = self.random.randrange(max(columns, 1))
        at = table.visualRect(table.model().index(row, column)).center()
        text = self.random.choice(TEXTS)
        self.say(f"cell {row},{column} {text!r} of {_called(table)}")
        QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
        if isValid(table):
            QTest.mouseDClick(table.viewport(), Qt.MouseButton.LeftButton, pos=at)
        self.settle()
        editor = QApplication.focusWidget()
        if isinstance(editor, QLineEdit) and isValid(table) and table.isAncestorOf(editor):
            QTest.keyClicks(editor, text)
            if isValid(editor):
                QTest.keyClick(
                    editor, self.random.choice([Qt.Key.Key_Return, Qt.Key.Key_Tab, Qt.Key.Key_Escape])
                )

    def _slide(self) -> None:
        slider = self._any(QSlider)
        if slider is not None:
            self.say(f"slide {_called(slider)}")
            QTest.keyClick(slider, self.random.choice([Qt.Key.Key_Right, Qt.Key.Key_End, Qt.Key.Key_Home]))

    def _wheel(self) -> None:
        widget = self._any(BoardView, QComboBox, QLineEdit, QAbstractItemView)
        if widget is None:
            return
        port = widget.viewport() if isinstance(widget, BoardView | QAbstractItemView) else widget
        turn = QPoint(0, self.random.choice([-240, -120, 120, 240]))
        self.say(f"wheel on {_called(widget)}")
        at = QPointF(self._point(port))
        none, begin = Qt.MouseButton.NoButton, Qt.ScrollPhase.NoScrollPhase
        on_screen = QPointF(port.mapToGlobal(at.toPoint()))
        QApplication.sendEvent(port, QWheelEvent(at, on_screen, QPoint(), turn, none, PLAIN, begin, False))

    def _menu(self) -> None:
        """Choose an entry of the menu bar, with the mouse."""
        window = self._window()
        bar = window.menuBar()
        menus = [(each, each.menu()) for each in bar.actions()]
        head, menu = self.random.choice([(each, menu) for each, menu in menus if isinstance(menu, QMenu)])
        shut = {id(window.actions_made[name]) for name in NOT_WALKED}
        entries = [
            each
            for each in menu.actions()
            if each.isEnabled() and each.isVisible() and not each.isSeparator() and each.menu() is None
            if id(each) not in shut
        ]
        if not entries:
            return
        entry = self.random.choice(entries)
        self.say(f"menu {head.text()} {entry.text()}")
        QTest.mouseClick(bar, Qt.MouseButton.LeftButton, pos=bar.actionGeometry(head).center())
        if menu.isVisible():
            QTest.mouseClick(menu, Qt.MouseButton.LeftButton, pos=menu.actionGeometry(entry).center())

    def _look(self, name: str) -> None:
        self.say(name)
        self._window().actions_made[name].trigger()

    def _point(self, port: QWidget) -> QPoint:
        return QPoint(self.random.randrange(port.width()), self.random.randrange(port.height()))


def _called(widget: QWidget) -> str:
    if isinstance(widget, QAbstractButton) and widget.text():
        return f"{type(widget).__name__} {widget.text()!r}"
    return f"{type(widget).__name__} {(widget.accessibleName() or widget.objectName())!r}"


def main() -> int:
    """Walk and tell; returns the exit status."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--events", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--samples", default="court,derby,boot,sandal")
    parser.add_argument("--log", type=Path, default=Path(tempfile.gettempdir()) / "window-walk.log")
    words = parser.parse_args()
    faulthandler.enable()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        os.environ["STAYPLY_DATA_DIR"] = str(folder / "workshop")
        QStandardPaths.setTestModeEnabled(True)
        QSettings.setDefaultFormat(QSettings.Format.IniFormat)
        QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(folder))
        shell = Shell(make_application(), folder / "recovery")
        shell.settings.light, shell.settings.language = "day", "en"
        window = shell.show()
        window.resize(1360, 860)
        shell.begin([])
        for thread in threading.enumerate():
            if thread.name == "warm-up":  # nobody sends an event every few milliseconds from the start
                thread.join()
        window.activateWindow()
        QTest.qWait(200)
        walk = Walk(shell, words.seed, words.log)
        samples = words.samples.split(",")
        for sample in samples:
            path = folder / f"{sample}.style.json"
            path.write_bytes((ROOT / "sample_styles" / sample / path.name).read_bytes())
            walk.walk(path, words.events // len(samples))
        assert shell.window is not None
        for desk in shell.window.desks:
            desk.stop()
    print(f"{walk.sent} events on {', '.join(samples)}, seed {words.seed}: {len(walk.faults)} faults")
    for fault in walk.faults:
        print(fault)
    print("longest without an answer, by the window's own processor time (and on the wall):")
    for each in walk.silences.longest():
        print(f"{1000 * each.thread_s:8.0f} ms ({1000 * each.wall_s:.0f})  {each.event}")
        for stood in each.stood[1:-1] or each.stood:
            print(f"{'':12}{stood}")
    print("by the clock on the wall:")
    for each in walk.silences.longest_waits():
        print(f"{1000 * each.wall_s:8.0f} ms (own {1000 * each.thread_s:.0f})  {each.event}")
    return 1 if walk.faults else 0


if __name__ == "__main__":
    try:
        status = main()
    except Exception:  # the walk's own fault: the hook for the window's has taken the usual way out
        traceback.print_exc()
        status = 2
    sys.stdout.flush()
    os._exit(status)  # threads that still judge must not keep the walk
