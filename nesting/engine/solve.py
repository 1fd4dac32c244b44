"""The one way in: a problem goes in, the best verified lay comes out.

Which engines lay it, and how, says the list of ``strategies``. Every lay passes ``verify`` before it is
passed on.
"""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from dataclasses import replace

from geometry.said import said
from nesting.bound import lower_bound
from nesting.engine.holes import FilledHoles
from nesting.engine.incumbent import Best
from nesting.engine.strategies import strategy_for
from nesting.engine.task import Task
from nesting.errors import ProblemError, TooLongError
from nesting.lay import Lay
from nesting.listen import Listener, Silent
from nesting.problem import LayProblem
from nesting.stop import Never, Stop
from nesting.verify import verify, words

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
    problem, seed and work give the same lay on any machine however busy. The general solver's
    search, which knows only the clock, then stays out. Raises ProblemError when a piece fits no way,
    when the pinned pieces break a rule, TooLongError when they need more length than the roll has (see
    ``several_lays``).
    """
    stop, listener = stop or Never(), listener or Silent()
    if work is not None and (work < 1 or math.isfinite(stop.left_s)):
        raise ProblemError("the work is not a number from 1, or a time is given as well", remedy="give one")
    began = time.monotonic()
    check(problem)
    filled = FilledHoles(problem)
    best = Best(filled, listener)
    if start is not None:
        best.better(start)
    bound = lower_bound(problem)
    stop = _Until(stop, lambda: best.lay is not None and best.lay.length_mm <= bound.best_mm + NOTHING_MM)
    task = Task(filled, best, seed=seed, stop=stop, workers=workers, work=work)
    strategy_for(task.problem, stop, task.goes_on_from).run(task)
    lay = best.lay
    assert lay is not None  # the first layout stands, or there was an error
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
        raise ProblemError("no pieces are asked for", remedy="give a demand")
    if len(problem.by_id) < len(problem.items):
        raise ProblemError("two items have the same id", remedy="give each its own")
    for value, name in (
        (problem.gap_mm, "gap"),
        (problem.edge_margin_mm, "edge margin"),
        (problem.end_margin_mm, "end margin"),
    ):
        if not (math.isfinite(value) and value >= 0.0):
            raise ProblemError(said("the {0} is {1} mm", name, value), remedy="give 0 or more")
    for item in problem.items:
        if item.demand < 0:
            raise ProblemError(said("its demand is {0}", item.demand), remedy="give 0 or more", piece=item.id)
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
                said("the pinned pieces are {0}", words(verdict, most=1)), remedy="move or release them"
            )
