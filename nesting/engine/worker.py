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
    from nesting.files.wire import Told
    from nesting.lay import Lay
    from nesting.listen import Phase
    from nesting.problem import LayProblem
    from nesting.stop import Deadline

TELL_S = 0.2
"""Lays are told at most this often; the last one always."""


class _Teller:
    """A listener that tells the parent; lays that come too fast are held back, the latest is kept."""

    def __init__(self) -> None:
        from nesting.listen import Phase, PhaseCode

        self._start = time.monotonic()
        self._phase = Phase(PhaseCode.STARTING)
        self._told = -1.0

    @property
    def elapsed_s(self) -> float:
        return time.monotonic() - self._start

    def phase(self, phase: Phase) -> None:
        from nesting.files.wire import Told

        self._phase = phase
        _tell(Told("phase", self.elapsed_s, phase=phase))

    def better(self, lay: Lay) -> None:
        from nesting.files.wire import Told

        if self._told >= 0 and self.elapsed_s - self._told < TELL_S:
            return
        self._told = self.elapsed_s
        _tell(Told("progress", self._told, phase=self._phase, lay=lay))


def _tell(told: Told) -> None:
    from nesting.files.wire import told_to_json

    say(told_to_json(told))


def _done(job: dict[str, Any], problem: LayProblem, stop: Deadline) -> Told:
    """Do a job: by the whole engine, as several lays, or by one engine alone."""
    from nesting.files.wire import LAY, LAYS, Told, lay_from_json

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
    from nesting.engine.engines import ENGINES

    return Told("done", lay=ENGINES[job["job"]]()(problem, work=job.get("work"), **options))


def _asked(job: dict[str, Any]) -> LayProblem:
    """Read the question; raises LayFileError on a job that no engine knows."""
    from geometry.said import said
    from nesting.engine.engines import ENGINES
    from nesting.errors import LayFileError
    from nesting.files.wire import LAY, LAYS, problem_from_json

    known = (LAY, LAYS, *ENGINES)
    if job.get("job") not in known:
        raise LayFileError(
            said("no engine is called {0}", f"{job.get('job')!r}"),
            remedy=said("ask for {0}", ", ".join(known)),
        )
    return problem_from_json(job["problem"])


def _read_numba() -> None:
    """Read numba without the linear algebra of scipy, which it asks for as it is imported: no kernel of ours
    calls it (tests/contracts/test_kernels.py), and it takes a fifth of a second."""
    sys.modules["scipy.linalg"] = None  # type: ignore[assignment]
    try:
        import numba.np.arraymath  # noqa: F401
    finally:
        del sys.modules["scipy.linalg"]


def _read_code() -> None:
    """Read libraries and compiled code by laying two squares, and setting them together."""
    from geometry.outline import Outline
    from nesting.dies.die import dies_of
    from nesting.free import first_layout, sections
    from nesting.free.fitting import Fitting, Pose, cells_mm
    from nesting.items import Item
    from nesting.problem import LayProblem
    from nesting.roll import Roll

    square = Outline.make([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)])
    problem = LayProblem(Roll(30.0), (Item("square", square, 2),), gap_mm=1.0)
    sections.compact(problem, first_layout.solve(problem).placements, steps=1)
    dies = dies_of(problem)
    Fitting(dies, problem.gap_mm, cells_mm(dies)[0]).together((Pose(0, 0), Pose(0, 1)))


def _status_after(job: dict[str, Any], current: list[Deadline]) -> int | None:
    """Do a job and tell its end; returns an exit status when no other job can follow.

    Its time began when it was asked, though code was still being read.
    """
    from nesting.errors import EngineError, NestingError
    from nesting.files.wire import Told
    from nesting.known import folder
    from nesting.stop import Deadline
    from nesting.system.processes import work_behind_others

    try:
        problem = _asked(job)
        seconds = job.get("seconds")
        folder.use(job.get("kept_in"))
        if job.get("polite"):
            work_behind_others()
        waited_s = time.monotonic() - job["asked_s"]
        deadline = Deadline(float("inf") if seconds is None else max(0.0, seconds - waited_s))
        current[:] = [deadline]
        _tell(_done(job, problem, deadline))
        return None
    except NestingError as error:
        _tell(Told("failed", error=error))
    except MemoryError:
        _tell(Told("failed", error=EngineError("not enough memory", remedy="lay fewer pieces")))
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
    _read_numba()
    if jobs.empty():
        _read_code()
    status = None
    while status is None:
        status = _status_after(jobs.get(), current)
    sys.stdout.flush()
    os._exit(status)


if __name__ == "__main__":
    main()
