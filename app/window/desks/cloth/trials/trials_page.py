"""Trials: what was tried before that bears on the style, and a trial to enter."""

from __future__ import annotations

from pydantic import ValidationError
from PySide6.QtCore import QCoreApplication, QModelIndex, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.commands.trial import calibration_text, predicted
from app.errors import AppError
from app.style.model import Style
from app.window.desks.cloth.text_table import TextTable
from app.window.desks.cloth.trials.trial_form import TrialForm, kinds, open_photo, results_text, verdicts
from app.window.widgets.theme import theme
from app.window.wording.core_words import told_text
from app.workshop.trial_book import Trial, TrialBook, TrialEntry

translate = QCoreApplication.translate
VERDICT, PHOTOS = 6, 7


class TrialsPage(QWidget):
    """The trial book, nearest to the open style first. ``told`` carries a line for the status bar."""

    told = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._style: Style | None = None
        self._entries: tuple[TrialEntry, ...] = ()
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
                translate("Trials", "Predicted"),
                translate("Trials", "Verdict"),
                translate("Trials", "Photos"),
                translate("Trials", "Note"),
            ],
            translate("Trials", "Trials"),
            words=(0, 1, 2, 3, 4, 6, 8),
            wide=8,
            at_most_px={3: 130, 4: 300},
        )
        self.table.head(PHOTOS).setToolTip(translate("Trials", "Double-click opens them"))
        self.table.doubleClicked.connect(self._open_photos)
        column.addWidget(self.table, 1)
        self.words = QLabel()
        self.words.setWordWrap(True)
        column.addWidget(self.words)
        column.addWidget(_heading(translate("Trials", "Enter a trial")))
        self.form = TrialForm()
        self.form.entered.connect(self.enter)
        self.form.refused.connect(self.told)
        column.addWidget(self.form)

    def show_style(self, style: Style) -> None:
        """Show the trials that bear on a style; the book is read again."""
        self._style = style
        self.form.show_style(style)
        cloths = [cloth.id for cloth in style.cloths]
        upper = style.upper_material.name
        try:
            book = TrialBook()
            self._entries = book.similar(upper, cloths, style.name)
            known = [c for cloth in cloths if (c := book.calibration(upper, cloth)) is not None]
        except AppError as error:
            self._entries = ()
            self.table.fill([])
            self.words.setText(told_text(str(error)))
            return
        self.table.fill([_row(entry) for entry in self._entries])
        colours = {"good": "good", "doubtful": "warning", "bad": "error"}
        for i, entry in enumerate(self._entries):
            self.table.cell(i, VERDICT).setForeground(theme().colour(colours[entry.trial.verdict]))
        self.words.setText(
            "\n".join(told_text(calibration_text(each)) for each in known)
            or translate(
                "Trials",
                "No lasting trial of this upper with its cloths yet: three of them tell how far to trust the figures.",
            )
        )

    def enter(self) -> None:
        """Enter what was typed; the prediction of this moment is kept beside it."""
        style = self._style
        if style is None:
            return
        fields = self.form.fields()
        upper = style.upper_material.name
        if not upper or not fields["cloth"]:
            self.told.emit(
                translate("Trials", "Upper and cloth must have names: trials are filed under them.")
            )
            return
        try:
            trial = Trial(
                style=style.name,
                upper=upper,
                **fields,
                **predicted(style, fields["kind"], fields["piece"], fields["size"]),
            )
            entry = TrialBook().add(trial)
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            self.told.emit(f"{first['loc'][0]}: {first['msg']}")
            return
        except AppError as error:
            self.told.emit(told_text(str(error)))
            return
        self.form.empty()
        self.show_style(style)
        self.told.emit(translate("Trials", "Entered as trial {0}").format(entry.id))

    def _open_photos(self, index: QModelIndex) -> None:
        for path in self._entries[index.row()].trial.photos:
            if not open_photo(path):
                self.told.emit(translate("Trials", "There is no picture {0} any more").format(path))


def _row(entry: TrialEntry) -> list[str]:
    trial = entry.trial
    predicted_mm = "–" if trial.predicted_mm is None else f"{trial.predicted_mm:.1f} mm"
    return [
        entry.at[:10],
        kinds()[trial.kind],
        " ".join(part for part in (trial.style, trial.size, trial.piece) if part),
        f"{trial.upper} / {trial.cloth}",
        results_text(trial),
        predicted_mm,
        verdicts()[trial.verdict],
        str(len(trial.photos) or ""),
        trial.note,
    ]


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("role", "heading")
    return label
