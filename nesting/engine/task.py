"""What a strategy works with: the problem, how to work on it, and the engines set to it."""

from __future__ import annotations

import math

from nesting.engine.background import BackgroundEngine
from nesting.engine.holes import FilledHoles
from nesting.engine.incumbent import Best
from nesting.errors import ProblemError
from nesting.free.section_parts import SectionSearch
from nesting.lay import Lay
from nesting.stop import Share, Stop
from nesting.verify import verify, words

FIRST_SHARE = 0.45
"""Other ways to the first layout are tried in this share of the time."""


class Task:
    """A problem with its holes filled, and the engines at work on it; ``best`` is given every lay."""

    def __init__(
        self, filled: FilledHoles, best: Best, *, seed: int, stop: Stop, workers: int, work: int | None
    ) -> None:
        self.problem = filled.problem
        self.seed = seed
        self.stop = stop
        self.workers = workers
        self.work = work
        self._best = best
        self._as_asked = filled.problem is filled.original
        self._first: Lay | None = None
        self._firsts: list[Lay] = []

    def search_of(self, workers: int) -> SectionSearch:
        """Return the search of sections, begun at once with this many processes (0: not yet)."""
        return SectionSearch(
            self.problem, seed=self.seed, stop=self.stop, workers=0 if self.work else workers, work=self.work
        )

    def beside(self, engine: str, workers: int) -> BackgroundEngine:
        """Set an engine to work in a process of its own."""
        return BackgroundEngine(
            engine,
            self.problem,
            seed=self.seed,
            stop=self.stop,
            workers=workers,
            listener=self._best,
            work=self.work,
        )

    def first_layout(self, search: SectionSearch | None = None) -> None:
        """Lay a first layout and let ``search`` use clusters.

        Raises ProblemError when nothing known breaks no rule.
        """
        left_s = self.stop.left_s
        from nesting.free import first_layout  # compiled code: after the engines beside have begun

        if search is not None:
            self._best.better(first_layout.at_once(self.problem, seed=self.seed))
            search.use_clusters()
        self._firsts = first_layout.layouts(
            self.problem,
            seed=self.seed,
            stop=Share(self.stop, FIRST_SHARE * left_s) if math.isfinite(left_s) else self.stop,
            listener=self._best,
            workers=self.workers,
        )
        first = self._firsts[0]
        self._best.better(first)
        if self._best.lay is None:
            raise ProblemError(
                words(verify(self.problem, first), most=1), remedy="move pinned pieces or flaws"
            )
        self._first = self._best.lay if self._as_asked else first  # the lay to go on from

    def go_on(self, search: SectionSearch, workers: int) -> None:
        """Search on from the first layout, unless it is time to stop."""
        if self.stop():
            return
        from nesting.free import sections  # compiled code takes a while to read: after the search has begun

        assert self._first is not None
        search.workers = 0 if self.work else workers
        sections.solve(
            self.problem,
            seed=self.seed,
            stop=self.stop,
            listener=self._best,
            workers=search.workers,
            work=self.work,
            start=self._first,
            firsts=self._firsts,
            searches=search,
        )
