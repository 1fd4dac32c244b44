"""Lengths, areas and seams on the draft desk, and two sizes or versions compared."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import (
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.errors import AppError
from app.style.file import load_style
from app.style.model import Style
from app.style.whole import measures, seams
from app.window.desks.draft.interface import DraftBench
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField
from app.window.widgets.table import Table
from app.window.widgets.theme import ui_font
from app.window.wording.core_words import told_text
from app.window.wording.edge_words import kind_name
from geometry.errors import GeometryError

translate = QCoreApplication.translate


class MeasuresPage(QWidget):
    """``compared`` when another size or version is to be laid over the board.

    ``over_size`` is a size of this style, ``other`` another version of it; at most one of them is set.
    """

    compared = Signal()

    def __init__(self, desk: DraftBench) -> None:
        super().__init__()
        self._desk = desk
        self._lengths = desk.session.lengths
        self._shown: tuple[object, ...] = ()
        self._rows: list[seams.SeamMeasure] = []
        self._saved = 0
        self.over_size = ""
        self.other: Style | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 12, 12, 10)
        column.setSpacing(8)
        self.head = _heading("")
        column.addWidget(self.head)
        self.table = Table(["", "", "", ""], translate("Measure", "Measures of the pieces"))
        self.table.cellClicked.connect(self._piece_clicked)
        _narrow(self.table)
        column.addWidget(self.table)
        column.addWidget(_heading(translate("Measure", "Seams")))
        heads = [
            translate("Measure", "Sewn"),
            translate("Measure", "Length"),
            translate("Measure", "Difference"),
        ]
        self.seams = Table(heads, translate("Measure", "Edges that are sewn together"))
        _narrow(self.seams)
        self.seams.itemSelectionChanged.connect(self._seam_chosen)
        self.seams.cellClicked.connect(self._seam_clicked)
        column.addWidget(self.seams)
        row = QHBoxLayout()
        self.pair = QPushButton(translate("Measure", "Pair"))
        self.pair.setToolTip(translate("Measure", "Keep the proposed pair with the style"))
        self.pair.clicked.connect(self._pair)
        self.apart = QPushButton(translate("Measure", "Take apart"))
        self.apart.clicked.connect(self._apart)
        self.ease = LengthField(translate("Measure", "Ease"), self._lengths)
        self.ease.setToolTip(translate("Measure", "How much longer the first edge is meant to be"))
        self.ease.setFixedWidth(64)
        self.ease.entered.connect(self._ease)
        self.ease.refused.connect(desk.status)
        row.addWidget(self.pair)
        row.addWidget(self.apart)
        row.addStretch(1)
        row.addWidget(QLabel(translate("Measure", "ease")))
        row.addWidget(self.ease)
        column.addLayout(row)
        column.addWidget(_heading(translate("Measure", "Compare")))
        form = QFormLayout()
        self.with_box = Chooser()
        self.with_box.setAccessibleName(translate("Measure", "Compare with"))
        self.with_box.activated.connect(self._with)
        form.addRow(translate("Measure", "with"), self.with_box)
        column.addLayout(form)
        self.differences = Table(
            [
                translate("Measure", "Piece"),
                translate("Measure", "Apart"),
                translate("Measure", "Area"),
            ],
            translate("Measure", "How far the pieces part"),
        )
        _narrow(self.differences)
        self.differences.cellClicked.connect(self._difference_clicked)
        column.addWidget(self.differences)
        column.addStretch(1)
        self._places: list[measures.PieceComparison] = []

    # -- showing ------------------------------------------------------------------------------
    def show_style(self, style: Style, size: str, piece: str) -> None:
        """Show the measures of a size: of all pieces, or of the edges of the selected one."""
        key = (style, size, piece, self.over_size, self.other, self._lengths.unit)
        if len(key) == len(self._shown) and all(
            a is b or a == b for a, b in zip(key, self._shown, strict=True)
        ):
            return
        self._shown = key
        try:
            self._show_pieces(style, size, piece)
            self._show_seams(style, size)
            self._show_difference(style, size)
        except GeometryError as error:
            self._desk.status.emit(told_text(str(error)))

    def relook(self) -> None:
        """The unit of display changed."""
        self.ease.relook()
        style = self._desk.session.style
        if style is not None and self._shown:
            self.show_style(style, str(self._shown[1]), str(self._shown[2]))

    def forget(self) -> None:
        """Another style is open: nothing is compared."""
        self.over_size, self.other, self._shown = "", None, ()

    def _show_pieces(self, style: Style, size: str, piece: str) -> None:
        number = self._lengths.number
        unit = self._lengths.unit.value
        if piece:
            measured = measures.measure_piece(style, piece, size)
            self.head.setText(
                translate("Measure", "{0}, size {1}: {2}, {3} × {4}").format(
                    piece,
                    size,
                    self._area(measured.area_mm2, with_unit=True),
                    number(measured.along_mm),
                    self._lengths.text(measured.across_mm),
                )
            )
            heads = [
                translate("Measure", "Edge"),
                translate("Measure", "Cut ({0})").format(unit),
                translate("Measure", "Net ({0})").format(unit),
                translate("Measure", "Setback"),
            ]
            rows = [
                [kind_name(e.kind), number(e.length_mm), number(e.net_mm), number(e.setback_mm)]
                for e in measured.edges
            ]
            self._names = [(piece, frozenset({(e.ring, e.start)})) for e in measured.edges]
        else:
            self.head.setText(translate("Measure", "All pieces, size {0}").format(size))
            square = self._lengths.area_unit
            heads = [
                translate("Measure", "Piece"),
                translate("Measure", "Upper ({0})").format(square),
                translate("Measure", "Backing"),
                translate("Measure", "Length"),
            ]
            pieces = measures.measure_pieces(style, size)
            rows = [
                [m.piece, self._area(m.area_mm2), self._area(sum(m.backing_mm2)), number(m.along_mm)]
                for m in pieces
            ]
            self._names = [(m.piece, frozenset()) for m in pieces]
        self.table.show_heads([head.replace(" (", "\n(") for head in heads])
        self.table.fill(rows, spoken=True)
        self.table.words_first()
        self.table.fit(8)

    _names: list[tuple[str, frozenset[tuple[int, int]]]]

    def _show_seams(self, style: Style, size: str) -> None:
        saved = seams.measure_seams(style, size)
        proposed = seams.propose_seams(style) if size == style.size_run.base else ()
        chosen = self._seam()
        self._rows, self._saved = [*saved, *proposed], len(saved)
        number = self._lengths.number
        rows = []
        for i, row in enumerate(self._rows):
            name = f"{row.seam.first[0]} – {row.seam.second[0]}"
            asked = name + " ?" if i >= self._saved else name
            wrong = "" if row.fits else "  ✗"
            rows.append([asked, number(row.first_mm), f"{_signed(number(row.difference_mm))}{wrong}"])
        self.seams.blockSignals(True)
        self.seams.fill(rows, spoken=True)
        self.seams.words_first()
        self.seams.resizeRowsToContents()  # two names in one cell
        self.seams.fit(5)
        for i in range(len(self._rows)):
            cell = self.seams.cell(i, 0)
            cell.setToolTip(cell.text())
        self.seams.blockSignals(False)
        at = next((i for i, row in enumerate(self._rows) if chosen and row.seam == chosen.seam), -1)
        if at >= 0:
            self.seams.selectRow(at)
        self._seam_chosen()

    def _show_difference(self, style: Style, size: str) -> None:
        words = [(translate("Measure", "nothing"), ""), *((s, s) for s in style.size_run.sizes if s != size)]
        if [(self.with_box.itemText(i), self.with_box.itemData(i)) for i in range(len(words))] != words:
            self.with_box.clear()
            for text, data in words:
                self.with_box.addItem(text, data)
            self.with_box.addItem(translate("Measure", "another version…"), "…")
        at = self.with_box.findData("…" if self.other is not None else self.over_size)
        self.with_box.setCurrentIndex(max(at, 0))
        if self.other is not None:
            self._places = list(measures.compare_versions(style, self.other, size))
        elif self.over_size in style.size_run.sizes and self.over_size != size:
            self._places = list(measures.compare_sizes(style, size, self.over_size))
        else:
            self._places = []
        rows = [
            [c.piece, self._lengths.number(c.apart_mm, 2), _signed(self._area(c.area_mm2[1] - c.area_mm2[0]))]
            for c in self._places
        ]
        self.differences.setVisible(bool(rows))
        self.differences.fill(rows, spoken=True)
        self.differences.words_first()
        self.differences.fit(6)

    def _area(self, mm2: float, *, with_unit: bool = False) -> str:
        text = self._lengths.area(mm2)
        return f"{text} {self._lengths.area_unit}" if with_unit else text

    # -- entering -----------------------------------------------------------------------------
    def _piece_clicked(self, row: int, column: int) -> None:
        name, edges = self._names[row]
        self._desk.select(name, edges)

    def _seam(self) -> seams.SeamMeasure | None:
        row = self.seams.currentRow()
        return self._rows[row] if 0 <= row < len(self._rows) else None

    def _seam_chosen(self) -> None:
        row = self.seams.currentRow()
        chosen, kept = self._seam(), 0 <= row < self._saved
        self.pair.setEnabled(chosen is not None and not kept)
        self.apart.setEnabled(kept)
        self.ease.setEnabled(kept)
        self.ease.set_value(chosen.seam.ease_mm if chosen is not None and kept else None)

    def _seam_clicked(self, row: int, column: int) -> None:
        name, ring, start = self._rows[row].seam.first
        self._desk.select(name, frozenset({(ring, start)}))

    def _pair(self) -> None:
        chosen = self._seam()
        if chosen is not None:
            self._desk.edit("sew", seams.sew, chosen.seam.first, chosen.seam.second)

    def _apart(self) -> None:
        chosen = self._seam()
        if chosen is not None:
            self._desk.edit("unsew", seams.unsew, chosen.seam.first, chosen.seam.second)

    def _ease(self, value: object) -> None:
        chosen = self._seam()
        if chosen is not None and isinstance(value, float):
            self._desk.edit("sew", seams.sew, chosen.seam.first, chosen.seam.second, value)

    def _with(self, index: int) -> None:
        chosen = str(self.with_box.itemData(index))
        if chosen == "…":
            path, _ = QFileDialog.getOpenFileName(
                self, translate("Measure", "Another version of the style"), "", "*.style.json"
            )
            if path:
                self.compare_with(Path(path))
                return
            chosen = ""
        self.over_size, self.other = chosen, None
        self.compared.emit()

    def compare_with(self, path: Path) -> None:
        """Compare with another version of the style; says why where that cannot be."""
        style = self._desk.session.style
        try:
            other = load_style(path)
        except AppError as error:
            self._desk.status.emit(told_text(str(error)))
            return
        if style is None or not {p.name for p in style.pieces} & {p.name for p in other.pieces}:
            self._desk.status.emit(translate("Measure", "{0} has no piece of these names.").format(path.name))
            return
        self.over_size, self.other = "", other
        self.compared.emit()

    def _difference_clicked(self, row: int, column: int) -> None:
        self._desk.select(self._places[row].piece)


def _narrow(table: Table) -> None:
    """Let figures take the room they need, their small heads too; the words have the rest."""
    table.horizontalHeader().setFont(ui_font(8))
    for column in range(1, table.columnCount()):
        table.horizontalHeader().setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("role", "heading")
    label.setWordWrap(True)
    return label


def _signed(text: str) -> str:
    return text if text.startswith("-") else f"+{text}"
