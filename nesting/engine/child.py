"""Lay in a child process and wait for it: what commands ask, always to be stopped."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from nesting.engine.run import EngineRun
from nesting.errors import CancelledError, EngineError, TooLongError
from nesting.files.wire import LAYS
from nesting.lay import Lay
from nesting.listen import Phase
from nesting.problem import LayProblem

LOOK_S = 0.05
"""How often a wish to cancel is looked for: well within 200 ms."""


@dataclass(frozen=True)
class Progress:
    """The best verified lay so far; ``lay`` is None while there is none."""

    elapsed_s: float
    phase: Phase
    lay: Lay | None
    length_mm: float
    yield_: float


def solve_in_child(
    problem: LayProblem,
    *,
    seconds: float | None,
    seed: int = 0,
    workers: int = 2,
    work: int | None = None,
    start: Lay | None = None,
    polite: bool = False,
    kept_in: Path | None = None,
    on_progress: Callable[[Progress], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Lay:
    """Return the best verified lay found within ``seconds`` (None: until the engine is done).

    ``work`` counts work instead of seconds (``engine.solve``): the same lay each time. The search goes on
    from ``start``, and never ends with a longer lay. ``polite`` leaves the processors to everything else.
    ``kept_in`` is the folder of lattices and sections found before (``nesting.known.folder``).

    ``cancelled`` is asked every 50 ms; once it says so the best lay so far is returned and the
    child killed. Raises ProblemError when the problem has no answer, TooLongError when the best lay
    at the end of its time is longer than the roll, EngineError when the child ends without any lay,
    CancelledError when it is cancelled before there is one.
    """
    run = EngineRun(
        problem,
        seconds=seconds,
        seed=seed,
        workers=workers,
        work=work,
        start=start,
        polite=polite,
        kept_in=None if kept_in is None else str(kept_in),
    )
    stopped = ""
    try:
        while not run.over and not stopped:
            if cancelled is not None and cancelled():
                stopped = "cancelled"
            elif run.overdue:
                stopped = "time"
            elif (told := run.look(LOOK_S)) is not None and told.event in ("phase", "progress"):
                _tell(on_progress, run, problem)
        while run.look() is not None:  # what was told already
            continue
    finally:
        run.close()
    if not stopped and run.error is not None:
        if run.best is None or not isinstance(run.error, EngineError):
            raise run.error
        stopped = "the engine's process ended"
    best = run.best_when(stopped) if stopped else run.best
    if best is None:
        raise CancelledError("cancelled before the first lay was found", remedy="give it a second")
    limit = problem.roll.length_mm
    if stopped not in ("", "cancelled") and limit is not None and best.length_mm > limit:
        raise TooLongError.of(best.length_mm, limit)
    return best


def lays_in_child(
    problem: LayProblem,
    *,
    seconds: float,
    seed: int = 0,
    workers: int = 2,
    on_progress: Callable[[Progress], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> tuple[tuple[dict[str, int], Lay], ...]:
    """Return an order as lays none of which is longer than ``problem.roll.length_mm``.

    Each comes with its demand, pieces by item (``several_lays``). ``seconds`` are for all of them;
    progress is that of the lay in work. Raises ProblemError when a piece is longer than a lay may
    be, EngineError when cancelled: half an order is not an answer.
    """
    run = EngineRun(problem, job=LAYS, seconds=seconds, seed=seed, workers=workers)
    try:
        while True:
            if cancelled is not None and cancelled():
                raise EngineError("cancelled before every lay was found", remedy="give it more time")
            told = run.look(LOOK_S)
            if told is not None and told.event in ("phase", "progress"):
                _tell(on_progress, run, problem)
            if told is not None and told.event == "lays":
                return told.lays
            if run.error is not None:
                raise run.error
    finally:
        run.close()


def _tell(on_progress: Callable[[Progress], None] | None, run: EngineRun, problem: LayProblem) -> None:
    if on_progress is None:
        return
    length = run.best.length_mm if run.best else 0.0
    gross = problem.roll.usable_width_mm * length
    share = problem.net_area_mm2 / gross if gross else 0.0
    on_progress(Progress(run.elapsed_s, run.phase, run.best, length, share))
