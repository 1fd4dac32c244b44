"""What is drawn on a piece but does not bound it: notches, drill holes, marks."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry import Polygon

from geometry import tolerances
from geometry.dxf.lines.curves import Points
from geometry.outline import Outline
from geometry.piece import Notch


def inward_deg(outline: Outline, x_mm: float, y_mm: float) -> float:
    """Return the direction into the material at the boundary point nearest to a place."""
    best = (math.inf, 0.0)
    for ring in outline.rings_mm:
        along = np.roll(ring, -1, axis=0) - ring
        length2 = np.maximum((along**2).sum(axis=1), 1e-300)
        to = np.array([x_mm, y_mm]) - ring
        share = np.clip((to * along).sum(axis=1) / length2, 0.0, 1.0)
        off = np.hypot(*(to - share[:, None] * along).T)
        i = int(off.argmin())
        if off[i] < best[0]:
            best = (float(off[i]), math.degrees(math.atan2(along[i][0], -along[i][1])))
    return best[1]


def inside_way(outline: Outline, x_mm: float, y_mm: float, angle_deg: float) -> float:
    """Return the angle or its opposite, whichever points into the material."""
    normal = math.radians(inward_deg(outline, x_mm, y_mm))
    if math.cos(math.radians(angle_deg) - normal) < 0.0:
        angle_deg += 180.0
    return (angle_deg + 180.0) % 360.0 - 180.0


def tick_notch(outline: Outline, polygon: Polygon, points: Points) -> Notch | None:
    """Return the notch that a short drawn line at the boundary stands for, None if it is none.

    Its depth is the line's length inside the material, or the whole length of a line that stands
    on the boundary from outside.
    """
    line = shapely.LineString(points)
    edge = polygon.boundary
    if line.length > tolerances.TICK_MM or line.distance(edge) > tolerances.ON_BOUNDARY_MM:
        return None
    ends = [shapely.Point(points[0]), shapely.Point(points[-1])]
    off = [edge.distance(end) for end in ends]
    if max(off) <= tolerances.ON_BOUNDARY_MM and line.length > 2.0 * tolerances.ON_BOUNDARY_MM:
        return None  # it runs along the edge, or cuts a corner off
    if line.crosses(edge):
        shared = shapely.intersection(line, edge)
        spot = shapely.get_parts(shared).tolist()[0].centroid
    else:
        spot = shapely.Point(shapely.shortest_line(edge, ends[int(off[1] < off[0])]).coords[0])
    inner = shapely.intersection(line, polygon).length
    depth = inner if inner > 0.2 * line.length else line.length
    way = np.degrees(np.arctan2(*(points[-1] - points[0])[::-1]))
    angle = inside_way(outline, spot.x, spot.y, float(way))
    return Notch(float(spot.x), float(spot.y), angle, depth_mm=float(depth))


def runs_along(polygon: Polygon, points: Points) -> bool:
    """Tell whether a line lies on the boundary all along: drawn twice."""
    return bool(
        shapely.covers(shapely.buffer(polygon.boundary, tolerances.SAME_CURVE_MM), shapely.LineString(points))
    )


def axis_deg(points: Points) -> float:
    """Return the undirected angle, in (-90, 90], from a line's first point to its last."""
    dx, dy = (points[-1] - points[0]).tolist()
    angle = math.degrees(math.atan2(dy, dx))
    if angle > 90.0:
        angle -= 180.0
    elif angle <= -90.0:
        angle += 180.0
    return angle
