"""The size nest: the outlines of all sizes of a piece, drawn thin over the one shown."""

from __future__ import annotations

from PySide6.QtGui import QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem

from app.style.model import Style
from app.style.pieces import upper_piece
from app.window.canvas.paths import outline_path
from app.window.canvas.pens import thin_pen
from app.window.widgets.theme import theme
from geometry.errors import GeometryError
from geometry.outline import Outline
from geometry.sizing.sizes import in_order

Nest = tuple[tuple[Outline, ...], tuple[Outline, ...]]
"""The outlines of the smaller and of the larger sizes."""

NO_NEST: Nest = ((), ())


def nest_of(style: Style, piece: str, size: str) -> Nest:
    """Return the other sizes of a piece; one that cannot be graded is left out (its finding says why)."""
    smaller: list[Outline] = []
    larger: list[Outline] = []
    into = smaller
    for other in in_order(style.size_run.sizes):
        if other == size:
            into = larger
            continue
        try:
            into.append(upper_piece(style, piece, other, style.piece(piece).hand).outline)
        except GeometryError:
            continue
    return tuple(smaller), tuple(larger)


def same_nest(a: Nest, b: Nest) -> bool:
    """Whether two nests are drawn alike: outlines are cached by identity."""
    return all(
        len(x) == len(y) and all(p is q for p, q in zip(x, y, strict=True)) for x, y in zip(a, b, strict=True)
    )


def draw_nest(group: QGraphicsItem, nest: Nest) -> None:
    """Draw a nest into a piece's group: smaller sizes in one colour, larger ones in another."""
    for outlines, role in zip(nest, ("note", "accent"), strict=True):
        if not outlines:
            continue
        path = QPainterPath()
        for outline in outlines:
            path.addPath(outline_path(outline))
        item = QGraphicsPathItem(path, group)
        item.setPen(thin_pen(theme().colour(role, 170), 1.0))
        item.setZValue(2.2)
