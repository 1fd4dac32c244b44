"""The strip above the board while a new piece is drawn: its name, its figures, upper or backing alone."""

from __future__ import annotations

import math

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QCheckBox, QLabel, QPushButton, QWidget

from app.tools.outcome import Sketch
from app.tools.shape import ShapeTool
from app.window.desks.draft.drawing.two_rows import two_rows
from app.window.widgets.fields import LengthField, NumberField, TextField
from app.window.widgets.icons import icon
from app.window.widgets.lengths import Lengths

translate = QCoreApplication.translate


class ShapeBar(QWidget):
    """Writes into its tool. ``typed`` carries two figures: sides, or length and angle of a step."""

    typed = Signal(float, float)
    ended = Signal()
    refused = Signal(str)

    def __init__(self, lengths: Lengths, tool: ShapeTool) -> None:
        super().__init__()
        self._tool = tool
        layout, second = two_rows(self)
        self.what = QLabel()
        self.what.setProperty("role", "heading")
        self.name = TextField()
        self.name.setAccessibleName(translate("Draft", "Name of the new piece"))
        self.name.setMinimumWidth(70)
        self.name.setMaximumWidth(180)
        self.name.textChanged.connect(self._named)
        self.first_name, self.second_name = QLabel(), QLabel()
        self.first = LengthField(translate("Draft", "Width, or length of the step"), lengths)
        self.high = LengthField(translate("Draft", "Height"), lengths)
        self.angle = NumberField(translate("Draft", "Angle of the step"))
        for field in (self.first, self.high, self.angle):
            field.setFixedWidth(66)
            field.refused.connect(self.refused)
        self.set_figures = QPushButton(icon("add"), "")
        self.set_figures.setAccessibleName(translate("Draft", "Draw"))
        self.set_figures.setToolTip(translate("Draft", "Draw"))
        self.set_figures.clicked.connect(self._typed)
        self.alone = QCheckBox(translate("Draft", "Backing alone"))
        self.alone.setToolTip(
            translate("Draft", "No upper is cut: the shape is cut from cloth as it is drawn")
        )
        self.alone.toggled.connect(self._alone)
        self.done = QPushButton(translate("Draft", "Close the shape"))
        self.done.clicked.connect(self.ended)
        layout.addWidget(self.what)
        layout.addWidget(self.name, 1)
        layout.addWidget(self.alone)
        layout.addStretch(1)
        figures = (self.first_name, self.first, self.second_name, self.high, self.angle, self.set_figures)
        for widget in figures:
            second.addWidget(widget)
        second.addStretch(1)
        second.addWidget(self.done)
        self.hide()

    def begin(self, mode: str) -> None:
        """Show the fields of a mode."""
        box = mode == "rectangle"
        self.what.setText(translate("Draft", "Rectangle") if box else translate("Draft", "Free shape"))
        self.first_name.setText(translate("Draft", "Width") if box else translate("Draft", "Length"))
        self.second_name.setText(translate("Draft", "Height") if box else translate("Draft", "Angle"))
        self.high.setVisible(box)
        self.angle.setVisible(not box)
        self.done.setVisible(not box)
        if not self.name.text().strip():
            self.name.setText(translate("Whole", "New piece"))
        self.show()

    def show_step(self, sketch: Sketch) -> None:
        """Show the figures of what is being drawn, unless one is being typed."""
        fields = (self.first, self.high, self.angle)
        if sketch.step_mm is None or any(field.hasFocus() for field in fields):
            return
        (ax, ay), (bx, by) = sketch.step_mm
        if self._tool.mode == "rectangle":
            self.first.set_value(abs(bx - ax))
            self.high.set_value(abs(by - ay))
        else:
            self.first.set_value(math.hypot(bx - ax, by - ay))
            self.angle.set_value(math.degrees(math.atan2(by - ay, bx - ax)))

    def _typed(self) -> None:
        second = self.high.value if self._tool.mode == "rectangle" else self.angle.value
        if self.first.value is not None and second is not None:
            self.typed.emit(self.first.value, second)
        else:
            self.refused.emit(translate("Draft", "Type both figures."))

    def _named(self, text: str) -> None:
        self._tool.name = text

    def _alone(self, on: bool) -> None:
        self._tool.backing_only = on
