"""Hold: each piece against its limit, what a slant costs, and other cloths for the same limits."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QSlider,
    QSplitter,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.cloth_choice import Candidate
from app.commands.hold import calibrations, shown_mm
from app.errors import AppError
from app.hold import NO_MEASUREMENT, PieceHold, StyleHold, span
from app.papers import hold_sheet
from app.papers.drawing import Drawing
from app.papers.slant_plot import draw_slant
from app.style.model import Style
from app.window.desks.cloth.drawing_view import DrawingView
from app.window.desks.cost.tables import Table
from app.window.desks.draft.view_strip import action_button
from app.window.hold_judge import HoldJudge
from app.window.theme import theme
from geometry.hold import Hold

translate = QCoreApplication.translate
WIDE, HIGH = 96.0, 62.0
SLANT_MOST_DEG = 20
NO_FIGURE = "–"


class HoldPage(QWidget):
    """Shows what the judge found. ``told`` carries a line for the status bar."""

    told = Signal(str)

    def __init__(self, judge: HoldJudge, export: QAction) -> None:
        super().__init__()
        self._judge = judge
        self._style: Style | None = None
        self._export = export
        self.turned_deg = 0.0
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
        self.table = Table(
            [
                translate("Hold", "Piece"),
                translate("Hold", "Upper alone"),
                translate("Hold", "With backing"),
                translate("Hold", "Limit"),
                translate("Hold", "Holds?"),
                translate("Hold", "May turn"),
            ],
            translate("Hold", "Pieces under the pull"),
        )
        self.table.head(1).setToolTip(translate("Hold", "What the hold line gives without backing"))
        self.table.head(2).setToolTip(
            translate("Hold", "From shear blocked to shear free: the truth lies between")
        )
        self.table.head(5).setToolTip(
            translate("Hold", "Turn on the roll up to which the limit is kept: what the lay may be granted")
        )
        self.table.itemSelectionChanged.connect(self._plot)
        column.addWidget(self.table, 3)
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
        head = QLabel(translate("Hold", "In place of the first cloth, for the same limits"))
        head.setProperty("role", "heading")
        row.addWidget(head)
        column.addLayout(row)
        self.candidates = Table(
            [
                translate("Hold", "Cloth"),
                translate("Hold", "g/m²"),
                translate("Hold", "Worst piece"),
                translate("Hold", "Gives"),
                translate("Hold", "Holds?"),
                translate("Hold", "Net cost a pair"),
            ],
            translate("Hold", "Cloths compared"),
        )
        self.candidates.head(2).setToolTip(translate("Hold", "The piece nearest to its limit"))
        self.candidates.head(5).setToolTip(
            translate("Hold", "Cloth in the pieces only, without waste and ends")
        )
        for table in (self.table, self.candidates):
            header = table.horizontalHeader()
            header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
            header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        column.addWidget(self.candidates, 2)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setProperty("role", "soft")
        column.addWidget(self.words)
        self.plot = DrawingView(translate("Hold", "Give against the turn on the roll"))
        across = QSplitter()
        across.addWidget(left)
        across.addWidget(self.plot)
        across.setSizes([640, 440])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(across)

    def show_style(self, style: Style) -> None:
        """Show a style's hold: what is known now; the judge tells when there is more."""
        self._style = style
        held = self._judge.held_for(style)
        self._export.setEnabled(held is not None and bool(held.pieces))
        self.degrees.setText(f"{self.turned_deg:g}°")
        if held is None:
            self.verdict.setText(
                self._judge.refusal if self._judge.knows(style) else translate("Hold", "Being judged …")
            )
            self.table.fill([])
            self.candidates.fill([])
            self.plot.show_drawing(None)
            return
        chosen = max(self.table.currentRow(), 0)
        holds = [_turned(piece, self.turned_deg) for piece in held.pieces]
        self.table.fill([_row(p, h) for p, h in zip(held.pieces, holds, strict=True)])
        for i, hold in enumerate(holds):
            cell = self.table.cell(i, 4)
            if hold.holds is not None:
                cell.setForeground(theme().colour("good" if hold.holds else "error"))
        if self.table.rowCount():
            self.table.setCurrentCell(min(chosen, self.table.rowCount() - 1), 0)
        self.candidates.fill([_candidate(each) for each in self._judge.candidates])
        self.verdict.setText(self._verdict(held, holds))
        said = [str(finding) for finding in held.findings]
        self.words.setText("\n".join([*said, NO_MEASUREMENT]))
        self._plot()

    def _verdict(self, held: StyleHold, holds: list[Hold]) -> str:
        broken = [p.piece for p, h in zip(held.pieces, holds, strict=True) if h.holds is False]
        if broken:
            return translate("Hold", "Breaks its limit: {0}").format(", ".join(broken))
        if not any(hold.limit_mm is not None for hold in holds):
            return translate("Hold", "No piece has a limit yet: give its hold line one")
        if held.granted_deg is not None and not self.turned_deg:
            return translate("Hold", "No limit is broken; all are kept up to {0}° off").format(
                f"{held.granted_deg:g}"
            )
        return translate("Hold", "No limit is broken")

    def _plot(self) -> None:
        held, row = self._judge.held, self.table.currentRow()
        if held is None or not 0 <= row < len(held.pieces) or not held.pieces[row].backings:
            self.plot.show_drawing(None)
            return
        drawing = Drawing()
        draw_slant(drawing, held.pieces[row], 0.0, 0.0, WIDE, HIGH)
        self.plot.show_drawing(drawing, (-12.0, -12.0, WIDE + 6, HIGH + 8))

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

    def export(self, folder: Path) -> None:
        """Write the hold sheet of the cloth as it should lie."""
        held = self._judge.held
        if held is None or self._style is None:
            return
        try:
            files = hold_sheet.write(
                self._style,
                held,
                folder,
                candidates=self._judge.candidates,
                trials=calibrations(self._style),
            )
        except (AppError, OSError) as error:
            self.told.emit(str(error))
            return
        self.told.emit(translate("Cost", "Written: {0}").format(", ".join(path.name for path in files)))


def _turned(piece: PieceHold, off_deg: float) -> Hold:
    return piece.turned(off_deg) if off_deg and piece.backings else piece.hold


def _row(piece: PieceHold, hold: Hold) -> list[str]:
    def give(low: str, percent: float) -> str:
        return f"{low} mm" if piece.has_line else f"{percent:.1f} %"

    backed = f"{span(hold)} mm" if piece.has_line else _percents(hold)
    return [
        piece.piece,
        give(f"{hold.upper_mm:.1f}", hold.percent(hold.upper_mm)),
        backed if piece.backings else NO_FIGURE,
        NO_FIGURE if hold.limit_mm is None else f"{hold.limit_mm:.1f} mm",
        verdict(hold.limit_mm is not None, hold.holds),
        NO_FIGURE if piece.granted_deg is None else f"{piece.granted_deg:g}°",
    ]


def _percents(hold: Hold) -> str:
    low, high = f"{hold.percent(hold.low_mm):.1f}", f"{hold.percent(hold.high_mm):.1f}"
    return f"{low} %" if low == high else f"{low}-{high} %"


def _candidate(candidate: Candidate) -> list[str]:
    cloth, worst, cost = candidate.cloth, candidate.worst, candidate.cost_per_pair
    return [
        cloth.name,
        NO_FIGURE if cloth.mass_g_per_m2 is None else f"{cloth.mass_g_per_m2:g}",
        NO_FIGURE if worst is None else worst.called,
        NO_FIGURE if worst is None else f"{shown_mm(worst.hold)} / {worst.hold.limit_mm:g} mm",
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
