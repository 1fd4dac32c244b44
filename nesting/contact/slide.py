"""How far a piece can slide until it touches: exact to the no-fit polygons' precision."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely

from geometry.outline import Outline
from nesting.contact.nofit import nofit
from nesting.lay import Placement
from nesting.problem import LayProblem

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
    for k, other in enumerate(placements):
        if k == index:
            continue
        placed = problem.by_id[other.item_id].outline.turned(other.turn_deg)
        ox0, oy0, ox1, oy1 = placed.bbox_mm
        box = shapely.box(ox0 + other.x_mm, oy0 + other.y_mm, ox1 + other.x_mm, oy1 + other.y_mm)
        if box.intersects(path):
            region = nofit(placed, shape, problem.gap_mm, problem.use_holes).region
            nearest = min(nearest, _first_hit(region, here - (other.x_mm, other.y_mm), way, reach))
    for flaw in problem.roll.flaws:
        polygon = shapely.make_valid(shapely.Polygon(flaw.ring_mm))
        if polygon.intersects(path):
            region = nofit(Outline.make(flaw.ring_mm), shape, 0.0, False).region
            nearest = min(nearest, _first_hit(region, here, way, reach))
    if not math.isfinite(nearest):
        return 0.0
    return max(nearest - OFF_MM, 0.0)


def _first_hit(region: shapely.Geometry, start: np.ndarray, way: np.ndarray, reach: float) -> float:
    """Return the distance along ``way`` at which an offset enters a no-fit region."""
    if shapely.contains_properly(region, shapely.Point(start)):
        return 0.0
    ray = shapely.LineString([start, start + way * reach])
    met = shapely.intersection(ray, region)
    if met.is_empty:
        return math.inf
    inside = [
        line for line in shapely.get_parts(met) if line.geom_type == "LineString" and line.length > OFF_MM
    ]
    points = shapely.get_coordinates(inside)
    return float(((points - start) @ way).min()) if len(points) else math.inf


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
