"""How far a piece can slide until it touches: rays cast both ways between outlines.

The first contact of two polygons moved against each other is a corner of one on an edge of the other; so
every corner of the moving piece is cast against the edges of the other grown by the gap, and every corner
of those back against the piece's edges. No no-fit polygon is built: a thousand times less work.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.outline import Outline
from nesting.contact.nofit import ARC_MM, GROWN_MM
from nesting.lay import Placement
from nesting.problem import LayProblem

GRAZE_MM = 1e-7
"""Nearer than this to an edge's end a ray grazes it: rounding of coordinates of a few metres."""

OFF_MM = 1e-3
"""A slide stops this much before the contact: below any gap that matters, above rounding."""


def slide(problem: LayProblem, placements: Sequence[Placement], index: int, direction_deg: float) -> float:
    """Return how far, in mm, placement ``index`` can move that way before it comes nearer to another
    piece, a margin or a flaw than the rules allow; 0 when it cannot move or already lies too close.

    Along the roll a lay has no end: a piece that nothing stops towards +x stays where it is.
    """
    at = placements[index]
    item = problem.by_id[at.item_id]
    shape = item.outline.turned(at.turn_deg)
    way = np.array([math.cos(math.radians(direction_deg)), math.sin(math.radians(direction_deg))])
    here = np.array([at.x_mm, at.y_mm])
    x0, y0, x1, y1 = shape.bbox_mm
    room = _to_margins(problem, (x0 + at.x_mm, y0 + at.y_mm, x1 + at.x_mm, y1 + at.y_mm), way)
    reach = room if math.isfinite(room) else _far_end(problem, placements) + (x1 - x0)
    low, high = np.sort([here, here + way * reach], axis=0)
    path = shapely.box(low[0] + x0, low[1] + y0, high[0] + x1, high[1] + y1).buffer(problem.gap_mm)
    nearest = room
    moving = _solid(shape.moved(at.x_mm, at.y_mm), problem.use_holes)
    for k, other in enumerate(placements):
        if k == index:
            continue
        placed = problem.by_id[other.item_id].outline.turned(other.turn_deg)
        ox0, oy0, ox1, oy1 = placed.bbox_mm
        box = shapely.box(ox0 + other.x_mm, oy0 + other.y_mm, ox1 + other.x_mm, oy1 + other.y_mm)
        if box.intersects(path):
            solid = _solid(placed.moved(other.x_mm, other.y_mm), problem.use_holes)
            nearest = min(nearest, _first_hit(solid, moving, way, problem.gap_mm))
    for flaw in problem.roll.flaws:
        polygon = shapely.make_valid(shapely.Polygon(flaw.ring_mm))
        if polygon.intersects(path):
            nearest = min(nearest, _first_hit(polygon, moving, way, 0.0))
    if not math.isfinite(nearest):
        return 0.0
    return max(nearest - OFF_MM, 0.0)


def _solid(outline: Outline, holes: bool) -> shapely.Polygon:
    return outline.polygon if holes else shapely.Polygon(outline.ring_mm)


def _first_hit(other: shapely.Geometry, moving: shapely.Geometry, way: np.ndarray, gap_mm: float) -> float:
    """Return how far ``moving`` goes along ``way`` until it comes to the gap before ``other``."""
    if shapely.distance(other, moving) < gap_mm + GROWN_MM - OFF_MM:
        return 0.0
    by_mm = gap_mm + GROWN_MM
    quarter = max(4, math.ceil(math.pi / 4.0 / math.acos(max(0.0, 1.0 - ARC_MM / by_mm))))
    grown = _edges(shapely.buffer(other, by_mm, quad_segs=quarter), way)
    edges = _edges(moving, way)
    return min(_cast(edges[:, :2], grown, 1.0), _cast(grown[:, :2], edges, -1.0))


def _edges(shape: shapely.Geometry, way: np.ndarray) -> NDArray[np.float64]:
    """Return the edges of all rings as (along, across, along, across) of their ends, seen along ``way``."""
    frame = np.array([way, (-way[1], way[0])]).T
    found = []
    for part in shapely.get_parts(shape):
        for ring in (part.exterior, *part.interiors):
            seen = shapely.get_coordinates(ring) @ frame
            found.append(np.hstack([seen[:-1], seen[1:]]))
    return np.vstack(found)


def _cast(points: NDArray[np.float64], edges: NDArray[np.float64], sense: float) -> float:
    """Return the least way from points forward (``sense`` 1) or backward (-1) to edges; infinity for none.

    A ray that only grazes an edge's end meets nothing: pieces side by side slide past each other.
    """
    low = np.minimum(edges[:, 1], edges[:, 3])
    high = np.maximum(edges[:, 1], edges[:, 3])
    across = points[:, 1][:, None]
    meets = (across > low + GRAZE_MM) & (across < high - GRAZE_MM)
    which, edge = np.nonzero(meets)
    if not len(which):
        return math.inf
    u1, v1, u2, v2 = edges[edge].T
    along = u1 + (points[which, 1] - v1) / (v2 - v1) * (u2 - u1)
    far = sense * (along - points[which, 0])
    ahead = far[far > -GRAZE_MM]
    return float(max(ahead.min(), 0.0)) if len(ahead) else math.inf


def _to_margins(problem: LayProblem, box: tuple[float, float, float, float], way: np.ndarray) -> float:
    """Return how far a box can go before it leaves the usable field."""
    x0, y0, x1, y1 = box
    low_x, low_y = problem.end_margin_mm, problem.edge_margin_mm
    high_y = problem.roll.usable_width_mm - problem.edge_margin_mm
    high_x = math.inf if problem.roll.length_mm is None else problem.roll.length_mm - problem.end_margin_mm
    room = math.inf
    if way[0] < -1e-12:
        room = min(room, (x0 - low_x) / -way[0])
    elif way[0] > 1e-12:
        room = min(room, (high_x - x1) / way[0])
    if way[1] < -1e-12:
        room = min(room, (y0 - low_y) / -way[1])
    elif way[1] > 1e-12:
        room = min(room, (high_y - y1) / way[1])
    return max(room, 0.0)


def _far_end(problem: LayProblem, placements: Sequence[Placement]) -> float:
    return problem.length_of_mm(placements) + 1000.0
