"""An engine in a process of its own (the lines it speaks: ``nesting.files.wire``)."""

from __future__ import annotations

import json
import os
import sys
import time
from typing import Any

from geometry.said import said
from nesting.engine.engines import ENGINES
from nesting.errors import EngineError, LayFileError, NestingError
from nesting.files.wire import (
    LAY,
    LAYS,
    Told,
    lay_from_json,
    problem_from_json,
    told_to_json,
)
from nesting.lay import Lay
from nesting.listen import Phase, PhaseCode
from nesting.problem import LayProblem
from nesting.process import lines_or_die, say
from nesting.stop import Deadline

TELL_S = 0.2
"""Lays are told at most this often; the last one always."""


class _Teller:
    """A listener that tells the parent; lays that come too fast are held back, the latest is kept."""

    def __init__(self) -> None:
        self._start = time.monotonic()
        self._phase = Phase(PhaseCode.STARTING)
        self._told = -1.0

    @property
    def elapsed_s(self) -> float:
        return time.monotonic() - self._start

    def phase(self, phase: Phase) -> None:
        self._phase = phase
        _tell(Told("phase", self.elapsed_s, phase=phase))

    def better(self, lay: Lay) -> None:
        if self._told >= 0 and self.elapsed_s - self._told < TELL_S:
            return
        self._told = self.elapsed_s
        _tell(Told("progress", self._told, phase=self._phase, lay=lay))


def _tell(told: Told) -> None:
    say(told_to_json(told))


def _done(job: dict[str, Any], problem: LayProblem, stop: Deadline) -> Told:
    """Do a job: by the whole engine, as several lays, or by one engine alone."""
    options = {
        "seed": job.get("seed", 0),
        "stop": stop,
        "listener": _Teller(),
        "workers": job.get("workers", 2),
    }
    # after the first sign of life: reading compiled code takes a while
    if job["job"] == LAYS:
        from nesting.engine import several_lays

        done = several_lays.solve(problem, **options)
        return Told("lays", lays=tuple(({i.id: i.demand for i in part.items}, lay) for part, lay in done))
    if job["job"] == LAY:
        from nesting.engine import solve as engine

        start = None if job.get("start") is None else lay_from_json(job["start"])
        return Told("done", lay=engine.solve(problem, work=job.get("work"), start=start, **options))
    return Told("done", lay=ENGINES[job["job"]]()(problem, work=job.get("work"), **options))


def _asked(line: str) -> tuple[dict[str, Any], LayProblem]:
    """Read the job; raises LayFileError on one that no engine knows."""
    job = json.loads(line)
    known = (LAY, LAYS, *ENGINES)
    if job.get("job") not in known:
        raise LayFileError(
            said("no engine knows the job {0}", f"{job.get('job')!r}"),
            remedy=said("ask for {0}", ", ".join(known)),
        )
    return job, problem_from_json(job["problem"])


def main() -> int:
    """Do the one job of standard input."""
    line = sys.stdin.readline()
    if not line:
        return 0
    deadline: list[Deadline] = []

    def on_line(order: dict[str, Any]) -> None:
        if order.get("job") == "cancel" and deadline:
            deadline[0].cancel()

    lines_or_die(on_line)
    _tell(Told("started"))
    try:
        job, problem = _asked(line)
        seconds = job.get("seconds")
        deadline.append(Deadline(float("inf") if seconds is None else seconds))
        last = _done(job, problem, deadline[0])
    except NestingError as error:
        last = Told("failed", error=error)
    except MemoryError:
        last = Told("failed", error=EngineError("not enough memory", remedy="lay fewer pieces"))
    _tell(last)
    status = 1 if last.error is not None else 0
    sys.stdout.flush()
    os._exit(status)


if __name__ == "__main__":
    main()
