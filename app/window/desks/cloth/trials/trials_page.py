"""Trials: what was tried before that bears on the style, and a trial to enter."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError
from PySide6.QtCore import QCoreApplication, QModelIndex, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.errors import AppError
from app.hold.trial_prediction import predicted
from app.papers.formats.drawing import Drawing
from app.papers.pictures.trial_plot import draw_comparison
from app.style.model import Style
from app.window.desks.cloth.drawing_view import DrawingView
from app.window.desks.cloth.text_table import TextTable
from app.window.desks.cloth.trials.comparison_words import comparison_said
from app.window.desks.cloth.trials.trial_form import TrialForm, kinds, open_photo, results_text, verdicts
from app.window.running.beside import WorkBeside
from app.window.widgets.lengths import Lengths, Unit
from app.window.widgets.theme import theme
from app.window.wording.core_words import told_text
from app.workshop.trial_book import Trial, TrialBook, TrialEntry, calibration_text
from app.workshop.two_predictions import PredictionComparison, compare_models

translate = QCoreApplication.translate
VERDICT, PHOTOS = 7, 8
PLOT_MM = 60.0
PLOT_PX = 250


class TrialsPage(QWidget):
    """The trial book, nearest to the open style first. ``told`` carries a line for the status bar."""

    told = Signal(str)

    def __init__(self, lengths: Lengths) -> None:
        super().__init__()
        self._lengths = lengths
        self._style: Style | None = None
        self._entries: tuple[TrialEntry, ...] = ()
        self.compared: PredictionComparison | None = None
        self._beside: WorkBeside[dict[str, Any]] = WorkBeside(self)
        self._pending: tuple[Style, Trial] | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 12)
        column.setSpacing(8)
        column.addWidget(_heading(translate("Trials", "Earlier trials, nearest to this style first")))
        self.table = TextTable(
            [
                translate("Trials", "Day"),
                translate("Trials", "Kind"),
                translate("Trials", "Style and piece"),
                translate("Trials", "Upper / cloth"),
                translate("Trials", "Result"),
                translate("Trials", "Line"),
                translate("Trials", "Field"),
                translate("Trials", "Verdict"),
                translate("Trials", "Photos"),
                translate("Trials", "Note"),
            ],
            translate("Trials", "Trials"),
            words=(0, 1, 2, 3, 4, 7, 9),
            wide=9,
            at_most_px={3: 130, 4: 300},
        )
        self.table.head(PHOTOS).setToolTip(translate("Trials", "Double-click opens them"))
        self.table.head(5).setToolTip(translate("Trials", "What the hold line had predicted that day"))
        self.table.head(6).setToolTip(translate("Trials", "What the field had predicted that day"))
        self.table.doubleClicked.connect(self._open_photos)
        column.addWidget(self.table, 1)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.plot = DrawingView(translate("Trials", "Measured against predicted, line and field"))
        self.plot.setFixedSize(PLOT_PX, PLOT_PX)
        row = QHBoxLayout()
        row.addWidget(self.words, 1)
        row.addWidget(self.plot)
        column.addLayout(row)
        column.addWidget(_heading(translate("Trials", "Enter a trial")))
        self.form = TrialForm(lengths)
        self.form.entered.connect(self.enter)
        self.form.refused.connect(self.told)
        column.addWidget(self.form)

    def show_style(self, style: Style) -> None:
        """Show the trials that bear on a style; the book is read again."""
        self._style = style
        self.form.show_style(style)
        self.form.relook()
        cloths = [cloth.id for cloth in style.cloths]
        upper = style.upper_material.name
        try:
            book = TrialBook()
            self._entries = book.similar(upper, cloths, style.name)
            pair = [e for e in self._entries if e.trial.upper == upper and e.trial.cloth in cloths]
            self.compared = compare_models(sorted(pair, key=lambda entry: entry.id))
            known = [c for cloth in cloths if (c := book.calibration(upper, cloth)) is not None]
        except AppError as error:
            self._entries, self.compared = (), None
            self.table.fill([])
            self.plot.setVisible(False)
            self.words.setText(told_text(str(error)))
            return
        self.table.fill([_row(entry, self._lengths) for entry in self._entries])
        colours = {"good": "good", "doubtful": "warning", "bad": "error"}
        for i, entry in enumerate(self._entries):
            self.table.cell(i, VERDICT).setForeground(theme().colour(colours[entry.trial.verdict]))
        self._draw_comparison()
        said = [told_text(calibration_text(each)) for each in known]
        if self.compared is not None:
            said += comparison_said(self.compared, self._lengths)
        self.words.setText(
            "\n".join(said)
            or translate(
                "Trials",
                "No lasting trial of this upper with its cloths yet: three of them tell how far to trust the figures.",
            )
        )

    def _draw_comparison(self) -> None:
        self.plot.setVisible(self.compared is not None)
        if self.compared is not None:
            drawing = Drawing()
            draw_comparison(drawing, self.compared, 0.0, 0.0, PLOT_MM, inches=self._lengths.unit is Unit.INCH)
            self.plot.show_drawing(drawing, (-8.0, -11.0, PLOT_MM + 4.0, PLOT_MM + 12.0))

    @property
    def busy(self) -> bool:
        """Whether a trial is being entered."""
        return self._beside.busy

    def enter(self) -> None:
        """Enter what was typed; what line and field predict at this moment is kept beside it.

        The field takes a moment: the form waits for it, the window does not.
        """
        style = self._style
        if style is None or self._beside.busy:
            return
        fields = self.form.fields()
        upper = style.upper_material.name
        if not upper or not fields["cloth"]:
            self.told.emit(
                translate("Trials", "Upper and cloth must have names: trials are filed under them.")
            )
            return
        try:
            trial = Trial(style=style.name, upper=upper, **fields)
            TrialBook().check(trial)
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            self.told.emit(f"{first['loc'][0]}: {first['msg']}")
            return
        except AppError as error:
            self.told.emit(told_text(str(error)))
            return
        if trial.kind != "lasting" or not trial.piece:
            self._enter(trial)
            return
        self._pending = (style, trial)
        self.form.setEnabled(False)
        self.told.emit(translate("Trials", "Working out what line and field predict …"))
        self._beside.begin(
            "trial",
            lambda: predicted(style, trial.piece, trial.size),
            self._predicted,
            lambda: self._predicted({}),
        )

    def stop(self) -> None:
        """Enter a trial that still waits for the field with what the line predicts: the window closes."""
        if self._pending is not None:
            style, trial = self._pending
            self._predicted(predicted(style, trial.piece, trial.size, field=False))

    def _predicted(self, found: dict[str, Any]) -> None:
        if self._pending is not None:
            (_, trial), self._pending = self._pending, None
            self._enter(trial.model_copy(update=found))

    def _enter(self, trial: Trial) -> None:
        self.form.setEnabled(True)
        try:
            entry = TrialBook().add(trial)
        except AppError as error:
            self.told.emit(told_text(str(error)))
            return
        self.form.empty()
        if self._style is not None:
            self.show_style(self._style)
        self.told.emit(translate("Trials", "Entered as trial {0}").format(entry.id))

    def _open_photos(self, index: QModelIndex) -> None:
        for path in self._entries[index.row()].trial.photos:
            if not open_photo(path):
                self.told.emit(translate("Trials", "There is no picture {0} any more").format(path))


def _row(entry: TrialEntry, lengths: Lengths) -> list[str]:
    trial = entry.trial
    return [
        entry.at[:10],
        kinds()[trial.kind],
        " ".join(part for part in (trial.style, trial.size, trial.piece) if part),
        f"{trial.upper} / {trial.cloth}",
        results_text(trial, lengths),
        *("–" if mm is None else lengths.text(mm) for mm in (trial.predicted_mm, trial.predicted_field_mm)),
        verdicts()[trial.verdict],
        str(len(trial.photos) or ""),
        trial.note,
    ]


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("role", "heading")
    return label
