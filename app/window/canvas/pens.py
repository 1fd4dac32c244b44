"""Pens that keep their width in pixels."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPen

_ratio = 1.0


def set_pixel_ratio(ratio: float) -> None:
    """Say how many device pixels a pixel has: cosmetic pens are counted in device pixels."""
    global _ratio
    _ratio = ratio


def pixels(width_px: float) -> float:
    """Return a pen width in device pixels."""
    return width_px * _ratio


def thin_pen(colour: QColor, width_px: float, dash: tuple[float, ...] = ()) -> QPen:
    """Return a cosmetic pen; ``dash`` in pen widths."""
    pen = QPen(colour, pixels(width_px))
    pen.setCosmetic(True)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    pen.setCapStyle(Qt.PenCapStyle.RoundCap if not dash else Qt.PenCapStyle.FlatCap)
    if dash:
        pen.setDashPattern(list(dash))
    return pen


def halo_pen(colour: QColor, width_px: float) -> QPen:
    """Return a wide pen for a glow behind a line: flat ends, so that neighbours do not pile up."""
    pen = thin_pen(colour, width_px)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    return pen
