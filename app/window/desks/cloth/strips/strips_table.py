"""The strips of a material as a table to be typed in."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QTableWidgetItem

from app.hold.materials import strips_of
from app.style.model import StretchReading
from app.window.desks.cloth.text_table import TextTable
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths, Unit, read_number
from geometry.errors import GeometryError
from geometry.inch import MM_PER_INCH
from geometry.stretch.strips import strain_at

translate = QCoreApplication.translate
ANGLE, WIDTH, GAUGE, LOAD, LONGER, NARROWER, PERCENT, NOTE = range(8)


class StripsTable(TextTable):
    """Strips to be typed. ``typed`` carries the row and its new reading; ``refused`` says why not."""

    typed = Signal(int, object)
    refused = Signal(str)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__(
            [
                translate("Strips", "Angle °"),
                translate("Strips", "Width"),
                translate("Strips", "Gauge"),
                translate("Strips", "Load N"),
                translate("Strips", "Extension"),
                translate("Strips", "Narrowing"),
                translate("Strips", "At the pull"),
                translate("Strips", "Note"),
            ],
            translate("Strips", "Strip tests"),
            words=(NOTE,),
            wide=NOTE,
            editable=True,
        )
        self.head(WIDTH).setToolTip(translate("Strips", "Of the strip"))
        self.head(GAUGE).setToolTip(translate("Strips", "Between the two marks"))
        self.head(LOAD).setToolTip(
            translate("Strips", "Several loads: type pairs, smallest first, as 12.5=1.2; 25=2.5")
        )
        self.head(LONGER).setToolTip(translate("Strips", "Extension between the marks under that load"))
        self.head(NARROWER).setToolTip(
            translate("Strips", "How much narrower the strip got in its middle; empty where it was not read")
        )
        self._lengths = lengths
        self._shown: tuple[StretchReading, ...] = ()
        self.itemChanged.connect(self._typed)

    def show_strips(
        self, readings: tuple[StretchReading, ...], pull_n_per_mm: float, *, of_upper: bool = False
    ) -> None:
        """Show strips; a cell that is being typed in is changed in its place."""
        self.head(ANGLE).setToolTip(
            translate("Strips", "Counter-clockwise from the pull axis")
            if of_upper
            else translate("Strips", "Counter-clockwise from the roll's length")
        )
        self._shown = readings
        rows = [self._row(reading, pull_n_per_mm) for reading in readings]
        if self.rowCount() != len(rows):
            self.fill(rows)
        self.blockSignals(True)
        for i, row in enumerate(rows):
            for j, text in enumerate(row):
                item = self.cell(i, j)
                if item.text() != text:
                    item.setText(text)
            self.cell(i, PERCENT).setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        self.blockSignals(False)

    def _typed(self, item: QTableWidgetItem) -> None:
        row, column, text = item.row(), item.column(), item.text().strip()
        old = self._shown[row]
        update: dict[str, object] = {}
        if column == LOAD and "=" in text:
            halves = [pair.split("=") for pair in text.split(";")]
            loads = tuple(read_number(half[0]) for half in halves)
            longer = tuple(self._lengths.read_mm(half[1]) if len(half) == 2 else None for half in halves)
            if None not in loads and None not in longer:
                update = {"loads_n": loads, "extensions_mm": longer, "narrowings_mm": ()}
        elif column == NOTE:
            update = {"note": text}
        elif column == NARROWER and not text:
            update = {"narrowings_mm": ()}
        elif column in (LOAD, LONGER, NARROWER):
            read = read_number if column == LOAD else self._lengths.read_mm
            values = tuple(read(part) for part in text.split(";"))
            name = {LOAD: "loads_n", LONGER: "extensions_mm", NARROWER: "narrowings_mm"}[column]
            if None not in values and len(values) == len(old.loads_n):
                update = {name: values}
        else:
            value = read_number(text) if column == ANGLE else self._lengths.read_mm(text)
            if value is not None:
                update = {("angle_deg", "width_mm", "gauge_mm")[column]: value}
        if not update:
            self.refused.emit(translate("Strips", "“{0}” is not a reading of this strip").format(text))
            self.typed.emit(row, old)
            return
        self.typed.emit(row, old.model_copy(update=update))

    def _row(self, reading: StretchReading, pull: float) -> list[str]:
        try:
            percent = f"{100 * strain_at(strips_of([reading])[0], pull):.2f} %"
        except (GeometryError, ArithmeticError, IndexError, ValueError):
            percent = "–"
        return [
            localised(f"{reading.angle_deg:g}"),
            self._told([reading.width_mm]),
            self._told([reading.gauge_mm]),
            "; ".join(localised(f"{load:g}") for load in reading.loads_n),
            self._told(reading.extensions_mm),
            self._told(reading.narrowings_mm),
            localised(percent),
            reading.note,
        ]

    def _told(self, lengths_mm: Sequence[float]) -> str:
        """Lengths as they were read, or to a ten thousandth of an inch."""
        inch = self._lengths.unit is Unit.INCH
        return "; ".join(
            localised(f"{round(mm / MM_PER_INCH, 4):g}" if inch else f"{mm:g}") for mm in lengths_mm
        )
