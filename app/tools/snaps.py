"""Where a drawn point comes to lie: corners, middles, crossings, notches, edges, backing, axis, lines."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import shapely

from app.tools.board import BoardPiece, EdgeName
from app.tools.pointer import Pointer

POINT_PX = 9.0
LINE_PX = 7.0
STEP_DEG = 15.0
Place = tuple[float, float]


@dataclass(frozen=True)
class Snap:
    """A point in the piece's frame, what it lies on ('' = nothing), and the edge it is kept by, if any."""

    xy_mm: Place
    what: str = ""
    edge: EdgeName | None = None


def snapped(piece: BoardPiece, at: Pointer, sketch: list[Place]) -> Snap:
    """Return where a pointer's point lies: points are taken before lines; Alt draws freely.

    Control turns the step from the last point of the sketch to whole steps of STEP_DEG off the pull axis.
    """
    here = piece.to_piece(at.xy_mm)
    if at.alt:
        return Snap(here)
    if at.control and sketch:
        return Snap(_turned(piece, sketch[-1], here), "angle")
    reach = at.reach_mm(POINT_PX)
    points = [*_points(piece, sketch), *_crossings(piece, here, sketch, reach)]
    near = [s for s in points if math.dist(s.xy_mm, here) <= reach]
    if near:
        return min(near, key=lambda s: math.dist(s.xy_mm, here))
    found = [(foot, s) for foot, s in _lines(piece, here) if math.dist(foot, here) <= at.reach_mm(LINE_PX)]
    if found:
        foot, what = min(found, key=lambda f: math.dist(f[0], here))
        return Snap(foot, what[0], what[1])
    return Snap(here)


def _points(piece: BoardPiece, sketch: list[Place]) -> list[Snap]:
    found = []
    for edge in piece.edges:
        found.append(Snap(_pair(edge.points_mm[0]), "corner", edge.name))
        found.append(Snap(edge.point_at(0.5)[0], "middle of edge", edge.name))
        found += [Snap(_pair(point), "point", edge.name) for point in edge.points_mm[1:-1]]
    found += [Snap((n.x_mm, n.y_mm), "notch") for n in piece.upper.notches]
    for ring in piece.rims_mm:
        found += [Snap(_pair(point), "backing") for point in ring]
    if len(sketch) > 2:
        found.append(Snap(sketch[0], "start"))
    return found


def _crossings(piece: BoardPiece, here: Place, sketch: list[Place], reach_mm: float) -> list[Snap]:
    """Return where two lines cross near a place: edges, backing, pull axis, drawn lines, the sketch."""
    point = shapely.Point(here)
    near = [each for each in _drawn(piece) if each[0].distance(point) <= reach_mm]
    if len(sketch) > 2:  # its last step is only being drawn
        own = shapely.LineString(sketch[:-1])
        near += [(own, ("line", None))] if own.distance(point) <= reach_mm else []
    found = []
    for (a, (_, one)), (b, (_, other)) in combinations(near, 2):
        if one is not None and other is not None:
            continue  # two edges meet at a corner
        crossing = shapely.intersection(a, b)
        if crossing.geom_type in ("Point", "MultiPoint"):
            found += [Snap(_pair(p), "crossing", one or other) for p in shapely.get_coordinates(crossing)]
    return found


def _lines(piece: BoardPiece, here: Place) -> list[tuple[Place, tuple[str, EdgeName | None]]]:
    point = shapely.Point(here)
    return [(_pair(line.interpolate(line.project(point)).coords[0]), what) for line, what in _drawn(piece)]


def _drawn(piece: BoardPiece) -> list[tuple[shapely.LineString, tuple[str, EdgeName | None]]]:
    """Return the lines of a piece, what each is, and its edge."""
    lines: list[tuple[shapely.LineString, tuple[str, EdgeName | None]]] = [
        (shapely.LineString(edge.points_mm), ("edge", edge.name)) for edge in piece.edges
    ]
    lines += [(shapely.LinearRing(ring), ("backing", None)) for ring in piece.rims_mm]
    lines += [(shapely.LineString(line), ("line", None)) for line in piece.lines_mm if len(line) > 1]
    lines.append((shapely.LineString(_axis(piece)), ("pull axis", None)))
    return lines


def _axis(piece: BoardPiece) -> list[Place]:
    (x, y), (x0, y0, x1, y1) = piece.middle_mm, piece.outline.bbox_mm
    angle, far = math.radians(piece.upper.pull_axis.axis_deg), math.hypot(x1 - x0, y1 - y0)
    dx, dy = far * math.cos(angle), far * math.sin(angle)
    return [(x - dx, y - dy), (x + dx, y + dy)]


def _turned(piece: BoardPiece, last: Place, here: Place) -> Place:
    axis = piece.upper.pull_axis.axis_deg
    angle = math.degrees(math.atan2(here[1] - last[1], here[0] - last[0])) - axis
    turned = math.radians(round(angle / STEP_DEG) * STEP_DEG + axis)
    way = np.array([math.cos(turned), math.sin(turned)])
    length = float((np.array(here) - last) @ way)
    return _pair(np.array(last) + length * way)


def _pair(point: object) -> Place:
    x, y = np.asarray(point, dtype=np.float64)[:2]
    return float(x), float(y)
