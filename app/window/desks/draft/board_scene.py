"""The pieces on the draft board as scene items; a piece is drawn again only when it changed."""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainterPath, QPen, QTransform
from PySide6.QtWidgets import QGraphicsItem, QGraphicsItemGroup, QGraphicsPathItem, QGraphicsScene
from shapely.geometry.base import BaseGeometry

from app.tools.board import Board, BoardEdge, BoardPiece, EdgeName
from app.window.canvas.far import thinned, thinning_mm
from app.window.canvas.gesture_scene import GestureScene
from app.window.canvas.items import DotItem, LabelItem, RingItem
from app.window.canvas.paths import outline_path, polyline_path
from app.window.canvas.pens import halo_pen, thin_pen
from app.window.desks.draft.board_hold import NO_MARK, HoldMark, draw_hold_line
from app.window.desks.draft.drawing.on_board import (
    draw_on_backing,
    draw_words,
    figured_setbacks,
    setback_text,
)
from app.window.desks.draft.whole.nest import NO_NEST, Nest, draw_nest, same_nest
from app.window.widgets.lengths import Lengths
from app.window.widgets.marks import edge_colour, edge_pen
from app.window.widgets.theme import theme
from geometry.outline import Outline
from geometry.piece import BackingPiece

AT_RIM_MM = 0.25
CROWD = 300
"""Drawn things above which a board is shown as a moved picture while it moves, and with fewer points from far:
filled and dashed lines are slow to paint (tests/benchmarks/window_edits.py)."""
FEW = 3
"""This many pieces drawn again keep all their points: a hand at work has them drawn at every move."""


@dataclass(frozen=True)
class Layers:
    """What is shown."""

    upper: bool = True
    backing: bool = True
    setbacks: bool = True
    axis: bool = True
    hold: bool = True


@dataclass(frozen=True, eq=False)
class Shown:
    """A piece, its backings, and another size drawn over it for comparison."""

    piece: BoardPiece
    backings: tuple[BackingPiece, ...] = ()
    over: Outline | None = None
    over_backings: tuple[BackingPiece, ...] = ()
    hold: HoldMark = NO_MARK
    nest: Nest = NO_NEST


@dataclass
class _Drawn:
    shown: Shown
    look: tuple[object, ...]
    group: QGraphicsItemGroup
    count: int
    lines: list[tuple[QGraphicsPathItem, QPainterPath]]  # as they are drawn near by
    off_mm: float = 0.0


