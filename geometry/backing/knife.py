"""What a knife can cut: no slivers, and corners rounded where asked. Both only take off.

Both are openings (eroded, then dilated by the same amount: what a disc, or for slivers a
square-cornered probe, of that size can reach). Only the places that change are cut out of the
original, so that all the rest of a boundary keeps its exact coordinates.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import pyclipper
import shapely
from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.backing.edges import turns_deg
from geometry.backing.offset import parts

_SPECK_MM2 = 1e-4  # what rounding in the offsetting library leaves along curves
_HAIR_MM = 2e-4  # grown by this much more than shrunk, so that unchanged boundaries are not compared
_UNITS = 1e6  # integer units a millimetre in the offsetting library: a nanometre


@dataclass(frozen=True)
class TakenOff:
    """A place where something was taken off."""

    at_mm: tuple[float, float]
    area_mm2: float


def without_slivers(polygons: Sequence[Polygon], width_mm: float) -> tuple[list[Polygon], list[TakenOff]]:
    """Return the polygons less all that is narrower than ``width_mm``, and what was taken off."""
    if width_mm <= 0.0:
        return list(polygons), []
    left: list[Polygon] = []
    cuts: list[TakenOff] = []
    for polygon in polygons:
        thin = _taken(polygon, width_mm / 2.0, pyclipper.JT_MITER, 0.01)
        thin = [p for p in thin if p.area > tolerances.SLIVER_MM2]
        cuts += [TakenOff(_inside(p), p.area) for p in thin]
        rest = parts(polygon.difference(shapely.union_all(thin))) if thin else [polygon]
        left += [p for p in rest if p.area > tolerances.CRUMB_MM2]
    return left, cuts


def rounded(
    polygons: Sequence[Polygon], radius_mm: float, chord_mm: float, corner_deg: float
) -> tuple[list[Polygon], list[TakenOff]]:
    """Return the polygons with outer corners rounded, and the tips taken off.

    A corner is rounded alone: where the piece is too narrow or another corner too near for the
    radius, half of it is tried, then a quarter. Inner corners stay sharp: rounding one would
    put cloth inside a setback.
    """
    arc_mm = min(chord_mm, radius_mm / 10.0) / 5.0
    left, cuts = list(polygons), []
    for share in (1.0, 0.5, 0.25):
        radius = share * radius_mm
        for i, polygon in enumerate(left):
            corners = _outer_corners(polygon, corner_deg)
            if not corners:
                continue
            taken = [p for p in _taken(polygon, radius, pyclipper.JT_ROUND, arc_mm) if p.area > _SPECK_MM2]
            tips = [p for p in taken if _is_tip(p, corners, radius)]
            if tips:
                cuts += [TakenOff(_inside(p), p.area) for p in tips]
                left[i] = parts(polygon.difference(shapely.union_all(tips)))[0]
    return left, cuts


def _outer_corners(polygon: Polygon, corner_deg: float) -> list[tuple[Point, float]]:
    """Return the corners that stick out of a polygon, each with its turn in degrees."""
    found = []
    oriented = shapely.orient_polygons(polygon)
    for line in (oriented.exterior, *oriented.interiors):
        ring = np.asarray(line.coords)[:-1]
        turns = turns_deg(ring)
        found += [(Point(ring[i]), float(turns[i])) for i in np.flatnonzero(turns > corner_deg).tolist()]
    return found


def _is_tip(shape: Polygon, corners: Sequence[tuple[Point, float]], radius_mm: float) -> bool:
    """Whether a shape is the tip of one outer corner, and no more than a rounding takes off."""
    turns = [turn for point, turn in corners if shape.distance(point) < tolerances.SAME_POINT_MM]
    if len(turns) != 1:
        return False
    half = math.radians(min(turns[0], 170.0)) / 2.0
    return shape.area < 1.3 * radius_mm**2 * (math.tan(half) - half) + tolerances.CRUMB_MM2


def _taken(polygon: Polygon, radius_mm: float, join: int, arc_mm: float) -> list[Polygon]:
    """Return what an opening takes off a polygon.

    Dilated a hair more than eroded, so that boundaries that do not change are not compared point
    by point.
    """
    core = _offset(_paths(polygon), -radius_mm, join, arc_mm)
    core = _offset(core, radius_mm + _HAIR_MM, join, arc_mm)
    return parts(polygon.difference(_polygons(core)))


def _paths(polygon: Polygon) -> list[list[list[int]]]:
    polygon = shapely.orient_polygons(polygon)
    return [
        [[round(x * _UNITS), round(y * _UNITS)] for x, y in ring.coords[:-1]]
        for ring in (polygon.exterior, *polygon.interiors)
    ]


def _offset(paths: list[list[list[int]]], by_mm: float, join: int, arc_mm: float) -> list[list[list[int]]]:
    if not paths:
        return []
    offset = pyclipper.PyclipperOffset(miter_limit=tolerances.TIP_LIMIT, arc_tolerance=arc_mm * _UNITS)
    offset.AddPaths(paths, join, pyclipper.ET_CLOSEDPOLYGON)
    found: list[list[list[int]]] = offset.Execute(by_mm * _UNITS)
    return found


def _polygons(paths: list[list[list[int]]]) -> BaseGeometry:
    if not paths:
        return Polygon()
    shapes = [Polygon([(x / _UNITS, y / _UNITS) for x, y in path]) for path in paths if len(path) > 2]
    outer = [s for s, p in zip(shapes, paths, strict=False) if pyclipper.Orientation(p)]
    holes = [s for s, p in zip(shapes, paths, strict=False) if not pyclipper.Orientation(p)]
    return shapely.make_valid(shapely.union_all(outer)).difference(
        shapely.make_valid(shapely.union_all(holes))
    )


def _inside(polygon: Polygon) -> tuple[float, float]:
    point = polygon.representative_point()
    return float(point.x), float(point.y)
