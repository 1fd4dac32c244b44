"""Rulers along the board, and a scale bar on it."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QGridLayout, QWidget

from app.window.canvas.view import BoardView
from app.window.widgets.figures import localised
from app.window.widgets.lengths import Lengths, Unit
from app.window.widgets.theme import theme, ui_font
from geometry.inch import MM_PER_INCH

THICK_PX = 20
LABEL_PX = 14


def tick_steps(px_per_unit: float) -> tuple[float, int]:
    """Return the labelled step in display units (1, 2, 5 x 10^n) and its number of parts."""
    wanted = 70.0 / px_per_unit
    power = 10.0 ** math.floor(math.log10(wanted))
    for factor, parts in ((1.0, 10), (2.0, 4), (5.0, 5), (10.0, 10)):
        if power * factor >= wanted:
            return power * factor, parts
    return power * 10.0, 10


class Ruler(QWidget):
    """One ruler, beside a view, with a tick at the pointer."""

    def __init__(self, view: BoardView, lengths: Lengths, *, upright: bool) -> None:
        super().__init__()
        self._view, self._lengths, self._upright = view, lengths, upright
        self._at: float | None = None
        if upright:
            self.setFixedWidth(THICK_PX + 20)  # room for -1000
        else:
            self.setFixedHeight(THICK_PX)
        view.looked.connect(self.update)
        view.moved.connect(self._follow)

    def _follow(self, pointer) -> None:
        self._at = pointer.y_mm if self._upright else pointer.x_mm
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = theme()
        painter = QPainter(self)
        painter.fillRect(self.rect(), colours.colour("panel"))
        painter.setFont(ui_font(7.5))
        unit_mm = MM_PER_INCH if self._lengths.unit is Unit.INCH else 1.0
        px = self._view.px_per_mm * unit_mm
        step, parts = tick_steps(px)
        seen = self._view.visible_mm()
        low, high = (seen.top(), seen.bottom()) if self._upright else (seen.left(), seen.right())
        k = math.floor(low / unit_mm / step) * parts
        edge = self.width() if self._upright else self.height()
        digits = max(0, -math.floor(math.log10(step))) if step < 1 else 0
        while k * step / parts * unit_mm <= high:
            value = k * step / parts
            at = self._to_px(value * unit_mm)
            main = k % parts == 0
            painter.setPen(QPen(colours.colour("ink_faint" if main else "line"), 1))
            size = 7 if main else 4
            if self._upright:
                painter.drawLine(QPointF(edge - size, at), QPointF(edge, at))
            else:
                painter.drawLine(QPointF(at, edge - size), QPointF(at, edge))
            if main:
                painter.setPen(colours.colour("ink_soft"))
                label = (
                    f"{value + 0.0:.{digits}f}".replace("-0", "0") if value == 0 else f"{value:.{digits}f}"
                )
                if self._upright and at < LABEL_PX / 2:
                    pass  # it would be cut off at the corner
                elif self._upright:
                    box = QRectF(0, at - LABEL_PX / 2, edge - 9, LABEL_PX)
                    painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, label)
                elif at >= 0:
                    painter.drawText(QPointF(at + 3, edge - 8), label)
            k += 1
        painter.setPen(QPen(colours.colour("line"), 1))
        if self._upright:
            painter.drawLine(edge - 1, 0, edge - 1, self.height())
        else:
            painter.drawLine(0, edge - 1, self.width(), edge - 1)
        if self._at is not None:
            painter.setPen(QPen(colours.colour("accent"), 1.5))
            at = self._to_px(self._at)
            if self._upright:
                painter.drawLine(QPointF(edge - 9, at), QPointF(edge, at))
            else:
                painter.drawLine(QPointF(at, edge - 9), QPointF(at, edge))

    def _to_px(self, at_mm: float) -> float:
        point = QPointF(0.0, at_mm) if self._upright else QPointF(at_mm, 0.0)
        mapped = self._view.viewportTransform().map(point)
        return mapped.y() if self._upright else mapped.x()


class ScaleBar(QWidget):
    """A bar of a round length in the corner of the view."""

    def __init__(self, view: BoardView, lengths: Lengths) -> None:
        super().__init__(view)
        self._view, self._lengths = view, lengths
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.resize(190, 30)
        view.looked.connect(self._place)

    def sizeHint(self) -> QSize:
        return QSize(190, 30)

    def _place(self) -> None:
        self.move(14, self._view.height() - self.height() - 10)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = theme()
        painter = QPainter(self)
        unit_mm = MM_PER_INCH if self._lengths.unit is Unit.INCH else 1.0
        px = self._view.px_per_mm * unit_mm
        value = 10.0 ** math.floor(math.log10(170.0 / px))
        for factor in (5.0, 2.0):
            if value * factor * px <= 170.0:
                value *= factor
                break
        wide = value * px
        painter.setPen(QPen(colours.colour("ink_soft"), 1.4))
        base = self.height() - 6.5
        painter.drawPolyline(
            [QPointF(1, base - 5), QPointF(1, base), QPointF(1 + wide, base), QPointF(1 + wide, base - 5)]
        )
        painter.setFont(ui_font(8))
        painter.drawText(QPointF(5, base - 5), f"{localised(f'{value:g}')} {self._lengths.unit.value}")


class RuledBoard(QWidget):
    """A view with its two rulers and its scale bar."""

    def __init__(self, view: BoardView, lengths: Lengths, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.view = view
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        corner = QWidget()
        corner.setAutoFillBackground(True)
        layout.addWidget(corner, 0, 0)
        layout.addWidget(Ruler(view, lengths, upright=False), 0, 1)
        layout.addWidget(Ruler(view, lengths, upright=True), 1, 0)
        layout.addWidget(view, 1, 1)
        ScaleBar(view, lengths)
