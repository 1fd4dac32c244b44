"""The menus of the window: the shell's actions, those of the desks made so far, recent styles."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMainWindow, QMenu

from app.style.file import EXTENSION
from app.window.settings import Settings
from app.window.shell.actions import ActionSpec
from app.window.shell.shell_actions import MENUS

translate = QCoreApplication.translate


class Menus(QObject):
    """The menu bar of a window; ``opened`` carries the path of a recent style that was chosen."""

    opened = Signal(object)

    def __init__(self, window: QMainWindow, settings: Settings, desks: Sequence[QAction]) -> None:
        super().__init__(window)
        self._window = window
        self._settings = settings
        self._desks = desks
        self._menus = {
            name: window.menuBar().addMenu(translate("Shell", str(text))) for name, text in MENUS.items()
        }
        self._submenus: dict[tuple[str, str], QMenu] = {}
        for menu in self._menus.values():
            menu.aboutToShow.connect(self._show_submenus)
            menu.aboutToHide.connect(self._allow_submenus)
        self.recent = QMenu(translate("Shell", "Recent styles"), window)
        self.recent.setToolTipsVisible(True)  # two files of one name differ by folder only
        self.recent.aboutToShow.connect(self._fill_recent)

    def __getitem__(self, name: str) -> QMenu:
        return self._menus[name]

    def fill(self, pairs: Sequence[tuple[ActionSpec, QAction]]) -> None:
        """Put actions in their menus, by section; those without a menu only get their keys."""
        for menu in (*self._menus.values(), *self._submenus.values()):
            menu.clear()
        last: dict[str, int] = {}
        for spec, action in sorted(pairs, key=lambda pair: pair[0].section):
            if not spec.menu:
                self._window.addAction(action)
                continue
            menu = self._menus[spec.menu]
            if last.setdefault(spec.menu, spec.section) != spec.section:
                menu.addSeparator()
                last[spec.menu] = spec.section
            if spec.submenu:
                inner = self._submenu(spec)
                menu.addMenu(inner)
                inner.addAction(action)
            else:
                menu.addAction(action)
            if spec.id == "file.open":
                menu.addMenu(self.recent)
        for action in self._desks:
            self._menus["look"].addAction(action)

    def _submenu(self, spec: ActionSpec) -> QMenu:
        key = (spec.menu, spec.submenu)
        if key not in self._submenus:
            self._submenus[key] = QMenu(translate(spec.context, spec.submenu), self._window)
        return self._submenus[key]

    def _show_submenus(self) -> None:
        """A menu in a menu whose actions are all of another desk is not shown."""
        for menu in self._submenus.values():
            menu.menuAction().setVisible(any(action.isVisible() for action in menu.actions()))

    def _allow_submenus(self) -> None:
        """The keys of an action work only while the menus it stands in may be shown."""
        for menu in self._submenus.values():
            menu.menuAction().setVisible(True)

    def _fill_recent(self) -> None:
        self.recent.clear()
        for path in self._settings.recent:
            action = self.recent.addAction(path.name.removesuffix(EXTENSION))
            action.setData(str(path))
            action.setToolTip(str(path))
            action.triggered.connect(self._chosen)
        if self.recent.isEmpty():
            self.recent.addAction(translate("Shell", "None yet")).setEnabled(False)

    def _chosen(self) -> None:
        self.opened.emit(Path(self.sender().data()))  # type: ignore[attr-defined]
