"""Hold: each piece against its limit, what a slant costs, and other cloths for the same limits."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QCoreApplication, Qt, QTimer, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSlider,
    QSplitter,
    QTableWidgetItem,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.errors import AppError
from app.hold.chain import ChainHold
from app.hold.cloth_choice import TriedCloth
from app.hold.verdicts import NO_MEASUREMENT, PieceHold, StyleHold, shown_percent, style_hold
from app.papers import registry
from app.papers.formats.drawing import Drawing
from app.papers.pictures.slant_plot import draw_slant
from app.papers.shown import Held
from app.style.model import ClothData, Style
from app.window.desks.cloth.candidate_cloths import candidate_cloths
from app.window.desks.cloth.drawing_view import DrawingView
from app.window.desks.cloth.text_table import TextTable
from app.window.desks.draft.view_strip import action_button
from app.window.running.hold_judge import HoldJudge
from app.window.running.pull_solver import PullSolver
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths, Unit
from app.window.widgets.theme import theme
from app.window.wording.core_words import told_finding, told_text
from app.window.wording.pull_words import field_beside, range_text
from app.window.wording.words import paper_language
from app.workshop.trial_book import calibrations
from geometry.stretch.hold import Hold

translate = QCoreApplication.translate
WIDE, HIGH = 96.0, 62.0
SLANT_MOST_DEG = 20
NO_FIGURE = "–"
LIMIT = 4  # the column that may be typed in


class HoldPage(QWidget):
    """Shows what the judge found. ``told`` carries a line for the status bar.

    ``limit_entered`` carries a piece's or chain's name and its limit, ``chain_made`` the pieces to
    chain, ``cloth_taken`` the cloth to be the style's first; ``asked``: other cloths are to be judged.
    """

    told = Signal(str)
    limit_entered = Signal(str, object)
    chain_made = Signal(object)
    chain_removed = Signal(str)
    cloth_taken = Signal(object)
    asked = Signal()

    def __init__(self, judge: HoldJudge, solver: PullSolver, lengths: Lengths, export: QAction) -> None:
        super().__init__()
        self._judge, self._solver, self._lengths = judge, solver, lengths
        solver.solved.connect(self._beside)
        self._style: Style | None = None
        self._export = export
        self._typed_limit: tuple[str, float | None] | None = None
        self.turned_deg = 0.0
        self._said = ""
        left = QWidget()
        column = QVBoxLayout(left)
        column.setContentsMargins(14, 10, 10, 10)
        column.setSpacing(8)
        row = QHBoxLayout()
        self.verdict = QLabel()
        self.verdict.setProperty("role", "heading")
        self.verdict.setWordWrap(True)
        row.addWidget(self.verdict, 1)
        row.addWidget(action_button(export, words=True))
        column.addLayout(row)
        self.table = TextTable(
            [
                translate("Hold", "Piece"),
                translate("Hold", "Hold line"),
                translate("Hold", "Upper alone"),
                translate("Hold", "With backing"),
                translate("Hold", "Limit"),
                translate("Hold", "Holds?"),
                translate("Hold", "Permitted tilt"),
            ],
            translate("Hold", "Pieces under the pull"),
            words=(0,),
            wide=0,
            editable=True,
        )
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.table.head(1).setToolTip(
            translate("Hold", "Its length along the pull axis, drawn on the Draft desk")
        )
        self.table.head(2).setToolTip(translate("Hold", "What the hold line gives without backing"))
        self.table.head(3).setToolTip(
            translate("Hold", "From shear blocked to shear free: the actual value lies between")
        )
        self.table.head(LIMIT).setToolTip(translate("Hold", "Typed here; empty: no limit"))
        self.table.head(6).setToolTip(
            translate(
                "Hold", "Tilt on the roll up to which the limit is kept: what may be permitted in the lay"
            )
        )
        self.table.itemSelectionChanged.connect(self._plot)
        self.table.itemChanged.connect(self._typed)
        column.addWidget(self.table, 3)
        row = QHBoxLayout()
        self.chain = QPushButton(translate("Hold", "Chain the selected pieces"))
        self.chain.setToolTip(
            translate(
                "Hold",
                "Pieces that the pull stretches one after another, heel to throat: what they give adds up",
            )
        )
        self.chain.clicked.connect(self._chain)
        self.unchain = QPushButton(translate("Hold", "Take the chain apart"))
        self.unchain.clicked.connect(self._unchain)
        row.addWidget(self.chain)
        row.addWidget(self.unchain)
        row.addStretch(1)
        column.addLayout(row)
        row = QHBoxLayout()
        row.addWidget(QLabel(translate("Hold", "All backing turned by")))
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setAccessibleName(translate("Hold", "Turn of the backing in degrees"))
        self.slider.setRange(0, SLANT_MOST_DEG)
        self.slider.valueChanged.connect(self._slid)
        row.addWidget(self.slider, 1)
        self.degrees = QLabel()
        self.degrees.setMinimumWidth(40)
        row.addWidget(self.degrees)
        self.across = QToolButton()
        self.across.setText(translate("Hold", "by 90°"))
        self.across.setCheckable(True)
        self.across.toggled.connect(self._crossed)
        row.addWidget(self.across)
        column.addLayout(row)
        row = QHBoxLayout()
        head = QLabel(translate("Hold", "Other cloths in place of the first, for the same limits"))
        head.setProperty("role", "heading")
        head.setWordWrap(True)
        column.addWidget(head)
        column.addLayout(row)
        self.of_register = QCheckBox(translate("Hold", "with the register's cloths"))
        self.of_register.toggled.connect(self.asked)
        row.addWidget(self.of_register)
        self.take = QPushButton(translate("Hold", "Make it the first cloth"))
        self.take.clicked.connect(self._take)
        row.addStretch(1)
        row.addWidget(self.take)
        self.candidates = TextTable(
            [
                translate("Hold", "Cloth"),
                translate("Hold", "g/m²"),
                translate("Hold", "Worst piece"),
                translate("Hold", "Gives"),
                translate("Hold", "Holds?"),
                translate("Hold", "Net cost per pair"),
            ],
            translate("Hold", "Cloths compared"),
            words=(0, 2),
            wide=0,
        )
        self.candidates.head(2).setToolTip(translate("Hold", "The piece nearest to its limit"))
        self.candidates.head(5).setToolTip(
            translate("Hold", "Cloth in the pieces only, without waste and ends")
        )
        self.candidates.itemSelectionChanged.connect(self._chosen)
        column.addWidget(self.candidates, 2)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setProperty("role", "soft")
        room = QScrollArea()
        room.setWidget(self.words)
        room.setWidgetResizable(True)
        room.setFrameShape(QScrollArea.Shape.NoFrame)
        room.setMaximumHeight(96)
        room.viewport().setAutoFillBackground(False)
        self.words.setAutoFillBackground(False)
        column.addWidget(room, 1)
        self.plot = DrawingView(translate("Hold", "Give against the turn on the roll"))
        across = QSplitter()
        across.addWidget(left)
        across.addWidget(self.plot)
        across.setSizes([760, 320])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(across)

    def show_style(self, style: Style) -> None:
        """Show a style's hold: what is known now; the judge tells when there is more."""
        self._style = style
        held = self._judge.held_for(style)
        self._export.setEnabled(held is not None and bool(held.pieces))
        self.degrees.setText(localised(f"{self.turned_deg:g}°"))
        if held is None:
            self.verdict.setText(
                told_text(self._judge.refusal)
                if self._judge.knows(style)
                else translate("Hold", "Working out …")
            )
            if self._judge.knows(style):  # it cannot be judged; else the last figures stay till the next come
                self.table.fill([])
                self.candidates.fill([])
                self.plot.show_drawing(None)
            return
        chosen = max(self.table.currentRow(), 0)
        holds = [_turned(each, self.turned_deg) for each in held.judged]
        self.table.fill([_row(each, h, self._lengths) for each, h in zip(held.judged, holds, strict=True)])
        self.table.blockSignals(True)
        for i, (each, hold) in enumerate(zip(held.judged, holds, strict=True)):
            if hold.holds is not None:
                self.table.cell(i, 5).setForeground(theme().colour("good" if hold.holds else "error"))
            for j in range(self.table.columnCount()):
                if j != LIMIT or not each.has_line:
                    self.table.cell(i, j).setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        self.table.blockSignals(False)
        if self.table.rowCount() and not self.table.selectedItems():
            self.table.setCurrentCell(min(chosen, self.table.rowCount() - 1), 0)
        self.candidates.fill([_candidate(each, self._lengths) for each in self._judge.candidates])
        self.verdict.setText(self._verdict(held, holds))
        shown = ("HOLD_BROKEN", "HOLD_UNSURE")  # the table says these
        said = [told_finding(finding) for finding in held.findings if finding.code not in shown]
        self._said = "\n".join([*said, told_text(NO_MEASUREMENT)])
        self._beside()
        self._plot()
        self._chosen()

    def _beside(self) -> None:
        """Say what the field says beside the line, and why it differs."""
        if self._style is not None:
            answer = self._solver.answer_for(self._style)
            self.words.setText("\n".join([field_beside(answer, self._lengths), self._said]))

    def _verdict(self, held: StyleHold, holds: list[Hold]) -> str:
        broken = [each.called for each, h in zip(held.judged, holds, strict=True) if h.holds is False]
        if broken:
            return translate("Hold", "Breaks its limit: {0}").format(", ".join(broken))
        unsure = [
            each.called
            for each, h in zip(held.judged, holds, strict=True)
            if h.limit_mm is not None and h.holds is None
        ]
        if unsure:
            return translate("Hold", "The trial decides: {0}").format(", ".join(unsure))
        if not any(hold.limit_mm is not None for hold in holds):
            return translate("Hold", "No piece has a limit yet: set one for its hold line")
        if held.granted_deg is not None and not self.turned_deg:
            return translate(
                "Hold", "No limit is broken; all hold up to {0}° off the tight direction"
            ).format(localised(f"{held.granted_deg:g}"))
        return translate("Hold", "No limit is broken")

    def _plot(self) -> None:
        held, row = self._judge.held, self.table.currentRow()
        chosen = self._pieces_chosen()
        self.chain.setEnabled(len(chosen) > 1)
        chains = held.chains if held is not None else ()
        first = len(held.pieces) if held is not None else 0
        self.unchain.setEnabled(first <= row < first + len(chains))
        if held is None or not 0 <= row < len(held.judged) or not held.judged[row].is_backed:
            self.plot.show_drawing(None)
            return
        drawing = Drawing()
        draw_slant(
            drawing,
            held.judged[row],
            0.0,
            0.0,
            WIDE,
            HIGH,
            turned_deg=self.turned_deg,
            inches=self._lengths.unit is Unit.INCH,
        )
        self.plot.show_drawing(drawing, (-12.0, -12.0, WIDE + 6, HIGH + 8))

    def candidate_cloths(self, style: Style) -> tuple[ClothData, ...]:
        """Return the cloths to compare: the style's, and those of the register where asked for."""
        return candidate_cloths(style, self.of_register.isChecked(), self.told.emit)

    def _pieces_chosen(self) -> list[str]:
        held = self._judge.held
        if held is None:
            return []
        rows = sorted({index.row() for index in self.table.selectedIndexes()})
        return [
            held.pieces[row].piece for row in rows if row < len(held.pieces) and held.pieces[row].has_line
        ]

    def _chain(self) -> None:
        self.chain_made.emit(self._pieces_chosen())

    def _unchain(self) -> None:
        held, row = self._judge.held, self.table.currentRow()
        if held is not None and len(held.pieces) <= row < len(held.judged):
            self.chain_removed.emit(held.judged[row].called)

    def _typed(self, item: QTableWidgetItem) -> None:
        held = self._judge.held
        if held is None or item.column() != LIMIT or item.row() >= len(held.judged):
            return
        text = item.text().strip(f" {NO_FIGURE}")
        limit = self._lengths.read_mm(text) if text else None
        if text and limit is None:
            self.told.emit(translate("Field", "“{0}” is not a number").format(text))
            if self._style is not None:
                self.show_style(self._style)
            return
        self._typed_limit = (held.judged[item.row()].called, limit)
        QTimer.singleShot(0, self._enter_limit)  # the table still holds the cell's editor

    def _enter_limit(self) -> None:
        if self._typed_limit is not None:
            (called, limit), self._typed_limit = self._typed_limit, None
            self.limit_entered.emit(called, limit)

    def _chosen(self) -> None:
        row = self.candidates.currentRow()
        first = self._style.cloths[0].id if self._style is not None and self._style.cloths else ""
        found = self._judge.candidates
        self.take.setEnabled(0 <= row < len(found) and found[row].cloth.id != first)

    def _take(self) -> None:
        row = self.candidates.currentRow()
        if 0 <= row < len(self._judge.candidates):
            self.cloth_taken.emit(self._judge.candidates[row].cloth)

    def _slid(self, value: int) -> None:
        self.across.blockSignals(True)
        self.across.setChecked(False)
        self.across.blockSignals(False)
        self._turn(float(value))

    def _crossed(self, on: bool) -> None:
        self._turn(90.0 if on else float(self.slider.value()))

    def _turn(self, degrees: float) -> None:
        self.turned_deg = degrees
        if self._style is not None:
            self.show_style(self._style)

    def as_turned(self, style: Style) -> StyleHold | None:
        """Return the hold of a style with its backing turned as it is here; None until it is judged."""
        held = self._judge.held_for(style)
        return style_hold(style, turn_deg=self.turned_deg) if held is not None and self.turned_deg else held

    @property
    def candidates_judged(self) -> tuple[TriedCloth, ...]:
        """The cloths compared, in their place."""
        return self._judge.candidates

    def export(self, folder: Path) -> None:
        """Write the hold sheet of the cloth as it is turned here: in its place unless the slider says other."""
        style = self._style
        held = self.as_turned(style) if style is not None else None
        if held is None or style is None:
            return
        try:
            shown = Held(
                style,
                held,
                self.turned_deg,
                self.candidates_judged,
                calibrations(style),
                self._solver.beside_line(style),
            )
            files = registry.write(shown, folder, paper_language())
        except (AppError, OSError) as error:
            self.told.emit(told_text(str(error)))
            return
        self.told.emit(translate("Cost", "Written: {0}").format(", ".join(path.name for path in files)))


