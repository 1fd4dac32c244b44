"""A gesture whose answer takes a moment: worked out beside the window, keys and clicks meanwhile dropped.

Keys typed during the wait must not act on the result: a fill was undone that way. Escape gives the gesture
up.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QWidget

from app.window.running.beside import WorkBeside

T = TypeVar("T")

KEYS = (QEvent.Type.KeyPress, QEvent.Type.KeyRelease, QEvent.Type.ShortcutOverride, QEvent.Type.Shortcut)
PRESSES = (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonDblClick)


class BusyHands(QObject, Generic[T]):
    """Works one gesture out at a time; ``changed`` when it begins and when it is over."""

    changed = Signal()

    def __init__(self, desk: QWidget) -> None:
        super().__init__(desk)
        self._desk = desk
        self._beside: WorkBeside[T] = WorkBeside(self)
        self._take: Callable[[T], None] | None = None
        self._given_up = False

    @property
    def busy(self) -> bool:
        """Whether an answer is on its way."""
        return self._beside.busy

    def begin(self, name: str, work: Callable[[Callable[[], bool]], T], take: Callable[[T], None]) -> None:
        """Work it out in a thread called ``name``, then hand the answer to ``take``.

        ``work`` is handed a question that is true once the gesture was given up; its answer then counts
        for nothing. It must touch nothing of Qt.
        """
        self._given_up, self._take = False, take
        self._beside.begin(name, lambda: work(self._gave_up), self._took, self._failed)
        app = QApplication.instance()
        if app is not None:
            app.installEventFilter(self)
        self.changed.emit()

    def give_up(self) -> None:
        """Let the answer come to nothing."""
        self._given_up = True

    def _gave_up(self) -> bool:
        return self._given_up

    def _took(self, answer: T) -> None:
        self._over()
        take, self._take = self._take, None
        if take is not None and not self._given_up:
            take(answer)

    def _failed(self) -> None:
        self._take = None
        self._over()

    def _over(self) -> None:
        app = QApplication.instance()
        if app is not None:
            app.removeEventFilter(self)
        self.changed.emit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind in KEYS and QApplication.activeModalWidget() is None:
            if isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape:
                self.give_up()
            event.accept()
            return True
        if kind in PRESSES and isinstance(watched, QWidget):
            return watched is self._desk or self._desk.isAncestorOf(watched)
        return False
