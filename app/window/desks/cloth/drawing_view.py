"""A drawing of the papers shown in the window, in the theme's colours."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from app.papers.formats.drawing import Box, Circle, Colour, Drawing, Fill, Line, Pen, Text
from app.papers.layout import pens
from app.window.widgets.theme import theme, ui_font
from app.window.wording.core_words import told_text

ROLES = {
    pens.INK: "ink",
    pens.TEAL: "cloth_line",
    pens.GREY: "ink_soft",
    pens.PALE: "accent_soft",
    pens.MIST: "panel_deep",
    pens.WHITE: "field",
    (0.0, 0.0, 0.0): "ink",
}

EDGE_PX = 2.0
"""No letter comes closer to the edge of the view."""


class DrawingView(QWidget):
    """Shows the part ``box`` (mm) of a drawing as large as it fits."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setMinimumSize(240, 200)
        self._drawing: Drawing | None = None
        self._box: Box = (0.0, 0.0, 1.0, 1.0)

    def show_drawing(self, drawing: Drawing | None, box: Box = (0.0, 0.0, 1.0, 1.0)) -> None:
        """Show a drawing, or nothing."""
        self._drawing, self._box = drawing, box
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(420, 360)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._drawing is None:
            return
        x0, y0, x1, y1 = self._box
        scale = min(self.width() / (x1 - x0), self.height() / (y1 - y0))
        left = (self.width() - scale * (x1 - x0)) / 2 - scale * x0
        foot = self.height() - (self.height() - scale * (y1 - y0)) / 2 + scale * y0

        def at(x: float, y: float) -> QPointF:
            return QPointF(left + scale * x, foot - scale * y)

        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for mark in self._drawing.walk():
            if isinstance(mark, Line):
                painter.setPen(_pen(mark.pen, scale))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                ring = QPolygonF([at(x, y) for x, y in mark.points_mm])
                painter.drawPolygon(ring) if mark.closed else painter.drawPolyline(ring)
            elif isinstance(mark, Fill):
                painter.setPen(Qt.PenStyle.NoPen)
                painter.setBrush(_colour(mark.colour))
                for points in mark.rings_mm:
                    painter.drawPolygon(QPolygonF([at(x, y) for x, y in points]))
            elif isinstance(mark, Circle):
                painter.setPen(_pen(mark.pen, scale))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                r = mark.radius_mm * scale
                painter.drawEllipse(at(mark.x_mm, mark.y_mm), r, r)
            elif isinstance(mark, Text):
                told = replace(mark, text=told_text(mark.text))
                _letter(painter, told, at(mark.x_mm, mark.y_mm), scale, self.width())
        painter.end()


def _letter(painter: QPainter, mark: Text, at: QPointF, scale: float, room_px: float) -> None:
    font = ui_font(9.0, bold=mark.bold)
    font.setPixelSize(max(11, min(15, round(mark.size_mm * scale))))
    painter.setFont(font)
    painter.setPen(_colour(mark.colour))
    wide = painter.fontMetrics().horizontalAdvance(mark.text)
    x = at.x() - {"left": 0, "middle": wide / 2, "right": wide}[mark.anchor]
    x = max(EDGE_PX, min(x, room_px - wide - EDGE_PX))  # a word in another language may be longer
    painter.drawText(QPointF(x, at.y()), mark.text)


def _colour(colour: Colour) -> QColor:
    role = ROLES.get(colour)
    return theme().colour(role) if role is not None else QColor.fromRgbF(*colour)


def _pen(pen: Pen, scale: float) -> QPen:
    wide = max(1.0, pen.width_mm * scale * 0.8)
    made = QPen(_colour(pen.colour), wide)
    if pen.dash_mm:
        made.setDashPattern([max(dash * scale / wide, 0.5) for dash in pen.dash_mm])
    return made
