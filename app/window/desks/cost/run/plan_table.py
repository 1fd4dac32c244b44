"""The lays of a run plan: kept or not, and in how many plies each is cut."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QHeaderView, QTableWidgetItem

from app.window.desks.cost.result_tables import with_longer, yield_tip
from app.window.desks.cost.run.plan_charts import lay_name
from app.window.widgets.icons import icon
from app.window.widgets.lengths import Lengths
from app.window.widgets.table import Table
from app.window.wording.words import yield_means

translate = QCoreApplication.translate


BOX_ROOM_PX = 14
"""What the boxes before the names take beyond what the table measures: a lay's letter must not be cut."""


class PlanTable(Table):
    """A line per lay: kept or not, plies to be typed. ``edited`` when either changed.

    A lay that was laid by hand is locked; ``let_go`` carries its cloth and name when its tick is taken away.
    """

    edited = Signal()
    chosen = Signal(int)
    let_go = Signal(str, str)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__(
            [
                translate("Cost", "Keep"),
                translate("Cost", "Plies"),
                translate("Cost", "Pairs per size in a ply"),
                translate("Cost", "Length"),
                translate("Cost", "Yield"),
                translate("Cost", "Cloth"),
            ],
            translate("Cost", "Lays of the plan"),
            editable=True,
        )
        self.head(4).setToolTip(yield_means())
        header = self.horizontalHeader()
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Fixed)
        for column in (1, 3, 4, 5):
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
        self.head(4).setToolTip(yield_tip())
        self._lengths = lengths
        self._lays: list[dict[str, Any]] = []
        self.itemChanged.connect(self._typed)
        self.itemSelectionChanged.connect(self._selected)

    def show_lays(self, lays: list[dict[str, Any]]) -> None:
        """Show a plan's lays, none of them kept yet but those that were, and those locked."""
        kept = {
            (lay["cloth"], lay["name"])
            for row, lay in enumerate(self._lays)
            if self.kept(row) and not lay.get("locked")
        }
        self._lays = [dict(lay) for lay in lays]
        self.fill(
            [
                [
                    lay_name(lay, lays),
                    str(lay["plies"]),
                    ", ".join(f"{size}: {n}" for size, n in lay["sets"].items()),
                    self._lengths.roll_text(lay["length_mm"]),
                    with_longer(self._lengths.percent(lay["yield"]), lay),
                    self._lengths.roll_text(1000.0 * lay["metres"]),
                ]
                for lay in lays
            ]
        )
        self.blockSignals(True)
        plain = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        for row, lay in enumerate(lays):
            for column in (0, 2, 3, 4, 5):
                self.cell(row, column).setFlags(plain)
            self.cell(row, 0).setFlags(plain | Qt.ItemFlag.ItemIsUserCheckable)
            locked = bool(lay.get("locked"))
            stays = locked or (lay["cloth"], lay["name"]) in kept
            self.cell(row, 0).setCheckState(Qt.CheckState.Checked if stays else Qt.CheckState.Unchecked)
            self.cell(row, 0).setIcon(icon("lock") if locked else QIcon())
            self.cell(row, 0).setToolTip(_locked_tip() if locked else "")
            self.cell(row, 2).setToolTip(self.cell(row, 2).text())
        self.blockSignals(False)
        self.setColumnWidth(0, self.sizeHintForColumn(0) + BOX_ROOM_PX)

    def measure_anew(self) -> None:
        """Show the lengths in the unit that is now chosen; what is typed and ticked stays."""
        self.blockSignals(True)
        for row, lay in enumerate(self._lays):
            self.cell(row, 3).setText(self._lengths.roll_text(lay["length_mm"]))
            self.cell(row, 5).setText(self._lengths.roll_text(1000.0 * lay["metres"]))
        self.blockSignals(False)

    @property
    def lays(self) -> list[dict[str, Any]]:
        """The lays as shown, with plies as changed."""
        return self._lays

    def set_plies(self, row: int, plies: int) -> None:
        """Give a lay other plies, as if they were typed; it is then kept."""
        self.cell(row, 1).setText(str(plies))

    def kept(self, row: int) -> bool:
        """Whether a lay stays when the rest is planned again."""
        return self.cell(row, 0).checkState() == Qt.CheckState.Checked

    @property
    def keep_words(self) -> str:
        """The lays that stay, as ``plan --keep`` takes them."""
        return ",".join(
            f"{lay['cloth']}-{lay['name']}={lay['plies']}"
            for row, lay in enumerate(self._lays)
            if self.kept(row)
        )

    def _typed(self, item: QTableWidgetItem) -> None:
        lay = self._lays[item.row()]
        if item.column() == 0 and lay.get("locked") and not self.kept(item.row()):
            self.let_go.emit(lay["cloth"], lay["name"])
            return
        if item.column() == 1:
            text = item.text().strip()
            even = lay["mode"] == "face-up" or (text.isdecimal() and int(text) % 2 == 0)
            if text.isdecimal() and int(text) > 0 and even and int(text) != lay["plies"]:
                lay["plies"] = int(text)
                self.cell(item.row(), 0).setCheckState(Qt.CheckState.Checked)
            self.blockSignals(True)
            item.setText(str(lay["plies"]))
            self.blockSignals(False)
        self.edited.emit()

    def _selected(self) -> None:
        if self.selectedIndexes():
            self.chosen.emit(self.selectedIndexes()[0].row())


def _locked_tip() -> str:
    return translate("Cost", "Laid by hand on the Lay desk and given back: it stays. Untick to release it.")
