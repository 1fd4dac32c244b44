"""A lay as it is kept: by the shapes it holds and not by their names, so that any order may use it."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from geometry.outline import Outline
from nesting.items import Item
from nesting.lay import Lay
from nesting.problem import LayProblem

VERSION = 1
"""Raised when a kept lay could be misread: other keys, other meaning of a placement."""


@dataclass(frozen=True)
class KnownLay:
    """A lay found before. ``placements`` are (shape, turn_deg, x_mm, y_mm), shapes by their key.

    ``gap_mm`` and ``width_mm`` (usable) are those it was found for; ``searches`` how often it was searched
    for; ``name`` says when it was found; ``seconds`` were searched for it in all (0: not known).
    """

    demand: Mapping[str, int]
    placements: tuple[tuple[str, float, float, float], ...]
    gap_mm: float
    width_mm: float
    length_mm: float
    engine: str = ""
    searches: int = 1
    name: str = ""
    seconds: float = 0.0


def shape_key(item: Item) -> str:
    """Return the key of what an item is cut as: its exact outline, the turns allowed, the angle granted."""
    turns = None if item.turns_deg is None else tuple(item.turns_deg)
    return _shape_key(_Rings(item.outline), turns, item.turn_tolerance_deg, item.pull_axis_deg)


class _Rings:
    """An outline that a cache can hold: compared by identity, as outlines never change."""

    def __init__(self, outline: Outline) -> None:
        self.outline = outline

    def __hash__(self) -> int:
        return id(self.outline)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Rings) and other.outline is self.outline


@lru_cache(maxsize=4096)
def _shape_key(rings: _Rings, turns: tuple[float, ...] | None, tolerance_deg: float, axis_deg: float) -> str:
    digest = hashlib.sha256(repr((turns, tolerance_deg, axis_deg)).encode())
    for ring in rings.outline.rings_mm:
        points = np.ascontiguousarray(ring, dtype=np.float64)
        digest.update(repr(points.shape).encode() + points.tobytes())
    return digest.hexdigest()[:32]


def family_key(problem: LayProblem) -> str:
    """Return what two problems must share for a lay of one to be tried on the other.

    Margins, direction, holes, flaws and pinned pieces; not the gap, the width, or how many pieces.
    """
    keys = {item.id: shape_key(item) for item in problem.items}
    digest = hashlib.sha256(
        repr(
            (
                VERSION,
                problem.edge_margin_mm,
                problem.end_margin_mm,
                problem.roll.tight_direction_deg,
                problem.use_holes,
                sorted((keys[p.item_id], p.turn_deg, p.x_mm, p.y_mm) for p in problem.pinned),
            )
        ).encode()
    )
    for flaw in problem.roll.flaws:
        digest.update(np.ascontiguousarray(flaw.ring_mm, dtype=np.float64).tobytes())
    return digest.hexdigest()[:32]


def demand_of(problem: LayProblem) -> dict[str, int]:
    """Return how many pieces of each shape are asked for."""
    counts: Counter[str] = Counter()
    for item in problem.items:
        if item.demand:
            counts[shape_key(item)] += item.demand
    return dict(counts)


def exact_key(problem: LayProblem) -> str:
    """Return the key of the problem itself: family, gap, width and the number of each shape."""
    said = (family_key(problem), problem.gap_mm, problem.roll.usable_width_mm)
    return hashlib.sha256(repr((said, sorted(demand_of(problem).items()))).encode()).hexdigest()[:32]


def record_of(problem: LayProblem, lay: Lay, *, searches: int = 1, name: str = "") -> KnownLay:
    """Return a lay of a problem as it is kept."""
    keys = {item.id: shape_key(item) for item in problem.items}
    return KnownLay(
        demand=demand_of(problem),
        placements=tuple((keys[p.item_id], p.turn_deg, p.x_mm, p.y_mm) for p in lay.placements),
        gap_mm=problem.gap_mm,
        width_mm=problem.roll.usable_width_mm,
        length_mm=lay.length_mm,
        engine=lay.engine,
        searches=searches,
        name=name,
        seconds=lay.searched_s,
    )


def to_data(known: KnownLay) -> dict[str, Any]:
    """Return a lay as it is written where it is kept: figures, texts and lists."""
    return {
        "demand": dict(known.demand),
        "placements": [list(at) for at in known.placements],
        "gap_mm": known.gap_mm,
        "width_mm": known.width_mm,
        "length_mm": known.length_mm,
        "engine": known.engine,
        "seconds": known.seconds,
    }


def from_data(data: Any, *, searches: int = 1, name: str = "") -> KnownLay | None:
    """Return the lay that ``to_data`` wrote; None where it cannot be read: it is never needed."""
    try:
        return KnownLay(
            demand={str(shape): int(count) for shape, count in data["demand"].items()},
            placements=tuple((str(s), float(t), float(x), float(y)) for s, t, x, y in data["placements"]),
            gap_mm=float(data["gap_mm"]),
            width_mm=float(data["width_mm"]),
            length_mm=float(data["length_mm"]),
            engine=str(data["engine"]),
            searches=searches,
            name=name,
            seconds=float(data.get("seconds", 0.0)),
        )
    except (AttributeError, KeyError, TypeError, ValueError):
        return None
