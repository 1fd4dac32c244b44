"""The pages of a desk under a strip of tabs."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QFrame, QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from app.window.desks.draft.view_strip import action_button


class Pages(QWidget):
    """``turned`` carries the name of the page now in front."""

    turned = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._names: list[str] = []
        self._group = QActionGroup(self)
        strip = QFrame()
        strip.setProperty("role", "panel")
        self._tabs = QHBoxLayout(strip)
        self._tabs.setContentsMargins(10, 5, 10, 5)
        self._tabs.setSpacing(4)
        self._tabs.addStretch(1)
        self._ends = 0
        self._stack = QStackedWidget()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(strip)
        layout.addWidget(self._stack, 1)

    @property
    def page(self) -> str:
        """The name of the page in front."""
        return self._names[self._stack.currentIndex()]

    def action(self, action: QAction) -> None:
        """Give a page its action (named ``DESK.page_NAME``); call in the order of ``add``."""
        self._group.addAction(action)
        button = action_button(action, words=True)
        button.setProperty("role", "tab")
        self._tabs.insertWidget(self._tabs.count() - 1 - self._ends, button)

    def end(self, widget: QWidget) -> None:
        """Put a widget at the right end of the strip."""
        self._tabs.addWidget(widget)
        self._ends += 1

    def add(self, name: str, page: QWidget) -> None:
        """Add a page; the first is in front."""
        self._names.append(name)
        self._stack.addWidget(page)
        if len(self._names) == 1:
            self._group.actions()[0].setChecked(True)

    def chosen(self, on: bool) -> None:
        """The action of a page was used."""
        action = self._group.checkedAction()
        if not on or action is None:
            return
        name = action.objectName().partition(".page_")[2]
        if name in self._names:
            self._stack.setCurrentIndex(self._names.index(name))
            self.turned.emit(name)
