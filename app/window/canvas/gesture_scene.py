"""What a gesture draws on a board while it lasts: the box being swept, the line being measured."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem, QGraphicsRectItem, QGraphicsScene

from app.window.canvas.items import DotItem, LabelItem
from app.window.canvas.pens import thin_pen
from app.window.widgets.theme import theme

SWEEP_Z = 30
SPAN_Z = 25
"""Above the pieces and what is drawn on them."""

Place = tuple[float, float]


class GestureScene:
    """A scene that a desk draws on; ``sweep_colour`` says what a swept box is: a choice, or a flaw."""

    sweep_colour = "accent"

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._sweep: QGraphicsRectItem | None = None
        self._span: list[QGraphicsItem] = []

    def show_sweep(self, box_mm: tuple[float, float, float, float] | None) -> None:
        """Show the box being swept, or none."""
        if self._sweep is not None:
            self._scene.removeItem(self._sweep)
            self._sweep = None
        if box_mm is not None:
            t = theme()
            self._sweep = QGraphicsRectItem(QRectF(QPointF(*box_mm[:2]), QPointF(*box_mm[2:])))
            self._sweep.setPen(thin_pen(t.colour(self.sweep_colour), 1.2, (4.0, 3.0)))
            self._sweep.setBrush(t.colour(self.sweep_colour, 28))
            self._sweep.setZValue(SWEEP_Z)
            self._scene.addItem(self._sweep)

    def show_span(self, a: Place | None, b: Place | None, text: str = "") -> None:
        """Show a measured line with its length on a plate at its middle, or none."""
        for item in self._span:
            self._scene.removeItem(item)
        self._span = [] if a is None or b is None else _span_items(a, b, text)
        for item in self._span:
            self._scene.addItem(item)


def _span_items(a: tuple[float, float], b: tuple[float, float], text: str) -> list[QGraphicsItem]:
    """Return the items of a line from ``a`` to ``b`` (board mm), the topmost last; without ``text`` no plate."""
    t = theme()
    path = QPainterPath(QPointF(*a))
    path.lineTo(QPointF(*b))
    line = QGraphicsPathItem(path)
    line.setPen(thin_pen(t.colour("accent"), 1.6))
    items: list[QGraphicsItem] = [line]
    for end in (a, b):
        dot = DotItem(3.5, t.colour("field"), t.colour("accent"))
        dot.setPos(QPointF(*end))
        items.append(dot)
    if text:
        label = LabelItem(text, ink=t.colour("accent_ink"), plate=t.colour("accent"), points=9.0, bold=True)
        label.setPos(QPointF((a[0] + b[0]) / 2, (a[1] + b[1]) / 2))
        items.append(label)
    for above, item in enumerate(items):
        item.setZValue(SPAN_Z + above)
    return items
