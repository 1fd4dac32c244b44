"""A strip of tool buttons above a board, in groups."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QWidget

from app.window.desks.draft.view_strip import action_button

GROUP_GAP_PX = 14


class ToolStrip(QWidget):
    """Buttons of the actions given; the last group stands at the right end."""

    def __init__(self, groups: Sequence[Sequence[QAction]]) -> None:
        super().__init__()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(8, 4, 10, 4)
        layout.setSpacing(4)
        for number, group in enumerate(groups):
            if number == len(groups) - 1:
                layout.addStretch(1)
            elif number:
                layout.addSpacing(GROUP_GAP_PX)
            for action in group:
                layout.addWidget(action_button(action, words=action.icon().isNull()))
