"""A traced outline corrected by hand: a place of it is drawn to where the card's edge is seen."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.errors import OutlineError
from geometry.outline import Outline
from geometry.piece import DrawnPiece
from geometry.trace.outline import CORNER_DEG

Array = NDArray[np.float64]

REACH_MM = 8.0
"""A correction fades out within this length of outline on both sides (our own choice, no source)."""

STEP_MM = 1.0
"""Points are set so close where an outline is bent."""

ON_MM = 0.4
"""A vertex this near to the place taken is the one taken."""


def outline_near(piece: DrawnPiece, at_mm: tuple[float, float]) -> tuple[float, float, float]:
    """Return the place of an outline nearest to a point, and how far it is: (x, y, mm)."""
    where = shapely.Point(at_mm)
    feet = [ring.interpolate(ring.project(where)) for ring in map(shapely.LinearRing, piece.outline.rings_mm)]
    foot = min(feet, key=lambda p: float(p.distance(where)))
    return foot.x, foot.y, float(foot.distance(where))


def drawn_to(
    piece: DrawnPiece, from_mm: tuple[float, float], to_mm: tuple[float, float], reach_mm: float = REACH_MM
) -> DrawnPiece:
    """Return the piece with the outline at ``from_mm`` drawn to ``to_mm``.

    The outline beside it follows, less and less, over ``reach_mm`` of its length: straight from a corner,
    round elsewhere; at 0 the one point moves. Raises OutlineError where the outline would cross itself.
    """
    rings = [np.asarray(ring, dtype=np.float64) for ring in piece.outline.rings_mm]
    where = shapely.Point(from_mm)
    number = min(range(len(rings)), key=lambda r: float(shapely.LinearRing(rings[r]).distance(where)))
    ring, at = _with_points(rings[number], where, reach_mm)
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    total = along[-1] + float(np.hypot(*(ring[0] - ring[-1])))
    away = np.abs(along - along[at])
    away = np.minimum(away, total - away)
    if reach_mm > 0.0:
        share = np.clip(1.0 - away / reach_mm, 0.0, 1.0)
        if not _is_corner(ring, at):
            share = 0.5 - 0.5 * np.cos(np.pi * share)
    else:
        share = (away == 0.0).astype(np.float64)
    rings[number] = ring + share[:, None] * (np.asarray(to_mm) - ring[at])
    moved = [shapely.Polygon(r) for r in rings]
    outer = moved[0]
    sound = all(p.is_valid for p in moved) and all(outer.contains_properly(hole) for hole in moved[1:])
    if not sound:
        raise OutlineError(
            "the outline would cross itself there", remedy="move the point less far", piece=piece.name
        )
    return replace(piece, outline=Outline.make(rings[0], rings[1:]))


def _with_points(ring: Array, where: shapely.Point, reach_mm: float) -> tuple[Array, int]:
    """Return a ring with a vertex at its place nearest to ``where``, others every STEP_MM in reach; which."""
    line = shapely.LinearRing(ring)
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    foot = float(line.project(where))
    vertex = int(np.abs(along - foot).argmin())
    if abs(along[vertex] - foot) <= ON_MM:
        foot = float(along[vertex])
    steps = np.arange(-np.floor(reach_mm / STEP_MM), np.floor(reach_mm / STEP_MM) + 1) * STEP_MM
    wanted = np.mod(foot + steps, line.length)
    free = np.abs(wanted[:, None] - along[None, :]).min(axis=1) > ON_MM
    free[len(steps) // 2] = abs(along[vertex] - foot) > 1e-9
    places = np.sort(np.concatenate([along, wanted[free]]))
    made = shapely.get_coordinates(line.interpolate(places))
    for k, place in enumerate(along):  # the vertices as they are
        made[int(np.abs(places - place).argmin())] = ring[k]
    return made, int(np.abs(places - foot).argmin())


def _is_corner(ring: Array, at: int) -> bool:
    before, after = ring[at] - ring[at - 1], ring[(at + 1) % len(ring)] - ring[at]
    cross = before[0] * after[1] - before[1] * after[0]
    return bool(abs(np.degrees(np.arctan2(cross, float(before @ after)))) >= CORNER_DEG)
