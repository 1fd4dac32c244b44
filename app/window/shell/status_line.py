"""The line at the foot of the window: the last message stays until another comes; what was said before is at hand.

What the pointer is over, and what a button would do, stands apart from it at the right: it must not wipe
out a message nobody has read yet.
"""

from __future__ import annotations

import re
from collections import deque

from PySide6.QtCore import QCoreApplication, QObject, QPoint, QSize, Qt
from PySide6.QtWidgets import QFrame, QLabel, QListWidget, QStatusBar, QToolButton, QVBoxLayout

translate = QCoreApplication.translate
FIGURES = re.compile(r"[-+−]?\d[\d.,]*")
LIST_PX = QSize(560, 260)


class StatusLine(QObject):
    """Shows messages in a status bar; ``said`` keeps the last ones, the newest at its end."""

    def __init__(self, bar: QStatusBar, said: deque[str]) -> None:
        super().__init__(bar)
        self._bar, self.said = bar, said
        bar.setSizeGripEnabled(False)
        self.passing = QLabel()
        self.passing.setProperty("role", "soft")
        bar.addPermanentWidget(self.passing)
        self.button = QToolButton()
        self.button.setAutoRaise(True)
        bar.addPermanentWidget(self.button)
        self.list = QFrame(bar, Qt.WindowType.Popup)
        self.list.setFrameShape(QFrame.Shape.StyledPanel)
        column = QVBoxLayout(self.list)
        column.setContentsMargins(4, 4, 4, 4)
        self.lines = QListWidget()
        self.lines.setWordWrap(True)
        self.lines.setAlternatingRowColors(True)
        self.lines.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.lines.setAccessibleName(translate("Shell", "The last messages"))
        column.addWidget(self.lines)

    def say(self, text: str) -> None:
        """Show a message until the next; one that differs from the last in its figures alone replaces it."""
        self._bar.showMessage(text)
        self._bar.setToolTip(text)  # a long one is cut off at the right
        if not text:
            return
        if self.said and FIGURES.sub("#", self.said[-1]) == FIGURES.sub("#", text):
            self.said.pop()
        self.said.append(text)

    def pass_by(self, text: str) -> None:
        """Show what is true only for the moment; the message stays."""
        self.passing.setText(text)

    def show_last(self) -> None:
        """Show the last messages above the line, the newest first."""
        self.lines.clear()
        self.lines.addItems(list(reversed(self.said)) or [translate("Shell", "No messages yet.")])
        self.lines.setCurrentRow(0)
        self.list.resize(LIST_PX)
        corner = self.button.mapToGlobal(QPoint(self.button.width(), 0))
        self.list.move(corner - QPoint(LIST_PX.width(), LIST_PX.height() + 4))
        self.list.show()
        self.lines.setFocus()