def _turned(each: PieceHold | ChainHold, off_deg: float) -> Hold:
    return each.turned(off_deg) if off_deg and each.is_backed else each.hold


def _row(each: PieceHold | ChainHold, hold: Hold, lengths: Lengths) -> list[str]:
    name = each.called
    if isinstance(each, ChainHold) and name != " + ".join(each.pieces):
        name = f"{name}: {' + '.join(each.pieces)}"
    alone = lengths.text(hold.upper_mm) if each.has_line else f"{hold.percent(hold.upper_mm):.1f} %"
    backed = range_text((hold.low_mm, hold.high_mm), lengths) if each.has_line else shown_percent(hold)
    return [
        name,
        lengths.text(hold.distance_mm, 0) if each.has_line else NO_FIGURE,
        alone,
        backed if each.is_backed else NO_FIGURE,
        NO_FIGURE if hold.limit_mm is None else lengths.text(hold.limit_mm),
        verdict(hold.limit_mm is not None, hold.holds),
        NO_FIGURE if each.granted_deg is None else f"{each.granted_deg:g}°",
    ]


def _candidate(candidate: TriedCloth, lengths: Lengths) -> list[str]:
    cloth, worst, cost = candidate.cloth, candidate.worst, candidate.cost_per_pair
    gives = NO_FIGURE
    if worst is not None and worst.hold.limit_mm is not None:
        given = range_text((worst.hold.low_mm, worst.hold.high_mm), lengths)
        gives = f"{given} / {lengths.text(worst.hold.limit_mm)}"
    return [
        cloth.name,
        NO_FIGURE if cloth.mass_g_per_m2 is None else f"{cloth.mass_g_per_m2:g}",
        NO_FIGURE if worst is None else worst.called,
        gives,
        verdict(worst is not None, candidate.holds),
        NO_FIGURE if cost is None else f"{cost:.3f} {cloth.currency}",
    ]


def verdict(limited: bool, holds: bool | None) -> str:
    """Return a verdict in words."""
    if not limited:
        return translate("Hold", "no limit set")
    if holds is None:
        return translate("Hold", "trial decides")
    return translate("Hold", "holds") if holds else translate("Hold", "BREAKS")
