"""Trials: what was tried before that bears on the style, and a lasting trial to enter."""

from __future__ import annotations

from pydantic import ValidationError
from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.commands.trial import calibration_text, predicted
from app.errors import AppError
from app.style.model import Style
from app.trial_book import Trial, TrialBook
from app.window.desks.cost.tables import Table
from app.window.fields import NumberField, TextField

translate = QCoreApplication.translate


class TrialsPage(QWidget):
    """The trial book, nearest to the open style first. ``told`` carries a line for the status bar."""

    told = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._style: Style | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 10)
        column.setSpacing(8)
        head = QLabel(translate("Trials", "Tried before, nearest to this style first"))
        head.setProperty("role", "heading")
        column.addWidget(head)
        self.table = Table(
            [
                translate("Trials", "Day"),
                translate("Trials", "Style"),
                translate("Trials", "Piece"),
                translate("Trials", "Upper"),
                translate("Trials", "Cloth"),
                translate("Trials", "Off the mark"),
                translate("Trials", "Predicted"),
                translate("Trials", "Verdict"),
                translate("Trials", "Note"),
            ],
            translate("Trials", "Trials"),
        )
        column.addWidget(self.table, 1)
        self.words = QLabel()
        self.words.setWordWrap(True)
        column.addWidget(self.words)
        head = QLabel(translate("Trials", "Enter a lasting trial"))
        head.setProperty("role", "heading")
        column.addWidget(head)
        row = QHBoxLayout()
        self.piece = QComboBox()
        self.piece.setAccessibleName(translate("Trials", "Piece"))
        self.mark = NumberField(translate("Trials", "Throat off its mark, mm"), step=0.1, optional=True)
        self.mark.setMaximumWidth(70)
        self.verdict = QComboBox()
        self.verdict.setAccessibleName(translate("Trials", "Verdict"))
        for value, text in _verdicts().items():
            self.verdict.addItem(text, value)
        self.note = TextField()
        self.note.setAccessibleName(translate("Trials", "Note"))
        self.add = QPushButton(translate("Trials", "Enter in the book"))
        self.add.clicked.connect(self.enter)
        for title, widget, share in (
            (translate("Trials", "Piece"), self.piece, 0),
            (translate("Trials", "Throat off its mark, mm"), self.mark, 0),
            (translate("Trials", "Verdict"), self.verdict, 0),
            (translate("Trials", "Note"), self.note, 1),
        ):
            row.addWidget(QLabel(title))
            row.addWidget(widget, share)
        row.addWidget(self.add)
        column.addLayout(row)

    def show_style(self, style: Style) -> None:
        """Show the trials that bear on a style; the book is read anew."""
        self._style = style
        names = [piece.name for piece in style.pieces if piece.layers]
        if [self.piece.itemText(i) for i in range(self.piece.count())] != names:
            self.piece.clear()
            self.piece.addItems(names)
        cloths = [cloth.id for cloth in style.cloths]
        upper = style.upper_material.name
        try:
            book = TrialBook()
            found = book.similar(upper, cloths, style.name)
            known = [c for cloth in cloths if (c := book.calibration(upper, cloth)) is not None]
        except AppError as error:
            self.table.fill([])
            self.words.setText(str(error))
            return
        rows = []
        for entry in found:
            trial = entry.trial
            rows.append(
                [
                    entry.at[:10],
                    trial.style,
                    trial.piece,
                    trial.upper,
                    trial.cloth,
                    _mm(trial.mark_after_lasting_mm),
                    _mm(trial.predicted_mm),
                    _verdicts()[trial.verdict],
                    trial.note,
                ]
            )
        self.table.fill(rows)
        self.words.setText(
            "\n".join(calibration_text(each) for each in known)
            or translate("Trials", "No lasting trial of this upper with its cloths yet.")
        )

    def enter(self) -> None:
        """Enter what was typed; the prediction of this moment is kept beside it."""
        style, name = self._style, self.piece.currentText()
        if style is None or not name:
            return
        piece = style.piece(name)
        try:
            trial = Trial(
                kind="lasting",
                style=style.name,
                piece=name,
                size=style.size_run.base,
                upper=style.upper_material.name,
                cloth=piece.layers[0].cloth or style.cloths[0].id,
                verdict=self.verdict.currentData(),
                mark_after_lasting_mm=self.mark.value,
                note=self.note.text().strip(),
                **predicted(style, "lasting", name, style.size_run.base),
            )
            entry = TrialBook().add(trial)
        except ValidationError as error:
            first = error.errors(include_url=False)[0]
            self.told.emit(f"{first['loc'][0]}: {first['msg']}")
            return
        except AppError as error:
            self.told.emit(str(error))
            return
        self.mark.set_value(None)
        self.note.clear()
        self.show_style(style)
        self.told.emit(translate("Trials", "Entered as trial {0}").format(entry.id))


def _mm(value: float | None) -> str:
    return "–" if value is None else f"{value:.1f} mm"


def _verdicts() -> dict[str, str]:
    return {
        "good": translate("Trials", "good"),
        "doubtful": translate("Trials", "doubtful"),
        "bad": translate("Trials", "bad"),
    }