class BoardScene(GestureScene):
    """Keeps the scene like a list of ``Shown``."""

    def __init__(self, scene: QGraphicsScene, lengths: Lengths) -> None:
        super().__init__(scene)
        self._lengths = lengths
        self._drawn: dict[str, _Drawn] = {}
        self._rings: list[QGraphicsItem] = []
        self._off_mm = 0.0

    # -- pieces -------------------------------------------------------------------------------
    def show(
        self,
        pieces: list[Shown],
        layers: Layers,
        selected: str,
        edges: frozenset[EdgeName],
        hover: tuple[str, EdgeName] | None = None,
    ) -> None:
        """Make the scene show ``pieces``."""
        names = {shown.piece.name for shown in pieces}
        for name in [name for name in self._drawn if name not in names]:
            self._scene.removeItem(self._drawn.pop(name).group)
        redrawn = 0
        for shown in pieces:
            name = shown.piece.name
            mine = name == selected
            hovered = hover[1] if hover is not None and hover[0] == name else None
            look = (layers, mine, edges if mine else None, hovered, self._lengths.unit, theme().name)
            held = self._drawn.get(name)
            if held is not None and held.look == look and _same(held.shown, shown):
                continue
            if held is not None:
                self._scene.removeItem(held.group)
            group = self._draw(shown, layers, mine, edges if mine else frozenset(), hovered)
            self._scene.addItem(group)
            items = group.childItems()
            lines = [(item, item.path()) for item in items if isinstance(item, QGraphicsPathItem)]
            self._drawn[name] = _Drawn(shown, look, group, len(items), lines)
            redrawn += 1
        if redrawn > FEW:
            self._thin()

    def look(self, px_per_mm: float) -> None:
        """The board is looked at so near: many pieces from far away are drawn with fewer points."""
        self._off_mm = thinning_mm(px_per_mm)
        self._thin()

    def _thin(self) -> None:
        off = self._off_mm if self.item_count >= CROWD else 0.0
        for drawn in self._drawn.values():
            if drawn.off_mm == off:
                continue
            drawn.off_mm = off
            lines = [path for _, path in drawn.lines]
            for (item, _), path in zip(drawn.lines, thinned(lines, off) if off else lines, strict=True):
                item.setPath(path)

    @property
    def item_count(self) -> int:
        """How many things the pieces shown are drawn with."""
        return sum(drawn.count for drawn in self._drawn.values())

    def board(self) -> Board:
        """Return the pieces shown."""
        return Board(tuple(drawn.shown.piece for drawn in self._drawn.values()))

    def _draw(
        self,
        shown: Shown,
        layers: Layers,
        selected: bool,
        edges: frozenset[EdgeName],
        hovered: EdgeName | None,
    ) -> QGraphicsItemGroup:
        t = theme()
        piece = shown.piece
        group = QGraphicsItemGroup()
        group.setHandlesChildEvents(False)
        group.setZValue(1.0 if selected else 0.0)
        dx, dy = piece.offset_mm
        transform = QTransform.fromTranslate(dx, dy)
        if piece.flipped:
            middle = piece.middle_mm[0]
            transform.translate(middle, 0)
            transform.scale(-1, 1)
            transform.translate(-middle, 0)
        group.setTransform(transform)
        if layers.upper:
            fill = t.colour("leather", 120 if selected else 90)
            self._path(group, outline_path(piece.outline), QPen(Qt.PenStyle.NoPen), QBrush(fill))
        if layers.backing:
            for backing in shown.backings:
                self._backing(group, backing, piece.flipped, backing.layer)
        if shown.over is not None:
            pen = thin_pen(t.colour("accent"), 1.4, dash=(4.0, 3.0))
            self._path(group, outline_path(shown.over), pen)
            for backing in shown.over_backings:
                for outline in backing.outlines:
                    self._path(
                        group, outline_path(outline), thin_pen(t.colour("accent", 150), 1.0, dash=(1.5, 2.5))
                    )
        draw_nest(group, shown.nest)
        for mark in piece.upper.marks:
            pen = thin_pen(t.colour("leather_line", 170), 1.0, dash=(5.0, 3.0) if mark.kind == "sew" else ())
            self._path(group, polyline_path(mark.points_mm, closed=mark.closed), pen)
        for edge in piece.edges:
            self._edge(group, edge, edge.name in edges, edge.name == hovered, selected)
        self._notches(group, piece)
        draw_words(group, piece.upper.letterings, "leather_line")
        if layers.axis:
            self._axis(group, piece, selected)
        if layers.hold:
            draw_hold_line(group, piece, shown.hold, selected, self._lengths)
        if selected and layers.setbacks and layers.backing:
            rims = [outline.polygon.boundary for backing in shown.backings for outline in backing.outlines]
            for edge in piece.edges:
                self._setback(group, edge, rims, piece.flipped)
        if selected:
            for edge in piece.edges:
                dot = DotItem(3.2, t.colour("field"), t.colour("ink"), group, square=True)
                dot.setPos(QPointF(*edge.points_mm[0]))
                dot.setZValue(6)
        x0, _, x1, y1 = piece.outline.bbox_mm
        # clear of the outline at every zoom
        label = LabelItem(piece.name, group, points=9.0, bold=selected, shift_px=(0.0, -13.0))
        label.setPos(QPointF((x0 + x1) / 2, y1))
        label.setZValue(5)
        return group

    def _backing(self, group: QGraphicsItem, backing: BackingPiece, glue: bool, layer: int) -> None:
        t = theme()
        for outline in backing.outlines:
            path = outline_path(outline)
            self._path(
                group,
                path,
                thin_pen(t.colour("cloth_line"), 1.5),
                QBrush(t.colour("cloth", min(165 + 45 * layer, 255))),
                z=1,
            )
            if glue:  # dots stand for the hot-melt coating
                brush = QBrush(t.colour("cloth_line", 120), Qt.BrushStyle.Dense6Pattern)
                brush.setTransform(QTransform.fromScale(0.6, 0.6))
                self._path(group, path, QPen(Qt.PenStyle.NoPen), brush, z=1.1)
        draw_on_backing(group, backing)

    def _edge(
        self, group: QGraphicsItem, edge: BoardEdge, chosen: bool, hovered: bool, selected: bool
    ) -> None:
        t = theme()
        path = polyline_path(edge.points_mm)
        if chosen or hovered:
            self._path(group, path, halo_pen(t.colour("accent", 150 if chosen else 70), 10.0), z=2.5)
        elif not edge.edge.confirmed:
            self._path(group, path, halo_pen(t.colour("question", 64), 8.0), z=2.4)
        self._path(group, path, edge_pen(edge.kind, t, wider_px=0.4 if selected else -0.2), z=3)

    def _notches(self, group: QGraphicsItem, piece: BoardPiece) -> None:
        t = theme()
        for notch in piece.upper.notches:
            path = _tick(notch.x_mm, notch.y_mm, notch.angle_deg, max(notch.depth_mm, 2.0))
            self._path(group, path, thin_pen(t.colour("leather_line"), 1.8), z=4)
        for hole in piece.upper.drill_holes:
            path = QPainterPath()
            radius = max(hole.diameter_mm / 2, 0.8)
            path.addEllipse(QPointF(hole.x_mm, hole.y_mm), radius, radius)
            path.moveTo(hole.x_mm - 2 * radius, hole.y_mm)
            path.lineTo(hole.x_mm + 2 * radius, hole.y_mm)
            path.moveTo(hole.x_mm, hole.y_mm - 2 * radius)
            path.lineTo(hole.x_mm, hole.y_mm + 2 * radius)
            self._path(group, path, thin_pen(t.colour("leather_line"), 1.0), z=4)

    def _axis(self, group: QGraphicsItem, piece: BoardPiece, selected: bool) -> None:
        t = theme()
        axis = piece.upper.pull_axis
        colour = t.colour("ink" if axis.confirmed else "question", 255 if selected else 150)
        (cx, cy), half = piece.middle_mm, piece.axis_half_mm
        angle = math.radians(axis.axis_deg)
        ux, uy = math.cos(angle), math.sin(angle)
        path = QPainterPath(QPointF(cx - half * ux, cy - half * uy))
        path.lineTo(cx + half * ux, cy + half * uy)
        self._path(group, path, thin_pen(colour, 1.6, dash=() if axis.confirmed else (3.0, 3.0)), z=4.5)
        for sign in (-1, 1):
            end = QPointF(cx + sign * half * ux, cy + sign * half * uy)
            head = _Arrow(math.degrees(math.atan2(sign * uy, sign * ux)), colour, piece.flipped, group)
            head.setPos(end)
            head.setZValue(4.6)
            if selected:
                dot = DotItem(4.6, t.colour("field"), colour, group)
                dot.setPos(end)
                dot.setZValue(7)
        if selected:
            text = f"{axis.axis_deg:.1f}°".replace(".", self._lengths.decimal_point)
            # beside the end, not beyond it: there the piece's name stands
            shift = _pixels((-uy, ux), 15.0 * abs(ux) + 28.0 * abs(uy), piece.flipped)
            label = LabelItem(text, group, ink=colour, shift_px=shift)
            label.setPos(QPointF(cx + half * ux, cy + half * uy))
            label.setZValue(6)

    def _setback(
        self, group: QGraphicsItem, edge: BoardEdge, rims: list[BaseGeometry], flipped: bool
    ) -> None:
        """The figure of an edge's setback where the backing ends at it; at both ends where it changes."""
        for share, setback, figure in figured_setbacks(edge):
            if abs(figure) >= 1e-9 and edge.length_mm >= 2 * abs(setback):
                self._figure(group, edge, share, setback, figure, rims, flipped)

    def _figure(
        self,
        group: QGraphicsItem,
        edge: BoardEdge,
        share: float,
        setback: float,
        figure: float,
        rims: list[BaseGeometry],
        flipped: bool,
    ) -> None:
        colour = edge_colour(edge.kind, theme())
        (x, y), (nx, ny) = edge.point_at(share)
        inner = QPointF(x + setback * nx, y + setback * ny)
        foot = shapely.Point(inner.x(), inner.y())
        if all(rim.distance(foot) > AT_RIM_MM for rim in rims):
            return
        path = QPainterPath(QPointF(x, y))
        path.lineTo(inner)
        for px, py in ((x, y), (inner.x(), inner.y())):
            path.moveTo(px - 0.9 * ny, py + 0.9 * nx)
            path.lineTo(px + 0.9 * ny, py - 0.9 * nx)
        self._path(group, path, thin_pen(colour, 1.1), z=4)
        text = setback_text(figure, self._lengths)
        own = edge.edge.setback_mm is not None
        inward = 1.0 if setback > 0 else -1.0
        shift = _pixels((inward * nx, inward * ny), 12.0, flipped)
        label = LabelItem(f"{text} ∗" if own else text, group, ink=colour, points=7.5, shift_px=shift)
        label.setPos(inner)
        label.setZValue(5)

    def _path(
        self,
        group: QGraphicsItem,
        path: QPainterPath,
        pen: QPen,
        brush: QBrush | None = None,
        *,
        z: float = 0.0,
    ) -> QGraphicsPathItem:
        item = QGraphicsPathItem(path, group)
        item.setPen(pen)
        if brush is not None:
            item.setBrush(brush)
        item.setZValue(z)
        return item

    # -- marks of a gesture -------------------------------------------------------------------
    def show_rings(self, points_mm: list[tuple[float, float]], colour: QColor) -> None:
        """Ring places (board mm); an empty list takes the rings away."""
        for ring in self._rings:
            self._scene.removeItem(ring)
        self._rings = []
        for x, y in points_mm:
            ring = RingItem(colour)
            ring.setPos(QPointF(x, y))
            ring.setZValue(20)
            self._scene.addItem(ring)
            self._rings.append(ring)

    def bounds(self, name: str = "") -> QRectF:
        """Return the box of all pieces shown, or of one (board mm)."""
        boxes = QRectF()
        for key, drawn in self._drawn.items():
            if name and key != name:
                continue
            piece = drawn.shown.piece
            x0, y0, x1, y1 = piece.outline.bbox_mm
            dx, dy = piece.offset_mm
            boxes = boxes.united(QRectF(QPointF(x0 + dx, y0 + dy), QPointF(x1 + dx, y1 + dy + 8)))
        return boxes


