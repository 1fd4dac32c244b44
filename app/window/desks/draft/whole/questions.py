"""What is asked when a piece is mirrored, drawn from nothing, or brought in from another drawing."""

from __future__ import annotations

import math
from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QListWidget,
    QListWidgetItem,
    QWidget,
)

from app.window.widgets.fields import LengthField, TextField
from app.window.widgets.lengths import Lengths, Unit
from app.window.widgets.question_dialog import QuestionDialog

translate = QCoreApplication.translate


class TwinQuestion(QuestionDialog):
    """Name of the mirrored piece, and whether the two stay alike."""

    def __init__(self, piece: str, name: str, parent: QWidget) -> None:
        super().__init__(
            translate("Whole", "Mirror to a new twin"),
            translate("Whole", "The mirror image of {0} becomes another piece of the same shoe.").format(
                piece
            ),
            parent,
        )
        self.name = TextField(name)
        self.name.setAccessibleName(translate("Whole", "Name of the twin"))
        self.name.selectAll()
        self.linked = QCheckBox(translate("Whole", "Keep the two alike from now on"))
        self.linked.setChecked(True)
        self.form.addRow(translate("Whole", "Name"), self.name)
        self.form.addRow("", self.linked)
        self.finish(translate("Whole", "Mirror"))


class ShapeQuestion(QuestionDialog):
    """A rectangle by its sides, or a shape by its corners; an upper or a backing alone."""

    def __init__(self, name: str, lengths: Lengths, parent: QWidget) -> None:
        super().__init__(
            translate("Whole", "Draw a new piece"),
            translate("Whole", "A rectangle by its sides; or any shape, by its corners."),
            parent,
        )
        self._lengths = lengths
        self.name = TextField(name)
        self.name.setAccessibleName(translate("Whole", "Name"))
        self.name.selectAll()
        self.width_field = LengthField(translate("Whole", "Width"), lengths)
        self.height_field = LengthField(translate("Whole", "Height"), lengths)
        self.corners = TextField()
        self.corners.setAccessibleName(translate("Whole", "Corners"))
        inch = lengths.unit is Unit.INCH
        self.corners.setPlaceholderText("0,0  1.5,0  1.5,1" if inch else "0,0  40,0  40,25")
        self.corners.setMinimumWidth(260)
        self.corners.setToolTip(
            translate("Whole", "x,y of every corner, in their order; empty draws the rectangle")
        )
        self.backing_only = QCheckBox(translate("Whole", "A backing without an upper, cut as it is drawn"))
        self.form.addRow(translate("Whole", "Name"), self.name)
        self.form.addRow(translate("Whole", "Width"), self.width_field)
        self.form.addRow(translate("Whole", "Height"), self.height_field)
        self.form.addRow(f"{translate('Whole', 'Corners')} ({lengths.unit.value})", self.corners)
        self.form.addRow("", self.backing_only)
        self.finish(translate("Whole", "Draw"))

    def sides_mm(self) -> tuple[float, float]:
        """Return the sides as typed; one that is not a length is 0."""
        width, height = (self._lengths.read_mm(f.text()) for f in (self.width_field, self.height_field))
        return width or 0.0, height or 0.0

    def points_mm(self) -> list[tuple[float, float]]:
        """Return the corners typed, none where a rectangle is meant; a word that is no pair is (nan, nan).

        Between the two figures of a corner stands the comma, so the figures themselves have points.
        """
        found = []
        for word in self.corners.text().split():
            pair = [self._lengths.read_mm(part) for part in word.split(",")]
            x, y = pair if len(pair) == 2 else (None, None)
            found.append((math.nan, math.nan) if x is None or y is None else (x, y))
        return found


class PiecesQuestion(QuestionDialog):
    """Which pieces of another drawing come in."""

    def __init__(self, file: str, names: Sequence[str], parent: QWidget) -> None:
        super().__init__(
            translate("Whole", "Add pieces of a drawing"),
            translate("Whole", "Pieces of {0} that come into this style:").format(file),
            parent,
        )
        self.list = QListWidget()
        self.list.setAccessibleName(translate("Whole", "Pieces of the drawing"))
        for name in names:
            item = QListWidgetItem(name)
            item.setCheckState(Qt.CheckState.Checked)
            self.list.addItem(item)
        self.column.addWidget(self.list)
        self.finish(translate("Whole", "Add"))

    @property
    def names(self) -> list[str]:
        """The pieces that are ticked."""
        items = map(self.list.item, range(self.list.count()))
        return [item.text() for item in items if item.checkState() == Qt.CheckState.Checked]
