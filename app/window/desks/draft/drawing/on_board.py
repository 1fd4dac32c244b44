"""What was drawn on a backing, on the board: notches, slits, laps, holes, words, stretches changed by hand."""

from __future__ import annotations

import math
from collections.abc import Sequence

from PySide6.QtCore import QPointF
from PySide6.QtGui import QFont, QPainterPath, QTransform
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem

from app.tools.board import BoardEdge
from app.window.canvas.items import LabelItem
from app.window.canvas.paths import polyline_path
from app.window.canvas.pens import halo_pen, thin_pen
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import theme
from geometry.piece import BackingPiece, Lettering

TICK_MM = 2.5
NEAR_END = 0.05
"""Where a setback that changes along its edge is figured: this share of the edge from either end."""


def draw_on_backing(group: QGraphicsItem, backing: BackingPiece) -> None:
    """Add what is on a backing to its piece's group."""
    t = theme()
    line = t.colour("cloth_line")
    for notch in backing.notches:
        angle = math.radians(notch.angle_deg)
        path = QPainterPath(QPointF(notch.x_mm, notch.y_mm))
        path.lineTo(notch.x_mm + TICK_MM * math.cos(angle), notch.y_mm + TICK_MM * math.sin(angle))
        _add(group, path, thin_pen(line, 1.4), 2.0)
    for mark in backing.marks:
        dash = () if mark.kind == "slit" else (4.0, 3.0)
        _add(group, polyline_path(mark.points_mm, closed=mark.closed), thin_pen(line, 1.3, dash=dash), 2.0)
    for hole in backing.drill_holes:
        path = QPainterPath()
        radius = max(hole.diameter_mm / 2, 0.8)
        path.addEllipse(QPointF(hole.x_mm, hole.y_mm), radius, radius)
        _add(group, path, thin_pen(line, 1.2), 2.0)
    for change in backing.changes:
        path = polyline_path(change.points_mm)
        _add(group, path, halo_pen(t.colour("warning", 110), 7.0), 2.2)
    draw_words(group, backing.letterings, "cloth_line")
    if len(backing.outlines) > 1:
        for number, outline in enumerate(backing.outlines):
            spot = outline.polygon.representative_point()
            label = LabelItem(backing.part_name(number), group, ink=line, points=7.5)
            label.setPos(QPointF(spot.x, spot.y))
            label.setZValue(5)


def draw_words(group: QGraphicsItem, words: Sequence[Lettering], role: str) -> None:
    """Add words to a piece's group, as large as they will be written."""
    t = theme()
    for word in words:
        item = QGraphicsPathItem(word_path(word), group)
        item.setPen(thin_pen(t.colour(role), 0.5))
        item.setBrush(t.colour(role))
        item.setZValue(2.1)


def word_path(word: Lettering) -> QPainterPath:
    """Return a word as large as it will be written, where it stands."""
    path = QPainterPath()
    font = QFont("Source Sans Pro")
    font.setPixelSize(100)
    path.addText(0.0, 0.0, font, word.text)
    scale = word.height_mm / 66.0  # a capital is about two thirds of the em
    place = QTransform.fromTranslate(word.x_mm, word.y_mm)
    place.rotate(word.angle_deg)
    place.scale(scale, -scale)  # letters run down on the screen, the board runs up
    return place.map(path)


def figured_setbacks(edge: BoardEdge) -> list[tuple[float, float, float]]:
    """Return where along an edge (share of its length) its setback is figured, the setback there and the figure.

    In the middle; near both ends where it changes along the edge, the figure that of the end itself. mm.
    """
    start, end = edge.setback_mm, edge.edge.setback_end_mm
    if end is None:
        return [(0.5, start, start)]
    step = NEAR_END * (end - start)
    return [(NEAR_END, start + step, start), (1.0 - NEAR_END, end - step, end)]


def setback_text(setback_mm: float, lengths: Lengths) -> str:
    """Return a setback's figure, as short as can be."""
    return _short(lengths.number(setback_mm), lengths.decimal_point)


def _short(text: str, point: str) -> str:
    return text.rstrip("0").rstrip(point) if point in text else text


def _add(group: QGraphicsItem, path: QPainterPath, pen: object, z: float) -> None:
    item = QGraphicsPathItem(path, group)
    item.setPen(pen)  # type: ignore[arg-type]
    item.setZValue(z)
