"""The line being drawn on the board: its points, the step to the pointer, what the last point lies on."""

from __future__ import annotations

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem, QGraphicsScene

from app.tools.outcome import Sketch
from app.window.canvas.items import DotItem, LabelItem
from app.window.canvas.pens import halo_pen, thin_pen
from app.window.widgets.theme import theme


class BoardSketch:
    """Shows one sketch at a time."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._items: list[QGraphicsItem] = []

    def show(self, sketch: Sketch, words: str = "") -> None:
        """Show a sketch with words at its last point; an empty one takes it away."""
        for item in self._items:
            self._scene.removeItem(item)
        self._items = []
        if not sketch.points_mm:
            return
        t = theme()
        points = [QPointF(*point) for point in sketch.points_mm]
        path = QPainterPath(points[0])
        for point in points[1:]:
            path.lineTo(point)
        if sketch.closed and len(points) > 2:
            path.lineTo(points[0])
        for pen, z in (
            (halo_pen(t.colour("canvas", 200), 5.0), 24.0),
            (thin_pen(t.colour("accent"), 1.8), 24.5),
        ):
            line = QGraphicsPathItem(path)
            line.setPen(pen)
            line.setZValue(z)
            self._add(line)
        for point in points:
            dot = DotItem(3.2, t.colour("field"), t.colour("accent"), square=True)
            dot.setPos(point)
            dot.setZValue(25)
            self._add(dot)
        if words:
            label = LabelItem(
                words, ink=t.colour("accent_ink"), plate=t.colour("accent"), points=8.0, shift_px=(0.0, -20.0)
            )
            label.setPos(points[-1])
            label.setZValue(26)
            self._add(label)

    def _add(self, item: QGraphicsItem) -> None:
        self._scene.addItem(item)
        self._items.append(item)
