"""A table whose columns of words stand to the left, and are as wide as they need."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHeaderView

from app.window.widgets.table import HEAD_LEFT, Table


class TextTable(Table):
    """``words`` are the columns of words; the one named ``wide`` takes the room that is left,
    and those of ``at_most_px`` may be dragged and start no wider than that."""

    def __init__(
        self,
        heads: Sequence[str],
        name: str,
        *,
        words: Sequence[int],
        wide: int,
        at_most_px: Mapping[int, int] | None = None,
        editable: bool = False,
    ) -> None:
        super().__init__(heads, name, editable=editable)
        self._words = tuple(words)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(wide, QHeaderView.ResizeMode.Stretch)
        header.setMinimumSectionSize(48)
        self._at_most_px = dict(at_most_px or {})
        for column in self._at_most_px:
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.Interactive)
        for column in self._words:
            self.head(column).setTextAlignment(HEAD_LEFT)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)

    def fill(
        self,
        rows: Sequence[Sequence[str]],
        *,
        bold: int = -1,
        words: Sequence[int] = (),
        spoken: bool = False,
    ) -> None:
        super().fill(rows, bold=bold, words=words or self._words, spoken=spoken)
        for column, most in self._at_most_px.items():
            self.resizeColumnToContents(column)
            self.setColumnWidth(column, min(self.columnWidth(column) + 8, most))
