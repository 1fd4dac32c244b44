"""The table of actions: text, keys, place and explanation of everything a key or menu can do.

Menus, tool strips, the list of keys and docs/window.md are all made from this table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtGui import QAction, QKeySequence

from app.window.widgets.fields import enter_typed
from app.window.widgets.icons import icon


@dataclass(frozen=True)
class ActionSpec:
    """One action. ``text`` and ``tip`` are English and translated in ``context``; ``keys`` are
    portable key names; ``menu`` is the id of the menu it stands in ('' = none); ``section``
    groups it inside the menu, ``submenu`` is the English name of a menu in the menu ('' = none). A ``choice`` bears a mark while it is what is chosen: its owner sets it."""

    id: str
    context: str
    text: str
    menu: str
    keys: tuple[str, ...] = ()
    icon: str = ""
    tip: str = ""
    checkable: bool = False
    choice: bool = False
    section: int = 0
    submenu: str = ""

    @property
    def shown_text(self) -> str:
        """The text in the current language."""
        return QCoreApplication.translate(self.context, self.text)

    @property
    def shown_tip(self) -> str:
        """The explanation in the current language."""
        return QCoreApplication.translate(self.context, self.tip) if self.tip else ""

    def plain_text(self) -> str:
        """The text without its key mark."""
        return self.shown_text.replace("&", "").rstrip("…")


class Actions:
    """QActions made from specs, by id."""

    def __init__(self, owner: QObject) -> None:
        self._owner = owner
        self._made: dict[str, tuple[ActionSpec, QAction]] = {}

    def add(self, spec: ActionSpec, handler: Callable[..., object]) -> QAction:
        """Make the action of ``spec``; ``handler`` must be a bound method (it is not kept alive)."""
        action = QAction(self._owner)
        action.setObjectName(spec.id)
        action.setShortcuts([QKeySequence(key) for key in spec.keys])
        action.setCheckable(spec.checkable or spec.choice)
        action.triggered.connect(enter_typed)  # before the action reads it
        (action.toggled if spec.checkable else action.triggered).connect(handler)
        self._made[spec.id] = (spec, action)
        self._dress(spec, action)
        return action

    def __getitem__(self, action_id: str) -> QAction:
        return self._made[action_id][1]

    def all(self) -> list[tuple[ActionSpec, QAction]]:
        """Every spec and its action, in the order added."""
        return list(self._made.values())

    def show(self, visible: bool) -> None:
        """Show or hide all (a hidden action's keys do nothing)."""
        for _, action in self._made.values():
            action.setVisible(visible)

    @staticmethod
    def _dress(spec: ActionSpec, action: QAction) -> None:
        action.setText(spec.shown_text)
        if spec.icon:
            action.setIcon(icon(spec.icon))
        keys = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
        head = spec.plain_text() + (f"  ({keys})" if keys else "")
        action.setToolTip(f"<b>{head}</b><br>{spec.shown_tip}" if spec.tip else head)
        action.setStatusTip(spec.shown_tip)
