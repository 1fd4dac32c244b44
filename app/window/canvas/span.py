"""A measured line on a board: its ends, and its length in words on a plate at its middle."""

from __future__ import annotations

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem

from app.window.canvas.items import DotItem, LabelItem
from app.window.canvas.pens import thin_pen
from app.window.widgets.theme import theme

SPAN_Z = 25
"""Above the pieces and what is drawn on them."""


def span_items(a: tuple[float, float], b: tuple[float, float], text: str) -> list[QGraphicsItem]:
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
