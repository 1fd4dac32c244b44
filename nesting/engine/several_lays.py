"""An order too long for one lay, split over several that each fit the length allowed."""

from __future__ import annotations

import math
from dataclasses import replace

from geometry.said import said
from nesting.engine import solve as engine
from nesting.errors import ProblemError
from nesting.free import first_layout
from nesting.lay import Lay
from nesting.listen import Listener, Silent
from nesting.problem import LayProblem
from nesting.stop import Never, Share, Stop

HOPE = 0.82
"""A good lay is rarely shorter than this share of the first layout: fewer lays are not tried."""


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 2,
) -> tuple[tuple[LayProblem, Lay], ...]:
    """Return lays none of which is longer than ``problem.roll.length_mm``, with what each holds.

    The demand is split evenly over as few lays as are found to hold it; lays of equal demand are
    solved once. Pinned pieces and flaws belong to the first. Raises ProblemError as
    ``engine.solve``, and when a single piece is longer than a lay may be.
    """
    stop, listener = stop or Never(), listener or Silent()
    limit = problem.roll.length_mm
    if limit is None:
        lay = engine.solve(problem, seed=seed, stop=stop, listener=listener, workers=workers)
        return ((problem, lay),)
    engine.check(problem)
    safe, fewest = _counts(problem, limit, seed)
    for count in range(fewest, safe + 1):
        parts = split(problem, count)
        solved: dict[tuple[object, ...], Lay] = {}
        tries_left = safe - count + 1
        for part in parts:
            key = _key(part)
            if key in solved:
                continue
            kinds_left = len({_key(p) for p in parts}) - len(solved)
            share = (
                Share(stop, stop.left_s / (kinds_left * tries_left)) if math.isfinite(stop.left_s) else stop
            )
            try:
                solved[key] = engine.solve(part, seed=seed, stop=share, listener=listener, workers=workers)
            except ProblemError:
                if count == safe:
                    raise
                break
        else:
            return tuple((part, solved[_key(part)]) for part in parts)
    raise ProblemError("no split over lays was found", remedy="allow longer lays")


def split(problem: LayProblem, count: int) -> tuple[LayProblem, ...]:
    """Return the problem as ``count`` problems of as equal demand as goes."""
    pinned: dict[str, int] = {}
    for pin in problem.pinned:
        pinned[pin.item_id] = pinned.get(pin.item_id, 0) + 1
    demands = [[0] * len(problem.items) for _ in range(count)]
    turn = 0  # remainders go round, so that no lay gets all of them
    for number, item in enumerate(problem.items):
        free = item.demand - pinned.get(item.id, 0)
        for part in range(count):
            demands[part][number] = free // count
        for _ in range(free % count):
            demands[turn % count][number] += 1
            turn += 1
        demands[0][number] += pinned.get(item.id, 0)
    parts = []
    for part, demand in enumerate(demands):
        items = tuple(replace(i, demand=d) for i, d in zip(problem.items, demand, strict=True) if d)
        if part == 0:
            parts.append(replace(problem, items=items))
        elif items:
            parts.append(replace(problem, items=items, pinned=(), roll=replace(problem.roll, flaws=())))
    return tuple(parts)


def _counts(problem: LayProblem, limit: float, seed: int) -> tuple[int, int]:
    """Return how many lays the first layout needs, and how few may do."""
    area = problem.net_area_mm2 / problem.roll.usable_width_mm
    fewest = 0
    for count in range(max(1, math.ceil(area / limit)), problem.pieces + 1):
        parts = split(problem, count)
        distinct = {_key(part): part for part in parts}.values()
        longest = max(first_layout.solve(part, seed=seed).length_mm for part in distinct)
        if not fewest and longest * HOPE <= limit:
            fewest = count
        if longest <= limit:
            return count, fewest
    raise ProblemError(
        said("a piece alone takes more than the {0} mm a lay may be long", f"{limit:g}"),
        remedy="allow longer lays",
    )


def _key(problem: LayProblem) -> tuple[object, ...]:
    return (tuple((item.id, item.demand) for item in problem.items), problem.pinned, len(problem.roll.flaws))
