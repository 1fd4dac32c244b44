"""The roll with its pieces as scene items: one shared path for each item and turn."""

from __future__ import annotations

import math
from textwrap import fill

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem, QGraphicsRectItem, QGraphicsScene

from app.tools.lay_table import Clash, LayTable, outline_key, turned_outline
from app.window.canvas.gesture_scene import GestureScene
from app.window.canvas.items import LabelItem
from app.window.canvas.paths import outline_path, polyline_path
from app.window.canvas.pens import thin_pen
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import theme
from geometry.outline import Outline
from nesting.lay import Placement
from nesting.problem import LayProblem

HINT_SIGNS = 36
"""A hint is broken into lines this long: it fits between the panels of the smallest window."""
LABELS_UP_TO = 260
STRAIGHT_DEG = 0.05
"""A piece turned off the tight direction by less than this is not lettered with its degrees."""
FEW = 700
FINE_PX_PER_MM = 0.4
COARSE_MM = 2.0
OPEN_END_MM = 400.0
DAY_TINTS = ("#8aa2bd", "#a9b88f", "#c9ab86", "#b69cc0", "#8fbdb9", "#c99a97", "#b3b3a2", "#9aa5d6")
NIGHT_TINTS = ("#4d6885", "#5f7046", "#7d6341", "#6d5478", "#45736f", "#80514e", "#686858", "#515c8f")


