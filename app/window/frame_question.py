"""Asks whether a rectangle round the pieces is the sheet's frame: both answers are shown as pictures."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import (
    QButtonGroup,
    QHBoxLayout,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from app.window.widgets.question_dialog import QuestionDialog
from app.window.widgets.theme import theme
from geometry.dxf.drafts import FrameAnswer
from geometry.dxf.read import ReadDrawing

translate = QCoreApplication.translate
MARGIN_PX = 14


class FrameQuestion(QuestionDialog):
    """Shows the pieces that each answer gives; ``answer`` is the one chosen."""

    def __init__(
        self, path: Path, dropped: ReadDrawing, kept: ReadDrawing, parent: QWidget | None = None
    ) -> None:
        head = translate("Import", "In {0} a rectangle lies round the pieces. What is it?")
        super().__init__(translate("Import", "Frame of the sheet"), head.format(path.name), parent)
        across = QHBoxLayout()
        across.setSpacing(18)
        self.group = QButtonGroup(self)
        words = (
            translate("Import", "The frame of the sheet: leave it out"),
            translate("Import", "A piece: what lies in it is cut out"),
        )
        for number, (word, drawing) in enumerate(zip(words, (dropped, kept), strict=True)):
            column = QVBoxLayout()
            picture = _Pieces(drawing)
            picture.setAccessibleName(word)
            column.addWidget(picture, 1)
            button = QRadioButton(word)
            button.setChecked(number == 0)
            self.group.addButton(button, number)
            column.addWidget(button)
            across.addLayout(column)
        self.column.addLayout(across, 1)
        self.finish()

    @property
    def answer(self) -> FrameAnswer:
        """The answer chosen."""
        return "keep" if self.group.checkedId() == 1 else "drop"


class _Pieces(QWidget):
    """The pieces of a drawing, filled, cut-outs open."""

    def __init__(self, drawing: ReadDrawing) -> None:
        super().__init__()
        self.setMinimumSize(280, 210)
        self._path = QPainterPath()
        self._path.setFillRule(Qt.FillRule.OddEvenFill)
        for piece in drawing.pieces:
            for ring in piece.outline.rings_mm:
                self._path.addPolygon(QPolygonF([QPointF(float(x), -float(y)) for x, y in ring]))
                self._path.closeSubpath()

    def paintEvent(self, event: QPaintEvent) -> None:
        box: QRectF = self._path.boundingRect()
        room = QRectF(self.rect()).adjusted(MARGIN_PX, MARGIN_PX, -MARGIN_PX, -MARGIN_PX)
        scale = min(room.width() / max(box.width(), 1e-6), room.height() / max(box.height(), 1e-6))
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), theme().colour("canvas"))
        painter.translate(room.center())
        painter.scale(scale, scale)
        painter.translate(-box.center())
        pen = QPen(theme().colour("ink"), 1.5)
        pen.setCosmetic(True)
        painter.setPen(pen)
        painter.setBrush(theme().colour("leather"))
        painter.drawPath(self._path)
        painter.end()
