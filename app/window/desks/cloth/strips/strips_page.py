"""Stretch tests: the strips of the shown cloth or of the upper, the sheet fitted to them, its polar plot."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSplitter, QVBoxLayout, QWidget

from app.hold.materials import direction_to_lay_by, how_tested, strips_of
from app.papers import stretch_report
from app.papers.formats.drawing import Drawing
from app.papers.pictures.polar_plot import draw_polar
from app.style.model import ClothData, StretchReading, Style, UpperMaterial
from app.window.desks.cloth.drawing_view import DrawingView
from app.window.desks.cloth.strips.strips_table import StripsTable
from app.window.desks.draft.view_strip import action_button
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField, NumberField, TextField
from app.window.widgets.lengths import Lengths
from app.window.widgets.table import Table
from app.window.wording.core_words import told_finding, told_text
from geometry.errors import GeometryError, SheetError
from geometry.said import percent
from geometry.stretch.fit import CONFIDENCE, StretchFit, fit_strips
from geometry.stretch.hand_pull import read_hand_pulls
from geometry.stretch.strips import PulledStrip

translate = QCoreApplication.translate
RADIUS = 36.0
FIRST = StretchReading(angle_deg=0.0, width_mm=25.0, gauge_mm=100.0, loads_n=(25.0,), extensions_mm=(1.0,))


@lru_cache(maxsize=32)
def _fit_of(strips: tuple[PulledStrip, ...], pull_n_per_mm: float) -> StretchFit:
    """The fit is remembered: a window made again shows the same strips."""
    return fit_strips(strips, pull_n_per_mm)


class StripsPage(QWidget):
    """``entered`` carries the fields of the material that a person changed, and the step's name.

    ``pull_entered`` carries the working pull; ``turned`` says that the other material is to be shown.
    """

    entered = Signal(object, str)
    pull_entered = Signal(object)
    turned = Signal()
    refused = Signal(str)

    def __init__(self, actions: dict[str, QAction], lengths: Lengths) -> None:
        super().__init__()
        self._lengths = lengths
        self._card: ClothData | UpperMaterial | None = None
        self._fitted: tuple[object, ...] = ()
        self._take = actions["take_direction"]
        self.fit: StretchFit | None = None
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(14, 10, 10, 10)
        column.setSpacing(8)
        row = QHBoxLayout()
        row.addWidget(_heading(translate("Strips", "Strips of")))
        self.of = Chooser()
        self.of.setAccessibleName(translate("Strips", "Strips of"))
        self.of.activated.connect(self.turned)
        row.addWidget(self.of, 1)
        row.addSpacing(8)
        row.addWidget(QLabel(translate("Strips", "working pull N/mm")))
        self.pull = NumberField(translate("Strips", "working pull N/mm"), step=0.1, digits=3)
        self.pull.setFixedWidth(64)
        self.pull.setToolTip(
            translate("Strips", "Pull of lasting per mm of width; about 1 (common practice)")
        )
        self.pull.entered.connect(self.pull_entered)
        self.pull.refused.connect(self.refused)
        row.addWidget(self.pull)
        column.addLayout(row)
        row = QHBoxLayout()
        for name in ("add_strip", "remove_strip", "read_strips", "export_strips"):
            row.addWidget(action_button(actions[name], words=True))
        row.addStretch(1)
        column.addLayout(row)
        column.addLayout(self._upper_row())
        self.table = StripsTable(lengths)
        self.table.typed.connect(self._typed)
        self.table.refused.connect(self.refused)
        column.addWidget(self.table, 3)
        column.addLayout(self._hand_row())
        row = QHBoxLayout()
        row.addWidget(_heading(translate("Strips", "Result of the strips")))
        row.addStretch(1)
        row.addWidget(action_button(actions["take_direction"], words=True))
        column.addLayout(row)
        self.results = Table(
            ["", translate("Strips", "Value"), percent(CONFIDENCE, 0)],
            translate("Strips", "Result of the strips"),
        )
        column.addWidget(self.results, 2)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        column.addWidget(self.words)
        self.plot = DrawingView(translate("Strips", "Extension against angle"))
        across = QSplitter()
        across.addWidget(left)
        across.addWidget(self.plot)
        across.setSizes([700, 380])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(across)

    def _upper_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self.upper_name = TextField()
        self.upper_name.setAccessibleName(translate("Strips", "Upper material"))
        self.upper_name.editingFinished.connect(self._named)
        name = translate("Strips", "Thickness")
        self.thickness = LengthField(name, self._lengths, step_mm=0.1, optional=True, digits=2)
        self.thickness.setFixedWidth(92)
        self.thickness.entered.connect(self._thickness)
        self.thickness.refused.connect(self.refused)
        self._upper_only = [
            QLabel(translate("Strips", "Upper material")),
            self.upper_name,
            QLabel(name),
            self.thickness,
        ]
        for widget in self._upper_only:
            row.addWidget(widget)
        return row

    def _hand_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self.ranking = TextField()
        self.ranking.setAccessibleName(translate("Strips", "Ranking by hand"))
        self.ranking.setPlaceholderText("0<90<45")
        self.ranking.setToolTip(
            translate(
                "Strips",
                "Pull the coated cloth by hand and write the angles, least give first; = between two that feel alike",
            )
        )
        self.take_hand = QPushButton(translate("Strips", "Use as assumed"))
        self.take_hand.clicked.connect(self.enter_ranking)
        self.ranking.returnPressed.connect(self.enter_ranking)
        self._cloth_only = [QLabel(translate("Strips", "Quick check by hand")), self.ranking, self.take_hand]
        for widget in self._cloth_only:
            row.addWidget(widget)
        row.setStretch(1, 1)
        return row

    @property
    def of_upper(self) -> bool:
        """Whether the upper material's strips are shown."""
        return self.of.currentIndex() == 1

    @property
    def zero(self) -> str:
        """What 0 degrees lies along, in words of the papers."""
        return "pull axis" if self.of_upper else "along the roll"

    @property
    def called(self) -> str:
        """What the material shown is called on papers."""
        name = self._card.name if self._card is not None else ""
        return name or translate("Strips", "Upper material")

    @property
    def card(self) -> ClothData | UpperMaterial | None:
        """The material shown."""
        return self._card

    def show_style(self, style: Style, cloth: ClothData) -> None:
        """Show the strips of a cloth of the style, or of its upper, and fit them where they are new."""
        upper = style.upper_material
        names = [cloth.name, translate("Strips", "upper: {0}").format(upper.name or "–")]
        if [self.of.itemText(i) for i in range(self.of.count())] != names:
            chosen = max(self.of.currentIndex(), 0)
            self.of.clear()
            self.of.addItems(names)
            self.of.setCurrentIndex(chosen)
        card = self._card = upper if self.of_upper else cloth
        for widget in self._upper_only:
            widget.setVisible(self.of_upper)
        for widget in self._cloth_only:
            widget.setVisible(not self.of_upper)
        self._take.setVisible(not self.of_upper)
        if self.upper_name.text() != upper.name:
            self.upper_name.setText(upper.name)
        self.thickness.set_value(upper.thickness_mm)
        pull = style.pull_n_per_mm
        self.pull.set_value(pull)
        self.table.show_strips(card.tests, pull, of_upper=self.of_upper)
        if self._fitted and self._fitted[0] is card.tests and self._fitted[1:] == (pull, self.of_upper):
            return
        self._fitted = (card.tests, pull, self.of_upper)
        self._fit(card.tests, pull)

    def _fit(self, tests: Sequence[StretchReading], pull: float) -> None:
        strips = strips_of(tests)
        self.fit = None
        try:
            self.fit = _fit_of(strips, pull)
            said = [told_finding(finding) for finding in self.fit.findings]
        except GeometryError as error:
            said = [told_text(str(error))]
        self.words.setText("\n".join(said))
        self._take.setEnabled(self.fit is not None and self.fit.tight_told and not self.of_upper)
        if self.fit is None:
            self.results.fill([])
            self.plot.show_drawing(None)
            return
        self.results.fill([[told_text(text) for text in row] for row in stretch_report.result_rows(self.fit)])
        for i in range(self.results.rowCount()):
            self.results.cell(i, 0).setTextAlignment(
                Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
            )
        drawing = Drawing()
        ninety = "" if self.of_upper else "across"
        draw_polar(drawing, 0.0, 0.0, RADIUS, strips, self.fit, zero=self.zero, ninety=ninety)
        self.plot.show_drawing(drawing, (-RADIUS - 10, -RADIUS - 7, RADIUS + 30, RADIUS + 7))

    def add_strip(self) -> None:
        """Add a strip like the selected (or last) one, to be typed over."""
        if self._card is None:
            return
        tests = self._card.tests
        row = self.table.currentRow()
        like = tests[row] if 0 <= row < len(tests) else tests[-1] if tests else FIRST
        self._enter((*tests, like.model_copy(update={"note": ""})))
        self.table.setCurrentCell(len(tests), 0)
        self.table.setFocus()

    def add_strips(self, readings: Sequence[StretchReading]) -> None:
        """Add strips, say of a table."""
        if self._card is not None:
            self._enter((*self._card.tests, *readings))

    def remove_strip(self) -> None:
        """Remove the selected strip."""
        row = self.table.currentRow()
        if self._card is not None and 0 <= row < len(self._card.tests):
            tests = self._card.tests
            self._enter((*tests[:row], *tests[row + 1 :]))

    def take_direction(self) -> None:
        """Put the direction that the strips tell on the card."""
        if self.fit is not None and self._card is not None and self.fit.tight_told and not self.of_upper:
            how = how_tested(self._card.tests)
            fields = {"tight_direction_deg": direction_to_lay_by(self.fit), "how_known": how}
            self.entered.emit(fields, "tight direction")

    def enter_ranking(self) -> None:
        """Put the direction found by hand on the card, as assumed."""
        text = self.ranking.text().strip()
        if not isinstance(self._card, ClothData) or not text:
            return
        try:
            tight, finding = read_hand_pulls(text)
        except SheetError as error:
            self.refused.emit(told_text(str(error)))
            return
        said = translate("Strips", "Pulled by hand: {0}.").format(text)
        note = f"{self._card.note} {said}".strip()
        self.ranking.clear()
        self.entered.emit(
            {"tight_direction_deg": tight, "how_known": "assumed", "note": note}, "tight direction"
        )
        self.refused.emit(told_finding(finding))

    def _named(self) -> None:
        if self.upper_name.isModified():
            self.upper_name.setModified(False)
            self.entered.emit({"name": self.upper_name.text().strip()}, "upper material")

    def _thickness(self, value: object) -> None:
        self.entered.emit({"thickness_mm": value}, "upper material")

    def _typed(self, row: int, reading: object) -> None:
        assert self._card is not None and isinstance(reading, StretchReading)
        tests = self._card.tests
        self._enter((*tests[:row], reading, *tests[row + 1 :]))

    def _enter(self, tests: Sequence[StretchReading]) -> None:
        self.entered.emit({"tests": tuple(test.model_dump() for test in tests)}, "strips")


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("role", "heading")
    return label
