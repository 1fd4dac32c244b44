"""What is to be compared, ticked or not, each with the price of a metre or a yard to be typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from typing import Any

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QHeaderView, QTableWidgetItem

from app.cost.compare import widths_to_compare
from app.cost.per_pair import Width, cloth_width
from app.measures import Measures
from app.style.model import ClothData
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths
from app.window.widgets.table import Table
from geometry.inch import MM_PER_INCH

translate = QCoreApplication.translate


class PricedTable(Table):
    """``priced`` carries the key of a row whose price was typed."""

    priced = Signal(object)

    def __init__(self, head: str, name: str) -> None:
        super().__init__([head, translate("Cost", "Price per metre")], name, editable=True)
        header = self.horizontalHeader()
        header.setSectionResizeMode(1, QHeaderView.ResizeMode.ResizeToContents)
        self._keys: list[Any] = []
        self._widths: list[Width] = []
        self._measures: Measures | None = None
        self._prices: dict[Any, Decimal | None] = {}
        self._ticks: dict[Any, bool] = {}
        self.itemChanged.connect(self._typed)

    def _show(
        self, rows: Sequence[tuple[Any, str, Width]], ticked: Sequence[Any], measures: Measures
    ) -> None:
        """Show rows of key, name and width; prices by the length of ``measures``."""
        self._keys = [key for key, _, _ in rows]
        prices = self._prices
        self._widths = [replace(w, price_per_m=prices[k]) if k in prices else w for k, _, w in rows]
        self._measures = measures
        metre = measures.length_unit == "m"
        self.head(1).setText(
            translate("Cost", "Price per metre") if metre else translate("Cost", "Price per yard")
        )
        names = [name for _, name, _ in rows]
        told = [self._price(width.price_per_m) for width in self._widths]
        self.fill([list(row) for row in zip(names, told, strict=True)])
        self.blockSignals(True)
        for row, key in enumerate(self._keys):
            item = self.cell(row, 0)
            item.setFlags(
                Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsUserCheckable
            )
            on = self._ticks.get(key, key in ticked)
            item.setCheckState(Qt.CheckState.Checked if on else Qt.CheckState.Unchecked)
            item.setToolTip(item.text())
        self.words_first()
        self.blockSignals(False)
        self.fit(8)

    @property
    def ticked_keys(self) -> list[Any]:
        """The keys of what is to be compared."""
        checked = Qt.CheckState.Checked
        return [key for row, key in enumerate(self._keys) if self.cell(row, 0).checkState() == checked]

    @property
    def widths(self) -> list[Width]:
        """All widths with their prices, in the order of the rows."""
        return list(self._widths)

    def width_of(self, key: object) -> Width:
        """The width of a row, its price as typed."""
        return self._widths[self._keys.index(key)]

    @property
    def typed(self) -> dict[Any, Decimal | None]:
        """The prices typed, by key."""
        return dict(self._prices)

    def carried(self) -> tuple[dict[Any, Decimal | None], dict[Any, bool]]:
        """What was typed and ticked, for a table made again."""
        return dict(self._prices), dict(self._ticks)

    def take_over(self, carried: tuple[dict[Any, Decimal | None], dict[Any, bool]]) -> None:
        """Take over what was typed and ticked; it is there when the table is shown next."""
        self._prices, self._ticks = carried

    def let_go(self) -> None:
        """Forget what was typed and ticked: it was of another cloth or style."""
        self._prices, self._ticks = {}, {}

    def set_price(self, key: object, price: Decimal | None) -> None:
        """Show another price of a metre for a row, as if it were typed there; nothing is said of it."""
        self._prices[key] = price
        if key not in self._keys:
            return
        row = self._keys.index(key)
        self._widths[row] = replace(self._widths[row], price_per_m=price)
        self.blockSignals(True)
        self.cell(row, 1).setText(self._price(price))
        self.blockSignals(False)

    def _price(self, price: Decimal | None) -> str:
        return "" if price is None or self._measures is None else localised(self._measures.price_text(price))

    def _typed(self, item: QTableWidgetItem) -> None:
        key = self._keys[item.row()]
        if item.column() == 0:
            self._ticks[key] = item.checkState() == Qt.CheckState.Checked
            return
        if self._measures is None:
            return
        width = self._widths[item.row()]
        text = item.text().strip().replace(",", ".")
        price = width.price_per_m
        try:
            typed = Decimal(text) if text else None
            if typed is None or (typed.is_finite() and typed >= 0):
                price = None if typed is None else self._measures.price_per_metre(typed)
                self._prices[key] = price
        except InvalidOperation:
            pass
        self._widths[item.row()] = replace(width, price_per_m=price)
        self.blockSignals(True)
        item.setText(self._price(price))
        self.blockSignals(False)
        self.priced.emit(key)


class WidthTable(PricedTable):
    """Roll widths, keyed by the whole width in mm."""

    def __init__(self, lengths: Lengths) -> None:
        super().__init__(translate("Cost", "Roll width"), translate("Cost", "Roll widths to compare"))
        self._lengths = lengths

    def show_widths(self, cloth: ClothData, measures: Measures) -> None:
        """Show a cloth's own width first, then the common ones; a price typed for its own is the cloth's.

        Widths without a price of their own cost in proportion to it, as in the ``cost`` command.
        """
        priced = self.typed.get(cloth.width_mm, cloth.price_per_m)
        widths = widths_to_compare(cloth.model_copy(update={"price_per_m": priced}))
        rows = [(width.width_mm, self.name(width), width) for width in widths]
        self._show(rows, [width.width_mm for width in widths], measures)

    def name(self, width: Width) -> str:
        """Return a whole roll width as it is called: in mm or in whole inches."""
        inches = width.width_mm / MM_PER_INCH
        if abs(inches - round(inches)) < 1e-6 and round(inches) != 0:
            return f"{round(inches)} in"
        return self._lengths.text(width.width_mm, 0)


class ClothTable(PricedTable):
    """Cloths of the style and of the workshop's register, keyed by id."""

    def __init__(self) -> None:
        super().__init__(translate("Cost", "Cloth"), translate("Cost", "Cloths to compare"))
        self._cloths: list[ClothData] = []

    def show_cloths(self, cloths: Sequence[ClothData], ticked: Sequence[str], measures: Measures) -> None:
        """Show cloths; ``ticked`` are the ids of those to be compared."""
        self._cloths = list(cloths)
        self._show([(cloth.id, cloth.name, cloth_width(cloth)) for cloth in cloths], ticked, measures)

    @property
    def cloths(self) -> list[ClothData]:
        """All cloths offered."""
        return list(self._cloths)

    @property
    def ticked(self) -> list[ClothData]:
        """The cloths to compare, priced as typed."""
        keys = self.ticked_keys
        return [
            cloth.model_copy(update={"price_per_m": self.width_of(cloth.id).price_per_m})
            for cloth in self._cloths
            if cloth.id in keys
        ]
