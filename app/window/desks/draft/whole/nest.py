"""The size nest: all sizes of a piece drawn thin over the one shown, with what is drawn on it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem

from app.style.model import Style
from app.style.pieces import piece_backings, upper_piece
from app.style.saved.grounds import has_drawn
from app.window.canvas.paths import outline_path, polyline_path
from app.window.canvas.pens import thin_pen
from app.window.desks.draft.drawing.on_board import word_path
from app.window.widgets.theme import theme
from geometry.errors import GeometryError
from geometry.piece import BackingPiece, UpperPiece
from geometry.sizing.sizes import in_order

TICK_MM = 2.0


@dataclass(frozen=True, eq=False)
class NestSize:
    """A piece in one size; ``drawn``: something is drawn on it, which is seen graded on upper and backings."""

    upper: UpperPiece
    backings: tuple[BackingPiece, ...] = ()
    drawn: bool = False


Nest = tuple[tuple[NestSize, ...], tuple[NestSize, ...]]
"""The smaller and the larger sizes."""

NO_NEST: Nest = ((), ())


def nest_of(style: Style, piece: str, size: str, *, drawn: bool) -> Nest:
    """Return the other sizes of a piece; one that cannot be graded is left out (its finding says why).

    ``drawn`` asks for what is drawn on it too, where anything is: its backings are derived in all sizes.
    """
    smaller: list[NestSize] = []
    larger: list[NestSize] = []
    into = smaller
    data = style.piece(piece)
    drawn = drawn and (has_drawn(data) or any(edge.setback_end_mm is not None for edge in data.edges))
    for other in in_order(style.size_run.sizes):
        if other == size:
            into = larger
            continue
        try:
            upper = upper_piece(style, piece, other, data.hand)
            backings = piece_backings(style, piece, other, data.hand) if drawn else ()
            into.append(NestSize(upper, backings, drawn))
        except GeometryError:
            continue
    return tuple(smaller), tuple(larger)


def same_nest(a: Nest, b: Nest) -> bool:
    """Whether two nests are drawn alike: pieces are cached by identity."""
    return all(
        len(x) == len(y) and all(_same(p, q) for p, q in zip(x, y, strict=True))
        for x, y in zip(a, b, strict=True)
    )


def _same(a: NestSize, b: NestSize) -> bool:
    return (
        a.upper is b.upper
        and a.drawn == b.drawn
        and len(a.backings) == len(b.backings)
        and all(x is y for x, y in zip(a.backings, b.backings, strict=True))
    )


def draw_nest(group: QGraphicsItem, nest: Nest) -> None:
    """Draw a nest into a piece's group: smaller sizes in one colour, larger ones in another."""
    for sizes, role in zip(nest, ("note", "accent"), strict=True):
        if not sizes:
            continue
        outlines = QPainterPath()
        for each in sizes:
            outlines.addPath(outline_path(each.upper.outline))
        for path, dash, z in ((outlines, (), 2.2), (drawn_path(sizes), (4.0, 2.0), 2.25)):
            if not path.isEmpty():
                item = QGraphicsPathItem(path, group)
                item.setPen(thin_pen(theme().colour(role, 170), 1.0, dash=dash))
                item.setZValue(z)


def drawn_path(sizes: Sequence[NestSize]) -> QPainterPath:
    """Return what is drawn on a piece in these sizes, as it lies on each: uppers, backings and their outlines."""
    path = QPainterPath()
    for each in sizes:
        if each.drawn:
            _add_details(path, each.upper)
        for backing in each.backings:
            for outline in backing.outlines:
                path.addPath(outline_path(outline))
            _add_details(path, backing)
    return path


def _add_details(path: QPainterPath, on: UpperPiece | BackingPiece) -> None:
    """Add notches, slits, marks, holes and words."""
    for mark in on.marks:
        path.addPath(polyline_path(mark.points_mm, closed=mark.closed))
    for notch in on.notches:
        angle = math.radians(notch.angle_deg)
        path.moveTo(notch.x_mm, notch.y_mm)
        path.lineTo(notch.x_mm + TICK_MM * math.cos(angle), notch.y_mm + TICK_MM * math.sin(angle))
    for hole in on.drill_holes:
        radius = max(hole.diameter_mm / 2, 0.8)
        path.addEllipse(QPointF(hole.x_mm, hole.y_mm), radius, radius)
    for word in on.letterings:
        path.addPath(word_path(word))
