"""An engine in a process of its own (the lines it speaks: ``nesting.files.wire``)."""

from __future__ import annotations

import json
import os
import sys
import time
from typing import Any

from nesting.errors import NestingError
from nesting.files.wire import job_from_json, lay_from_json, lay_to_json
from nesting.lay import Lay
from nesting.problem import LayProblem
from nesting.process import lines_or_die, say
from nesting.stop import Deadline

TELL_S = 0.2
"""Lays are told at most this often; the last one always."""


class _Teller:
    """A listener that tells the parent; lays that come too fast are held back, the latest is kept."""

    def __init__(self, problem: LayProblem) -> None:
        self._area = problem.net_area_mm2 / problem.roll.usable_width_mm
        self._start = time.monotonic()
        self._phase = ""
        self._told = -1.0

    @property
    def elapsed_s(self) -> float:
        return time.monotonic() - self._start

    def phase(self, name: str) -> None:
        self._phase = name
        say({"event": "phase", "name": name, "elapsed_s": self.elapsed_s})

    def better(self, lay: Lay) -> None:
        if self._told >= 0 and self.elapsed_s - self._told < TELL_S:
            return
        self._told = self.elapsed_s
        say(
            {
                "event": "progress",
                "lay": lay_to_json(lay),
                "yield": self._area / lay.length_mm if lay.length_mm else 0.0,
                "phase": self._phase,
                "elapsed_s": self._told,
            }
        )


def _solved_lays(job: dict[str, Any], problem: LayProblem, stop: Deadline) -> list[dict[str, Any]]:
    """Do a job "lays": an order split over lays of the greatest length allowed."""
    from nesting.engine import several_lays

    teller = _Teller(problem)
    done = several_lays.solve(
        problem, seed=job.get("seed", 0), stop=stop, listener=teller, workers=job.get("workers", 2)
    )
    return [{"demand": {i.id: i.demand for i in part.items}, "lay": lay_to_json(lay)} for part, lay in done]


def _solved(job: dict[str, Any], problem: LayProblem, stop: Deadline) -> Lay | None:
    """Do a job: "lay" by the whole engine, "bands" by that of long runs alone."""
    options = {"seed": job.get("seed", 0), "stop": stop, "listener": _Teller(problem)}
    # after the first sign of life: reading compiled code takes a while
    if job["job"] == "bands":
        from nesting.rows import production

        return (
            production.solve(problem, threads=job["workers"], passes=job.get("work"), **options)
            if production.suits(problem)
            else None
        )
    from nesting.engine import solve as engine

    start = None if job.get("start") is None else lay_from_json(job["start"])
    return engine.solve(problem, workers=job.get("workers", 2), work=job.get("work"), start=start, **options)


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
    say({"event": "started"})
    try:
        job = json.loads(line)
        _, problem = job_from_json(job)
        seconds = job.get("seconds")
        deadline.append(Deadline(float("inf") if seconds is None else seconds))
        if job["job"] == "lays":
            say({"event": "lays", "lays": _solved_lays(job, problem, deadline[0])})
            sys.stdout.flush()
            os._exit(0)
        lay = _solved(job, problem, deadline[0])
        say({"event": "done", "lay": None if lay is None else lay_to_json(lay)})
        status = 0
    except NestingError as error:
        told = {"message": error.message, "remedy": error.remedy, "file": error.file, "piece": error.piece}
        say({"event": "failed", "code": error.code, **told})
        status = 1
    except MemoryError:
        say(
            {
                "event": "failed",
                "code": "MEMORY",
                "message": "not enough memory",
                "remedy": "lay fewer pieces",
            }
        )
        status = 1
    sys.stdout.flush()
    os._exit(status)


if __name__ == "__main__":
    main()
