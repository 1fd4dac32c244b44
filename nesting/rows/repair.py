"""Bands of rows on a roll with a flaw or a pinned piece in their way, or without time to lay them all.

Bands repeat, and what lies in their way does not. So they are laid as if nothing did; the few
pieces that meet a flaw or a pinned piece are taken up and laid again behind the end. So are those
that the bands had no time for.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from nesting.free import first_layout
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.tolerances import SPARE_MM


def without_fixed(problem: LayProblem) -> LayProblem:
    """Return the problem without flaws, and without the pinned pieces and their demand."""
    if not problem.pinned and not problem.roll.flaws:
        return problem
    pinned = Counter(at.item_id for at in problem.pinned)
    items = tuple(replace(i, demand=i.demand - pinned[i.id]) for i in problem.items)
    return replace(problem, items=items, pinned=(), roll=replace(problem.roll, flaws=()))


def cleared(problem: LayProblem, lay: Lay) -> Lay:
    """Return a lay of ``without_fixed(problem)``, or of part of it, as one of the whole problem: what
    meets a flaw or a pinned piece, or comes nearer to that one than the gap, and what is missing lies
    behind the end instead."""
    bare = without_fixed(problem)
    if bare is problem and len(lay.placements) == problem.pieces:
        return lay
    in_way = [False] * len(lay.placements)
    if bare is not problem:
        in_way = _in_way(problem, _shapes(problem, lay.placements))
    kept = tuple(at for at, hit in zip(lay.placements, in_way, strict=True) if not hit)
    pinned = tuple(replace(at, pinned=True) for at in problem.pinned)
    laid = Counter(at.item_id for at in kept)
    again: tuple[Placement, ...] = ()
    if len(kept) < bare.pieces:
        items = tuple(replace(i, demand=i.demand - laid[i.id]) for i in bare.items)
        again = first_layout.solve(replace(bare, items=items)).placements
        ends = [problem.length_of_mm(part) - problem.end_margin_mm for part in (kept, pinned) if part]
        ends += [float(flaw.ring_mm[:, 0].max()) for flaw in problem.roll.flaws]
        if bare is not problem:
            ends.append(0.0)
        behind = _behind(problem, again, sorted(ends), _shapes(problem, kept))
        again = tuple(replace(at, x_mm=at.x_mm + behind) for at in again)
    placements = (*pinned, *kept, *again)
    return replace(lay, placements=placements, length_mm=problem.length_of_mm(placements))


def _behind(
    problem: LayProblem, again: Sequence[Placement], ends: list[float], kept: Sequence[Polygon]
) -> float:
    """The least move to behind one of the ends at which the pieces lie clear of everything."""
    tree = shapely.STRtree(list(kept))
    for end in ends:
        move = max(0.0, end + problem.gap_mm + SPARE_MM - problem.end_margin_mm)
        moved = _shapes(problem, [replace(at, x_mm=at.x_mm + move) for at in again])
        near = tree.query(moved, predicate="dwithin", distance=problem.gap_mm + SPARE_MM / 2.0)
        if not near.size and not any(_in_way(problem, moved)):
            return move
    return move


def _shapes(problem: LayProblem, placements: Sequence[Placement]) -> list[Polygon]:
    return [Polygon(at.place(problem.by_id[at.item_id].outline).ring_mm) for at in placements]


def _in_way(problem: LayProblem, shapes: Sequence[Polygon]) -> list[bool]:
    """Which shapes meet a flaw, or come nearer than the gap to a pinned piece."""
    hit = np.zeros(len(shapes), bool)
    tree = shapely.STRtree(list(shapes))
    for flaw in problem.roll.flaws:
        hit[tree.query(Polygon(flaw.ring_mm), predicate="dwithin", distance=SPARE_MM)] = True
    for pin in _shapes(problem, problem.pinned):
        hit[tree.query(pin, predicate="dwithin", distance=problem.gap_mm + SPARE_MM / 2.0)] = True
    return hit.tolist()
