"""Outlines as painter paths."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike
from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath, QPolygonF

from geometry.outline import Outline


def polyline_path(points_mm: ArrayLike, *, closed: bool = False) -> QPainterPath:
    """Return the path of (n, 2) points; recent ones are kept, since a drag asks for the same each time."""
    return QPainterPath(_made(np.asarray(points_mm, dtype=np.float64).tobytes(), closed))


@lru_cache(maxsize=1024)
def _made(points: bytes, closed: bool) -> QPainterPath:
    path = QPainterPath()
    xs, ys = np.frombuffer(points).reshape(-1, 2).T.tolist()
    path.addPolygon(QPolygonF(list(map(QPointF, xs, ys))))
    if closed:
        path.closeSubpath()
    return path


def outline_path(outline: Outline) -> QPainterPath:
    """Return the path of an outline with its holes; fills by the odd-even rule."""
    path = QPainterPath()
    path.setFillRule(path.fillRule().OddEvenFill)
    for ring in outline.rings_mm:
        path.addPath(polyline_path(ring, closed=True))
    return path
