"""A table whose columns of words stand to the left, and are as wide as they need."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHeaderView

from app.window.widgets.table import HEAD_LEFT, Table

LEAST_WIDE_PX = 120
LONG_HEAD = 11
"""Letters."""


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
        super().__init__(
            [head if k == wide else in_two_lines(head) for k, head in enumerate(heads)],
            name,
            editable=editable,
        )
        self._words = tuple(words)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(wide, QHeaderView.ResizeMode.Stretch)
        header.setMinimumSectionSize(48)
        self._wide = wide
        self._at_most_px = dict(at_most_px or {})
        for column in self._at_most_px:
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.Interactive)
        for column in self._words:
            self.head(column).setTextAlignment(HEAD_LEFT)

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

        self._give_room()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._give_room()

    def _give_room(self) -> None:
        """The wide column has what the others leave, but never less than a name needs: then the table scrolls."""
        header = self.horizontalHeader()
        others = sum(header.sectionSize(k) for k in range(self.columnCount()) if k != self._wide)
        narrow = self.viewport().width() - others < LEAST_WIDE_PX
        mode = QHeaderView.ResizeMode.Fixed if narrow else QHeaderView.ResizeMode.Stretch
        if header.sectionResizeMode(self._wide) != mode:
            header.setSectionResizeMode(self._wide, mode)
        if narrow:
            header.resizeSection(self._wide, LEAST_WIDE_PX)

    def show_heads(self, heads: Sequence[str]) -> None:
        super().show_heads([head if k == self._wide else in_two_lines(head) for k, head in enumerate(heads)])


def in_two_lines(head: str) -> str:
    """Break a long head at the space nearest to its middle: a column is as wide as its head needs."""
    spaces = [k for k, letter in enumerate(head) if letter == " "]
    if len(head) < LONG_HEAD or not spaces:
        return head
    at = min(spaces, key=lambda k: abs(k - len(head) / 2))
    return f"{head[:at]}\n{head[at + 1 :]}"
