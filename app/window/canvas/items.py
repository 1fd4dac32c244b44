"""Small things on a board that keep their size in pixels: labels, rings, handles."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from app.window.widgets.theme import theme, ui_font


@lru_cache(maxsize=1024)
def _extent_px(text: str, points: float, bold: bool) -> tuple[float, float]:
    """Return width and height of a text: every frame of a drag makes its labels again."""
    metrics = QFontMetricsF(ui_font(points, bold=bold))
    box = metrics.boundingRect(text)
    if "\n" in text:
        box = metrics.boundingRect(QRectF(), Qt.AlignmentFlag.AlignCenter.value, text)
    return box.width(), box.height()


class LabelItem(QGraphicsItem):
    """A short text, of one line or several, on a small plate, its middle ``shift_px`` off the item's position."""

    def __init__(
        self,
        text: str,
        parent: QGraphicsItem | None = None,
        *,
        ink: QColor | None = None,
        plate: QColor | None = None,
        points: float = 8.0,
        bold: bool = False,
        shift_px: tuple[float, float] = (0.0, 0.0),
    ) -> None:
        super().__init__(parent)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self._text = text
        self._font = ui_font(points, bold=bold)
        self._ink = ink or theme().colour("ink")
        self._plate = plate if plate is not None else theme().colour("canvas", 225)
        text_wide, text_high = _extent_px(text, points, bold)
        wide, high = text_wide + 7, text_high + 1
        self._box = QRectF(shift_px[0] - wide / 2, shift_px[1] - high / 2, wide, high)

    def boundingRect(self) -> QRectF:
        return self._box.adjusted(-1, -1, 1, 1)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._plate)
        painter.drawRoundedRect(self._box, 3, 3)
        painter.setPen(self._ink)
        painter.setFont(self._font)
        painter.drawText(self._box, Qt.AlignmentFlag.AlignCenter, self._text)


class DotItem(QGraphicsItem):
    """A round or square handle of a few pixels."""

    def __init__(
        self,
        radius_px: float,
        fill: QColor,
        line: QColor,
        parent: QGraphicsItem | None = None,
        *,
        square: bool = False,
    ) -> None:
        super().__init__(parent)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self._radius, self._fill, self._line, self._square = radius_px, fill, line, square

    def boundingRect(self) -> QRectF:
        r = self._radius + 2
        return QRectF(-r, -r, 2 * r, 2 * r)

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        painter.setPen(QPen(self._line, 1.6))
        painter.setBrush(self._fill)
        if self._square:
            r = self._radius
            painter.drawRect(QRectF(-r, -r, 2 * r, 2 * r))
        else:
            painter.drawEllipse(QPointF(0, 0), self._radius, self._radius)


class RingItem(DotItem):
    """A ring round a place that a finding speaks of."""

    def __init__(self, colour: QColor, parent: QGraphicsItem | None = None) -> None:
        fill = QColor(colour)
        fill.setAlpha(40)
        super().__init__(13, fill, colour, parent)
