"""The page of the pull: strain over the upper alone, backed and with the cloth turned, side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, Qt, QTimer, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSlider,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from app.papers.formats.drawing import Drawing
from app.style.model import Style
from app.window.desks.cloth.candidate_cloths import candidate_cloths
from app.window.desks.cloth.drawing_view import DrawingView
from app.window.desks.cloth.pull.pull_tables import FigureTable, PeelTable
from app.window.running.pull_solver import PullAnswer, PullAsked, PullSolver
from app.window.widgets.chooser import Chooser
from app.window.widgets.lengths import Lengths
from app.window.wording.core_words import told_text
from app.window.wording.pull_words import at_work, case_title, range_text, second_level, why_text

if TYPE_CHECKING:  # finite elements and papers are loaded when the page is first asked
    from geometry.stretch.field.answers import FieldCase

translate = QCoreApplication.translate

MOST_TIMES = 6
LEGEND_PX = (380, 34)
LEGEND_BOX_MM = (-4.0, -11.0, 186.0, 6.0)
LEGEND_STEP_MM, LEGEND_LETTERS_MM = 13.0, 5.0
"""The scale of the strain at twice its size on paper: its figures can be read in the smallest window."""
LOOK_MS = 200
"""How often what is at work is told."""
PLACES = ("alone", "backed", "turned")
LOW_PX = 130
LOW_MOST_PX = 190


class PullPage(QWidget):
    """Shows what the solver found, and asks it again when the style changed; the slider only draws.

    ``told`` carries a line for the status bar.
    """

    told = Signal(str)

    def __init__(self, lengths: Lengths, solver: PullSolver) -> None:
        super().__init__()
        self._lengths = lengths
        self._style: Style | None = None
        self.solver = solver
        self.solver.solved.connect(self._draw)
        self._look = QTimer(self)
        self._look.setInterval(LOOK_MS)
        self._look.timeout.connect(self._say)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 12)
        row = QHBoxLayout()
        self.head = QLabel()
        self.head.setProperty("role", "heading")
        self.head.setWordWrap(True)
        row.addWidget(self.head, 1)
        self.stop_button = QPushButton(translate("Pull", "Stop"))
        self.stop_button.clicked.connect(self._stop_or_start)
        row.addWidget(self.stop_button)
        column.addLayout(row)
        column.addLayout(self._pictures(), 3)
        column.addLayout(self._controls())
        self.figures = FigureTable(lengths)
        self.peel = PeelTable(lengths)
        self.peel.setToolTip(
            translate(
                "Pull",
                "At the edge of the backing the glue passes so much force per mm of edge, back into the upper; the peel test tells whether the bond bears it.",
            )
        )
        low = QSplitter()
        low.addWidget(self.figures)
        low.addWidget(self.peel)
        low.setStretchFactor(0, 3)
        low.setStretchFactor(1, 2)
        low.setMinimumHeight(LOW_PX)
        low.setMaximumHeight(LOW_MOST_PX)
        column.addWidget(low, 1)
        self.why = QLabel()
        self.why.setWordWrap(True)
        column.addWidget(self.why)
        foot = QLabel(
            translate(
                "Pull",
                "A flat model: no last, no friction, no relaxation. Dashed: the throat’s mark; red: where it goes; fine dashes: the backing, heavy where prone to peel. Figures are ranges. The strip test and the lasting trial decide.",
            )
        )
        foot.setProperty("role", "soft")
        foot.setWordWrap(True)
        column.addWidget(foot)

    def _pictures(self) -> QHBoxLayout:
        pictures = QHBoxLayout()
        self.views: dict[str, DrawingView] = {}
        self.words: dict[str, QLabel] = {}
        self.third = Chooser()
        self.third.setAccessibleName(translate("Pull", "Case of the third picture"))
        self.third.addItem(case_title("turned"), "turned")
        self.third.activated.connect(self._draw)
        for place in PLACES:
            self.views[place] = DrawingView(case_title(place))
            self.views[place].setMinimumSize(160, 110)  # else it covers its words in the smallest window
            self.words[place] = QLabel()
            self.words[place].setWordWrap(True)
            one = QVBoxLayout()
            if place == "turned":
                one.addWidget(self.third)
            else:
                title = QLabel(case_title(place))
                title.setProperty("role", "heading")
                one.addWidget(title)
            one.addWidget(self.views[place], 1)
            one.addWidget(self.words[place])
            pictures.addLayout(one, 1)
        return pictures

    def _controls(self) -> QVBoxLayout:
        rows, row = QVBoxLayout(), QHBoxLayout()
        rows.addLayout(row)
        row.addWidget(QLabel(translate("Pull", "Deformation drawn, times")))
        self.times = QSlider(Qt.Orientation.Horizontal)
        self.times.setRange(0, MOST_TIMES)
        self.times.setValue(1)
        self.times.setAccessibleName(translate("Pull", "How many times the deformation is drawn"))
        self.times.valueChanged.connect(self._draw)
        row.addWidget(self.times, 1)
        self.times_told = QLabel("1")
        row.addWidget(self.times_told)
        self.legend = DrawingView(translate("Pull", "Scale of the strain"))
        self.legend.setFixedSize(*LEGEND_PX)
        row.addWidget(self.legend)
        self.sides = QCheckBox(translate("Pull", "Side lasting edges held"))
        self.pincers = QCheckBox(translate("Pull", "Toe pulled by pincers"))
        self.large = QCheckBox(translate("Pull", "Large strain and wrinkles"))
        self.large.setToolTip(
            translate(
                "Pull",
                "The second level: strain as large as leather’s, and sheets that wrinkle instead of being pushed. Slower.",
            )
        )
        self.others = QCheckBox(translate("Pull", "Other cloths"))
        self.others.setToolTip(
            translate("Pull", "The style’s and the register’s in place of the first, as further cases")
        )
        row = QHBoxLayout()
        for box in (self.sides, self.pincers, self.large, self.others):
            box.toggled.connect(self._ask)
            row.addWidget(box)
        row.addStretch(1)
        rows.addLayout(row)
        return rows

    def show_style(self, style: Style) -> None:
        """Show the pull over a style; it is solved again only where something that moves it changed."""
        self._style = style
        self._ask()

    def stop(self) -> None:
        """Ask for nothing any more."""
        self._look.stop()
        self.solver.forget()

    def _ask(self) -> None:
        if self._style is None:
            return
        cloths = candidate_cloths(self._style, True, self.told.emit) if self.others.isChecked() else ()
        self.solver.ask(
            PullAsked(
                self._style,
                tuple(cloth for cloth in cloths if cloth != self._style.cloths[0]),
                sides_held=self.sides.isChecked(),
                pincers=self.pincers.isChecked(),
                large=self.large.isChecked(),
            )
        )
        self._draw()

    def _stop_or_start(self) -> None:
        if self.solver.waiting:
            self.solver.stop()
        else:
            self.solver.again()
        self._draw()

    def _say(self) -> None:
        """Say what is shown and what is at work."""
        answer, waits = self.solver.answer, self.solver.waiting
        self._look.start() if waits and self.isVisible() else self._look.stop()
        self.stop_button.setText(
            translate("Pull", "Stop") if waits else translate("Pull", "Work it out again")
        )
        self.stop_button.setVisible(waits or self.solver.stopped)
        told = []
        if answer is not None and answer.pulled is not None:
            pulled = answer.pulled
            told.append(
                translate("Pull", "The pull over {0}, {1} N/mm").format(
                    ", ".join(piece.name for piece in pulled.question.upper.pieces),
                    self._lengths.decimal(pulled.question.upper.pull_n_per_mm, 2),
                )
            )
            if pulled.field.throat_change_share is not None and not waits:
                told.append(
                    translate("Pull", "{0} elements, halving them moved the throat by {1} %").format(
                        len(pulled.field.mesh.triangles),
                        self._lengths.decimal(100.0 * pulled.field.throat_change_share),
                    )
                )
        elif answer is not None and not waits:
            told.append(told_text(answer.refusal))
        if waits:
            told.append(translate("Pull", "working out: {0} …").format(at_work(self.solver.at)))
        elif self.solver.stopped:
            told.append(translate("Pull", "stopped"))
        self.head.setText("  ·  ".join(told))

    def _draw(self) -> None:
        self._say()
        times = self.times.value()
        self.times_told.setText(str(times))
        answer = self.solver.answer
        if answer is None or answer.pulled is None or answer.models is None:
            for place, view in self.views.items():
                view.show_drawing(None)
                self.words[place].clear()
            self.legend.show_drawing(None)
            self.figures.fill([])
            self.peel.fill([])
            self.why.clear()
            return
        self._offer_cases(answer)
        self.why.setText(why_text(answer.models, self._lengths))
        self.figures.show_answer(answer)
        shown = {"alone": "alone", "backed": "backed", "turned": str(self.third.currentData())}
        cases = {name: solved.case for name, solved in answer.maps.items()}
        self.peel.show_case(answer.pulled.question, cases["backed"])
        self._maps(answer, shown, times)
        for place, name in shown.items():
            self.words[place].setText(self._words(cases[name], answer.models.line_mm.get(name)))

    def _maps(self, answer: PullAnswer, shown: dict[str, str], times: int) -> None:
        from app.papers.pictures.strain_map import draw_legend

        assert answer.pulled is not None
        scale = Drawing()
        draw_legend(scale, 0.0, 0.0, answer.bounds, wide_mm=LEGEND_STEP_MM, letters_mm=LEGEND_LETTERS_MM)
        self.legend.show_drawing(scale, LEGEND_BOX_MM)
        points = answer.pulled.field.mesh.points_mm
        moved = [solved.case.moved_mm * times for solved in answer.maps.values()]
        x0, y0 = (min(0.0, *(m[:, k].min() for m in moved)) + points[:, k].min() for k in range(2))
        x1, y1 = (max(0.0, *(m[:, k].max() for m in moved)) + points[:, k].max() for k in range(2))
        box = (float(x0) - 2.0, float(y0) - 2.0, float(x1) + 2.0, float(y1) + 2.0)
        letters = (box[3] - box[1]) / 40.0
        for place, name in shown.items():
            picture = answer.maps[name].draw(float(times), letters_mm=letters)
            self.views[place].show_drawing(picture, box)

    def _offer_cases(self, answer: PullAnswer) -> None:
        assert answer.pulled is not None
        titles = {"turned": case_title("turned")}
        titles |= {f"cloth {each.cloth.id}": each.cloth.name for each in answer.pulled.cloths}
        if [self.third.itemData(k) for k in range(self.third.count())] != list(titles):
            kept = self.third.currentData()
            self.third.clear()
            for name, title in titles.items():
                self.third.addItem(title, name)
            self.third.setCurrentIndex(max(self.third.findData(kept), 0))

    def _words(self, case: FieldCase, line: tuple[float, float] | None) -> str:
        moves = translate("Pull", "throat moves {0}").format(range_text(case.throat_mm, self._lengths))
        if line is not None:
            moves = translate("Pull", "throat moves {0}; by the line {1}").format(
                range_text(case.throat_mm, self._lengths), range_text(line, self._lengths)
            )
        lines = [moves]
        for name, motion in (("large strain", case.large), ("tension field", case.wrinkled)):
            if motion is not None and motion.throat_mm is not None:
                lines.append(f"{second_level(name)}: {self._lengths.text(motion.throat_mm)}")
            elif name in case.unsettled:
                lines.append(translate("Pull", "{0} does not settle").format(second_level(name)))
        return "\n".join(lines)
