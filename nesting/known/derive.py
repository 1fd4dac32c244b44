"""A lay for a problem out of one found for another: repeated along the roll, surplus pieces taken out."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from nesting.known.record import KnownLay, demand_of, shape_key
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.verify import verify

SLACK_MM = 1e-9
"""Gaps and widths that differ by less are the same: floating point only."""


def copies_needed(demand: Mapping[str, int], known: KnownLay) -> int | None:
    """Return how many times a known lay must be laid to hold a demand; None when a shape is missing."""
    times = 1
    for shape, count in demand.items():
        held = known.demand.get(shape, 0)
        if not held:
            return None
        times = max(times, math.ceil(count / held))
    return times


def estimate_mm(problem: LayProblem, known: KnownLay, demand: Mapping[str, int]) -> float | None:
    """Return the length that ``derived`` comes to at most; None when the known lay does not serve.

    It serves only at its own gap or a narrower one, on its own width or a wider one.
    """
    if known.gap_mm < problem.gap_mm - SLACK_MM:
        return None
    if known.width_mm > problem.roll.usable_width_mm + SLACK_MM:
        return None
    times = copies_needed(demand, known)
    if times is None or (times > 1 and (problem.roll.flaws or problem.pinned)):
        return None
    return known.length_mm + (times - 1) * _period_mm(problem, known)


def derived(problem: LayProblem, known: KnownLay) -> Lay | None:
    """Return a judged lay of ``problem`` made from a known one, or None.

    The known lay is repeated end to end, a gap between the copies; pieces beyond the demand are taken out
    from the far end.
    """
    demand = demand_of(problem)
    if estimate_mm(problem, known, demand) is None:
        return None
    times = copies_needed(demand, known) or 1
    period = _period_mm(problem, known)
    wanted = {item.id: item.demand for item in problem.items}
    by_shape: dict[str, list[str]] = {}
    for item in problem.items:
        by_shape.setdefault(shape_key(item), []).append(item.id)
    pins = {(shape_key(problem.by_id[p.item_id]), p.turn_deg, p.x_mm, p.y_mm): p for p in problem.pinned}
    placements: list[Placement] = []
    for turn in range(times):
        for shape, turn_deg, x_mm, y_mm in sorted(known.placements, key=lambda at: at[2]):
            name = next((each for each in by_shape.get(shape, ()) if wanted[each] > 0), None)
            if name is None:
                continue
            pin = pins.get((shape, turn_deg, x_mm, y_mm))
            if pin is not None and wanted[pin.item_id] > 0:
                name = pin.item_id
            wanted[name] -= 1
            placements.append(Placement(name, turn_deg, x_mm + turn * period, y_mm, pinned=pin is not None))
    if any(wanted.values()):
        return None
    lay = Lay(
        tuple(placements), problem.length_of_mm(placements), engine=known.engine, searched_s=known.seconds
    )
    return lay if verify(problem, lay).ok else None


def whole_copies(demand: Mapping[str, int], known: KnownLay) -> int:
    """Return how many times a known lay goes into a demand without a piece too many."""
    return min(demand.get(shape, 0) // count for shape, count in known.demand.items())


def without(problem: LayProblem, known: KnownLay, times: int) -> LayProblem:
    """Return the problem of what is left when a known lay has been laid this many times."""
    left = {shape: count * times for shape, count in known.demand.items()}
    items = []
    for item in problem.items:
        taken = min(item.demand, left.get(shape_key(item), 0))
        left[shape_key(item)] = left.get(shape_key(item), 0) - taken
        items.append(replace(item, demand=item.demand - taken))
    return replace(problem, items=tuple(items))


def joined(problem: LayProblem, first: Lay, second: Lay) -> Lay | None:
    """Return two lays end to end as a judged lay of ``problem``, a gap between them; None if it is none."""
    shift = first.length_mm - 2.0 * problem.end_margin_mm + problem.gap_mm
    placements = (*first.placements, *(replace(p, x_mm=p.x_mm + shift) for p in second.placements))
    lay = Lay(placements, problem.length_of_mm(placements), engine=first.engine, searched_s=first.searched_s)
    return lay if verify(problem, lay).ok else None


def _period_mm(problem: LayProblem, known: KnownLay) -> float:
    return known.length_mm - 2.0 * problem.end_margin_mm + problem.gap_mm
