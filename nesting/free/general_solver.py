"""The general solver's search in child processes, and what it is fed.

``spyrrow`` (Gardeyn & Wauters, arXiv 2509.13329) gets outlines with half the gap round them and
far fewer vertices than the true ones, cut now inside, now outside of the outline: each of its
steps becomes several times cheaper. Its layouts therefore break gaps by fractions of a millimetre,
which the squeeze takes out.
"""

from __future__ import annotations

import math
import time
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely
from numpy.typing import NDArray

from nesting.free import sampling
from nesting.free.turns import exact_turn, granted_turns
from nesting.items import Item
from nesting.lay import Placement
from nesting.problem import LayProblem
from nesting.process import Child
from nesting.stop import Stop

if TYPE_CHECKING:
    from nesting.free.clusters import Clustered

SOLVER = "nesting.free.solver_process"
"""The module that a child process of the search runs."""

COARSE = 0.015
"""The search's outlines keep within this share of the piece's size (root of its area), ..."""

COARSE_GAP = 0.5
"""... and within this share of the gap, so that no two true outlines ever overlap: the squeeze
finds its way out of a gap too narrow, not out of a deep overlap. ..."""

COARSE_TOUCHING = 0.003
"""... and within this share of the piece's size where no gap is asked for."""

COARSE_FROM = 16
"""Outlines of fewer vertices are left as they are."""

SEEDS = 1000
"""The processes of one search take consecutive seeds; another seed asked for starts so far off."""

THREADS = 2
"""Threads of one process of the search, also where it has a processor to itself. Of the ways that its
threads move pieces the library takes the best, so two search better, not only faster: measured at 20 s,
88.3 against 84.7 % on 25 pieces, 89.6 against 88.8 on 12, 74.3 against 74.2 on 96; with three 73.6 on 96."""

LEAST_SEVERAL_S = 15.0
"""With less time than this one process searches, with both its threads on processors of their own; with more
one for each worker, and the best counts (measured on 90 to 144 pieces of the samples and of the backing mix,
mean of seeds 0 and 1, one / two processes: at 6 s 69.9 / 69.2 %, at 12 s 71.8 / 71.1, at 20 s, 288 pieces
too, 75.2 / 75.4)."""

SHORTENING_SHARE, SHORTENING_SHARE_OF_SEVERAL = 0.4, 0.3
"""Share of the time, after the search of one process and of several, in which the lay is shortened as a
whole."""

COMPRESS = 0.2
"""Share of the search's time for its last phase, squeezing (the library's own default)."""

LEAST_SEARCH_S, SEARCH_S_PER_PIECE = 0.3, 0.01
"""With less time than this, and this for each piece, no search is begun: by then the first layout, laid in
other orders and squeezed, is the better lay (measured on 90 to 144 pieces of three samples, one process: at
3 s of the whole command the search is ahead on two of four, by 0.5 and 3.6 points, at 4 s on all, by 0.1 to
4.5)."""

LEAST_WITH_CLUSTERS_S = 3.0
"""With less time than this none searches with clusters."""

NO_CLOCK_S = 20.0
"""The search's time when no clock is set."""


def suits(problem: LayProblem) -> bool:
    """Whether the search can honour all the problem asks for."""
    return not problem.pinned and not problem.roll.flaws


def pays(problem: LayProblem, seconds: float) -> bool:
    """Whether the search can honour all the problem asks for, and will find something in this much time."""
    enough = seconds > LEAST_SEARCH_S + SEARCH_S_PER_PIECE * problem.pieces
    return enough and suits(problem) and not sampling.alone(problem, seconds)


