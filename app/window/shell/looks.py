"""How the window looks: unit, light, language, full screen; each choice bears its mark in the View menu."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QLocale, QObject, Qt, Signal
from PySide6.QtWidgets import QMainWindow

from app.window.session import Session
from app.window.shell.actions import Actions
from app.window.widgets.lengths import Unit


class Looks(QObject):
    """The choices of the View menu. ``rebuild_asked``: light or language changed."""

    rebuild_asked = Signal()

    def __init__(self, window: QMainWindow, session: Session, actions: Actions) -> None:
        super().__init__(window)
        self._window, self._session, self._actions = window, session, actions
        session.lengths_changed.connect(self.mark)

    def handlers(self) -> dict[str, Callable[..., object]]:
        """Return what each action of the View menu does."""
        return {
            "look.mm": self._mm,
            "look.inch": self._inch,
            "look.system": self._system,
            "look.day": self._day,
            "look.night": self._night,
            "look.english": self._english,
            "look.italian": self._italian,
            "look.full": self._full_screen,
        }

    def mark(self) -> None:
        """Mark what is chosen: a click on a choice has turned its own mark over."""
        settings = self._session.settings
        italian = QLocale().language() is QLocale.Language.Italian
        chosen = {
            "look.inch" if self._session.lengths.unit is Unit.INCH else "look.mm",
            f"look.{settings.light}",
            "look.italian" if italian else "look.english",
        }
        if self._window.isFullScreen():
            chosen.add("look.full")
        for action_id in self.handlers():
            self._actions[action_id].setChecked(action_id in chosen)

    def _mm(self) -> None:
        self._use(Unit.MM)

    def _inch(self) -> None:
        self._use(Unit.INCH)

    def _use(self, unit: Unit) -> None:
        self._session.settings.unit = unit
        self._session.lengths.unit = unit
        self._session.lengths_changed.emit()

    def _system(self) -> None:
        self._light("system")

    def _day(self) -> None:
        self._light("day")

    def _night(self) -> None:
        self._light("night")

    def _light(self, light: str) -> None:
        self._session.settings.light = light
        self.mark()
        self.rebuild_asked.emit()

    def _english(self) -> None:
        self._speak("en")

    def _italian(self) -> None:
        self._speak("it")

    def _speak(self, language: str) -> None:
        self._session.settings.language = language
        self.mark()
        self.rebuild_asked.emit()

    def _full_screen(self) -> None:
        self._window.setWindowState(self._window.windowState() ^ Qt.WindowState.WindowFullScreen)
        self.mark()
