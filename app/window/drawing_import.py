"""Drawings become a style; what a drawing leaves open is asked, never guessed silently."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, get_args

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import (
    QApplication,
    QButtonGroup,
    QDialog,
    QLabel,
    QLineEdit,
    QRadioButton,
    QWidget,
)

from app.style.model import Style
from app.style.new import new_style
from app.style.rules_store import load_rules
from app.window.frame_question import FrameQuestion
from app.window.running.drawing_run import read_with_progress
from app.window.widgets.chooser import Chooser
from app.window.widgets.figures import localised
from app.window.widgets.question_dialog import QuestionDialog
from app.window.wording.words import system_name
from geometry.dxf.drafts import FrameAnswer
from geometry.dxf.read import ReadDrawing
from geometry.dxf.units import UnitChoice
from geometry.findings import Finding, Severity
from geometry.sizing.sizes import SizeSystem

translate = QCoreApplication.translate


class Cancelled(Exception):
    """The person closed a question without an answer, or a long reading; there is nothing to do."""


def import_drawings(paths: Sequence[Path], parent: QWidget) -> tuple[Style, tuple[Finding, ...]] | None:
    """Return a style of the pieces of one or several drawings, and all findings.

    Asks for the unit where the file does not say, and for the size where none is named; None when a
    question is not answered. Raises what reading and making the style raise.
    """
    try:
        return _imported(paths, parent)
    except Cancelled:
        return None


def read_asking(path: Path, chord_mm: float, parent: QWidget) -> ReadDrawing | None:
    """Read one drawing, asking for its unit where it does not say; None when that is not answered."""
    try:
        return _read(path, chord_mm, parent)
    except Cancelled:
        return None


def _imported(paths: Sequence[Path], parent: QWidget) -> tuple[Style, tuple[Finding, ...]]:
    rules = load_rules()
    drawings = [_read(path, rules.chord_mm, parent) for path in paths]
    first = drawings[0]
    together = replace(
        first,
        pieces=tuple(piece for drawing in drawings for piece in drawing.pieces),
        findings=tuple(finding for drawing in drawings for finding in drawing.findings),
        sizes=tuple(dict.fromkeys(size for drawing in drawings for size in drawing.sizes)),
    )
    system: SizeSystem = "paris"
    base = first.base_size
    if not base and not any(piece.size for piece in together.pieces):
        base, system = _ask_size(paths[0], parent)
    style, found = new_style(
        together,
        name=first.style_name or paths[0].stem,
        rules=rules,
        source=", ".join(path.name for path in paths),
        system=system,
        base=base,
    )
    left_out = [_left_out(drawing) for drawing in drawings]
    return style, (*together.findings, *(f for some in left_out for f in some), *found)


def _read(path: Path, chord_mm: float, parent: QWidget) -> ReadDrawing:
    options: dict[str, Any] = {"chord_mm": chord_mm}
    drawing = _reading(path, parent, options)
    if _open(drawing, "UNIT"):
        unit = _ask_unit(path, drawing.unit_choices, drawing.unit, parent)
        if unit == drawing.unit:
            drawing = _without(drawing, "UNIT")
        else:
            options["unit"] = unit
            drawing = _reading(path, parent, options)
    if _open(drawing, "FRAME"):
        kept = _reading(path, parent, {**options, "frame": "keep"})
        answer = _ask_frame(path, drawing, kept, parent)
        drawing = kept if answer == "keep" else _without(drawing, "FRAME")
    return drawing


def _reading(path: Path, parent: QWidget, options: dict[str, Any]) -> ReadDrawing:
    drawing = read_with_progress(path, parent, **options)
    if drawing is None:
        raise Cancelled
    return drawing


def _open(drawing: ReadDrawing, code: str) -> bool:
    """Whether a question of the reading waits for its answer."""
    return any(f.code == code and f.severity is Severity.QUESTION for f in drawing.findings)


def _without(drawing: ReadDrawing, code: str) -> ReadDrawing:
    """Return the drawing with a question answered as it was read."""
    return replace(drawing, findings=tuple(f for f in drawing.findings if f.code != code))


def _left_out(drawing: ReadDrawing) -> list[Finding]:
    return [
        Finding(
            code="LEFT_OUT",
            severity=Severity.NOTE,
            message=translate("Import", "{0}: left out, {1}").format(left.what, left.why),
        )
        for left in drawing.left_out
    ]


class UnitQuestion(QuestionDialog):
    """Asks in which unit a drawing is, showing how large it would be in each."""

    def __init__(
        self, path: Path, choices: Sequence[UnitChoice], guess: str, parent: QWidget | None = None
    ) -> None:
        head = translate("Import", "{0} does not say for certain in which unit it is drawn.")
        super().__init__(translate("Import", "Unit of the drawing"), head.format(path.name), parent)
        self.column.addWidget(QLabel(translate("Import", "The whole drawing would be:")))
        self.group = QButtonGroup(self)
        self._units: list[str] = []
        for number, choice in enumerate(choices):
            text = f"{choice.unit}:   " + localised(f"{choice.width_mm:,.1f} × {choice.height_mm:,.1f} mm")
            button = QRadioButton(text)
            button.setChecked(choice.unit == guess)
            self.group.addButton(button, number)
            self._units.append(choice.unit)
            self.column.addWidget(button)
        self.finish()

    @property
    def unit(self) -> str:
        """The unit chosen."""
        return self._units[max(self.group.checkedId(), 0)]


class SizeQuestion(QuestionDialog):
    """Asks which size a drawing without sizes shows."""

    def __init__(self, path: Path, parent: QWidget | None = None) -> None:
        head = translate("Import", "{0} names no size. Which one is drawn?")
        super().__init__(translate("Import", "Size drawn"), head.format(path.name), parent)
        self.size_field = QLineEdit("37")
        self.system_box = Chooser()
        for system in get_args(SizeSystem):
            self.system_box.addItem(system_name(system), system)
        self.form.addRow(translate("Import", "Size"), self.size_field)
        self.form.addRow(translate("Import", "Size system"), self.system_box)
        self.finish()


def _ask_unit(path: Path, choices: Sequence[UnitChoice], guess: str, parent: QWidget) -> str:
    dialog = UnitQuestion(path, choices, guess, parent)
    answered = _run(dialog)
    unit = dialog.unit
    dialog.deleteLater()
    if not answered:
        raise Cancelled
    return unit


def _ask_frame(path: Path, dropped: ReadDrawing, kept: ReadDrawing, parent: QWidget) -> FrameAnswer:
    dialog = FrameQuestion(path, dropped, kept, parent)
    answered = _run(dialog)
    answer = dialog.answer
    dialog.deleteLater()
    if not answered:
        raise Cancelled
    return answer


def _ask_size(path: Path, parent: QWidget) -> tuple[str, SizeSystem]:
    dialog = SizeQuestion(path, parent)
    answered = _run(dialog)
    size, system = dialog.size_field.text().strip(), dialog.system_box.currentData()
    dialog.deleteLater()
    if not answered or not size:
        raise Cancelled
    return size, system


def _run(dialog: QDialog) -> bool:
    while QApplication.overrideCursor() is not None:
        QApplication.restoreOverrideCursor()
    return dialog.exec() == QDialog.DialogCode.Accepted
