"""Runs on the cost desk: what was planned, what each lay actually used, what similar runs let expect."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal, InvalidOperation

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QCheckBox, QHeaderView, QLabel, QTableWidgetItem, QVBoxLayout, QWidget

from app.cost.estimate import estimates
from app.errors import AppError
from app.measures import METRIC, Measures
from app.style.model import Style
from app.window.widgets.figures import localised
from app.window.widgets.table import Table
from app.window.wording.core_words import told_text
from app.workshop.ledger import LayRecord, Ledger, RunRecord, ledger_path
from geometry.said import percent

translate = QCoreApplication.translate
MOST_RUNS = 500
"""At most this many runs are listed, the newest: nobody scrolls further, and the table stays quick."""
USED, NOTE = 3, 6


def _heads_of_runs(measures: Measures) -> list[str]:
    unit = measures.length_unit
    return [
        translate("Runs", "Run"),
        translate("Runs", "Made"),
        translate("Runs", "Name"),
        translate("Runs", "Style"),
        translate("Runs", "Cloth"),
        translate("Runs", "Pairs"),
        translate("Runs", "Planned {0}").format(unit),
        translate("Runs", "Used {0}").format(unit),
        translate("Runs", "Difference"),
        translate("Runs", "{0} per pair").format(measures.area_sign),
    ]


def _heads_of_lays(measures: Measures) -> list[str]:
    unit = measures.length_unit
    return [
        translate("Runs", "Lay"),
        translate("Runs", "Plies"),
        translate("Runs", "Planned {0}").format(unit),
        translate("Runs", "Used {0}").format(unit),
        translate("Runs", "Difference {0}").format(unit),
        translate("Runs", "Difference"),
        translate("Runs", "Note"),
    ]


class LayUseTable(Table):
    """The lays of one run; used metres and a note are typed. ``typed`` carries lay, metres and note."""

    typed = Signal(str, object, str)
    refused = Signal(str)

    def __init__(self) -> None:
        super().__init__(
            _heads_of_lays(METRIC), translate("Runs", "Lays of the run and cloth used"), editable=True
        )
        self._lays: tuple[LayRecord, ...] = ()
        self._measures = METRIC
        self.itemChanged.connect(self._changed)

    def show_lays(self, lays: Sequence[LayRecord], measures: Measures) -> None:
        """Show the lays of a run."""
        self._lays, self._measures = tuple(lays), measures
        self.show_heads(_heads_of_lays(measures))
        self.fill([self._cells(lay) for lay in lays])
        self.words_first((0, NOTE))
        self.blockSignals(True)
        for row in range(self.rowCount()):
            for column in range(self.columnCount()):
                if column not in (USED, NOTE):
                    self.cell(row, column).setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        self.blockSignals(False)

    def _cells(self, lay: LayRecord) -> list[str]:
        share = lay.variance_m / lay.planned_m if lay.variance_m is not None and lay.planned_m else None
        return [
            lay.lay,
            str(lay.plies),
            _metres(lay.planned_m, self._measures),
            _metres(lay.used_m, self._measures),
            "–" if lay.variance_m is None else f"{self._measures.length(float(lay.variance_m)):+.2f}",
            "–" if share is None else percent(share, sign=True),
            lay.note,
        ]

    def _changed(self, item: QTableWidgetItem) -> None:
        lay = self._lays[item.row()]
        used, note = lay.used_m, lay.note
        if item.column() == USED:
            try:
                length = Decimal(item.text().strip().replace(",", "."))
                used = length * self._measures.length_unit_m if length.is_finite() else None
            except InvalidOperation:
                used = None
            if used is None or used < 0:
                self.refused.emit(translate("Runs", "{0} is not a length of cloth").format(item.text()))
                used = None
        else:
            note = item.text().strip()
        if used is None or (used, note) == (lay.used_m, lay.note):
            self._write(item.row(), lay)
            return
        self.typed.emit(lay.lay, used, note)

    def show_lay(self, lay: LayRecord) -> None:
        """Show one lay again; its cells stay, one of them is being typed into."""
        row = next(row for row, each in enumerate(self._lays) if each.lay == lay.lay)
        self._lays = (*self._lays[:row], lay, *self._lays[row + 1 :])
        self._write(row, lay)

    def _write(self, row: int, lay: LayRecord) -> None:
        self.blockSignals(True)
        for column, text in enumerate(self._cells(lay)):
            self.cell(row, column).setText(text)
        self.blockSignals(False)


class RunsPage(QWidget):
    """The history of the open style, or of the whole workshop; ``told`` carries a status line."""

    told = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._style: Style | None = None
        self._measures = METRIC
        self._records: tuple[RunRecord, ...] = ()
        self.whole = QCheckBox(translate("Runs", "Runs of all styles"))
        self.whole.toggled.connect(self.look)
        self.expected = QLabel()
        self.expected.setWordWrap(True)
        self.runs = Table(_heads_of_runs(METRIC), translate("Runs", "Runs"))
        for narrow in (0, 1, 5):  # figures of few digits leave their room to the others
            self.runs.horizontalHeader().setSectionResizeMode(narrow, QHeaderView.ResizeMode.ResizeToContents)
        self.runs.itemSelectionChanged.connect(self._chosen)
        self.lays = LayUseTable()
        self.lays.typed.connect(self._typed)
        self.lays.refused.connect(self.told)
        hint = QLabel(
            translate(
                "Runs",
                "Type what each lay actually took; a run enters the history when its plan is exported.",
            )
        )
        hint.setProperty("role", "soft")
        hint.setWordWrap(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 14, 4)
        column.addWidget(self.whole)
        column.addWidget(self.runs, 3)
        column.addWidget(hint)
        column.addWidget(self.lays, 2)
        column.addWidget(self.expected)

    def show_style(self, style: Style | None, measures: Measures) -> None:
        """Show the runs of a style."""
        if style is not self._style or measures is not self._measures:
            self._style, self._measures = style, measures
            if self.isVisible():
                self.look()

    def look(self) -> None:
        """Read the history again."""
        row = max(self.runs.currentRow(), 0)
        name = "" if self._style is None or self.whole.isChecked() else self._style.name
        try:
            ledger = Ledger(ledger_path())
            self._records = ledger.history(name, most=MOST_RUNS)[::-1]
            self.expected.setText(self._expected(ledger))
        except AppError as error:
            self._records = ()
            self.told.emit(told_text(str(error)))
        self.runs.show_heads(_heads_of_runs(self._measures))
        self.runs.fill([self._cells(record) for record in self._records])
        self.runs.words_first((0, 1, 2, 3, 4))
        if self._records:
            self.runs.selectRow(min(row, len(self._records) - 1))
        self._chosen()

    def _expected(self, ledger: Ledger) -> str:
        if self._style is None:
            return ""
        try:
            told = estimates(ledger, self._style, "", ledger.proven())
        except AppError:  # no run to learn from yet
            return translate("Runs", "No run to estimate from yet")

        def area(m2: float) -> str:
            return localised(self._measures.area_text(m2))

        return "\n".join(
            translate("Runs", "{0}, size {1}: about {2} per pair by {3} ({4} to {5})").format(
                self._style.cloth(each["cloth"]).name,
                each["size"],
                area(each["m2_per_pair"]),
                _similar(len(each["runs"])),
                area(each["low_m2"]),
                area(each["high_m2"]),
            )
            for each in told
        )

    def _cells(self, record: RunRecord) -> list[str]:
        over = None if record.used_m is None else record.used_m / record.planned_m - 1
        taken = record.used_m2_per_pair or (
            record.planned_m * record.usable_width_mm / 1000 / record.pairs if record.pairs else None
        )
        return [
            str(record.id),
            record.made_at[:10],
            record.name,
            record.style,
            record.cloth,
            str(record.pairs),
            _metres(record.planned_m, self._measures),
            _metres(record.used_m, self._measures),
            "–" if over is None else percent(over, sign=True),
            "–" if taken is None else f"{self._measures.area(float(taken)):.4f}",
        ]

    def _chosen(self) -> None:
        row = self.runs.currentRow()
        lays = self._records[row].lays if 0 <= row < len(self._records) else ()
        self.lays.show_lays(lays, self._measures)

    def _typed(self, lay: str, metres: Decimal, note: str) -> None:
        row = self.runs.currentRow()
        run = self._records[row]
        try:
            ledger = Ledger(ledger_path())
            kept = ledger.used(run.id, lay, metres, note)
            record = ledger.run(run.id)
        except AppError as error:
            self.told.emit(str(error))
            self.lays.show_lay(next(each for each in run.lays if each.lay == lay))
            return
        self._records = (*self._records[:row], record, *self._records[row + 1 :])
        self.lays.show_lay(kept)
        for column, text in enumerate(self._cells(record)):
            self.runs.cell(row, column).setText(text)
        self.expected.setText(self._expected(ledger))


def _metres(metres: Decimal | None, measures: Measures) -> str:
    return "–" if metres is None else f"{measures.length(float(metres)):.2f}"


def _similar(runs: int) -> str:
    told = translate("Runs", "1 similar run") if runs == 1 else translate("Runs", "{0} similar runs")
    return told.format(runs)
