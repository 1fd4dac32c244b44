"""The tables of the cost desk: pairs by size, widths to compare, results by width and by size."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal, InvalidOperation

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem

from app.cost import Width
from app.cost_compare import ComparedWidth
from app.window.lengths import Lengths

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
        self.blockSignals(True)
        for row in range(self.rowCount()):
            self.cell(row, 0).setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        self.blockSignals(False)

    def _typed(self, item: QTableWidgetItem) -> None:
        size = list(self._pairs)[item.row()]
        text = item.text().strip() or "0"
        if text.isdecimal() and int(text) <= MOST_PAIRS:
            self._pairs[size] = int(text)
            self.changed.emit()
        self.blockSignals(True)
        item.setText(str(self._pairs[size]))
        self.blockSignals(False)


class WidthTable(Table):
    """Roll widths to compare: ticked or not, with the price of a metre to be typed."""

    priced = Signal(float)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__(
            [translate("Cost", "Roll width"), translate("Cost", "Price a metre")],
            translate("Cost", "Roll widths to compare"),
            editable=True,
        )
        self._lengths = lengths
        self._widths: list[Width] = []
        self.itemChanged.connect(self._typed)

    def show_widths(self, widths: Sequence[Width], ticked: Sequence[float]) -> None:
        """Show widths; ``ticked`` are the whole widths to be compared."""
        self._widths = list(widths)
        self.fill([[self.name(width), _price(width.price_per_m)] for width in widths])
        self.blockSignals(True)
        for row, width in enumerate(widths):
            item = self.cell(row, 0)
            item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
            item.setFlags(
                Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsUserCheckable
            )
            wanted = width.width_mm in ticked
            item.setCheckState(Qt.CheckState.Checked if wanted else Qt.CheckState.Unchecked)
        self.blockSignals(False)

    def name(self, width: Width) -> str:
        """Return a whole roll width as it is called: in mm or in whole inches."""
        inches = width.width_mm / 25.4
        if abs(inches - round(inches)) < 1e-6 and round(inches) != 0:
            return f"{round(inches)} in"
        return self._lengths.text(width.width_mm, 0)

    @property
    def widths(self) -> list[Width]:
        """All widths with their prices."""
        return list(self._widths)

    @property
    def ticked(self) -> list[Width]:
        """The widths to compare."""
        return [
            width
            for row, width in enumerate(self._widths)
            if self.cell(row, 0).checkState() == Qt.CheckState.Checked
        ]

    def _typed(self, item: QTableWidgetItem) -> None:
        if item.column() != 1:
            return
        width = self._widths[item.row()]
        text = item.text().strip().replace(",", ".")
        try:
            price = Decimal(text) if text else None
            if price is not None and not (price.is_finite() and price >= 0):
                raise InvalidOperation
        except InvalidOperation:
            price = width.price_per_m
        self._widths[item.row()] = Width(width.width_mm, width.usable_width_mm, price)
        self.blockSignals(True)
        item.setText(_price(price))
        self.blockSignals(False)
        self.priced.emit(width.width_mm)


class ResultTable(Table):
    """A line a width counted; ``chosen`` carries the row selected."""

    chosen = Signal(int)

    def __init__(self) -> None:
        super().__init__(
            [
                translate("Cost", "Roll width"),
                translate("Cost", "Usable"),
                translate("Cost", "Lay"),
                translate("Cost", "Yield"),
                translate("Cost", "Utilisation"),
                translate("Cost", "m a pair"),
                translate("Cost", "m² a pair"),
                translate("Cost", "Cost a pair"),
            ],
            translate("Cost", "Results by roll width"),
        )
        self.head(3).setToolTip(
            translate("Cost", "Area of the pieces over usable width times length of the lay")
        )
        self.head(4).setToolTip(
            translate("Cost", "Area of the pieces over all cloth paid for: ends, selvedges and rejects too")
        )
        self.itemSelectionChanged.connect(self._selected)

    def show_results(
        self, results: Sequence[tuple[str, ComparedWidth]], lengths: Lengths, waiting: Sequence[str]
    ) -> None:
        """Show what is counted, then the widths that are still to come."""
        rows = [
            [
                name,
                lengths.text(result.width.usable_width_mm, 0),
                f"{result.row['lay_length_mm'] / 1000:.3f} m",
                f"{result.row['yield']:.1%}",
                f"{result.row['utilisation']:.1%}",
                f"{result.row['metres_per_pair']:.4f}",
                f"{result.row['m2_per_pair']:.4f}",
                "–" if result.cost_per_pair is None else str(result.cost_per_pair),
            ]
            for name, result in results
        ]
        rows += [[name, "…", "", "", "", "", "", ""] for name in waiting]
        costs = [result.cost_per_pair for _, result in results]
        best = -1
        if costs and all(cost is not None for cost in costs):
            best = costs.index(min(cost for cost in costs if cost is not None))
        self.fill(rows, bold=best)

    def _selected(self) -> None:
        if self.selectedIndexes():
            self.chosen.emit(self.selectedIndexes()[0].row())


class SizeTable(Table):
    """What a pair of each size takes on the width selected, and the average weighted by the order."""

    def __init__(self) -> None:
        super().__init__(
            [
                translate("Cost", "Size"),
                translate("Cost", "Pairs"),
                translate("Cost", "Net m²"),
                translate("Cost", "Gross m²"),
                translate("Cost", "Metres"),
                translate("Cost", "Cost"),
            ],
            translate("Cost", "Fabric per pair by size"),
        )

    def show_result(self, result: ComparedWidth | None, pairs: dict[str, int]) -> None:
        """Show a width's figures by size."""
        if result is None:
            self.fill([])
            return
        rows = [
            [
                size["size"],
                str(pairs.get(size["size"], 0)),
                f"{size['net_m2']:.4f}",
                f"{size['gross_m2']:.4f}",
                f"{size['metres']:.4f}",
                _price(result.cost_of(size)) or "–",
            ]
            for size in result.cost["per_pair"]
        ]
        average = result.cost["average"]
        rows.append(
            [
                translate("Cost", "average"),
                str(sum(pairs.values())),
                f"{average['net_m2']:.4f}",
                f"{average['gross_m2']:.4f}",
                f"{average['metres']:.4f}",
                _price(result.cost_per_pair) or "–",
            ]
        )
        self.fill(rows, bold=len(rows) - 1)


def _price(amount: Decimal | None) -> str:
    return "" if amount is None else str(amount)
