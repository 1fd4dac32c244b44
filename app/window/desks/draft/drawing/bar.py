"""The strip above the board while something is drawn: exact figures beside the pointer."""

from __future__ import annotations

import math

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QLabel, QPushButton, QWidget

from app.style.model import PieceData, Style
from app.tools.draw import DrawTool
from app.tools.outcome import Sketch
from app.window.widgets.fields import LengthField, NumberField
from app.window.widgets.lengths import Lengths

translate = QCoreApplication.translate


class DrawBar(QWidget):
    """Writes what is typed into its tool. ``point_typed`` and ``ended`` ask for a point, or the line's end."""

    point_typed = Signal(float, float)
    ended = Signal()

    def __init__(self, lengths: Lengths, tool: DrawTool) -> None:
        super().__init__()
        self._tool = tool
        self._lengths = lengths
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 2, 10, 4)
        layout.setSpacing(6)
        self.what = QLabel()
        self.what.setProperty("role", "heading")
        layout.addWidget(self.what)
        layout.addSpacing(8)
        self.layer = QComboBox()
        self.layer.setAccessibleName(translate("Draft", "Layer drawn on"))
        self.layer.activated.connect(self._layer)
        layout.addWidget(self.layer)
        self.length = LengthField(translate("Draft", "Length of the step"), lengths)
        self.angle = NumberField(translate("Draft", "Angle of the step"))
        self.figure = LengthField(translate("Draft", "Overlap or radius"), lengths)
        self.figure_name = QLabel()
        for name, field in (("Length", self.length), ("Angle", self.angle)):
            text = translate("Draft", "Length") if name == "Length" else translate("Draft", "Angle")
            layout.addWidget(QLabel(text))
            field.setFixedWidth(70)
            layout.addWidget(field)
        self.set_point = QPushButton(translate("Draft", "Set point"))
        self.set_point.clicked.connect(self._typed)
        layout.addWidget(self.set_point)
        layout.addSpacing(8)
        layout.addWidget(self.figure_name)
        self.figure.setFixedWidth(70)
        self.figure.entered.connect(self._figure)
        layout.addWidget(self.figure)
        self.smooth = QCheckBox(translate("Draft", "Smooth"))
        self.smooth.toggled.connect(self._smooth)
        self.outside = QCheckBox(translate("Draft", "Keep free"))
        self.outside.toggled.connect(self._outside)
        layout.addWidget(self.smooth)
        layout.addWidget(self.outside)
        layout.addStretch(1)
        self.done = QPushButton(translate("Draft", "End the line"))
        self.done.clicked.connect(self.ended)
        layout.addWidget(self.done)
        self.hide()

    def begin(self, mode: str, style: Style | None) -> None:
        """Show the fields of a mode."""
        self.what.setText(
            {
                "cut": translate("Draft", "Cut line"),
                "region": translate("Draft", "Region"),
                "split": translate("Draft", "Split"),
                "change": translate("Draft", "Change by hand"),
                "notch": translate("Draft", "Notch"),
                "drill": translate("Draft", "Drill hole"),
            }[mode]
        )
        line = mode not in ("notch", "drill")
        for widget in (self.length, self.angle, self.set_point, self.smooth, self.done, self.layer):
            widget.setEnabled(line)
        figure = {"split": translate("Draft", "Overlap"), "region": translate("Draft", "Corner radius")}
        self.figure_name.setText(figure.get(mode, ""))
        self.figure.setVisible(mode in figure)
        value = self._tool.overlap_mm if mode == "split" else self._tool.rounded_mm
        self.figure.set_value(value)
        self.outside.setVisible(mode == "region")
        piece = None
        if style is not None and self._tool.piece:
            piece = next((p for p in style.pieces if p.name == self._tool.piece), None)
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
        held = next(
            (i for i in range(self.layer.count()) if self.layer.itemData(i)[0] == self._tool.layer), 0
        )
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

    def _layer(self, index: int) -> None:
        data = self.layer.itemData(index)
        if data is not None:
            self._tool.layer, self._tool.cloth = data

    def _figure(self, value: object) -> None:
        if isinstance(value, float) and value >= 0.0:
            if self._tool.mode == "split":
                self._tool.overlap_mm = value
            else:
                self._tool.rounded_mm = value

    def _smooth(self, on: bool) -> None:
        self._tool.smooth = on

    def _outside(self, on: bool) -> None:
        self._tool.outside = on
