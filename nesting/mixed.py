"""Free arrangement of different pieces, improved until the time is up.

The search is ``spyrrow``'s (Gardeyn & Wauters, arXiv 2509.13329), in a child process that can be
killed. It is fed outlines with half the gap round them and far fewer vertices than the true ones,
cut now inside, now outside of the outline: that makes each of its steps several times cheaper. Its
layouts therefore break gaps by fractions of a millimetre; each is pulled apart and squeezed on the
true outlines (``compaction``) before anyone hears of it.

It knows neither pinned pieces nor flaws: where there are any, the first layout is shortened round
them instead (``around``), and the lay says so.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from nesting import around, first_layout
from nesting.compaction import PoseContacts, compact
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.listen import Listener, Silent
from nesting.problem import LayProblem
from nesting.process import Child
from nesting.stop import Never, Stop

COARSE = 0.015
"""The search's outlines keep within this share of the piece's size (root of its area), ..."""

COARSE_GAP = 0.5
"""... and within this share of the gap, so that no two true outlines ever overlap: the squeeze
finds its way out of a gap too narrow, not out of a deep overlap. ..."""

COARSE_TOUCHING = 0.003
"""... and within this share of the piece's size where no gap is asked for."""

COARSE_FROM = 16
"""Outlines of fewer vertices are left as they are."""

WORTH_SQUEEZING = 1.015
"""Layouts wider than the best by more than this share cannot win by squeezing."""

SEEDS = 1000
"""The processes of one search take consecutive seeds; another seed asked for starts so far off."""

COMPRESS = 0.2
"""Share of the search's time for its last phase, squeezing (the library's own default)."""

TRIES, MOST_TRIES = 40, 100_000
"""Tries to shorten a lay round fixed pieces: without a clock, and at most."""

NO_CLOCK_S = 20.0
"""The search's time when no clock is set."""


class Search:
    """The search in child processes, begun at once; layouts are taken when there is time.

    One process a worker, each with its own seed: on two processors the better of two searches
    beats one search with two threads (measured side by side, docs/benchmarks.md).
    """

    def __init__(self, problem: LayProblem, *, seed: int, stop: Stop, workers: int) -> None:
        left = stop.left_s if math.isfinite(stop.left_s) else NO_CLOCK_S
        seconds = left - closing_s(problem, left)
        self._end = time.monotonic() + seconds
        self._runs = [
            _Run(Child("nesting.strip_solver", search_job(problem, seconds, seed * SEEDS + number, 1)))
            for number in range(max(1, workers))
        ]
        self.trouble = ""

    @property
    def over(self) -> bool:
        """Whether no process searches any more."""
        return all(run.over for run in self._runs)

    def wait(self, wait_s: float) -> None:
        """Wait so long, or until the search's time is up."""
        wait_s = min(wait_s, self._end - time.monotonic())
        if wait_s > 0.0:
            time.sleep(wait_s)
        self._take_all()
        if wait_s <= 0.0:
            for run in self._runs:
                run.over = True

    def best(self) -> Layout | None:
        """Return the narrowest layout found so far."""
        return min(self.bests(), key=lambda layout: layout.width, default=None)

    def bests(self) -> list[Layout]:
        """Return the narrowest layout of every process, the best first."""
        self._take_all()
        found = [run.best for run in self._runs if run.best is not None]
        return sorted(found, key=lambda layout: layout.width)

    def close(self) -> None:
        """End the processes."""
        for run in self._runs:
            run.child.kill()
            run.over = True

    def _take_all(self) -> None:
        for run in self._runs:
            for event in run.child.waiting_events():
                if event["event"] == "layout":
                    run.best = Layout(event["width"], event["placed"])
                elif event["event"] == "done":
                    run.over = True
                elif event["event"] == "failed":
                    run.over = True
                    self.trouble = f"a search gave up: {event['message']}"
            if not run.over and run.child.ended:
                run.over = True
                self.trouble = f"a search ended early: {run.child.last_words or 'no reason given'}"


@dataclass(frozen=True)
class Layout:
    """A layout as the search tells it: its width and [id, turn, x, y] of every piece."""

    width: float
    placed: list[list[Any]]


@dataclass
class _Run:
    child: Child
    best: Layout | None = None
    over: bool = False


