"""What a person did on the old outline brought over to the new one: breaks, kinds, setbacks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from app.style.model import EdgeData
from geometry.backing.edges import corners
from geometry.outline import Outline

Array = NDArray[np.float64]

NEAR_MM = 1.0
"""A break point is looked for this far beyond the largest move of the outline."""

OTHER_SHAPE_SHARE = 0.25
"""An edge whose new course leaves the old one by more than this share of its length is asked about: a side
that was redrawn may have another purpose. Common practice, no source."""


@dataclass(frozen=True)
class CarriedEdges:
    """The edges of the new outline; ``asked`` are the places (mm) of those that a person must look at."""

    edges: tuple[EdgeData, ...]
    carried: int
    asked: tuple[tuple[float, float], ...]


def carry_edges(
    edges: Sequence[EdgeData], old: Outline, new: Outline, max_move_mm: float, corner_deg: float
) -> CarriedEdges:
    """Return the edges of ``new`` as they were marked on ``old`` (both in the new frame).

    A break goes to the nearest corner of the new ring, else to its nearest vertex. An edge whose both ends
    were found in their order, with no new corner between them and nearly the old course, is carried as it
    stands; the others keep what the edge beside them has as a suggestion, and are asked about.
    """
    found: list[EdgeData] = []
    asked: list[tuple[float, float]] = []
    carried = 0
    old_rings = old.rings_mm
    for r, ring in enumerate(new.rings_mm):
        marked = [edge for edge in edges if edge.ring == r] if r < len(old_rings) else []
        if not marked:
            continue
        starts = [tuple(old_rings[r][edge.start]) for edge in marked]
        here, sure = _breaks(np.array(starts), ring, max_move_mm, corner_deg)
        new_corners = set(corners(ring, corner_deg)) - set(here)
        for k, edge in enumerate(marked):
            start, stop = here[k], here[(k + 1) % len(here)]
            between = sorted(c for c in new_corners if _within(c, start, stop, len(here)))
            course = _stretch(ring, start, stop, whole=len(here) == 1)
            before = _stretch(
                old_rings[r], edge.start, marked[(k + 1) % len(marked)].start, whole=len(marked) == 1
            )
            known = sure[k] and sure[(k + 1) % len(here)] and not between and _alike(before, course)
            parts = [start, *_in_order(between, start, len(ring))]
            for part in parts:
                confirmed = edge.confirmed and known
                found.append(edge.model_copy(update={"start": part, "confirmed": confirmed}))
                if not known:
                    asked.append((float(ring[part][0]), float(ring[part][1])))
            carried += known
    found.sort(key=lambda edge: (edge.ring, edge.start))
    return CarriedEdges(tuple(found), carried, tuple(asked))


def _breaks(
    starts: Array, ring: Array, max_move_mm: float, corner_deg: float
) -> tuple[list[int], list[bool]]:
    """Return a vertex for each old break, and whether it is surely its place."""
    reach = max_move_mm + NEAR_MM
    sharp = list(corners(ring, corner_deg))
    here: list[int] = []
    sure: list[bool] = []
    for point in starts:
        to_corner = sorted((float(np.hypot(*(ring[c] - point))), c) for c in sharp if c not in here)
        to_vertex = sorted((float(d), i) for i, d in enumerate(np.hypot(*(ring - point).T)) if i not in here)
        if to_corner and to_corner[0][0] <= reach and not _smooth_before(to_corner, to_vertex):
            here.append(to_corner[0][1])
            sure.append(len(to_corner) == 1 or to_corner[1][0] > to_corner[0][0] + 1e-9)
        else:
            here.append(to_vertex[0][1])
            sure.append(to_vertex[0][0] <= reach)
    turns = sum(b < a for a, b in zip(here, [*here[1:], here[0]], strict=True))
    if turns > 1:  # out of order: nobody can say which edge is which
        order = sorted(range(len(here)), key=lambda k: here[k])
        return [here[k] for k in order], [False] * len(here)
    return here, sure


def _smooth_before(to_corner: list[tuple[float, int]], to_vertex: list[tuple[float, int]]) -> bool:
    """Whether the break lies on a smooth stretch: a vertex exactly there, the nearest corner elsewhere."""
    return to_vertex[0][0] < 1e-6 < to_corner[0][0]


def _within(index: int, start: int, stop: int, count: int) -> bool:
    if count == 1:
        return index != start
    return start < index < stop if start < stop else index > start or index < stop


def _in_order(indices: list[int], start: int, length: int) -> list[int]:
    return sorted(indices, key=lambda i: (i - start) % length)


def _stretch(ring: Array, start: int, stop: int, *, whole: bool) -> Array:
    if whole or start == stop:
        return np.vstack([np.roll(ring, -start, axis=0), ring[start]])
    if start < stop:
        return ring[start : stop + 1]
    return np.vstack([ring[start:], ring[: stop + 1]])


def _alike(before: Array, after: Array) -> bool:
    a, b = shapely.LineString(before), shapely.LineString(after)
    return float(shapely.hausdorff_distance(a, b)) <= max(OTHER_SHAPE_SHARE * a.length, NEAR_MM)
