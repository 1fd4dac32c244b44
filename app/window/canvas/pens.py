"""Pens that keep their width in pixels."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPen


def thin_pen(colour: QColor, width_px: float, dash: tuple[float, ...] = ()) -> QPen:
    """Return a cosmetic pen; ``dash`` in pen widths."""
    pen = QPen(colour, width_px)
    pen.setCosmetic(True)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap if not dash else Qt.PenCapStyle.FlatCap)
    if dash:
        pen.setDashPattern(list(dash))
    return pen
