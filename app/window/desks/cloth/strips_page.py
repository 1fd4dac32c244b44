"""Stretch tests: the strips of the shown cloth, the sheet fitted to them, and its polar plot."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSplitter, QTableWidgetItem, QVBoxLayout, QWidget

from app.commands.stretch import direction_to_lay_by
from app.hold_materials import strips_of
from app.papers import stretch_report
from app.papers.drawing import Drawing
from app.papers.polar_plot import draw_polar
from app.style.model import ClothData, StretchReading
from app.window.desks.cloth.drawing_view import DrawingView
from app.window.desks.cost.tables import Table
from app.window.desks.draft.view_strip import action_button
from app.window.lengths import read_number
from geometry.errors import GeometryError
from geometry.stretch_fit import CONFIDENCE, StretchFit, fit_strips
from geometry.strip import strain_at

translate = QCoreApplication.translate
RADIUS = 36.0
FIRST = StretchReading(angle_deg=0.0, width_mm=25.0, gauge_mm=100.0, loads_n=(25.0,), extensions_mm=(1.0,))


class StripsTable(Table):
    """Strips to be typed. ``typed`` carries the row and its new reading; ``refused`` says why not."""

    typed = Signal(int, object)
    refused = Signal(str)

    def __init__(self) -> None:
        super().__init__(
            [
                translate("Strips", "Angle °"),
                translate("Strips", "Width mm"),
                translate("Strips", "Gauge mm"),
                translate("Strips", "Load N"),
                translate("Strips", "Longer mm"),
                translate("Strips", "At the pull"),
            ],
            translate("Strips", "Strips pulled"),
            editable=True,
        )
        self.head(0).setToolTip(translate("Strips", "Counter-clockwise from the roll's length"))
        self.head(2).setToolTip(translate("Strips", "Between the two marks"))
        self.head(3).setToolTip(
            translate("Strips", "Several loads: type pairs, smallest first, as 12.5=1.2; 25=2.5")
        )
        self.head(4).setToolTip(translate("Strips", "Extension between the marks under that load"))
        self._shown: tuple[StretchReading, ...] = ()
        self.itemChanged.connect(self._typed)

    def show_strips(self, readings: tuple[StretchReading, ...], pull_n_per_mm: float) -> None:
        """Show strips; a cell that is being typed in is changed in its place."""
        self._shown = readings
        rows = [_row(reading, pull_n_per_mm) for reading in readings]
        if self.rowCount() != len(rows):
            self.fill(rows)
        self.blockSignals(True)
        for i, row in enumerate(rows):
            for j, text in enumerate(row):
                item = self.cell(i, j)
                if item.text() != text:
                    item.setText(text)
            self.cell(i, 5).setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        self.blockSignals(False)

    def _typed(self, item: QTableWidgetItem) -> None:
        row, column, text = item.row(), item.column(), item.text().strip()
        old = self._shown[row]
        update: dict[str, object] = {}
        if column == 3 and "=" in text:
            pairs = [[read_number(part) for part in pair.split("=")] for pair in text.split(";")]
            if all(len(pair) == 2 and None not in pair for pair in pairs):
                update = {"loads_n": tuple(p[0] for p in pairs), "extensions_mm": tuple(p[1] for p in pairs)}
                update["narrowings_mm"] = ()
        elif column in (3, 4):
            values = tuple(read_number(part) for part in text.split(";"))
            name = "loads_n" if column == 3 else "extensions_mm"
            if None not in values and len(values) == len(old.loads_n):
                update = {name: values}
        else:
            value = read_number(text)
            if value is not None:
                update = {("angle_deg", "width_mm", "gauge_mm")[column]: value}
        if not update:
            self.refused.emit(translate("Strips", "“{0}” is no reading of this strip").format(text))
            self.typed.emit(row, old)
            return
        self.typed.emit(row, old.model_copy(update=update))


class StripsPage(QWidget):
    """``entered`` carries the fields of the cloth that a person changed, and the step's name."""

    entered = Signal(object, str)
    refused = Signal(str)

    def __init__(self, add: QAction, remove: QAction, take: QAction) -> None:
        super().__init__()
        self._cloth: ClothData | None = None
        self._take = take
        self.fit: StretchFit | None = None
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(14, 10, 10, 10)
        column.setSpacing(8)
        row = QHBoxLayout()
        self.title = _heading("")
        row.addWidget(self.title)
        row.addStretch(1)
        row.addWidget(action_button(add, words=True))
        row.addWidget(action_button(remove, words=True))
        column.addLayout(row)
        self.table = StripsTable()
        self.table.typed.connect(self._typed)
        self.table.refused.connect(self.refused)
        column.addWidget(self.table, 3)
        row = QHBoxLayout()
        row.addWidget(_heading(translate("Strips", "What the strips say")))
        row.addStretch(1)
        row.addWidget(action_button(take, words=True))
        column.addLayout(row)
        self.results = Table(
            ["", translate("Strips", "Value"), f"{CONFIDENCE:.0%}"],
            translate("Strips", "What the strips say"),
        )
        column.addWidget(self.results, 3)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        column.addWidget(self.words)
        self.plot = DrawingView(translate("Strips", "Extension against angle"))
        across = QSplitter()
        across.addWidget(left)
        across.addWidget(self.plot)
        across.setSizes([560, 520])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(across)

    def show_cloth(self, cloth: ClothData, pull_n_per_mm: float) -> None:
        """Show the strips of a cloth, and fit them where they are new."""
        before = self._cloth
        self._cloth = cloth
        self.title.setText(translate("Strips", "Strips of {0}").format(cloth.name))
        self.table.show_strips(cloth.tests, pull_n_per_mm)
        known = before is not None and before.tests is cloth.tests and self.fit is not None
        if known and self.fit is not None and self.fit.pull_n_per_mm == pull_n_per_mm:
            return
        strips = strips_of(cloth.tests)
        self.fit, said = None, []
        try:
            self.fit = fit_strips(strips, pull_n_per_mm)
            said = [str(finding) for finding in self.fit.findings]
        except GeometryError as error:
            said = [str(error)]
        self.words.setText("\n".join(said))
        self._take.setEnabled(self.fit is not None and self.fit.tight_told)
        if self.fit is None:
            self.results.fill([])
            self.plot.show_drawing(None)
            return
        self.results.fill(stretch_report.result_rows(self.fit))
        for i in range(self.results.rowCount()):
            self.results.cell(i, 0).setTextAlignment(
                Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
            )
        drawing = Drawing()
        draw_polar(
            drawing, 0.0, 0.0, RADIUS, strips, self.fit, zero=translate("Strips", "along the roll"),
            ninety=translate("Strips", "across"),
        )  # fmt: skip
        self.plot.show_drawing(drawing, (-RADIUS - 10, -RADIUS - 7, RADIUS + 20, RADIUS + 7))

    def add_strip(self) -> None:
        """Add a strip like the selected (or last) one, to be typed over."""
        if self._cloth is None:
            return
        tests = self._cloth.tests
        row = self.table.currentRow()
        like = tests[row] if 0 <= row < len(tests) else tests[-1] if tests else FIRST
        self._enter((*tests, like))
        self.table.setCurrentCell(len(tests), 0)
        self.table.setFocus()

    def remove_strip(self) -> None:
        """Remove the selected strip."""
        row = self.table.currentRow()
        if self._cloth is not None and 0 <= row < len(self._cloth.tests):
            tests = self._cloth.tests
            self._enter((*tests[:row], *tests[row + 1 :]))

    def take_direction(self) -> None:
        """Put the direction that the strips tell on the card."""
        if self.fit is not None and self.fit.tight_told:
            fields = {"tight_direction_deg": direction_to_lay_by(self.fit), "how_known": "tested"}
            self.entered.emit(fields, "tight direction")

    def _typed(self, row: int, reading: object) -> None:
        assert self._cloth is not None and isinstance(reading, StretchReading)
        tests = self._cloth.tests
        self._enter((*tests[:row], reading, *tests[row + 1 :]))

    def _enter(self, tests: Sequence[StretchReading]) -> None:
        self.entered.emit({"tests": tuple(test.model_dump() for test in tests)}, "strips")


def _row(reading: StretchReading, pull: float) -> list[str]:
    try:
        percent = f"{100 * strain_at(strips_of([reading])[0], pull):.2f} %"
    except (GeometryError, ArithmeticError, IndexError, ValueError):
        percent = "–"
    return [
        f"{reading.angle_deg:g}",
        f"{reading.width_mm:g}",
        f"{reading.gauge_mm:g}",
        "; ".join(f"{load:g}" for load in reading.loads_n),
        "; ".join(f"{extension:g}" for extension in reading.extensions_mm),
        percent,
    ]


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("role", "heading")
    return label
