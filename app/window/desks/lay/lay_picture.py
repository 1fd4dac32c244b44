"""A lay as a small picture, to tell lays apart that are kept side by side."""

from __future__ import annotations

import numpy as np
import shapely
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPainter, QPixmap

from app.tools.lay_table import LayTable
from app.window.canvas.paths import polyline_path
from app.window.widgets.theme import theme

WIDE_PX, HIGH_PX = 92, 38
COARSE_PX = 0.6
BOXES_FROM = 1500
"""From this many pieces on their boxes are drawn: at this size nobody sees the difference."""


def lay_picture(table: LayTable, ratio: float) -> QPixmap:
    """Return the lay on its roll; ``ratio`` is the screen's pixels for one of ours."""
    t = theme()
    wide = table.problem.roll.usable_width_mm
    long = max(table.length_mm, wide / 2)
    scale = min((WIDE_PX - 2) / long, (HIGH_PX - 2) / wide)
    pixmap = QPixmap(round((long * scale + 2) * ratio), round(HIGH_PX * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(1.0, 1.0 + wide * scale)
    painter.scale(scale, -scale)
    painter.fillRect(QRectF(0, 0, long, wide), t.colour("cloth", 50))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(t.colour("cloth_line"))
    shapes = table.polygons
    if len(shapes) >= BOXES_FROM:
        for x0, y0, x1, y1 in shapely.bounds(shapes):
            painter.drawRect(QRectF(x0, y0, x1 - x0, y1 - y0))
    elif len(shapes):
        for shape in shapely.simplify(shapes, COARSE_PX / scale):
            painter.drawPath(polyline_path(np.asarray(shape.exterior.coords), closed=True))
    painter.end()
    return pixmap
