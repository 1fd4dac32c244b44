"""Partial backing: a region that the backing stays inside or outside, or a cut line that it stays beside."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import split

from geometry.backing.offset import parts
from geometry.errors import BackingError
from geometry.outline import Ring
from geometry.piece import Keep

ROOM_MM = 1.0
"""A cut line runs on this far past the piece's outline."""


def kept(shape: BaseGeometry, piece: BaseGeometry, keep: Keep, name: str = "") -> BaseGeometry:
    """Return the part of ``shape`` that ``keep`` leaves.

    A cut line runs on straight past both its ends, so that it need not reach the outline.
    Raises BackingError when the region or line misses ``piece``, crosses itself, or the side
    to keep is not given or lies on the line.
    """
    points = np.asarray(keep.points_mm, dtype=np.float64)
    if keep.closed:
        region = Polygon(points) if len(points) >= 3 else Polygon()
        if region.is_empty or not region.is_valid:
            raise BackingError(
                "the region to back is not a closed outline", remedy="draw it again", piece=name
            )
        if region.intersection(piece).area == 0.0:
            raise BackingError(
                "the region to back lies off the piece", remedy="draw it on the piece", piece=name
            )
        return shape.intersection(region) if keep.inside else shape.difference(region)
    if len(points) < 2 or keep.side_mm is None:
        raise BackingError(
            "a cut line needs two points and the side to keep", remedy="click the side to keep", piece=name
        )
    side = Point(keep.side_mm)
    halves, room = _halves(points.tobytes(), shapely.to_wkb(piece), name)
    away = [half.distance(side) for half in halves]
    if min(away) == max(away):
        raise BackingError(
            "it is not clear which side of the cut line to keep",
            remedy="click well inside the side to keep",
            piece=name,
        )
    if not room.covers(shape):  # it runs past the piece
        halves = sides_of(points, piece.union(shape), name)
    return shape.intersection(halves[0 if away[0] < away[1] else 1])


@lru_cache(maxsize=64)
def _halves(points: bytes, piece: bytes, name: str) -> tuple[tuple[BaseGeometry, BaseGeometry], BaseGeometry]:
    """Return the sides of a line across a piece, and both together: a drag asks for the same each time."""
    halves = sides_of(np.frombuffer(points).reshape(-1, 2), shapely.from_wkb(piece), name)
    room = shapely.union_all(halves)
    shapely.prepare(room)
    return halves, room


def sides_of(points: Ring, piece: BaseGeometry, name: str = "") -> tuple[BaseGeometry, BaseGeometry]:
    """Return what of a piece (and a little beyond it) lies to the left and to the right of a line across it.

    The line runs on straight past both its ends until it is off the piece. Raises BackingError when it
    misses the piece, crosses itself or does not divide it.
    """
    room = _room(piece)
    for line in (run_on(points, piece, name), run_on(points, piece, name, through=True)):
        if not line.is_simple:
            continue
        found = list(split(room, line).geoms)
        beside = _beside(line, room)
        sides = [[part for part in found if any(part.contains(p) for p in spots)] for spots in beside]
        if all(sides) and not any(part in sides[1] for part in sides[0]):
            return shapely.union_all(sides[0]), shapely.union_all(sides[1])
    raise BackingError(
        "the cut line does not divide the piece",
        remedy="draw it from edge to edge across the piece",
        piece=name,
    )


def run_on(points: Ring, piece: BaseGeometry, name: str = "", *, through: bool = False) -> LineString:
    """Return a line prolonged straight past both its ends, until it is off the piece.

    With ``through`` it runs on through other limbs of the piece, beyond all of it. Raises BackingError when
    it has no direction, crosses itself or misses the piece.
    """
    points = np.asarray(points, dtype=np.float64)
    start, end = points[0] - points[1], points[-1] - points[-2]
    if not (start.any() and end.any()):
        raise BackingError("the cut line has two points in one place", remedy="draw it again", piece=name)
    if not LineString(points).is_simple:
        raise BackingError("the cut line crosses itself", remedy="draw it again", piece=name)
    room = _room(piece)
    low_x, low_y, high_x, high_y = room.bounds
    middle = ((low_x + high_x) / 2, (low_y + high_y) / 2)
    far = 2.0 * float(np.hypot(high_x - low_x, high_y - low_y)) + float(np.abs(points - middle).max())
    ends = []
    for at, way in ((points[0], start), (points[-1], end)):
        stop = at + far * way / np.hypot(*way)
        ends.append(stop if through else _first_exit(at, stop, room))
    line = LineString([ends[0], *points, ends[1]])
    if line.intersection(piece).length == 0.0:
        raise BackingError("the cut line misses the piece", remedy="draw it across the piece", piece=name)
    return line


def _room(piece: BaseGeometry) -> BaseGeometry:
    """Return a piece without its holes and a little larger, so that a line from edge to edge divides it."""
    filled = [Polygon(p.exterior) for p in parts(piece)]
    return shapely.union_all(filled).buffer(ROOM_MM, join_style="mitre")


def _first_exit(at: Ring, stop: Ring, room: BaseGeometry) -> Ring:
    """Return where a ray from ``at`` has left the room; a hair's breadth on where ``at`` lies off it."""
    if not room.covers(Point(at)):
        return np.asarray(at + 1e-3 * (stop - at) / np.hypot(*(stop - at)))
    ray = LineString([at, stop])
    inside = ray.intersection(room)
    runs = [g for g in getattr(inside, "geoms", [inside]) if isinstance(g, LineString) and not g.is_empty]
    first = min(runs, key=lambda g: float(g.distance(Point(at))))
    out = max(first.coords, key=lambda p: float(np.hypot(*(np.asarray(p) - at))))
    way = (stop - at) / np.hypot(*(stop - at))
    return np.asarray(out) + ROOM_MM * way


def _beside(line: LineString, room: BaseGeometry) -> tuple[list[Point], list[Point]]:
    """Return points just to the left and to the right of every stretch of a line that lies in the room."""
    shared = line.intersection(room)
    left, right = [], []
    for run in getattr(shared, "geoms", [shared]):
        if isinstance(run, LineString) and run.length > 1e-3:
            middle = line.project(run.interpolate(0.5, normalized=True))
            a, b = (np.asarray(line.interpolate(middle + d).coords[0]) for d in (-1e-4, 1e-4))
            step = (b - a) / np.hypot(*(b - a))
            square = 1e-4 * np.array([-step[1], step[0]])
            left.append(Point((a + b) / 2 + square))
            right.append(Point((a + b) / 2 - square))
    return left, right
