"""Lines seen from far away, with fewer points: a crowded board is painted in a frame."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from PySide6.QtGui import QPainterPath

from app.window.canvas.paths import polyline_path

OFF_PX = 0.3
"""A line may lie so far off where it belongs: less than is seen."""

LEAST_MM = 0.05
"""Below this nothing is left out: the points of a drawing lie further apart."""


def thinning_mm(px_per_mm: float) -> float:
    """Return how far a line may lie off at a zoom: a power of two, so that few zooms draw again; or 0."""
    most = OFF_PX / px_per_mm
    return 0.0 if most < LEAST_MM else 2.0 ** math.floor(math.log2(most))


def thinned(paths: Sequence[QPainterPath], off_mm: float) -> list[QPainterPath]:
    """Return paths of straight lines with only the points that keep each within ``off_mm`` of its line."""
    lines: list[tuple[int, list[tuple[float, float]]]] = []
    for number, path in enumerate(paths):
        lines += [(number, [(p.x(), p.y()) for p in part.toList()]) for part in path.toSubpathPolygons()]
    lines = [(number, points) for number, points in lines if len(points) > 1]
    made = []
    for path in paths:
        new = QPainterPath()
        new.setFillRule(path.fillRule())
        made.append(new)
    if not lines:
        return made
    counts = [len(points) for _, points in lines]
    every = np.concatenate([np.array(points) for _, points in lines])
    strings = shapely.linestrings(every, indices=np.repeat(np.arange(len(lines)), counts))
    for (number, _), line in zip(
        lines, shapely.simplify(strings, off_mm, preserve_topology=False), strict=True
    ):
        made[number].addPath(polyline_path(shapely.get_coordinates(line)))
    return made
