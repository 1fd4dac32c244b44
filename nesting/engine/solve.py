"""The one way in: a problem goes in, the best verified lay comes out.

A first layout stands within seconds. Then the engine that suits the problem takes over: bands of
rows where pieces repeat (``production``), free arrangement where they do not (``mixed``). Every
lay passes ``verify`` before anyone hears of it.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import replace

from nesting.bound import lower_bound
from nesting.engine.background import Bands
from nesting.engine.holes import FilledHoles
from nesting.engine.incumbent import Best
from nesting.errors import ProblemError, TooLongError
from nesting.free import first_layout
from nesting.free.section_parts import SectionSearch
from nesting.lay import Lay
from nesting.listen import Listener, Silent
from nesting.problem import LayProblem
from nesting.stop import Never, Share, Stop
from nesting.verify import verify, words

LEAST_BANDS_S = 4.0
"""With less time than this no bands of rows are begun, ..."""

FEW_LEAST_BANDS_S = 9.0
"""... and with less than this none below BANDS_FIRST pieces of several items: at 5 s the search with
every processor beats the two side by side by 0.8 points (measured, mean of 8 runs of 96-200 pieces)."""

MANY_LEAST_BANDS_S, MANY_LEAST_BANDS_S_PER_PIECE = 10.0, 2e-3
"""From BANDS_FIRST pieces of several items bands take about so long to their first whole lay; with less time
sections of a first layout, squeezed against their own copies, are the better lay (measured: 73.6 % at 6 s on
1,152 pieces, where bands had come to nothing at 12)."""

FEW_PIECES = 200
"""Of fewer pieces of several items the bands never were the better lay within a minute (measured on the
five open instances that repeat), while the search missed the processor."""

REPEATS = 6
"""Pieces an item on the average, from which bands of rows are laid first."""

BANDS_FIRST = 600
"""From so many pieces on bands of rows beat the search of a section (measured, 60 s: 76.3 against 75.5 % on
672 pieces): they get every processor, and a search begins only if they come to nothing ..."""

BANDS_SHARE = 0.95
"""... in this share of the time."""

FIRST_SHARE = 0.35
"""Other ways to the first layout are tried in this share of the time."""

NOTHING_MM = 0.01
"""A lay this close to the least length possible is not improved further."""


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 2,
    work: int | None = None,
    start: Lay | None = None,
) -> Lay:
    """Return the best verified lay found until ``stop``.

    ``start`` is a lay to go on from: it is judged like any other, and nothing longer comes out.

    With ``work`` (1, 2, ...) and no clock every engine ends by a counted amount of it, and the same
    problem, seed and work give the same lay on any machine as busy as may be. The general solver's
    search, which knows only the clock, then stays out. Raises ProblemError when a piece fits no way,
    when the pinned pieces break a rule, TooLongError when they need more length than the roll has (see
    ``several_lays``).
    """
    stop, listener = stop or Never(), listener or Silent()
    if work is not None and (work < 1 or math.isfinite(stop.left_s)):
        raise ProblemError(
            "the work is not a number from 1, or there is a clock beside it", remedy="give one"
        )
    began = time.monotonic()
    check(problem)
    filled = FilledHoles(problem)
    best = Best(filled, listener)
    if start is not None:
        best.better(start)
    bound = lower_bound(problem)
    stop = _Until(stop, lambda: best.lay is not None and best.lay.length_mm <= bound.best_mm + NOTHING_MM)
    laid = filled.problem
    repeats = _repeats(laid, stop)
    one_die = repeats and sum(item.demand > 0 for item in laid.items) == 1
    searching = workers if not repeats else 0 if one_die else max(1, workers - 1)
    bands_first = repeats and not one_die and laid.pieces >= BANDS_FIRST
    searching = 0 if work or bands_first else searching
    searches = SectionSearch(laid, seed=seed, stop=stop, workers=searching, work=work)
    bands = None
    try:
        if repeats:
            threads = max(1, workers - searching)
            bands = Bands(laid, seed=seed, stop=stop, workers=threads, listener=best, work=work)
        first = raw = first_layout.solve(
            laid,
            seed=seed,
            stop=Share(stop, FIRST_SHARE * stop.left_s) if math.isfinite(stop.left_s) else stop,
            listener=best,
            workers=workers,
        )
        best.better(first)
        if best.lay is not None and filled.problem is problem:
            first = best.lay  # the lay to go on from, where that is the better one
        if best.lay is None:
            raise ProblemError(_why_nothing_fits(laid, first), remedy="move pinned pieces or flaws")
        alone = bands_first or one_die
        if bands is not None and one_die:
            bands.wait(stop)
        elif bands is not None and bands_first:
            bands.wait_for_a_lay(
                Share(stop, BANDS_SHARE * stop.left_s) if math.isfinite(stop.left_s) else stop
            )
            if not bands.laid and not work:
                searches.workers = searching = workers
                searches.begin(0, stop)
        if not stop() and not (bands is not None and bands.laid and alone):
            from nesting.free import (
                sections,  # compiled code takes a while to read: after the search has begun
            )

            searches.workers = 0 if work else searching or workers
            sections.solve(searches, stop=stop, listener=best, start=first, first=raw)
        if bands is not None:
            bands.wait(stop)
    finally:
        searches.close()
        if bands is not None:
            bands.close()
    lay = best.lay
    limit = problem.roll.length_mm
    if limit is not None and lay.length_mm > limit:
        raise TooLongError.of(lay.length_mm, limit)
    stopped = "finished" if stop.done or not stop() else "cancelled" if stop.cancelled else "time"
    budget = f"work {work}" if work else lay.budget
    seconds = time.monotonic() - began
    searched_s = seconds + (0.0 if start is None else start.searched_s)
    return replace(
        lay,
        seed=seed,
        budget=budget,
        stopped=stopped,
        seconds=seconds,
        searched_s=searched_s,
        bound=bound,
    )


def _repeats(problem: LayProblem, stop: Stop) -> bool:
    """Whether bands of rows are worth laying beside the search."""
    kinds = sum(item.demand > 0 for item in problem.items)
    mixed = kinds > 1 and problem.pieces < BANDS_FIRST
    if problem.pieces < REPEATS * kinds or (
        mixed and problem.pieces < FEW_PIECES and math.isfinite(stop.left_s)
    ):
        return False
    if kinds > 1 and not mixed:
        return stop.left_s >= MANY_LEAST_BANDS_S + MANY_LEAST_BANDS_S_PER_PIECE * problem.pieces
    return stop.left_s >= (FEW_LEAST_BANDS_S if mixed else LEAST_BANDS_S)


class _Until:
    """Stops with its parent, or when nothing is left to gain."""

    def __init__(self, parent: Stop, done: Callable[[], bool]) -> None:
        self._parent = parent
        self._done = done

    @property
    def done(self) -> bool:
        """Whether nothing is left to gain."""
        return self._done()

    @property
    def cancelled(self) -> bool:
        """Whether a person stopped it."""
        return bool(getattr(self._parent, "cancelled", False))

    @property
    def left_s(self) -> float:
        """The parent's time left."""
        return 0.0 if self._done() else self._parent.left_s

    def __call__(self) -> bool:
        return self._done() or self._parent()


