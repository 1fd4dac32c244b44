"""An engine in a process of its own (the lines it speaks: ``nesting.files.wire``).

It does one job after the other until its standard input ends. While it has none it reads libraries and
compiled code, so that the first job finds them read.
"""

from __future__ import annotations

import os
import queue
import sys
import time
from typing import TYPE_CHECKING, Any

from nesting.process import lines_or_die, say

if TYPE_CHECKING:
    from nesting.lay import Lay
    from nesting.problem import LayProblem
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
        from nesting.files.wire import lay_to_json

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
    from nesting.files.wire import lay_to_json

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
    from nesting.files.wire import lay_from_json

    start = None if job.get("start") is None else lay_from_json(job["start"])
    return engine.solve(problem, workers=job.get("workers", 2), work=job.get("work"), start=start, **options)


def _read_code() -> None:
    """Read libraries and compiled code by laying two squares."""
    from geometry.outline import Outline
    from nesting.free import first_layout, sections
    from nesting.items import Item
    from nesting.problem import LayProblem
    from nesting.roll import Roll

    square = Outline.make([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
    problem = LayProblem(Roll(30.0), (Item("square", square, 2),), gap_mm=1.0)
    sections.compact(problem, first_layout.solve(problem).placements, steps=1)


def _status_after(job: dict[str, Any], current: list[Deadline]) -> int | None:
    """Do a job and tell its end; returns an exit status when no other job can follow.

    Its time began when it was asked, though code was still being read.
    """
    from nesting.errors import NestingError
    from nesting.files.wire import job_from_json, lay_to_json
    from nesting.lattice import kept
    from nesting.stop import Deadline
    from nesting.system.processes import work_behind_others

    try:
        _, problem = job_from_json(job)
        seconds = job.get("seconds")
        kept.use(job.get("lattices"))
        if job.get("polite"):
            work_behind_others()
        waited_s = time.monotonic() - job["asked_s"]
        deadline = Deadline(float("inf") if seconds is None else max(0.0, seconds - waited_s))
        current[:] = [deadline]
        if job["job"] == "lays":
            say({"event": "lays", "lays": _solved_lays(job, problem, deadline)})
        else:
            lay = _solved(job, problem, deadline)
            say({"event": "done", "lay": None if lay is None else lay_to_json(lay)})
        return None
    except NestingError as error:
        told = {"message": error.message, "remedy": error.remedy, "file": error.file, "piece": error.piece}
        say({"event": "failed", "code": error.code, **told})
    except MemoryError:
        told = {"message": "not enough memory", "remedy": "lay fewer pieces"}
        say({"event": "failed", "code": "MEMORY", **told})
    return 1


def main() -> None:
    """Do the jobs of standard input, one after the other; ends with it, or when one failed."""
    jobs: queue.SimpleQueue[dict[str, Any]] = queue.SimpleQueue()
    current: list[Deadline] = []

    def on_line(order: dict[str, Any]) -> None:
        if order.get("job") != "cancel":
            jobs.put(order | {"asked_s": time.monotonic()})
        elif current:
            current[0].cancel()

    lines_or_die(on_line)
    say({"event": "started"})
    if jobs.empty():
        _read_code()
    status = None
    while status is None:
        status = _status_after(jobs.get(), current)
    sys.stdout.flush()
    os._exit(status)


if __name__ == "__main__":
    main()
