"""Partial backing: a region that the backing stays inside, or a cut line that it stays beside."""

from __future__ import annotations

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import split

from geometry.errors import BackingError
from geometry.piece import Keep


def kept(shape: BaseGeometry, piece: Polygon, keep: Keep, name: str = "") -> BaseGeometry:
    """Return the part of ``shape`` that ``keep`` leaves.

    A cut line runs on straight past both its ends, so that it need not reach the outline.
    Raises BackingError when the region or line misses ``piece``, crosses itself, or the side
    to keep is not given or lies on the line.
    """
    points = np.asarray(keep.points_mm, dtype=np.float64)
    if keep.closed:
        region = Polygon(points) if len(points) >= 3 else Polygon()
        if region.is_empty or not region.is_valid:
            raise BackingError("the region to back is no closed outline", remedy="draw it again", piece=name)
        if region.intersection(piece).area == 0.0:
            raise BackingError(
                "the region to back lies off the piece", remedy="draw it on the piece", piece=name
            )
        return shape.intersection(region)
    if len(points) < 2 or keep.side_mm is None:
        raise BackingError(
            "a cut line needs two points and the side to keep", remedy="click the side to keep", piece=name
        )
    low_x, low_y, high_x, high_y = piece.bounds
    far = 2.0 * float(np.hypot(high_x - low_x, high_y - low_y)) + float(
        np.abs(points - ((low_x + high_x) / 2, (low_y + high_y) / 2)).max()
    )
    start, end = points[0] - points[1], points[-1] - points[-2]
    if not (start.any() and end.any()):
        raise BackingError("the cut line has two points in one place", remedy="draw it again", piece=name)
    line = LineString(
        [points[0] + far * start / np.hypot(*start), *points, points[-1] + far * end / np.hypot(*end)]
    )
    if not line.is_simple:
        raise BackingError("the cut line crosses itself", remedy="draw it again", piece=name)
    if line.intersection(piece).length == 0.0:
        raise BackingError("the cut line misses the piece", remedy="draw it across the piece", piece=name)
    side = Point(keep.side_mm)
    halves = [
        g
        for g in split(
            shapely.box(low_x - far / 4, low_y - far / 4, high_x + far / 4, high_y + far / 4), line
        ).geoms
    ]
    chosen = [half for half in halves if half.contains(side)]
    if len(halves) < 2 or not chosen:
        raise BackingError(
            "it is not clear which side of the cut line to keep",
            remedy="click well inside the side to keep",
            piece=name,
        )
    return shape.intersection(chosen[0])