class _Arrow(DotItem):
    """An arrow head of constant size; it follows the board's turn of the axis."""

    def __init__(self, angle_deg: float, colour: QColor, flipped: bool, parent: QGraphicsItem) -> None:
        super().__init__(12, colour, colour, parent)
        self._angle = 180.0 - angle_deg if flipped else angle_deg
        self._colour = colour

    def paint(self, painter, option, widget=None) -> None:
        painter.rotate(-self._angle)  # pixels run down, the board runs up
        painter.translate(-7.0, 0.0)  # clear of the handle at the very end
        pen = QPen(self._colour, 1.7)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.drawLine(QPointF(-10, -4.5), QPointF(0, 0))
        painter.drawLine(QPointF(-10, 4.5), QPointF(0, 0))


def _pixels(way: tuple[float, float], length_px: float, flipped: bool) -> tuple[float, float]:
    """Return a shift on the screen along a direction of the piece: pixels run down, the board up."""
    return (-way[0] if flipped else way[0]) * length_px, -way[1] * length_px


def _tick(x_mm: float, y_mm: float, angle_deg: float, length_mm: float) -> QPainterPath:
    angle = math.radians(angle_deg)
    path = QPainterPath(QPointF(x_mm, y_mm))
    path.lineTo(x_mm + length_mm * math.cos(angle), y_mm + length_mm * math.sin(angle))
    return path


def _same(a: Shown, b: Shown) -> bool:
    """Whether two shown pieces are drawn alike: geometry values are cached by identity."""
    return (
        a.piece.upper is b.piece.upper
        and a.piece.offset_mm == b.piece.offset_mm
        and a.piece.flipped == b.piece.flipped
        and a.backings is b.backings
        and a.over is b.over
        and a.over_backings is b.over_backings
        and (a.piece.hold_line, a.hold) == (b.piece.hold_line, b.hold)
        and same_nest(a.nest, b.nest)
    )
