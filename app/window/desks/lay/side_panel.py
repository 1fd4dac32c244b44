"""Beside the roll: the lays kept, the side table, the selected piece and the faults."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication, QMimeData, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QAction, QIcon
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.tools.lay_table import LayTable
from app.window.desks.draft.view_strip import action_button
from app.window.desks.lay.lay_picture import HIGH_PX, WIDE_PX, lay_picture
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths
from app.window.wording.words import hand_name, yield_means
from nesting.items import Item
from nesting.verify.fault import Fault, FaultKind

translate = QCoreApplication.translate
MOST_FAULTS = 200
DRAW_AFTER_MS = 200


def fault_text(fault: Fault, table: LayTable, lengths: Lengths) -> str:
    """Return a fault in the words of the window."""
    names = [
        f"{at.piece or at.id} {at.size}".strip()
        for at in (table.problem.by_id[table.placements[i].item_id] for i in fault.placements)
    ]
    who = " / ".join(names)
    amount = lengths.text(fault.amount_mm, 2) if fault.amount_mm is not None else ""
    text = {
        FaultKind.OVERLAP: translate("Lay", "{0} overlap by {1}"),
        FaultKind.GAP: translate("Lay", "{0}: the gap is {1} short"),
        FaultKind.OUTSIDE: translate("Lay", "{0}: {1} beyond the usable field"),
        FaultKind.FLAW: translate("Lay", "{0} lies {1} on a flaw"),
    }.get(fault.kind)
    if text is not None and names:
        return text.format(who, amount)
    if fault.kind is FaultKind.AXIS and names:
        deg = f"{lengths.decimal(fault.amount_deg or 0.0)}°"
        return translate("Lay", "{0}: {1} off the tight direction").format(who, deg)
    return fault.message or fault.kind.value


def item_text(item: Item) -> str:
    """Return what an item is called: piece, size and hand."""
    hand = hand_name(item.hand) if item.hand else ""
    return " ".join(part for part in (item.piece or item.id, item.size, hand) if part)


class SideTable(QListWidget):
    """Pieces asked for but not on the roll; an entry is dragged to its place or double-clicked."""

    MIME = "application/x-stayply-item"

    def __init__(self) -> None:
        super().__init__()
        self.setDragEnabled(True)
        self.setDragDropMode(QAbstractItemView.DragDropMode.DragOnly)

    def mimeData(self, items: Sequence[QListWidgetItem]) -> QMimeData:
        data = QMimeData()
        if items:
            data.setData(self.MIME, str(items[0].data(Qt.ItemDataRole.UserRole)).encode("utf-8"))
        return data


@dataclass(frozen=True)
class LayRow:
    """One of the lays kept, as it is listed; ``table`` is None where it cannot be drawn."""

    name: str
    length: str
    share: str
    faults: str
    table: LayTable | None = None

    @property
    def texts(self) -> tuple[str, str, str, str]:
        """The cells of the row."""
        return self.name, self.length, self.share, self.faults


class SidePanel(QWidget):
    """``put_back`` carries an item's id; ``fault_picked`` and ``lay_picked`` an index."""

    put_back = Signal(str)
    fault_picked = Signal(int)
    lay_picked = Signal(int)

    def __init__(self, lengths: Lengths, another: QAction, remove: QAction) -> None:
        super().__init__()
        self._lengths = lengths
        self._rows: list[LayRow] = []
        self._pictured: list[LayTable | None] = []
        self._draw_soon = QTimer(self)
        self._draw_soon.setSingleShot(True)
        self._draw_soon.setInterval(DRAW_AFTER_MS)
        self._draw_soon.timeout.connect(self._draw_lays)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        row = QHBoxLayout()
        row.setContentsMargins(12, 8, 8, 4)
        row.addWidget(_heading(translate("Lay", "Lays side by side")))
        row.addStretch(1)
        row.addWidget(action_button(another))
        row.addWidget(action_button(remove))
        column.addLayout(row)
        self.lays = QTableWidget(0, 4)
        self.lays.setAccessibleName(translate("Lay", "Lays side by side"))
        self.lays.setHorizontalHeaderLabels(
            [
                translate("Lay", "Name"),
                translate("Lay", "Length"),
                translate("Lay", "Yield"),
                translate("Lay", "Faults"),
            ]
        )
        self.lays.verticalHeader().hide()
        self.lays.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.lays.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.lays.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.lays.setShowGrid(False)
        self.lays.setIconSize(QSize(WIDE_PX, HIGH_PX))
        self.lays.verticalHeader().setDefaultSectionSize(HIGH_PX + 8)
        self.lays.setFrameShape(QTableWidget.Shape.NoFrame)
        share = self.lays.horizontalHeaderItem(2)
        if share is not None:
            share.setToolTip(yield_means())
        first = self.lays.horizontalHeaderItem(0)
        if first is not None:
            first.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header = self.lays.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.lays.currentCellChanged.connect(self._lay)
        column.addWidget(self.lays, 2)
        self._picked_head = _heading(translate("Lay", "Selected"))
        column.addWidget(_padded(self._picked_head))
        self.picked = QLabel()
        self.picked.setWordWrap(True)
        self.picked.setContentsMargins(12, 0, 12, 8)
        self.picked.setTextFormat(Qt.TextFormat.PlainText)
        column.addWidget(self.picked)
        self._side_head = _heading("")
        column.addWidget(_padded(self._side_head))
        self.side = SideTable()
        self.side.setAccessibleName(translate("Lay", "Side table"))
        self.side.setFrameShape(QListWidget.Shape.NoFrame)
        self.side.setToolTip(
            translate(
                "Lay",
                "Asked for, but not on the roll: drag one to its place, or double-click to lay it at the end",
            )
        )
        self.side.itemActivated.connect(self._put_back)
        column.addWidget(self.side, 2)
        self._fault_head = _heading("")
        column.addWidget(_padded(self._fault_head))
        self.faults = QListWidget()
        self.faults.setAccessibleName(translate("Lay", "Faults"))
        self.faults.setFrameShape(QListWidget.Shape.NoFrame)
        self.faults.setWordWrap(True)
        self.faults.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.faults.itemClicked.connect(self._fault)
        column.addWidget(self.faults, 3)

    def show_lays(self, rows: list[LayRow], current: int) -> None:
        """Show the lays kept: picture, name, length, yield, faults."""
        self.lays.blockSignals(True)
        self.lays.setRowCount(len(rows))
        for r, row in enumerate(rows):
            for c, text in enumerate(row.texts):
                item = self.lays.item(r, c)
                if item is None:
                    item = QTableWidgetItem()
                    self.lays.setItem(r, c, item)
                    if c:
                        item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                if item.text() != text:
                    item.setText(text)
        self.lays.setCurrentCell(current, 0)
        self.lays.blockSignals(False)
        self._rows = rows
        self._draw_soon.start()

    def _draw_lays(self) -> None:
        """Draw the small pictures again where a lay changed."""
        pictured: list[LayTable | None] = []
        for r, row in enumerate(self._rows):
            item = self.lays.item(r, 0)
            if item is None:
                continue
            if row.table is None:
                item.setIcon(QIcon())
            elif r >= len(self._pictured) or self._pictured[r] is not row.table:
                item.setIcon(QIcon(lay_picture(row.table, self.devicePixelRatioF())))
            pictured.append(row.table)
        self._pictured = pictured

    def show_table(
        self, table: LayTable, faults: tuple[Fault, ...], chosen: frozenset[int], hold: str = ""
    ) -> None:
        """Show side table, faults and the selected pieces; ``hold`` is what a turned piece costs."""
        missing = table.missing
        count = sum(missing.values())
        self._side_head.setText(f"{translate('Lay', 'Side table')}  ·  {count}")
        by_id = table.problem.by_id
        lines = [(item, f"{n} × {item_text(by_id[item])}") for item, n in missing.items()]
        if [self.side.item(i).text() for i in range(self.side.count())] != [text for _, text in lines]:
            self.side.clear()
            for item, text in lines:
                entry = QListWidgetItem(text)
                entry.setData(Qt.ItemDataRole.UserRole, item)
                self.side.addItem(entry)
        shown = [fault for fault in faults if fault.kind is not FaultKind.MISSING]
        self._fault_head.setText(f"{translate('Lay', 'Faults')}  ·  {len(shown)}")
        texts = [fault_text(fault, table, self._lengths) for fault in shown[:MOST_FAULTS]]
        if [self.faults.item(i).text() for i in range(self.faults.count())] != texts:
            self.faults.clear()
            self.faults.addItems(texts)
        self.picked.setText("\n".join(part for part in (self._about(table, chosen), hold) if part))

    def _about(self, table: LayTable, chosen: frozenset[int]) -> str:
        if not chosen:
            return translate("Lay", "Nothing: click a piece, or sweep over several.")
        if len(chosen) > 1:
            return translate("Lay", "{0} pieces").format(len(chosen))
        index = min(chosen)
        at = table.placements[index]
        item = table.problem.by_id[at.item_id]
        x_mm, y_mm, _, _ = table.polygons[index].bounds  # where it lies on the roll, not its drawing's origin
        lines = [
            item_text(item),
            f"x {self._lengths.text(x_mm)}   y {self._lengths.text(y_mm)}   {localised(f'{at.turn_deg:g}')}°",
        ]
        off = table.off_axis_deg(index)
        if off > 0.05:
            lines.append(translate("Lay", "{0}° off the tight direction").format(self._lengths.decimal(off)))
        if at.pinned:
            lines.append(translate("Lay", "pinned"))
        return "\n".join(lines)

    def _put_back(self, item: QListWidgetItem) -> None:
        self.put_back.emit(str(item.data(Qt.ItemDataRole.UserRole)))

    def _fault(self, item: QListWidgetItem) -> None:
        self.fault_picked.emit(self.faults.row(item))

    def _lay(self, row: int, column: int, before: int, old: int) -> None:
        if row >= 0:
            self.lay_picked.emit(row)


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("role", "heading")
    return label


def _padded(label: QLabel) -> QLabel:
    label.setContentsMargins(12, 8, 12, 4)
    return label
