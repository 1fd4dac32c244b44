"""A plain table of text, as the desks show figures."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QSizePolicy, QTableWidget, QTableWidgetItem

from app.window.widgets.figures import localised

LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_WRAP = Qt.TextFlag.TextWordWrap.value
HEAD_LEFT = Qt.AlignmentFlag(LEFT.value | _WRAP)
HEAD_RIGHT = Qt.AlignmentFlag(RIGHT.value | _WRAP)
"""A head too long for its column goes on in a second line: headings differ in length by language."""
HEAD_ROOM_PX = 10
HEAD_SIDES_PX = 14
"""What the theme's padding takes of a head's width."""


class Table(QTableWidget):
    """A plain table: no row numbers, whole rows, columns as wide as they need."""

    def __init__(self, heads: Sequence[str], name: str, *, editable: bool = False) -> None:
        super().__init__(0, len(heads))
        self.setHorizontalHeaderLabels(list(heads))
        self.setAccessibleName(name)
        self.verticalHeader().setVisible(False)
        self.verticalHeader().setDefaultSectionSize(24)
        self.setShowGrid(False)
        self.setTextElideMode(Qt.TextElideMode.ElideMiddle)  # two cloths mostly differ at their ends
        self.setAlternatingRowColors(True)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        if not editable:
            self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        header.setDefaultAlignment(HEAD_RIGHT)
        header.setHighlightSections(False)
        header.sectionResized.connect(self._fit_heads)

    def fill(
        self,
        rows: Sequence[Sequence[str]],
        *,
        bold: int = -1,
        words: Sequence[int] = (),
        spoken: bool = False,
    ) -> None:
        """Show rows of text; row ``bold`` stands out, columns of ``words`` stand to the left.

        ``spoken``: figures are written as the language does already; 10,499 in would be taken for thousands.
        """
        self.blockSignals(True)
        # a column as wide as its text measures all its rows at every cell: 1,000 cells took 3 s
        header = self.horizontalHeader()
        modes = [header.sectionResizeMode(j) for j in range(self.columnCount())]
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setRowCount(len(rows))
        for i, row in enumerate(rows):
            for j, text in enumerate(row):
                item = QTableWidgetItem(text if spoken or j in words else localised(text))
                item.setTextAlignment(LEFT if j in words else RIGHT)
                if j in words:
                    item.setToolTip(text)
                if i == bold:
                    font = item.font()
                    font.setBold(True)
                    item.setFont(font)
                self.setItem(i, j, item)
        for j, mode in enumerate(modes):
            header.setSectionResizeMode(j, mode)
        self.blockSignals(False)

    def show_heads(self, heads: Sequence[str]) -> None:
        """Name the columns again: units change."""
        for column, text in enumerate(heads):
            self.head(column).setText(text)
        self._fit_heads()

    def fit(self, most: int, least: int = 2, *, yields_to: int | None = None) -> None:
        """Be as high as the rows, between ``least`` and ``most`` of them.

        With ``yields_to`` it gives way in a low window down to so many rows, and scrolls.
        """
        shown = [self.rowHeight(row) for row in range(min(self.rowCount(), most))]
        missing = max(least - len(shown), 0) * self.verticalHeader().defaultSectionSize()
        high = self.horizontalHeader().height() + sum(shown) + missing
        high += 2 * self.frameWidth()
        if yields_to is None:
            self.setFixedHeight(high)
            return
        given = sum(shown[yields_to:])
        self.setMaximumHeight(high)
        self.setMinimumHeight(high - given)
        self._wanted_px = high
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.updateGeometry()

    _wanted_px = 0

    def sizeHint(self) -> QSize:
        hint = super().sizeHint()
        return QSize(hint.width(), self._wanted_px) if self._wanted_px else hint

    def words_first(self, columns: Sequence[int] = (0,)) -> None:
        """Set columns of words to the left, head and cells."""
        blocked = self.blockSignals(True)  # a cell set to the left is not a cell typed into
        for column in columns:
            self.head(column).setTextAlignment(HEAD_LEFT)
            for row in range(self.rowCount()):
                self.cell(row, column).setTextAlignment(LEFT)
        self.blockSignals(blocked)

    def _fit_heads(self) -> None:
        """Give the heads the lines that the longest needs in its column."""
        header = self.horizontalHeader()
        metrics = header.fontMetrics()
        high = 0
        for column in range(self.columnCount()):
            wide = header.sectionSize(column) - HEAD_SIDES_PX
            if wide > 0:
                room = QRect(0, 0, wide, 0)
                high = max(high, metrics.boundingRect(room, _WRAP, self.head(column).text()).height())
        if high and header.height() != high + HEAD_ROOM_PX:
            header.setFixedHeight(high + HEAD_ROOM_PX)

    left_out: tuple[int, ...] = ()
    """Columns in the order in which a narrow table leaves them out; copies and papers have them all."""

    first_px = 0
    """So much of the first column, which takes what the others leave, is shown at least."""

    def make_room(self) -> None:
        """Leave out what does not fit beside what must be seen."""
        header = self.horizontalHeader()
        wide = {
            column: max(header.sectionSizeHint(column), self.sizeHintForColumn(column))
            for column in range(1, self.columnCount())
        }
        over = sum(wide.values()) + self.first_px - self.viewport().width()
        for column in self.left_out:
            self.setColumnHidden(column, over > 0)
            over -= wide[column] if over > 0 else 0

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if self.left_out:
            self.make_room()
        self._fit_heads()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._fit_heads()  # what columns were before they were seen does not count

    def cell(self, row: int, column: int) -> QTableWidgetItem:
        """Return a cell that is there."""
        item = self.item(row, column)
        assert item is not None
        return item

    def head(self, column: int) -> QTableWidgetItem:
        """Return a column's head."""
        item = self.horizontalHeaderItem(column)
        assert item is not None
        return item

    def as_text(self) -> str:
        """Return the table as lines of tab-separated cells, heads first."""
        heads = [self.head(j).text().replace("\n", " ") for j in range(self.columnCount())]
        rows = [[self.cell(i, j).text() for j in range(self.columnCount())] for i in range(self.rowCount())]
        return "\n".join("\t".join(row) for row in [heads, *rows])
