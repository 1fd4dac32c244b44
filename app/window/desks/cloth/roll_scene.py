"""A stretch of roll on the board: selvedges, usable width, tight direction, flaws."""

from __future__ import annotations

import math

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem, QGraphicsRectItem, QGraphicsScene

from app.style.model import ClothData
from app.window.canvas.gesture_scene import GestureScene
from app.window.canvas.items import LabelItem
from app.window.canvas.paths import polyline_path
from app.window.canvas.pens import thin_pen
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import theme

STRETCH_MM = 2400.0
ARROW_MM = 120.0


class RollScene(GestureScene):
    """Keeps a scene like a cloth; what is swept on it is a flaw."""

    sweep_colour = "error"

    def __init__(self, scene: QGraphicsScene, lengths: Lengths) -> None:
        super().__init__(scene)
        self._lengths = lengths
        self._items: list[QGraphicsItem] = []
        self._bounds = QRectF()

    @property
    def bounds(self) -> QRectF:
        """Box of the stretch shown, selvedges included."""
        return self._bounds

    def show(self, cloth: ClothData, chosen: int) -> None:
        """Draw the roll of ``cloth``; the flaw of index ``chosen`` is selected."""
        t = theme()
        for item in self._items:
            self._scene.removeItem(item)
        self._items = []
        long = max([STRETCH_MM] + [x + 400.0 for flaw in cloth.flaws for x, _ in flaw.ring_mm])
        wide = cloth.usable_width_mm
        edge = max((cloth.width_mm - wide) / 2, 0.0)
        self._bounds = QRectF(0, -edge, long, wide + 2 * edge)
        self._rect(QRectF(0, -edge, long, wide + 2 * edge), t.colour("cloth", 150))
        self._rect(QRectF(0, 0, long, wide), t.colour("cloth", 60))
        ends = QPainterPath()
        for y in (0.0, wide):
            ends.moveTo(0, y)
            ends.lineTo(long, y)
        self._path(ends, thin_pen(t.colour("cloth_line"), 1.2, (6.0, 3.0)), 2)
        rim = QPainterPath(QPointF(long, -edge))
        rim.lineTo(0, -edge)
        rim.lineTo(0, wide + edge)
        rim.lineTo(long, wide + edge)
        self._path(rim, thin_pen(t.colour("cloth_line"), 2.0), 2)
        self._weave(long, wide, cloth)
        self._direction(long, wide, cloth)
        for index, flaw in enumerate(cloth.flaws):
            on = index == chosen
            colour = t.colour("error")
            item = self._path(
                polyline_path(flaw.ring_mm, closed=True), thin_pen(colour, 2.6 if on else 1.4), 5
            )
            fill = t.colour("error", 70 if on else 40)
            item.setBrush(QBrush(fill, Qt.BrushStyle.BDiagPattern if not on else Qt.BrushStyle.SolidPattern))
            if flaw.note:
                self._label(flaw.note, flaw.ring_mm[0])
        if edge > 0:
            self._label(self._lengths.text(wide, 0), (long * 0.985 - 60, wide / 2))

    def _weave(self, long: float, wide: float, cloth: ClothData) -> None:
        """Fine lines along the tight direction, so that it is seen at a glance."""
        t = theme()
        angle = math.radians(cloth.tight_direction_deg)
        path = QPainterPath()
        step = 40.0
        dx, dy = math.cos(angle), math.sin(angle)
        reach = long * abs(dy) + wide * abs(dx)
        for k in range(-int(reach / step) - 1, int(reach / step) + 2):
            px, py = -dy * k * step, dx * k * step
            line = _clipped(px, py, dx, dy, long, wide)
            if line is not None:
                path.moveTo(line.p1())
                path.lineTo(line.p2())
        self._path(path, thin_pen(t.colour("cloth_line", 46), 1.0), 1)

    def _direction(self, long: float, wide: float, cloth: ClothData) -> None:
        t = theme()
        angle = math.radians(cloth.tight_direction_deg)
        ux, uy = math.cos(angle), math.sin(angle)
        half = min(ARROW_MM * 2.2, wide * 0.32)
        cx, cy = min(long, STRETCH_MM) / 2, wide / 2
        path = QPainterPath()
        for sign in (-1.0, 1.0):
            ex, ey = cx + sign * half * ux, cy + sign * half * uy
            path.moveTo(cx, cy)
            path.lineTo(ex, ey)
            for side in (-1.0, 1.0):
                path.moveTo(ex, ey)
                path.lineTo(
                    ex - sign * 34 * ux + side * 16 * uy,
                    ey - sign * 34 * uy - side * 16 * ux,
                )
        known = cloth.how_known not in ("assumed", "example")
        pen = thin_pen(t.colour("ink" if known else "question"), 2.6, () if known else (4.0, 2.5))
        self._path(path, pen, 4)

    def _rect(self, rect: QRectF, fill: object) -> None:
        item = QGraphicsRectItem(rect)
        item.setPen(QPen(Qt.PenStyle.NoPen))
        item.setBrush(fill)  # type: ignore[arg-type]
        self._scene.addItem(item)
        self._items.append(item)

    def _path(self, path: QPainterPath, pen: QPen, z: float) -> QGraphicsPathItem:
        item = QGraphicsPathItem(path)
        item.setPen(pen)
        item.setZValue(z)
        self._scene.addItem(item)
        self._items.append(item)
        return item

    def _label(self, text: str, at_mm: tuple[float, float]) -> None:
        label = LabelItem(text, points=9.0)
        label.setPos(QPointF(*at_mm))
        label.setZValue(6)
        self._scene.addItem(label)
        self._items.append(label)


def _clipped(px: float, py: float, dx: float, dy: float, long: float, wide: float) -> QLineF | None:
    """Return the part of the line through (px, py) along (dx, dy) inside the roll."""
    low, high = -1e9, 1e9
    for p, d, top in ((px, dx, long), (py, dy, wide)):
        if abs(d) < 1e-9:
            if not 0 <= p <= top:
                return None
            continue
        a, b = sorted(((0 - p) / d, (top - p) / d))
        low, high = max(low, a), min(high, b)
    if high <= low:
        return None
    return QLineF(px + low * dx, py + low * dy, px + high * dx, py + high * dy)