class Search:
    """The search in child processes, begun at once; layouts are taken when there is time.

    One process with two threads, and from LEAST_SEVERAL_S on one for each worker, each with its own seed.
    """

    def __init__(self, problem: LayProblem, *, seed: int, stop: Stop, workers: int) -> None:
        left = stop.left_s if math.isfinite(stop.left_s) else NO_CLOCK_S
        seconds = left - closing_s(problem, left)
        self._problem = problem
        self._seed = seed
        self._workers = workers
        self._end = time.monotonic() + seconds
        self._runs = [_Run() for _ in range(workers if seconds > LEAST_SEVERAL_S else min(1, workers))]
        self._begun = 0
        self._clusters_asked = False
        for run in self._runs:
            self._begin(run, None)
        self.trouble = ""

    def use_clusters(self) -> None:
        """Let every process begin again with clusters where there are any that pay, which takes a while to
        find; the first time it is called."""
        if self._clusters_asked or self._end - time.monotonic() <= LEAST_WITH_CLUSTERS_S:
            return
        self._clusters_asked = True
        from nesting.free.first_layout import worthwhile_clusters  # compiled code

        found = worthwhile_clusters(self._problem, self._workers)
        if found is not None:
            self._take_all()  # what was told by single pieces meanwhile
            for run in self._runs:
                self._begin(run, found.searched)

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

    def leave(self, seconds: float, stop: Stop) -> None:
        """End early enough to leave this many seconds before ``stop``."""
        if math.isfinite(stop.left_s):
            self._end = min(self._end, time.monotonic() + stop.left_s - seconds)

    def best(self) -> Layout | None:
        """Return the narrowest layout found so far."""
        return min(self.bests(), key=lambda layout: layout.width_mm, default=None)

    def bests(self) -> list[Layout]:
        """Return the narrowest layout of every process, the best first."""
        self._take_all()
        found = [run.best for run in self._runs if run.best is not None]
        return sorted(found, key=lambda layout: layout.width_mm)

    def close(self) -> None:
        """End the processes."""
        for run in self._runs:
            run.end()

    def _begin(self, run: _Run, clusters: Clustered | None) -> None:
        """Begin a process, on the problem or on its clusters."""
        run.end()
        run.clusters = clusters
        problem = self._problem if clusters is None else clusters.problem
        seconds = self._end - time.monotonic()
        job = search_job(problem, seconds, self._seed * SEEDS + self._begun, THREADS)
        self._begun += 1
        run.child, run.over = Child(SOLVER, job), False

    def _take_all(self) -> None:
        for run in self._runs:
            if run.child is None:
                continue
            for event in run.child.waiting_events():
                if event["event"] == "layout":
                    run.take(event)
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
    """A layout as the search tells it: its width, and its pieces from the strip's own corner."""

    width_mm: float
    placed: tuple[Placement, ...]


@dataclass
class _Run:
    """A process of the search; what it finds with clusters is taken apart at once."""

    child: Child | None = None
    clusters: Clustered | None = None
    best: Layout | None = None
    over: bool = False

    @property
    def width_mm(self) -> float:
        """Width of the narrowest layout found."""
        return math.inf if self.best is None else self.best.width_mm

    def take(self, event: dict[str, Any]) -> None:
        """Keep a layout told if it is narrower than what was found before."""
        if event["width"] < self.width_mm:
            placed = tuple(Placement(*each) for each in event["placed"])
            if self.clusters is not None:
                placed = self.clusters.apart(placed)
            self.best = Layout(event["width"], placed)

    def end(self) -> None:
        """End the process, if there is one."""
        if self.child is not None:
            self.child.kill()
        self.over = True


def closing_s(problem: LayProblem, left_s: float) -> float:
    """Return how much of ``left_s`` is for the closing squeeze, and for shortening as a whole after it."""
    squeeze_s = min(0.4 * left_s, 0.2 + 0.005 * problem.pieces + 0.015 * left_s)
    if left_s < sampling.ALONE_FROM_S or not sampling.suits(problem):
        return squeeze_s
    share = SHORTENING_SHARE if left_s < LEAST_SEVERAL_S else SHORTENING_SHARE_OF_SEVERAL
    return squeeze_s + share * (left_s - squeeze_s)


# ------------------------------------------------------------------ what the search is fed


def search_job(problem: LayProblem, seconds: float, seed: int, workers: int) -> dict[str, Any]:
    """Return the job for ``nesting.free.solver_process``: coarse outlines grown by half the gap."""
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


def placements_of(problem: LayProblem, placed: Iterable[Placement]) -> tuple[Placement, ...]:
    """Return the search's layout as placements on the roll (the strip begins half a gap outside)."""
    dx = problem.end_margin_mm - problem.gap_mm / 2.0
    dy = problem.edge_margin_mm - problem.gap_mm / 2.0
    return tuple(
        Placement(at.item_id, exact_turn(problem.by_id[at.item_id], at.turn_deg), at.x_mm + dx, at.y_mm + dy)
        for at in placed
    )
