"""The page of the pull: strain over the upper alone, backed and with the cloth turned, side by side."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, Qt, QTimer, Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLabel, QSlider, QVBoxLayout, QWidget

from app.errors import AppError
from app.style.model import Style
from app.window.desks.cloth.drawing_view import DrawingView
from app.window.running.beside import WorkBeside
from app.window.widgets.lengths import Lengths
from app.window.wording.core_words import told_text
from geometry.errors import GeometryError

if TYPE_CHECKING:  # finite elements and papers are loaded when the page is first asked
    from geometry.stretch.field.upper import Field, FieldCase, FieldModel

translate = QCoreApplication.translate

SOON_MS = 250
MOST_TIMES = 6
LEGEND_MM = 14.0
"""Room below the first picture for the scale."""


@dataclass(frozen=True, eq=False)
class _Answer:
    """What the thread found for a style: the model with its cases, or why there is none."""

    style: Style
    model: FieldModel | None
    field: Field | None
    refusal: str


def _solve(style: Style, sides_held: bool, pincers: bool) -> _Answer:
    from app.hold.field import field_of

    try:
        model, field = field_of(style, sides_held=sides_held, pincers=pincers)
        return _Answer(style, model, field, "")
    except (AppError, GeometryError) as error:
        return _Answer(style, None, None, str(error))


def case_title(case: str) -> str:
    """Return the title of a case."""
    return {
        "alone": translate("Pull", "Upper alone"),
        "backed": translate("Pull", "Backed as drafted"),
        "turned": translate("Pull", "Cloth turned by 90°"),
    }[case]


class PullPage(QWidget):
    """Solves beside the window, a moment after the style changed; the slider only draws.

    ``told`` carries a line for the status bar.
    """

    told = Signal(str)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self._lengths = lengths
        self._asked: Style | None = None
        self._working: Style | None = None
        self.answer: _Answer | None = None
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(SOON_MS)
        self._soon.timeout.connect(self._begin)
        self._beside: WorkBeside[_Answer] = WorkBeside(self)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 12)
        self.head = QLabel()
        self.head.setProperty("role", "heading")
        self.head.setWordWrap(True)
        column.addWidget(self.head)
        pictures = QHBoxLayout()
        self.views: dict[str, DrawingView] = {}
        self.words: dict[str, QLabel] = {}
        for case in ("alone", "backed", "turned"):
            title = QLabel(case_title(case))
            title.setProperty("role", "heading")
            self.views[case] = DrawingView(case_title(case))
            self.words[case] = QLabel()
            self.words[case].setWordWrap(True)
            one = QVBoxLayout()
            one.addWidget(title)
            one.addWidget(self.views[case], 1)
            one.addWidget(self.words[case])
            pictures.addLayout(one, 1)
        column.addLayout(pictures, 1)
        row = QHBoxLayout()
        row.addWidget(QLabel(translate("Pull", "Drawn as deformed, times")))
        self.times = QSlider(Qt.Orientation.Horizontal)
        self.times.setRange(0, MOST_TIMES)
        self.times.setValue(1)
        self.times.setAccessibleName(translate("Pull", "How many times the deformation is drawn"))
        self.times.valueChanged.connect(self._draw)
        row.addWidget(self.times, 1)
        self.times_told = QLabel("1")
        row.addWidget(self.times_told)
        self.sides = QCheckBox(translate("Pull", "Side lasting edges held"))
        self.sides.toggled.connect(self._again)
        row.addWidget(self.sides)
        self.pincers = QCheckBox(translate("Pull", "Toe pulled in grips"))
        self.pincers.toggled.connect(self._again)
        row.addWidget(self.pincers)
        column.addLayout(row)
        foot = QLabel(
            translate(
                "Pull",
                "A flat model: no last, no friction, no relaxation. Dashed: the throat’s mark; red: where it "
                "goes. Figures are ranges. The strip test and the lasting trial decide.",
            )
        )
        foot.setProperty("role", "soft")
        foot.setWordWrap(True)
        column.addWidget(foot)

    def show_style(self, style: Style) -> None:
        """Show the pull over a style; what is shown is solved anew only when the style is another one."""
        if self._asked is not style:
            self._asked = style
            self._soon.start()
        self._draw()

    def stop(self) -> None:
        """Ask for nothing any more."""
        self._soon.stop()

    def _again(self) -> None:
        self.answer = None
        self._soon.start()
        self._draw()

    def _begin(self) -> None:
        if self._asked is None or self._working is not None:
            return
        style = self._working = self._asked
        sides_held, pincers = self.sides.isChecked(), self.pincers.isChecked()

        def failed() -> None:
            self._take(_Answer(style, None, None, translate("Pull", "It could not be worked out.")))

        self._beside.begin("pull", lambda: _solve(style, sides_held, pincers), self._take, failed)
        self._draw()

    def _take(self, answer: _Answer) -> None:
        self._working = None
        self.answer = answer
        if self._asked is not None and self._asked is not answer.style:
            self._soon.start()
        self._draw()

    def _draw(self) -> None:
        times = self.times.value()
        self.times_told.setText(str(times))
        answer = self.answer
        if answer is None or answer.field is None or answer.model is None:
            waits = self._working is not None or self._soon.isActive()
            refusal = answer.refusal if answer is not None else ""
            self.head.setText(translate("Pull", "Working out the pull…") if waits else told_text(refusal))
            for case, view in self.views.items():
                view.show_drawing(None)
                self.words[case].clear()
            return
        from app.papers.pictures.strain_map import draw_legend, steps_of, strain_map

        model, field = answer.model, answer.field
        pieces = ", ".join(piece.name for piece in model.upper.pieces)
        stale = self._asked is not answer.style
        told = translate("Pull", "The pull over {0}, {1} N/mm").format(
            pieces, f"{model.upper.pull_n_per_mm:g}"
        )
        self.head.setText(told + (translate("Pull", ": working out the change…") if stale else ""))
        bounds = steps_of(max(case.peak_strain for case in field.cases))
        shift = max(abs(case.moved_mm).max() for case in field.cases) * max(times, 1)
        x0, y0 = field.mesh.points_mm.min(axis=0)
        x1, y1 = field.mesh.points_mm.max(axis=0)
        box = (float(x0) - 2.0, float(y0) - LEGEND_MM, float(x1 + shift) + 2.0, float(y1) + 2.0)
        for solved in field.cases:
            picture = strain_map(model.upper, field.mesh, field.rim, solved, bounds, exaggerated=times)
            if solved.case == "alone":
                draw_legend(picture, box[0] + 2.0, box[1] + 5.0, bounds, wide_mm=(box[2] - box[0]) / 16.0)
            self.views[solved.case].show_drawing(picture, box)
            self.words[solved.case].setText(self._figures(solved))

    def _figures(self, case: FieldCase) -> str:
        lines = []
        if case.throat_mm is not None:
            lines.append(translate("Pull", "throat moves {0}").format(self._range(case.throat_mm)))
        lines.append(translate("Pull", "toe end moves {0}").format(self._range(case.vamp_mm)))
        if case.side_mm is not None:
            lines.append(translate("Pull", "side edge moves {0}").format(self._range(case.side_mm)))
        lines.append(
            translate("Pull", "median strain {0} %, {1} % at most").format(
                self._lengths.decimal(round(100 * case.median_strain, 1)), f"{100 * case.peak_strain:.0f}"
            )
        )
        return "\n".join(lines)

    def _range(self, span: tuple[float, float]) -> str:
        low, high = (self._lengths.text(value) for value in span)
        return low if low == high else translate("Pull", "{0} to {1}").format(low, high)
