"""What a knife can cut: no slivers, and corners rounded where asked. Both only take off.

Both are openings (eroded, then dilated by the same amount: what a disc, or for slivers a
square-cornered probe, of that size can reach). Only the places that change are cut out of the
original, so that all the rest of a boundary keeps its exact coordinates.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import pyclipper
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.offset import parts

_UNITS = 1e6  # integer units a millimetre in the offsetting library: a nanometre


@dataclass(frozen=True)
class Cut:
    """A place where something was taken off."""

    at_mm: tuple[float, float]
    area_mm2: float


def without_slivers(polygons: Sequence[Polygon], width_mm: float) -> tuple[list[Polygon], list[Cut]]:
    """Return the polygons less all that is narrower than ``width_mm``, and what was taken off."""
    if width_mm <= 0.0:
        return list(polygons), []
    return _opened(polygons, width_mm / 2.0, pyclipper.JT_MITER, 0.01, tolerances.SLIVER_MM2)


def rounded(
    polygons: Sequence[Polygon], radius_mm: float, chord_mm: float, corner_deg: float
) -> tuple[list[Polygon], list[Cut]]:
    """Return the polygons with outer corners rounded, and the tips taken off.

    Inner corners stay sharp: rounding one would put cloth inside a setback.
    """
    half = math.radians(corner_deg) / 2.0
    tip_mm2 = radius_mm**2 * (math.tan(half) - half)  # what rounding the least corner takes off
    return _opened(polygons, radius_mm, pyclipper.JT_ROUND, min(chord_mm, radius_mm / 10.0) / 5.0, tip_mm2)


def _opened(
    polygons: Sequence[Polygon], radius_mm: float, join: int, arc_mm: float, least_mm2: float
) -> tuple[list[Polygon], list[Cut]]:
    left, cuts = [], []
    for polygon in polygons:
        core = _offset(_offset(_paths(polygon), -radius_mm, join, arc_mm), radius_mm, join, arc_mm)
        opened = _polygons(core)
        gone = [p for p in parts(polygon.difference(opened)) if p.area > least_mm2]
        if not gone:
            left.append(polygon)
            continue
        cuts += [Cut(_inside(p), p.area) for p in gone]
        left += [
            p for p in parts(polygon.difference(shapely.union_all(gone))) if p.area > tolerances.CRUMB_MM2
        ]
    return left, cuts


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
