"""An engine's process, heard line by line: the one path of commands, window and engines beside each other."""

from __future__ import annotations

import time
from dataclasses import replace

from geometry.said import said
from nesting.bound import lower_bound
from nesting.engine.ready import asked, give_back
from nesting.errors import EngineError, NestingError
from nesting.files.wire import LAY, Told, job_to_json, told_from_json
from nesting.lay import Lay
from nesting.listen import Phase, PhaseCode
from nesting.problem import LayProblem

GRACE_S = 0.6
"""After its time is up an engine may take so long to hand over, then it is ended."""


class EngineRun:
    """One job, begun at once in a process that can be killed, or that stood ready (``ready``).

    ``best`` is the best verified lay told so far, ``phase`` what the engine is at. Once it is ``over``
    nothing more comes: ``error`` then says why there is no answer, None where there is one. ``polite`` leaves
    the processors to everything else; ``kept_in`` is the folder of what was found before
    (``nesting.known.folder``).
    """

    def __init__(
        self,
        problem: LayProblem,
        *,
        job: str = LAY,
        seconds: float | None,
        seed: int = 0,
        workers: int = 2,
        work: int | None = None,
        start: Lay | None = None,
        polite: bool = False,
        kept_in: str | None = None,
    ) -> None:
        line = job_to_json(
            job,
            problem,
            seconds=seconds,
            seed=seed,
            workers=workers,
            work=work,
            start=start,
            polite=polite,
            kept_in=kept_in,
        )
        self._problem, self._polite, self._seconds = problem, polite, seconds
        self._searched_before_s = 0.0 if start is None else start.searched_s
        self._began = time.monotonic()
        self._child = asked(line)
        self.best: Lay | None = None
        self.phase = Phase(PhaseCode.STARTING)
        self.over = False
        self.error: NestingError | None = None

    @property
    def elapsed_s(self) -> float:
        """Seconds since it began."""
        return time.monotonic() - self._began

    @property
    def overdue(self) -> bool:
        """Whether its time is up by more than its grace and it has a lay to hand over."""
        return (
            self.best is not None and self._seconds is not None and self.elapsed_s > self._seconds + GRACE_S
        )

    def best_when(self, stopped: str) -> Lay | None:
        """Return the best lay so far of a run that is ended for the reason ``stopped``; None without one."""
        if self.best is None:
            return None
        elapsed_s = self.elapsed_s
        searched_s = elapsed_s + self._searched_before_s
        bound = self.best.bound or lower_bound(self._problem)
        return replace(self.best, stopped=stopped, seconds=elapsed_s, searched_s=searched_s, bound=bound)

    @property
    def process_id(self) -> int:
        """The process's number on this machine."""
        return self._child.process_id

    def look(self, wait_s: float = 0.0) -> Told | None:
        """Return the next thing told; None when nothing came in time, or all is told (``over``)."""
        if self.over:
            return None
        try:
            line = self._child.event(wait_s)
        except EOFError:
            reason = self._child.last_words or "no reason given"
            return self._last(
                EngineError(
                    said("the engine's process ended without a lay ({0})", reason), remedy="try again"
                )
            )
        if line is None:
            return None
        told = told_from_json(line)
        self.phase = told.phase or self.phase
        self.best = told.lay or self.best
        if told.is_last:
            self.over, self.error = True, told.error
        return told

    def close(self) -> None:
        """Keep the process for the next job when this one is done; else end it at once, and wait for that."""
        if self.over and self.error is None and not self._polite:  # who was polite stays so
            give_back(self._child)
        else:
            self._child.kill()

    def _last(self, error: NestingError) -> Told:
        self.over, self.error = True, error
        return Told("failed", self.elapsed_s, error=error)
