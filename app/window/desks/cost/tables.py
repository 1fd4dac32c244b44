"""Tables of the cost desk: what all have in common, and the pairs ordered by size."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

translate = QCoreApplication.translate
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
MOST_PAIRS = 1_000_000


class Table(QTableWidget):
    """A plain table: no row numbers, whole rows, columns as wide as they need."""

    def __init__(self, heads: Sequence[str], name: str, *, editable: bool = False) -> None:
        super().__init__(0, len(heads))
        self.setHorizontalHeaderLabels(list(heads))
        self.setAccessibleName(name)
        self.verticalHeader().setVisible(False)
        self.verticalHeader().setDefaultSectionSize(24)
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        if not editable:
            self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        header.setDefaultAlignment(RIGHT)
        header.setHighlightSections(False)

    def fill(self, rows: Sequence[Sequence[str]], *, bold: int = -1) -> None:
        """Show rows of text; row ``bold`` stands out."""
        self.blockSignals(True)
        self.setRowCount(len(rows))
        for i, row in enumerate(rows):
            for j, text in enumerate(row):
                item = QTableWidgetItem(text)
                item.setTextAlignment(RIGHT)
                if i == bold:
                    font = item.font()
                    font.setBold(True)
                    item.setFont(font)
                self.setItem(i, j, item)
        self.blockSignals(False)

    def show_heads(self, heads: Sequence[str]) -> None:
        """Name the columns anew: units change."""
        for column, text in enumerate(heads):
            self.head(column).setText(text)

    def fit(self, most: int, least: int = 2) -> None:
        """Be as high as the rows, between ``least`` and ``most`` of them."""
        rows = min(max(self.rowCount(), least), most)
        high = self.horizontalHeader().sizeHint().height() + rows * self.verticalHeader().defaultSectionSize()
        self.setFixedHeight(high + 2 * self.frameWidth())

    def words_first(self, columns: Sequence[int] = (0,)) -> None:
        """Set columns of words to the left, head and cells."""
        left = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        blocked = self.blockSignals(True)  # a cell set to the left is no cell typed into
        for column in columns:
            self.head(column).setTextAlignment(left)
            for row in range(self.rowCount()):
                self.cell(row, column).setTextAlignment(left)
        self.blockSignals(blocked)

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
        heads = [self.head(j).text() for j in range(self.columnCount())]
        rows = [[self.cell(i, j).text() for j in range(self.columnCount())] for i in range(self.rowCount())]
        return "\n".join("\t".join(row) for row in [heads, *rows])


class OrderTable(Table):
    """Pairs by size, to be typed. ``changed`` when a number was."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__(
            [translate("Cost", "Size"), translate("Cost", "Pairs")],
            translate("Cost", "Pairs ordered by size"),
            editable=True,
        )
        self.itemChanged.connect(self._typed)
        self._pairs: dict[str, int] = {}

    @property
    def pairs(self) -> dict[str, int]:
        """Pairs by size, sizes without pairs left out."""
        return {size: pairs for size, pairs in self._pairs.items() if pairs}

    def show_pairs(self, pairs: dict[str, int]) -> None:
        """Show an order."""
        self._pairs = dict(pairs)
        self.fill([[size, str(count)] for size, count in pairs.items()])
        self.words_first()
        self.fit(12)
        self.blockSignals(True)
        for row in range(self.rowCount()):
            self.cell(row, 0).setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        self.blockSignals(False)

    def _typed(self, item: QTableWidgetItem) -> None:
        if item.column() != 1:
            return
        size = list(self._pairs)[item.row()]
        text = item.text().strip() or "0"
        if text.isdecimal() and int(text) <= MOST_PAIRS:
            self._pairs[size] = int(text)
            self.changed.emit()
        self.blockSignals(True)
        item.setText(str(self._pairs[size]))
        self.blockSignals(False)
