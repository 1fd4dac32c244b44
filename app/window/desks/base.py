"""What the shell asks of a desk, and what a desk gets from the shell."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from PySide6.QtCore import QCoreApplication, QPoint, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSplitter, QWidget

from app.window.printing.offer import Offer
from app.window.session import Session
from app.window.shell.actions import Actions, ActionSpec

ACROSS = Qt.Orientation.Horizontal

GOING_ABOUT = 6
"""Sections of the work menu from this on go about (next piece, next lay): keys, not the right button."""


def desk_title(name: str) -> str:
    """Return a desk's name in the current language, without loading the desk."""
    translate = QCoreApplication.translate
    return {
        "draft": translate("Desk", "Draft"),
        "cloth": translate("Desk", "Cloth"),
        "lay": translate("Desk", "Lay"),
        "cost": translate("Desk", "Cost"),
    }[name]


class Desk(QWidget):
    """One person's view of the open style.

    A subclass sets ``name`` (package name, also the icon's name), builds its widgets in
    ``__init__``, and overrides what it needs of the methods below. Connect ``session.changed`` to bound
    methods (never lambdas: they outlive the window); do the work only while visible and again in
    ``entered``, so that a hidden desk costs nothing. A desk is made when it is first shown.

    ``status`` carries a message, which stays until the next; ``passing`` what is true for the moment only
    (where the pointer is); ``facts`` the few figures that the rail shows at
    its right end while this desk is in front (say ``yield 86.4 % · 2.31 m``). ``asks_for`` carries another
    desk's name and what it is to show (``show_asked``).
    """

    name = ""

    status = Signal(str)
    passing = Signal(str)
    facts = Signal(str)
    asks_for = Signal(str, object)

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.session = session
        self.actions_made = Actions(self)
        self._splitters: dict[str, QSplitter] = {}

    @classmethod
    def title(cls) -> str:
        """The desk's name in the current language."""
        return desk_title(cls.name)

    @classmethod
    def specs(cls) -> tuple[ActionSpec, ...]:
        """The desk's part of the action table (also used for the list of keys and the docs)."""
        return ()

    def menu_actions(self) -> list[tuple[ActionSpec, QAction]]:
        """The actions for the menus; the shell hides them while another desk is in front."""
        return self.actions_made.all()

    def show_context(self, at: QPoint) -> None:
        """Show the desk's working actions as a menu at a place on the screen; it goes away once closed.

        It has no loop of events of its own, as the menus of the menu bar have none: a change of light or
        language chosen in the meantime would take desk and menu away inside that loop.
        """
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        last = None
        for spec, action in self.actions_made.all():
            if spec.menu == "piece" and spec.section < GOING_ABOUT and action.isEnabled():
                if last is not None and spec.section != last:
                    menu.addSeparator()
                menu.addAction(action)
                last = spec.section
        menu.popup(at)

    def opened(self) -> None:
        """Another style is open, or none; also called once on a desk that is made while one is open."""

    def carried(self) -> dict[str, Any]:
        """What a desk made again over the same style must take over: zoom, selection, figures counted."""
        return {}

    def take_over(self, carried: Mapping[str, Any]) -> None:
        """Take over what the desk before carried."""

    def entered(self) -> None:
        """The desk came to the front: bring it up to date."""

    def show_asked(self, what: object) -> None:
        """Show what another desk asked for; the desk is in front by now."""

    def left(self) -> None:
        """Another desk comes to the front: end gestures."""

    def busy(self) -> str:
        """What is running and would be lost by closing ('' = nothing); the shell asks first."""
        return ""

    def papers(self) -> list[Offer]:
        """What this desk can print now; raises AppError where something must be done first."""
        return []

    def stop(self) -> None:
        """End all that runs: the window closes or another style is opened."""

    def beside(
        self, name: str, widgets: Iterable[QWidget], sizes_px: list[int], how: Qt.Orientation = ACROSS
    ) -> QSplitter:
        """Return a splitter whose second widget takes the room that is left; its place is kept by name."""
        splitter = QSplitter(how, self)
        for widget in widgets:
            splitter.addWidget(widget)
        splitter.setStretchFactor(1, 1)
        splitter.setSizes(sizes_px)
        kept = self.session.settings.state(f"{self.name}.{name}")
        if kept is not None:
            splitter.restoreState(kept)
        self._splitters[name] = splitter
        return splitter

    def fill_with(self, widget: QWidget) -> None:
        """Let a widget take the whole desk."""
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(widget)

    def keep_place(self) -> None:
        """Remember splitters in ``session.settings``."""
        for name, splitter in self._splitters.items():
            self.session.settings.keep_state(f"{self.name}.{name}", splitter.saveState())
