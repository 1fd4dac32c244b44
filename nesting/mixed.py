"""Free arrangement of different pieces, improved until the time is up.

The search is ``spyrrow``'s (Gardeyn & Wauters, arXiv 2509.13329), in a child process that can be
killed. It is fed outlines with half the gap round them and far fewer vertices than the true ones,
cut now inside, now outside of the outline: that makes each of its steps several times cheaper. Its
layouts therefore break gaps by fractions of a millimetre; each is pulled apart and squeezed on the
true outlines (``compaction``) before anyone hears of it.

It knows neither pinned pieces nor flaws nor holes: where there are any, the layout at hand is
squeezed instead, and the lay says so.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterable
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from nesting import first_layout
from nesting.compaction import PoseContacts, compact
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.listen import Listener, Silent
from nesting.problem import LayProblem
from nesting.process import Child
from nesting.stop import Never, Stop

COARSE = 0.008
"""The search's outlines keep within this share of the piece's size (root of its area)."""

COARSE_FROM = 16
"""Outlines of fewer vertices are left as they are."""

COMPRESS = 0.2
"""Share of the search's time for its last phase, squeezing (the library's own default)."""

NO_CLOCK_S = 20.0
"""The search's time when no clock is set."""


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 2,
    start: Lay | None = None,
) -> Lay:
    """Return the shortest lay found; ``start`` is a lay to begin with (the first layout if None)."""
    stop, listener = stop or Never(), listener or Silent()
    best = start or first_layout.solve(problem, seed=seed, stop=stop, listener=listener)
    contacts = PoseContacts(problem)
    listener.phase("squeeze")
    best = _squeezed(problem, best.placements, contacts, best, stop, listener, "squeezed", seed)
    if problem.pinned or problem.roll.flaws:
        return best
    return _searched(problem, contacts, best, seed, stop, listener, workers)


def _searched(
    problem: LayProblem,
    contacts: PoseContacts,
    best: Lay,
    seed: int,
    stop: Stop,
    listener: Listener,
    workers: int,
) -> Lay:
    left = stop.left_s if math.isfinite(stop.left_s) else NO_CLOCK_S
    reserve = closing_s(problem, left)
    search_s = left - reserve
    if search_s < 1.0:
        return best
    listener.phase("search")
    job = search_job(problem, search_s, seed, workers)
    child = Child("nesting.strip_solver", job)
    end = time.monotonic() + search_s
    latest: list[Any] | None = None
    look_again = 0.0
    engine = "spyrrow and squeezing"
    try:
        while not stop() and time.monotonic() < end:
            try:
                event = child.event(min(0.05, max(0.0, end - time.monotonic())))
            except EOFError:
                engine += f" (the search ended early: {child.last_words or 'no reason given'})"
                break
            if event is not None and event["event"] == "failed":
                engine += f" (the search gave up: {event['message']})"
            if event is not None and event["event"] == "layout":
                latest = event["placed"]
            if event is not None and event["event"] == "done":
                break
            if latest is not None and time.monotonic() >= look_again:
                begun = time.monotonic()
                placements = placements_of(problem, latest)
                best = _squeezed(problem, placements, contacts, best, stop, listener, engine, seed, steps=4)
                latest = None
                look_again = time.monotonic() + max(1.0, 10.0 * (time.monotonic() - begun))
        for event in child.waiting_events():
            if event["event"] == "layout":
                latest = event["placed"]
    finally:
        child.kill()
    if latest is not None and not stop():
        listener.phase("squeeze")
        placements = placements_of(problem, latest)
        best = _squeezed(problem, placements, contacts, best, stop, listener, engine, seed, steps=40)
    return best


def closing_s(problem: LayProblem, left_s: float) -> float:
    """Return how much of ``left_s`` the closing squeeze needs."""
    return min(0.4 * left_s, 0.3 + 0.008 * problem.pieces + 0.03 * left_s)


def _squeezed(
    problem: LayProblem,
    placements: Iterable[Placement],
    contacts: PoseContacts,
    best: Lay,
    stop: Stop,
    listener: Listener,
    engine: str,
    seed: int,
    steps: int = 8,
) -> Lay:
    moved = compact(problem, tuple(placements), contacts=contacts, steps=steps, stop=stop)
    if moved is None:
        return best
    length = problem.length_of_mm(moved)
    if length >= best.length_mm:
        return best
    lay = Lay(moved, length, engine=engine, seed=seed)
    listener.better(lay)
    return lay


# ------------------------------------------------------------------ what the search is fed


def search_job(problem: LayProblem, seconds: float, seed: int, workers: int) -> dict[str, Any]:
    """Return the job for ``nesting.strip_solver``: coarse outlines grown by half the gap."""
    height = problem.roll.usable_width_mm - 2.0 * problem.edge_margin_mm + problem.gap_mm
    compress = max(1, round(COMPRESS * seconds))
    return {
        "height": height,
        "items": [
            {
                "id": item.id,
                "shape": coarse_ring(item, problem.gap_mm / 2.0).tolist(),
                "demand": item.demand,
                "turns": None if item.turns_deg is None else list(item.turns_deg),
            }
            for item in problem.items
            if item.demand
        ],
        "explore_s": max(1, math.ceil(seconds) - compress),
        "compress_s": compress,
        "workers": workers,
        "seed": seed,
    }


def coarse_ring(item: Item, grow_mm: float) -> NDArray[np.float64]:
    """Return an item's outline grown by ``grow_mm`` with few vertices, within COARSE of the true one."""
    polygon = shapely.Polygon(item.outline.ring_mm)
    if grow_mm > 0.0:
        polygon = polygon.buffer(grow_mm, join_style="mitre", mitre_limit=2.0)
    ring = np.asarray(polygon.exterior.coords)[:-1]
    if len(ring) < COARSE_FROM:
        return ring
    coarse = polygon.simplify(COARSE * math.sqrt(polygon.area))
    if coarse.is_valid and coarse.geom_type == "Polygon" and coarse.area > 0.0:
        return np.asarray(coarse.exterior.coords)[:-1]
    return ring


def placements_of(problem: LayProblem, placed: Iterable[list[Any]]) -> tuple[Placement, ...]:
    """Return the search's layout as placements on the roll (the strip begins half a gap outside)."""
    dx = problem.end_margin_mm - problem.gap_mm / 2.0
    dy = problem.edge_margin_mm - problem.gap_mm / 2.0
    return tuple(
        Placement(item_id, _exact_turn(problem.by_id[item_id], turn), x + dx, y + dy)
        for item_id, turn, x, y in placed
    )


def _exact_turn(item: Item, turn_deg: float) -> float:
    """Return the allowed turn that the library's single-precision one stands for."""
    if item.turns_deg is None:
        return turn_deg
    return min(item.turns_deg, key=lambda turn: abs((turn - turn_deg + 180.0) % 360.0 - 180.0))
