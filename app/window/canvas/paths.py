"""Outlines as painter paths, made once a shape and shared by all that draw it."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike
from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath, QPolygonF

from geometry.outline import Outline


def polyline_path(points_mm: ArrayLike, *, closed: bool = False) -> QPainterPath:
    """Return the path of (n, 2) points."""
    path = QPainterPath()
    polygon = QPolygonF([QPointF(float(x), float(y)) for x, y in np.asarray(points_mm)])
    path.addPolygon(polygon)
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


class PathCache:
    """Paths by outline identity: an immutable outline needs one path for its whole life."""

    def __init__(self) -> None:
        self._paths: dict[int, tuple[Outline, QPainterPath]] = {}

    def path(self, outline: Outline) -> QPainterPath:
        """Return the shared path of ``outline``."""
        held = self._paths.get(id(outline))
        if held is None or held[0] is not outline:
            held = self._paths[id(outline)] = (outline, outline_path(outline))
        return held[1]

    def keep_only(self, outlines: set[int]) -> None:
        """Forget paths of outlines whose ids are not in ``outlines``."""
        self._paths = {key: value for key, value in self._paths.items() if key in outlines}