def suits(problem: LayProblem) -> bool:
    """Whether the search can honour all the problem asks for."""
    return not problem.pinned and not problem.roll.flaws


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 2,
    start: Lay | None = None,
    search: Search | None = None,
) -> Lay:
    """Return the shortest lay found.

    ``start`` is a lay to begin with (the first layout if None), ``search`` a search begun before.
    """
    stop, listener = stop or Never(), listener or Silent()
    if search is None and suits(problem):
        search = Search(problem, seed=seed, stop=stop, workers=workers)
    try:
        best = start or first_layout.solve(problem, seed=seed, stop=stop, listener=listener)
        contacts = PoseContacts(problem)
        squeeze = _Squeeze(problem, contacts, stop, listener, seed, best)
        listener.phase("squeeze")
        squeeze.take(best.placements, engine="first layout, squeezed", steps=8)
        if search is not None:
            listener.phase("search")
            _follow(problem, search, squeeze, stop)
        elif not stop():
            listener.phase("shorten around what is fixed")
            tries = TRIES if math.isinf(stop.left_s) else MOST_TRIES
            around.shorten(
                problem, squeeze.best, contacts, seed=seed, stop=stop, better=squeeze.keep, tries=tries
            )
    finally:
        if search is not None:
            search.close()
    return squeeze.best


def _follow(problem: LayProblem, search: Search, squeeze: _Squeeze, stop: Stop) -> None:
    """Squeeze what the search finds: now and then while it runs, thoroughly when it is over."""
    look_again = 0.0
    seen: Layout | None = None
    while not search.over and not stop():
        search.wait(0.05)
        newest = search.best()
        if newest is not None and newest is not seen and time.monotonic() >= look_again and not search.over:
            begun = time.monotonic()
            squeeze.take(placements_of(problem, newest.placed), engine=_engine(search), steps=4)
            seen = newest
            look_again = time.monotonic() + max(1.0, 10.0 * (time.monotonic() - begun))
    found = search.bests()
    search.close()
    if found:
        squeeze.listener.phase("squeeze")
    for layout in found:
        if stop() or layout.width > found[0].width * WORTH_SQUEEZING:
            break
        squeeze.take(placements_of(problem, layout.placed), engine=_engine(search), steps=60)


def _engine(search: Search) -> str:
    return f"spyrrow and squeezing ({search.trouble})" if search.trouble else "spyrrow and squeezing"


class _Squeeze:
    """Brings layouts onto the true outlines and keeps the shortest."""

    def __init__(
        self,
        problem: LayProblem,
        contacts: PoseContacts,
        stop: Stop,
        listener: Listener,
        seed: int,
        best: Lay,
    ) -> None:
        self.problem = problem
        self.contacts = contacts
        self.stop = stop
        self.listener = listener
        self.seed = seed
        self.best = best

    def take(self, placements: Sequence[Placement], *, engine: str, steps: int) -> None:
        """Squeeze a layout; tell of it when it is the shortest so far."""
        moved = compact(self.problem, placements, contacts=self.contacts, steps=steps, stop=self.stop)
        if moved is None:
            return
        self.keep(Lay(moved, self.problem.length_of_mm(moved), engine=engine, seed=self.seed))

    def keep(self, lay: Lay) -> None:
        """Keep and tell of a lay if it is the shortest so far."""
        if lay.length_mm < self.best.length_mm:
            self.best = lay
            self.listener.better(lay)


def closing_s(problem: LayProblem, left_s: float) -> float:
    """Return how much of ``left_s`` the closing squeeze needs."""
    return min(0.4 * left_s, 0.3 + 0.008 * problem.pieces + 0.03 * left_s)


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
                "shape": coarse_ring(item, problem.gap_mm).tolist(),
                "demand": item.demand,
                "turns": None if item.turns_deg is None else list(granted_turns(item)),
            }
            for item in problem.items
            if item.demand
        ],
        "explore_s": max(1, math.ceil(seconds) - compress),
        "compress_s": compress,
        "workers": workers,
        "seed": seed,
    }


def coarse_ring(item: Item, gap_mm: float) -> NDArray[np.float64]:
    """Return an item's outline grown by half the gap, with few vertices, in part inside of it."""
    polygon = shapely.Polygon(item.outline.ring_mm)
    size = math.sqrt(polygon.area)
    within = min(COARSE * size, COARSE_GAP * gap_mm) if gap_mm > 0.0 else COARSE_TOUCHING * size
    if gap_mm > 0.0:
        polygon = polygon.buffer(gap_mm / 2.0, join_style="mitre", mitre_limit=2.0)
    ring = np.asarray(polygon.exterior.coords)[:-1]
    if len(ring) < COARSE_FROM:
        return ring
    coarse = polygon.simplify(within)
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


def granted_turns(item: Item) -> tuple[float, ...]:
    """Return the turns the search may use: those allowed, and steps of what is granted about each."""
    if item.turns_deg is None:
        return ()
    if item.turn_tolerance_deg == 0.0:
        return item.turns_deg
    steps = (0.0, -1.0, -0.5, 0.5, 1.0)
    return tuple(turn + step * item.turn_tolerance_deg for turn in item.turns_deg for step in steps)


def _exact_turn(item: Item, turn_deg: float) -> float:
    """Return the turn in double precision that the library's single-precision one stands for."""
    if item.turns_deg is None:
        return turn_deg
    return min(granted_turns(item), key=lambda turn: abs((turn - turn_deg + 180.0) % 360.0 - 180.0))
