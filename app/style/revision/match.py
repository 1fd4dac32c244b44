"""Which piece of a revised drawing is which piece of the style: by name, else by shape."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import shapely

from geometry.outline import Outline

SAME_SHAPE_SHARE = 0.12
"""Outlines that lie this share of their diagonal apart at most may be one piece under another name: a throat
moved by a centimetre on a vamp of 180 mm stays below it. Common practice, no source."""

SWAPPED_FACTOR = 0.5
"""Two names count as possibly swapped when exchanging them halves the distance between the outlines, ..."""

SWAPPED_LEAST_MM = 3.0
"""... and they lie further apart than this under their own names: less is a revision like any other."""


DRAWN_ELSEWHERE = 0.7
"""A piece counts as drawn elsewhere on the sheet when moving it brings the outlines this much nearer."""

SETTLE_STEPS = 40  # steps at the most; most outlines settle in fewer
SETTLED_MM = 1e-4
"""The move of an outline onto another is found to this, in at most this many steps."""


@dataclass(frozen=True)
class Match:
    """An old piece and the new one taken for it. ``shift_mm`` moves the old frame onto the new one.

    ``by`` is "name" or "shape"; ``max_move_mm`` the largest distance between the outlines after the shift.
    """

    piece: str
    new_name: str
    by: str
    shift_mm: tuple[float, float]
    max_move_mm: float


@dataclass(frozen=True)
class Matching:
    """All matches, what is new, what is gone, and pairs of names that may have been swapped."""

    matches: tuple[Match, ...]
    added: tuple[str, ...]
    removed: tuple[str, ...]
    swapped: tuple[tuple[str, str], ...]


def match_pieces(
    old: Mapping[str, Outline], new: Mapping[str, Outline], *, by_shape: tuple[str, ...] = ()
) -> Matching:
    """Match pieces by name, then the rest by shape, nearest first.

    Pieces named in ``by_shape`` are matched by shape whatever their names say: that is the answer where
    names were swapped.
    """
    plain = {_plain(name): name for name in new}
    named = {
        name: plain[_plain(name)]
        for name in old
        if _plain(name) in plain and name not in by_shape and plain[_plain(name)] not in by_shape
    }
    found = [_match(name, old[name], other, new[other], "name") for name, other in named.items()]
    left = [name for name in old if name not in named]
    free = [name for name in new if name not in named.values()]
    pairs = sorted(
        (distance, name, other)
        for name in left
        for other in free
        if (distance := _match(name, old[name], other, new[other], "shape").max_move_mm)
        <= SAME_SHAPE_SHARE * _diagonal_mm(old[name])
    )
    for _, name, other in pairs:
        if name in left and other in free:
            found.append(_match(name, old[name], other, new[other], "shape"))
            left.remove(name)
            free.remove(other)
    order = list(old)
    found.sort(key=lambda match: order.index(match.piece))
    return Matching(tuple(found), tuple(free), tuple(left), _swapped(found, old, new))


def _swapped(
    found: list[Match], old: Mapping[str, Outline], new: Mapping[str, Outline]
) -> tuple[tuple[str, str], ...]:
    by_name = [match for match in found if match.by == "name" and match.max_move_mm > SWAPPED_LEAST_MM]
    pairs = []
    for i, a in enumerate(by_name):
        for b in by_name[i + 1 :]:
            kept = a.max_move_mm + b.max_move_mm
            crossed = (
                _match(a.piece, old[a.piece], b.new_name, new[b.new_name], "shape").max_move_mm
                + _match(b.piece, old[b.piece], a.new_name, new[a.new_name], "shape").max_move_mm
            )
            if crossed <= SWAPPED_FACTOR * kept:
                pairs.append((a.piece, b.piece))
    return tuple(pairs)


def _match(name: str, old: Outline, new_name: str, new: Outline, by: str) -> Match:
    """Compare two outlines where they lie and laid on each other; a move that hardly helps is none."""
    here = _distance_mm(old, new)
    shift = _shift_onto(old, new)
    moved = _distance_mm(old.moved(*shift), new)
    if moved < DRAWN_ELSEWHERE * here:
        return Match(name, new_name, by, shift, moved)
    return Match(name, new_name, by, (0.0, 0.0), here)


def _shift_onto(old: Outline, new: Outline) -> tuple[float, float]:
    """Return the move of an outline drawn elsewhere on the sheet: by the middle, then by the median step.

    The median looks past the stretch that was redrawn: a throat moved by 6 mm does not drag the rest along.
    """
    shift = np.subtract(_middle(new), _middle(old))
    ring = shapely.points(old.ring_mm)
    target = new.polygon.exterior
    for _ in range(SETTLE_STEPS):
        moved = shapely.points(shapely.get_coordinates(ring) + shift)
        nearest = shapely.get_coordinates(
            shapely.line_interpolate_point(target, shapely.line_locate_point(target, moved))
        )
        step = np.median(nearest - shapely.get_coordinates(moved), axis=0)
        shift = shift + step
        if float(np.hypot(*step)) < SETTLED_MM:
            break
    return float(shift[0]), float(shift[1])


def _distance_mm(a: Outline, b: Outline) -> float:
    """The largest distance from a point of either outline to the other (Hausdorff's)."""
    return float(shapely.hausdorff_distance(a.polygon.exterior, b.polygon.exterior, densify=0.02))


def _middle(outline: Outline) -> tuple[float, float]:
    x0, y0, x1, y1 = outline.bbox_mm
    return (x0 + x1) / 2.0, (y0 + y1) / 2.0


def _diagonal_mm(outline: Outline) -> float:
    x0, y0, x1, y1 = outline.bbox_mm
    return float(np.hypot(x1 - x0, y1 - y0))


def _plain(name: str) -> str:
    return " ".join(name.split()).casefold()
