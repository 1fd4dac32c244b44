"""The traced cards over their picture laid flat, in mm of the sheet."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QImage, QPainterPath, QPixmap, QTransform
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem, QGraphicsPixmapItem, QGraphicsScene

from app.papers.layout.marks import notch_lines
from app.window.canvas.gesture_scene import GestureScene
from app.window.canvas.items import DotItem, LabelItem
from app.window.canvas.paths import outline_path, polyline_path
from app.window.canvas.pens import halo_pen, thin_pen
from app.window.widgets.theme import theme
from geometry.piece import DrawnPiece
from geometry.trace.flat import FlatPicture


class TraceBoard(GestureScene):
    """Keeps a scene like a picture, cards and one measured length."""

    def __init__(self, scene: QGraphicsScene) -> None:
        super().__init__(scene)
        self._picture: QGraphicsItem | None = None
        self._cards: list[QGraphicsItem] = []

    def show_picture(self, flat: FlatPicture) -> QRectF:
        """Show a picture under the cards; returns where it lies, in mm."""
        if self._picture is not None:
            self._scene.removeItem(self._picture)
        rows, columns = flat.pixels.shape[:2]
        image = QImage(flat.pixels.data, columns, rows, 3 * columns, QImage.Format.Format_RGB888)
        item = QGraphicsPixmapItem(QPixmap.fromImage(image))
        x0, y0, x1, y1 = flat.field_mm
        # picture rows run down, the board runs up
        item.setTransform(QTransform((x1 - x0) / columns, 0, 0, -(y1 - y0) / rows, x0, y1))
        item.setZValue(-5)
        self._scene.addItem(item)
        self._picture = item
        return QRectF(QPointF(x0, y0), QPointF(x1, y1))

    def show_cards(self, cards: tuple[DrawnPiece, ...], taken: frozenset[int], chosen: int) -> None:
        """Show outlines with their names; those not ``taken`` dashed, the chosen one with its points."""
        for old in self._cards:
            self._scene.removeItem(old)
        self._cards = []
        t = theme()
        for number, card in enumerate(cards):
            path = outline_path(card.outline)
            self._path(path, halo_pen(t.colour("canvas", 170), 4.5), 1)
            dash = () if number in taken else (3.0, 3.0)
            colour = t.colour("accent" if number == chosen else "error")
            self._path(path, thin_pen(colour, 1.8, dash=dash), 2)
            for mark in card.marks:
                drawn = polyline_path(mark.points_mm, closed=mark.closed)
                self._path(drawn, halo_pen(t.colour("canvas", 170), 4.0), 1)
                self._path(drawn, thin_pen(colour, 1.4, dash=(5.0, 3.0)), 2)
            for notch in card.notches:
                for nick in notch_lines(notch):
                    self._path(polyline_path(nick), thin_pen(colour, 1.8), 3)
            if number == chosen:
                self._points(np.vstack(card.outline.rings_mm).tolist())
            inside = card.outline.polygon.representative_point()
            label = LabelItem(card.name, points=9.0, bold=number == chosen)
            label.setPos(QPointF(inside.x, inside.y))
            label.setZValue(6)
            self._add(label)

    def _points(self, points: list[list[float]]) -> None:
        t = theme()
        for x, y in points:
            dot = DotItem(1.6, t.colour("field"), t.colour("accent"), square=True)
            dot.setPos(QPointF(x, y))
            dot.setZValue(4)
            self._add(dot)

    def _path(self, path: QPainterPath, pen: object, z: float) -> None:
        item = QGraphicsPathItem(path)
        item.setPen(pen)  # type: ignore[arg-type]
        item.setZValue(z)
        self._add(item)

    def _add(self, item: QGraphicsItem) -> None:
        self._scene.addItem(item)
        self._cards.append(item)