def check(problem: LayProblem) -> None:
    """Raise ProblemError when the question itself is wrong."""
    if problem.pieces == 0:
        raise ProblemError("no piece is asked for", remedy="give a demand")
    if len(problem.by_id) < len(problem.items):
        raise ProblemError("two items have one id", remedy="give each its own")
    for value, name in (
        (problem.gap_mm, "gap"),
        (problem.edge_margin_mm, "edge margin"),
        (problem.end_margin_mm, "end margin"),
    ):
        if not (math.isfinite(value) and value >= 0.0):
            raise ProblemError(f"the {name} is {value} mm", remedy="give 0 or more")
    for item in problem.items:
        if item.demand < 0:
            raise ProblemError(f"its demand is {item.demand}", remedy="give 0 or more", piece=item.id)
        if item.turns_deg is not None and not item.turns_deg:
            raise ProblemError("no turn is allowed", remedy="allow at least one", piece=item.id)
        if not item.outline.polygon.is_valid:
            raise ProblemError("its outline crosses itself", remedy="redraw it", piece=item.id)
    pinned: dict[str, int] = {}
    for pin in problem.pinned:
        pinned[pin.item_id] = pinned.get(pin.item_id, 0) + 1
        if pin.item_id not in problem.by_id:
            raise ProblemError("is pinned but not asked for", remedy="release it", piece=pin.item_id)
        if pinned[pin.item_id] > problem.by_id[pin.item_id].demand:
            raise ProblemError("is pinned more often than asked for", remedy="release one", piece=pin.item_id)
    if problem.pinned:
        only = tuple(replace(item, demand=pinned.get(item.id, 0)) for item in problem.items)
        alone = replace(problem, items=only, roll=replace(problem.roll, length_mm=None))
        verdict = verify(alone, Lay(problem.pinned, problem.length_of_mm(problem.pinned)))
        if not verdict.ok:
            raise ProblemError(
                f"the pinned pieces are {words(verdict, most=1)}", remedy="move or release them"
            )


def _why_nothing_fits(problem: LayProblem, lay: Lay) -> str:
    return words(verify(problem, lay), most=1)
