"""The hold line of a piece on the draft board: heel to throat, with its length and what it gives."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem

from app.hold.verdicts import StyleHold
from app.tools.board import BoardPiece
from app.window.canvas.items import DotItem, LabelItem
from app.window.canvas.pens import halo_pen, thin_pen
from app.window.widgets.lengths import Lengths
from app.window.widgets.theme import theme

BAR_MM = 3.0


@dataclass(frozen=True)
class HoldMark:
    """What stands at a hold line: what it gives (least, most), the most it may, and its colour's role."""

    gives_mm: tuple[float, float] | None = None
    limit_mm: float | None = None
    role: str = "ink"

    def text(self, lengths: Lengths) -> str:
        """Return what it gives in the unit shown, '' = not known."""
        if self.gives_mm is None:
            return ""
        low, high = (lengths.number(value) for value in self.gives_mm)
        limit = "" if self.limit_mm is None else f" / {lengths.number(self.limit_mm)}"
        return f"{low if low == high else f'{low}-{high}'}{limit} {lengths.unit.value}"


NO_MARK = HoldMark()


def hold_mark(held: StyleHold | None, piece: str) -> HoldMark:
    """Return the mark of a piece from the style's judgement; a bare one while there is none."""
    pieces = held.pieces if held is not None else ()
    found = next((p for p in pieces if p.piece == piece and p.has_line), None)
    if found is None:
        return NO_MARK
    hold = found.hold
    role = {True: "good", False: "error", None: "warning"}[hold.holds] if hold.limit_mm is not None else "ink"
    return HoldMark((hold.low_mm, hold.high_mm), hold.limit_mm, role)


def draw_hold_line(
    group: QGraphicsItem, piece: BoardPiece, mark: HoldMark, selected: bool, lengths: Lengths
) -> None:
    """Add the line of a piece to its group: bars across both ends, dots to take hold of."""
    if piece.hold_line is None:
        return
    t = theme()
    colour = t.colour(mark.role, 255 if selected else 190)
    a, b = (np.array(end) for end in piece.hold_line)
    across = np.array([-(b - a)[1], (b - a)[0]]) / max(float(np.hypot(*(b - a))), 1e-9) * BAR_MM
    path = QPainterPath(QPointF(*a))
    path.lineTo(QPointF(*b))
    for end in (a, b):
        path.moveTo(QPointF(*(end - across)))
        path.lineTo(QPointF(*(end + across)))
    for pen, z in ((halo_pen(t.colour("canvas", 190), 5.0), 4.2), (thin_pen(colour, 2.0), 4.3)):
        line = QGraphicsPathItem(path, group)
        line.setPen(pen)
        line.setZValue(z)
    if selected:
        for end in (a, b):
            dot = DotItem(4.0, t.colour("field"), colour, group, square=True)
            dot.setPos(QPointF(*end))
            dot.setZValue(6.8)
    text = lengths.text(float(np.hypot(*(b - a))))
    if gives := mark.text(lengths):
        text += "  ·  " + gives
    along = (b - a) if b[0] >= a[0] else (a - b)
    up = np.array([-along[1], along[0]]) / max(float(np.hypot(*along)), 1e-9)
    if float(up @ (np.array(piece.middle_mm) - (a + b) / 2)) > 0.0:
        up = -up  # the pull axis runs through the middle: letter on the other side of the line
    shift = (-14.0 * up[0] if piece.flipped else 14.0 * up[0], -14.0 * up[1])
    label = LabelItem(text, group, ink=colour, points=8.0, bold=selected, shift_px=shift)
    label.setPos(QPointF(*((a + b) / 2)))
    label.setZValue(5.5)
