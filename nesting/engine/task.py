"""What a strategy works with: the problem, how to work on it, and the engines set to it."""

from __future__ import annotations

import math

from nesting.engine.background import BackgroundEngine
from nesting.engine.holes import FilledHoles
from nesting.engine.incumbent import Best
from nesting.errors import ProblemError
from nesting.free import sampling
from nesting.free.section_parts import SectionSearch
from nesting.lay import Lay
from nesting.listen import Listener, Phase, PhaseCode
from nesting.rows.names import BANDS
from nesting.stop import Share, Stop
from nesting.verify import verify, words

FIRST_SHARE = 0.45
"""Other ways to the first layout are tried in this share of the time."""

BANDS_AHEAD = 0.03
"""The first lay of bands is shorter than the layout there at once by this share, or the whole squeezed
overtakes them (measured on orders of 312 to 960 pieces, in points of yield: 2.5 to 8 ahead at first and in
the end; on 400 pieces of the sandal 1.2 ahead at first and 2 to 3.5 behind in the end)."""

BANDS_SHARE, BANDS_LEAST_S = 0.42, 4.5
"""Where what bands come to is shortened as a whole they get this share of the time, and so many seconds at
least (measured on 312, 376 and 470 pieces, windows / this: at 12 s 65.3 / 66.4, 70.6 / 71.4, 73.2 / 73.0; at
20 s 65.4 / 66.7, 70.6 / 71.2, 73.9 / 74.6 after 12 s of bands)."""

MOST_AFTER_BANDS, LONG_S, MOST_IN_LONG = 450, 25.0, 600
"""Of more pieces than the first windows shorten what bands come to; given so long or longer, of more than the
second (measured, windows / as a whole: at 40 s 470 pieces 74.1 / 75.1, 576 67.9 / 68.3; on 630 and 784 that
finds nothing in 34 s)."""

JUDGING_S_PER_PIECE = 1.2e-4
"""Bands end earlier by this for each piece: twice what judging a lay takes, if one is told at the end."""


class _UntilBehind:
    """Passes on lays, and stops with its parent, or when the first one is longer than ``enough_mm``."""

    def __init__(self, listener: Listener, parent: Stop, enough_mm: float) -> None:
        self._listener, self._parent, self._enough_mm = listener, parent, enough_mm
        self._first = True
        self.behind = False

    def phase(self, phase: Phase) -> None:
        """Pass on."""
        self._listener.phase(phase)

    def better(self, lay: Lay) -> None:
        """Pass on; the first says whether to go on."""
        self.behind = self.behind or (self._first and lay.length_mm > self._enough_mm)
        self._first = False
        self._listener.better(lay)

    @property
    def left_s(self) -> float:
        """The parent's time left."""
        return 0.0 if self.behind else self._parent.left_s

    def __call__(self) -> bool:
        return self.behind or self._parent()


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
        self._has_bands = best.lay is not None and BANDS in best.lay.engine and best.lay.searched_s > 0.0
        self._as_asked = filled.problem is filled.original
        self._at_once_mm = math.inf
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

    def layout_at_once(self) -> bool:
        """Lay the layout that is there first, and no other: the processors are for the bands. Returns whether
        a lay is there now."""
        from nesting.free import first_layout  # compiled code: after the engines beside have begun

        lay = first_layout.at_once(self.problem, seed=self.seed)
        self._at_once_mm = lay.length_mm
        self._best.better(lay)
        return self._best.lay is not None

    def bands(self) -> bool:
        """Lay bands of rows here, with every processor; returns whether they came to something.

        They are given up where their first lay is not ahead of ``layout_at_once`` by BANDS_AHEAD; a lay to go
        on from may well be ahead of them at first. Of few pieces the lay is shortened as a whole after that.
        """
        from nesting.rows import production

        left_s, enough_mm = self.stop.left_s, self._at_once_mm * (1.0 - BANDS_AHEAD)
        judging_s = JUDGING_S_PER_PIECE * self.problem.pieces
        whole = self._whole_after_bands()
        bands_s = max(0.5 * left_s, left_s - judging_s)
        if whole:
            bands_s = min(bands_s, max(BANDS_LEAST_S, BANDS_SHARE * left_s))
        share = Share(self.stop, bands_s) if math.isfinite(left_s) else self.stop
        told = _UntilBehind(self._best, share, enough_mm)
        lay = production.solve(
            self.problem,
            seed=self.seed,
            stop=told,
            listener=told,
            workers=self.workers,
            work=self.work,
            another=self._has_bands,
        )
        if lay is None or told.behind:
            return False
        self._best.better(lay)
        if whole:
            self._shorten_as_a_whole(self.goes_on_from or lay)
        return True

    def _whole_after_bands(self) -> bool:
        """Whether what bands come to is shortened as a whole in the time left, not in windows."""
        left_s = self.stop.left_s
        if self.work or math.isinf(left_s):
            return False
        most = MOST_AFTER_BANDS if left_s < LONG_S else MOST_IN_LONG
        return self.problem.pieces <= most and sampling.suits(self.problem)

    def _shorten_as_a_whole(self, lay: Lay) -> None:
        """Shorten a lay as a whole until it is time to stop."""
        from nesting.free import arrangement, shortening

        if self.stop.left_s <= arrangement.LEAST_SHORTENING_S:
            return
        self._best.phase(Phase(PhaseCode.SHORTEN))
        shortening.shorten(
            self.problem,
            lay,
            arrangement.contacts_of(self.problem),
            seed=self.seed,
            stop=self.stop,
            better=self._best.better,
            tries=arrangement.MOST_TRIES,
            workers=self.workers,
        )

    def bands_in_parts(self, lay: Lay) -> bool:
        """Lay bands of rows as far as the time goes, and go on with them the next time; returns whether they
        are all laid now, and shorter than ``lay``."""
        from nesting.rows import production

        found = production.solve_in_parts(
            self.problem,
            below_mm=lay.length_mm,
            seed=self.seed,
            stop=self.stop,
            listener=self._best,
            workers=self.workers,
        )
        return found is not None

    @property
    def goes_on_from(self) -> Lay | None:
        """The best lay so far, None while there is none or it holds pieces that engines do not know
        apart (holes filled)."""
        return self._best.lay if self._as_asked else None

    @property
    def shortens_on(self) -> bool:
        """Whether the best lay was searched for before, and is only shortened as a whole in the time left."""
        return not self.work and sampling.goes_on(self.problem, self.goes_on_from, self.stop.left_s)

    def shorten(self, lay: Lay) -> None:
        """Shorten a lay until it is time to stop: as a whole, or of more pieces in windows and by moving its
        end into openings."""
        if self._whole_after_bands():
            self._shorten_as_a_whole(lay)
            return
        from nesting.rows import going_on

        going_on.solve(
            self.problem,
            lay,
            seed=self.seed,
            stop=self.stop,
            listener=self._best,
            workers=self.workers,
            work=self.work,
        )

    def first_layout(self, search: SectionSearch | None = None) -> None:
        """Lay a first layout and let ``search`` use clusters; none where a lay was searched for before and
        shortening it as a whole is the search.

        Raises ProblemError when nothing known breaks no rule.
        """
        left_s = self.stop.left_s
        if self.shortens_on and self.goes_on_from is not None:
            self._first, self._firsts = self.goes_on_from, [self.goes_on_from]
            return
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
