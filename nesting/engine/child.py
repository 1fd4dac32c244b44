"""Lay in a child process: one path for commands and the window, that can always be stopped."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from nesting.engine.ready import asked, give_back
from nesting.errors import NestingError, ProblemError, TooLongError
from nesting.files.wire import job_to_json, lay_from_json
from nesting.lay import Lay
from nesting.problem import LayProblem

GRACE_S = 0.6
"""After its time is up an engine may take so long to hand over, then it is killed."""

LOOK_S = 0.05
"""How often a wish to cancel is looked for: well within 200 ms."""


@dataclass(frozen=True)
class Progress:
    """The best verified lay so far; ``lay`` is None while there is none."""

    elapsed_s: float
    phase: str
    lay: Lay | None
    length_mm: float
    yield_: float


class EngineError(NestingError):
    """The engine's process ended without an answer."""

    code = "ENGINE"


class CancelledError(EngineError):
    """The search was stopped before it had found any lay."""


def solve_in_child(
    problem: LayProblem,
    *,
    seconds: float | None,
    seed: int = 0,
    workers: int = 2,
    work: int | None = None,
    start: Lay | None = None,
    polite: bool = False,
    lattices: Path | None = None,
    on_progress: Callable[[Progress], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Lay:
    """Return the best verified lay found within ``seconds`` (None: until the engine is done).

    ``work`` counts work instead of seconds (``engine.solve``): the same lay each time. The search goes on
    from ``start``, and never ends with a longer lay. ``polite`` leaves the processors to everything else.
    ``lattices`` is the folder where those found before are kept (``nesting.lattice.kept``).

    ``cancelled`` is asked every 50 ms; once it says so the best lay so far is returned and the
    child killed. Raises ProblemError when the problem has no answer, TooLongError when the best lay
    at the end of its time is longer than the roll, EngineError when the child ends without any lay,
    CancelledError when it is cancelled before there is one.
    """
    began = time.monotonic()
    job = job_to_json(
        "lay",
        problem,
        seconds=seconds,
        seed=seed,
        workers=workers,
        work=work,
        start=start,
        polite=polite,
        lattices=None if lattices is None else str(lattices),
    )
    child = asked(job)
    best: Lay | None = None
    phase = "starting"
    stopped, done = "", False
    try:
        while not stopped:
            elapsed = time.monotonic() - began
            if cancelled is not None and cancelled():
                stopped = "cancelled"
                break
            if seconds is not None and elapsed > seconds + GRACE_S and best is not None:
                stopped = "time"
                break
            try:
                event = child.event(LOOK_S)
            except EOFError:
                stopped = "the engine's process ended"
                break
            if event is None:
                continue
            if event["event"] == "done":
                done = True
                return lay_from_json(event["lay"])
            if event["event"] == "failed":
                raise _error(event)
            if event["event"] == "phase":
                phase = event["name"]
                if on_progress is not None:
                    on_progress(_progress(elapsed, phase, best, problem))
            if event["event"] == "progress":
                best = lay_from_json(event["lay"])
                phase = event["phase"]
                if on_progress is not None:
                    on_progress(_progress(elapsed, phase, best, problem))
        for event in child.waiting_events():
            if event["event"] in ("progress", "done"):
                best = lay_from_json(event["lay"])
        last_words = child.last_words
    finally:
        (give_back if done and not polite else type(child).kill)(child)
    if best is None:
        if stopped == "cancelled":
            raise CancelledError("cancelled before the first lay was found", remedy="give it a second")
        raise EngineError(f"{stopped} without a lay ({last_words or 'no reason given'})", remedy="try again")
    limit = problem.roll.length_mm
    if stopped != "cancelled" and limit is not None and best.length_mm > limit:
        raise TooLongError.of(best.length_mm, limit)
    spent = time.monotonic() - began
    searched_s = spent + (0.0 if start is None else start.searched_s)
    return replace(best, stopped=stopped, seconds=spent, searched_s=searched_s)


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
    be, EngineError when cancelled: half an order is no answer.
    """
    start = time.monotonic()
    job = job_to_json("lays", problem, seconds=seconds, seed=seed, workers=workers)
    child = asked(job)
    phase, best, done = "starting", None, False
    try:
        while True:
            if cancelled is not None and cancelled():
                raise EngineError("cancelled before every lay was found", remedy="give it more time")
            try:
                event = child.event(LOOK_S)
            except EOFError:
                said = child.last_words or "no reason given"
                raise EngineError(
                    f"the engine's process ended without lays ({said})", remedy="try again"
                ) from None
            if event is None:
                continue
            if event["event"] == "lays":
                done = True
                return tuple((each["demand"], lay_from_json(each["lay"])) for each in event["lays"])
            if event["event"] == "failed":
                raise _error(event)
            phase = event.get("name") or event.get("phase") or phase
            best = lay_from_json(event["lay"]) if event.get("lay") else best
            if on_progress is not None and event["event"] in ("phase", "progress"):
                on_progress(_progress(time.monotonic() - start, phase, best, problem))
    finally:
        (give_back if done else type(child).kill)(child)


def _progress(elapsed_s: float, phase: str, lay: Lay | None, problem: LayProblem) -> Progress:
    length = lay.length_mm if lay else 0.0
    gross = problem.roll.usable_width_mm * length
    return Progress(elapsed_s, phase, lay, length, problem.net_area_mm2 / gross if gross else 0.0)


def _error(event: dict[str, str]) -> NestingError:
    kinds: dict[str | None, type[NestingError]] = {kind.code: kind for kind in (ProblemError, TooLongError)}
    return kinds.get(event.get("code"), EngineError)(
        event["message"],
        remedy=event.get("remedy", ""),
        file=event.get("file", ""),
        piece=event.get("piece", ""),
    )