class LayScene(GestureScene):
    """Keeps a scene like a table; only what changed is touched."""

    def __init__(self, scene: QGraphicsScene, lengths: Lengths) -> None:
        super().__init__(scene)
        self._lengths = lengths
        self._problem: LayProblem | None = None
        self._paths: dict[tuple[str, float], QPainterPath] = {}
        self._items: list[QGraphicsPathItem] = []
        self._shown: list[tuple[Placement, str]] = []
        self._labels: list[QGraphicsItem] = []
        self._roll: list[QGraphicsItem] = []
        self._length_mm = -1.0
        self._tints: dict[str, QColor] = {}
        self._fine = True
        self.hint = ""  # shown on a roll on which nothing lies

    # -- the whole table ------------------------------------------------------------------------
    def show(self, table: LayTable, chosen: frozenset[int], bad: frozenset[int]) -> None:
        """Draw the table; ``chosen`` pieces are selected, ``bad`` ones have a fault."""
        problem = table.problem
        if problem is not self._problem:
            self._problem, self._paths, self._length_mm = problem, {}, -1.0
            names = list(dict.fromkeys(item.piece or item.id for item in problem.items))
            tints = NIGHT_TINTS if theme().dark else DAY_TINTS
            self._tints = {name: QColor(tints[i % len(tints)]) for i, name in enumerate(names)}
            self._shown = []
        placements = table.placements
        while len(self._items) > len(placements):
            self._scene.removeItem(self._items.pop())
        del self._shown[len(placements) :]
        for i, at in enumerate(placements):
            state = "chosen" if i in chosen else "bad" if i in bad else "pinned" if at.pinned else ""
            if i in chosen and i in bad:
                state = "chosen bad"
            if i >= len(self._items):
                item = QGraphicsPathItem()
                self._scene.addItem(item)
                self._items.append(item)
            if i < len(self._shown) and self._shown[i] == (at, state):
                continue
            self._place(self._items[i], at, state, fresh=i >= len(self._shown) or self._shown[i][0] != at)
            if i < len(self._shown):
                self._shown[i] = (at, state)
            else:
                self._shown.append((at, state))
        if table.length_mm != self._length_mm:
            self._length_mm = table.length_mm
            self._draw_roll(problem)
        self._label(table)

    def _place(self, item: QGraphicsPathItem, at: Placement, state: str, *, fresh: bool) -> None:
        t = theme()
        if fresh:
            item.setPath(self._path(at))
            item.setPos(QPointF(at.x_mm, at.y_mm))
        assert self._problem is not None
        entry = self._problem.by_id[at.item_id]
        tint = self._tints[entry.piece or entry.id]
        fill = QColor(tint)
        fill.setAlpha(205)
        pen = thin_pen(t.colour("cloth_line", 220), 1.0)
        if "bad" in state:
            fill = t.colour("error", 120)
            pen = thin_pen(t.colour("error"), 2.2)
        if "chosen" in state:
            pen = thin_pen(t.colour("error" if "bad" in state else "accent"), 2.6)
            if "bad" not in state:
                fill = t.colour("accent", 110)
        item.setBrush(QBrush(fill, Qt.BrushStyle.Dense2Pattern if at.pinned else Qt.BrushStyle.SolidPattern))
        item.setPen(pen)
        item.setZValue(2.0 if state else 1.0)

    def set_detail(self, px_per_mm: float) -> None:
        """Far away, outlines are drawn coarser and without their axis: nobody could see them."""
        fine = px_per_mm >= FINE_PX_PER_MM or len(self._items) < FEW
        if fine != self._fine:
            self._fine = fine
            self._paths = {}
            for item, (at, _) in zip(self._items, self._shown, strict=False):
                if at.item_id:
                    item.setPath(self._path(at))

    def _path(self, at: Placement) -> QPainterPath:
        key = outline_key(at)
        path = self._paths.get(key)
        if path is None and not self._fine:
            assert self._problem is not None
            coarse = turned_outline(self._problem, key).polygon.simplify(COARSE_MM)
            path = self._paths[key] = outline_path(Outline.of_polygon(coarse))
        if path is None:
            assert self._problem is not None
            outline = turned_outline(self._problem, key)
            path = outline_path(outline)
            x0, y0, x1, y1 = outline.bbox_mm
            angle = math.radians(self._problem.by_id[key[0]].pull_axis_deg + key[1])
            half = 0.17 * min(x1 - x0, y1 - y0) + 2.0
            point = outline.polygon.representative_point()
            ux, uy = half * math.cos(angle), half * math.sin(angle)
            path.moveTo(point.x - ux, point.y - uy)
            path.lineTo(point.x + ux, point.y + uy)
            for sign in (-1.0, 1.0):  # the pull axis has no direction: a head at both ends
                ex, ey = point.x + sign * ux, point.y + sign * uy
                for side in (-1.0, 1.0):
                    path.moveTo(ex, ey)
                    path.lineTo(
                        ex - sign * 0.3 * ux + side * 0.16 * uy, ey - sign * 0.3 * uy - side * 0.16 * ux
                    )
            self._paths[key] = path
        return path

    def _draw_roll(self, problem: LayProblem) -> None:
        t = theme()
        for item in self._roll:
            self._scene.removeItem(item)
        self._roll = []
        wide = problem.roll.usable_width_mm
        long = self._length_mm
        shown = max(long + OPEN_END_MM, 1200.0)
        cloth = QGraphicsRectItem(QRectF(0, 0, shown, wide))
        cloth.setPen(QPen(Qt.PenStyle.NoPen))
        cloth.setBrush(t.colour("cloth", 38))
        used = QGraphicsRectItem(QRectF(0, 0, max(long, 0.0), wide))
        used.setPen(QPen(Qt.PenStyle.NoPen))
        used.setBrush(t.colour("cloth", 44))
        lines = QPainterPath()
        for y in (0.0, wide):
            lines.moveTo(0, y)
            lines.lineTo(shown, y)
        lines.moveTo(0, 0)
        lines.lineTo(0, wide)
        rim = QGraphicsPathItem(lines)
        rim.setPen(thin_pen(t.colour("cloth_line"), 1.6))
        end = QGraphicsPathItem()
        line = QPainterPath(QPointF(long, 0))
        line.lineTo(long, wide)
        end.setPath(line)
        end.setPen(thin_pen(t.colour("accent"), 1.8, (6.0, 3.0)))
        items: list[QGraphicsItem] = [cloth, used, rim, end]
        margin = problem.edge_margin_mm
        if margin > 0:
            path = QPainterPath()
            for y in (margin, wide - margin):
                path.moveTo(0, y)
                path.lineTo(shown, y)
            item = QGraphicsPathItem(path)
            item.setPen(thin_pen(t.colour("cloth_line", 110), 1.0, (2.0, 4.0)))
            items.append(item)
        for flaw in problem.roll.flaws:
            item = QGraphicsPathItem(polyline_path(flaw.ring_mm, closed=True))
            item.setPen(thin_pen(t.colour("error"), 1.4))
            item.setBrush(QBrush(t.colour("error", 90), Qt.BrushStyle.BDiagPattern))
            items.append(item)
        for item in items:
            item.setZValue(-1.0)
            self._scene.addItem(item)
        self._roll = items

    def _label(self, table: LayTable) -> None:
        for item in self._labels:
            self._scene.removeItem(item)
        self._labels = []
        if len(table.placements) > LABELS_UP_TO:
            return
        clear = QColor(0, 0, 0, 0)
        if not table.placements:
            hint = LabelItem(
                fill(self.hint, HINT_SIGNS), ink=theme().colour("ink_soft"), plate=clear, points=11
            )
            hint.setPos(QPointF(600.0, table.problem.roll.usable_width_mm / 2))
            self._scene.addItem(hint)
            self._labels.append(hint)
        for i, at in enumerate(table.placements):
            entry = table.problem.by_id[at.item_id]
            off = table.off_axis_deg(i)
            if off > STRAIGHT_DEG:
                text = f"{entry.size or entry.id}  {self._lengths.decimal(off)}°"
                label = LabelItem(text, ink=theme().colour("error"), points=8.0, bold=True)
            else:
                label = LabelItem(entry.size or entry.id, ink=theme().colour("ink"), plate=clear, points=7.5)
            x0, y0, x1, y1 = table.polygons[i].bounds
            point = table.polygons[i].representative_point()
            label.setPos(QPointF(point.x, point.y + 0.14 * min(x1 - x0, y1 - y0)))
            label.setZValue(3.0)
            self._scene.addItem(label)
            self._labels.append(label)

    # -- a gesture --------------------------------------------------------------------------------
    def drag(
        self, table: LayTable, loose: list[int], dx_mm: float, dy_mm: float, bad: frozenset[int]
    ) -> None:
        """Show the loose pieces moved, and every piece of ``bad`` as faulty, without a new table."""
        chosen = frozenset(loose)
        for i in chosen:
            at = table.placements[i]
            self._items[i].setPos(QPointF(at.x_mm + dx_mm, at.y_mm + dy_mm))
        for i in chosen | bad | {k for k, (_, state) in enumerate(self._shown) if "bad" in state}:
            at = table.placements[i]
            state = " ".join(word for word, on in (("chosen", i in chosen), ("bad", i in bad)) if on)
            if self._shown[i][1] != state:
                self._place(self._items[i], at, state, fresh=False)
                self._shown[i] = (at, state)
        if loose and self._labels:
            for item in self._labels:
                self._scene.removeItem(item)
            self._labels = []

    def end_drag(self) -> None:
        """Forget what the drag showed: the next ``show`` places everything again where it differs."""
        self._shown = [(Placement("", 0.0, 0.0, 0.0), "") for _ in self._shown]

    def bounds(self) -> QRectF:
        """Return the box of the lay on its roll."""
        wide = self._problem.roll.usable_width_mm if self._problem else 1000.0
        return QRectF(0, 0, max(self._length_mm, 600.0), wide)


def clashing(clashes: list[Clash] | tuple[Clash, ...]) -> frozenset[int]:
    """Return every piece that takes part in a clash."""
    return frozenset(i for clash in clashes for i in (clash.index, clash.other) if i >= 0)
