"""The strip above the board: size shown, size laid over it, and what is drawn."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtGui import QAction, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QToolButton, QWidget

from app.window.widgets.chooser import Chooser

translate = QCoreApplication.translate

NAMED_FROM_PX = 640
"""From this width on there is room for the names of the two boxes in every language."""

BOX_PX = 56
"""A size and the arrow of its box."""


class ViewStrip(QWidget):
    """``sizes_chosen`` fires when another size is to be shown or laid over."""

    sizes_chosen = Signal()
    sizes: tuple[str, ...] = ()
    base = ""

    def __init__(self, tools: list[QAction], looks: list[QAction]) -> None:
        super().__init__()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(8, 4, 10, 4)
        layout.setSpacing(4)
        for action in tools:
            layout.addWidget(action_button(action))
        layout.addSpacing(14)
        self._names = [QLabel(translate("Draft", "Size")), QLabel(translate("Draft", "compared with"))]
        layout.addWidget(self._names[0])
        self.size_box = Chooser()
        self.size_box.setAccessibleName(translate("Draft", "Size shown"))
        self.size_box.setToolTip(translate("Draft", "Size shown"))
        self.size_box.setMinimumWidth(BOX_PX)
        self.size_box.activated.connect(self._chosen)
        layout.addWidget(self.size_box)
        layout.addSpacing(6)
        layout.addWidget(self._names[1])
        self.over_box = Chooser()
        self.over_box.setMinimumWidth(BOX_PX)
        self.over_box.setAccessibleName(translate("Draft", "Size to compare with"))
        self.over_box.setToolTip(translate("Draft", "Draw another size over this one to compare them"))
        self.over_box.activated.connect(self._chosen)
        layout.addWidget(self.over_box)
        layout.addStretch(1)
        for action in looks:
            layout.addWidget(action_button(action, words=not action.icon() or action.icon().isNull()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave the names of the boxes out where there is no room for all of both; tips tell them."""
        super().resizeEvent(event)
        for name in self._names:
            name.setVisible(self.width() >= NAMED_FROM_PX)

    def show_sizes(self, sizes: tuple[str, ...], base: str) -> None:
        """Offer the sizes of a style: the one shown before, else the base size, is shown."""
        shown, over = (self.size_shown, self.size_over) if self.base == base else ("", "")
        self.sizes, self.base = sizes, base
        self.size_box.clear()
        self.over_box.clear()
        self.over_box.addItem("–", "")
        for size in sizes:
            self.size_box.addItem(size + (" *" if size == base else ""), size)
            self.over_box.addItem(size, size)
        self.size_box.setCurrentIndex(max(self.size_box.findData(base), 0))
        self.choose_sizes(shown, over)

    def choose_sizes(self, shown: str, over: str) -> None:
        """Show a size, and another over it; sizes that the style does not have change nothing."""
        for box, size in ((self.size_box, shown), (self.over_box, over)):
            if box.findData(size) >= 0:
                box.setCurrentIndex(box.findData(size))

    @property
    def size_shown(self) -> str:
        """The size on the board."""
        return str(self.size_box.currentData() or "")

    @property
    def size_over(self) -> str:
        """The size laid over it, '' = none."""
        return str(self.over_box.currentData() or "")

    def _chosen(self, index: int) -> None:
        self.sizes_chosen.emit()


def action_button(action: QAction, *, words: bool = False) -> QToolButton:
    """Return a tool button for an action; with ``words`` it shows its text."""
    button = QToolButton()
    button.setDefaultAction(action)
    button.setAccessibleName(action.text())
    if words:
        button.setProperty("role", "worded")
        button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
    return button
