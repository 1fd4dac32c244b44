"""The strip above the board while something is drawn: exact figures beside the pointer."""

from __future__ import annotations

import math

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QCheckBox, QLabel, QPushButton, QWidget

from app.style.model import PieceData, Style
from app.style.saved.drawn import On
from app.tools.draw import MOST, ON, DrawTool, Mode
from app.tools.outcome import Sketch
from app.window.desks.draft.drawing.two_rows import two_rows
from app.window.widgets.chooser import Chooser
from app.window.widgets.fields import LengthField, NumberField, TextField
from app.window.widgets.icons import icon
from app.window.widgets.lengths import Lengths

translate = QCoreApplication.translate
FIGURE = {"split": "overlap_mm", "region": "rounded_mm", "notch": "depth_mm", "drill": "diameter_mm"}
"""What of the tool the one figure of a mode is."""


class DrawBar(QWidget):
    """Writes what is typed into its tool. ``point_typed`` and ``ended`` ask for a point, or the line's end;
    ``refused`` says why a figure is not taken."""

    point_typed = Signal(float, float)
    ended = Signal()
    refused = Signal(str)

    def __init__(self, lengths: Lengths, tool: DrawTool) -> None:
        super().__init__()
        self._tool = tool
        self._lengths = lengths
        layout, second = two_rows(self)
        self.what = QLabel()
        self.what.setProperty("role", "heading")
        layout.addWidget(self.what)
        self.layer = Chooser()
        self.layer.setAccessibleName(translate("Draft", "Layer drawn on"))
        self.layer.activated.connect(self._layer)
        self.length = LengthField(translate("Draft", "Length of the step"), lengths)
        self.angle = NumberField(translate("Draft", "Angle of the step"))
        self.figure = LengthField(translate("Draft", "Overlap, radius, depth or diameter"), lengths)
        self.figure_name = QLabel()
        names = QLabel(translate("Draft", "Length")), QLabel(translate("Draft", "Angle"))
        for name, field in zip(names, (self.length, self.angle), strict=True):
            layout.addWidget(name)
            field.setFixedWidth(54)
            layout.addWidget(field)
        self.set_point = QPushButton(icon("add"), "")
        self.set_point.setAccessibleName(translate("Draft", "Set point"))
        self.set_point.setToolTip(translate("Draft", "Set point"))
        self.set_point.setFixedWidth(32)
        self.set_point.clicked.connect(self._typed)
        self._step = (*names, self.length, self.angle, self.set_point)
        layout.addWidget(self.set_point)
        self.layer.setMaximumWidth(130)
        second.addWidget(self.layer)
        second.addWidget(self.figure_name)
        self.figure.setFixedWidth(56)
        self.figure.entered.connect(self._figure)
        for field in (self.length, self.angle, self.figure):
            field.refused.connect(self.refused)
        second.addWidget(self.figure)
        self.parts = [TextField() for _ in range(2)]
        self._part_names = QLabel(translate("Draft", "Parts"))
        second.addWidget(self._part_names)
        sides = (translate("Draft", "left of the line"), translate("Draft", "right of the line"))
        short = (translate("Draft", "left part"), translate("Draft", "right part"))
        for part, side, shown in zip(self.parts, sides, short, strict=True):
            part.setPlaceholderText(shown)
            part.setToolTip(translate("Draft", "Name of the part {0}").format(side))
            part.setAccessibleName(translate("Draft", "Name of the part {0}").format(side))
            part.setMinimumWidth(64)
            part.setMaximumWidth(120)
            part.textChanged.connect(self._part)
            second.addWidget(part)
        self.on = Chooser()
        self.on.setAccessibleName(translate("Draft", "Drawn on"))
        for text, on in on_words():
            self.on.addItem(text, on)
        self.on.activated.connect(self._on)
        second.addWidget(self.on)
        self.smooth = QCheckBox(translate("Draft", "Smooth"))
        self.smooth.toggled.connect(self._smooth)
        self.outside = QCheckBox(translate("Draft", "Keep free"))
        self.outside.toggled.connect(self._outside)
        second.addWidget(self.smooth)
        second.addWidget(self.outside)
        second.addStretch(1)
        layout.addStretch(1)
        self.done = QPushButton(translate("Draft", "End the line"))
        self.done.clicked.connect(self.ended)
        layout.addWidget(self.done)
        self.hide()

    def begin(self, mode: Mode, style: Style | None) -> None:
        """Show the fields of a mode."""
        self.what.setText(
            {
                "cut": translate("Draft", "Cut line"),
                "region": translate("Draft", "Region"),
                "split": translate("Draft", "Split"),
                "change": translate("Draft", "Change by hand"),
                "smooth": translate("Draft", "Smooth stretch"),
                "notch": translate("Draft", "Notch"),
                "slit": translate("Draft", "Slit"),
                "mark": translate("Draft", "Mark"),
                "drill": translate("Draft", "Drill hole"),
            }[mode]
        )
        line = mode not in MOST
        for widget in (*self._step, self.done, self.smooth):
            widget.setVisible(line)
        self.layer.setVisible(mode not in ON)
        self.on.setVisible(mode in ON)
        if mode in ON:
            self._tool.on = ""
            self.on.setCurrentIndex(self.on.findData(ON[mode]))
        for shown in (self._part_names, *self.parts):
            shown.setVisible(mode == "split")
        figure = {
            "split": translate("Draft", "Overlap"),
            "region": translate("Draft", "Corner radius"),
            "notch": translate("Draft", "Depth"),
            "drill": translate("Draft", "Diameter"),
        }
        self.figure_name.setText(figure.get(mode, ""))
        for shown in (self.figure_name, self.figure):
            shown.setVisible(mode in figure)
        if mode in FIGURE:
            self.figure.set_value(getattr(self._tool, FIGURE[mode]))
        self.outside.setVisible(mode == "region")
        piece = None
        if style is not None and self._tool.piece:
            piece = next((p for p in style.pieces if p.name == self._tool.piece), None)
        self._tool.layer = max(self._tool.layer, 0)  # a new layer is asked for each time
        self.offer_layers(style, piece)
        self.show()

    def offer_layers(self, style: Style | None, piece: PieceData | None) -> None:
        """Offer the layers of a piece, and a new one of each cloth."""
        self.layer.clear()
        if style is None:
            return
        count = len(piece.layers) if piece is not None else 1
        for number in range(count):
            self.layer.addItem(translate("Draft", "layer {0}").format(number + 1), (number, ""))
        for cloth in style.cloths:
            self.layer.addItem(translate("Draft", "new layer of {0}").format(cloth.name), (-1, cloth.id))
        chosen = (self._tool.layer, self._tool.cloth)  # a new layer chosen keeps its cloth on another piece
        held = next((i for i in range(self.layer.count()) if self.layer.itemData(i) == chosen), 0)
        self.layer.setCurrentIndex(held)
        self._layer(held)

    def show_step(self, sketch: Sketch) -> None:
        """Show length and angle of the step being drawn, unless a figure is being typed."""
        if sketch.step_mm is None or self.length.hasFocus() or self.angle.hasFocus():
            return
        (ax, ay), (bx, by) = sketch.step_mm
        self.length.set_value(math.hypot(bx - ax, by - ay))
        self.angle.set_value(math.degrees(math.atan2(by - ay, bx - ax)))

    def _typed(self) -> None:
        length, angle = self.length.value, self.angle.value
        if length is not None and angle is not None:
            self.point_typed.emit(length, angle)
        else:
            self.refused.emit(translate("Draft", "Type length and angle of the step."))

    def _layer(self, index: int) -> None:
        data = self.layer.itemData(index)
        if data is not None:
            self._tool.layer, self._tool.cloth = data

    def _figure(self, value: object) -> None:
        held = FIGURE[self._tool.mode]
        if isinstance(value, float) and value >= 0.0:
            setattr(self._tool, held, value)
            return
        self.figure.set_value(getattr(self._tool, held))
        self.refused.emit(translate("Draft", "{0}: 0 or more.").format(self.figure_name.text()))

    def _smooth(self, on: bool) -> None:
        self._tool.smooth = on

    def _part(self) -> None:
        self._tool.names = (self.parts[0].text(), self.parts[1].text())

    def _on(self, index: int) -> None:
        self._tool.on = self.on.itemData(index)

    def _outside(self, on: bool) -> None:
        self._tool.outside = on


def on_words() -> list[tuple[str, On]]:
    """Return what a detail can be drawn on, in words."""
    return [
        (translate("Draft", "on upper and backing"), "both"),
        (translate("Draft", "on the upper"), "upper"),
        (translate("Draft", "on the backing"), "backing"),
    ]
