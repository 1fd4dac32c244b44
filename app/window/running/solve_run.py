"""The engine at work for the window: the process that commands use too, looked at by a timer."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject, QTimer, Signal

from app.lay.searching import workers_here
from app.window.wording.core_words import told_text
from geometry.said import joined
from nesting.engine.run import EngineRun
from nesting.errors import EngineError, NestingError
from nesting.lay import Lay
from nesting.problem import LayProblem

translate = QCoreApplication.translate
LOOK_MS = 30
"""How often the engine is heard: a better lay is shown within two frames of a film."""


class SolveRun(QObject):
    """One run at a time. ``better`` carries each better lay with the seconds gone, ``phase`` what
    the engine is at, ``ended`` the best lay (or None) and why a run failed ('' = it did not)."""

    better = Signal(object, float)
    phase = Signal(object)
    ended = Signal(object, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._run: EngineRun | None = None
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self._look)
        self.best: Lay | None = None

    @property
    def running(self) -> bool:
        """Whether the engine is at work."""
        return self._run is not None

    @property
    def process_id(self) -> int:
        """The number of the engine's process, 0 when none is at work."""
        return self._run.process_id if self._run is not None else 0

    def start(
        self,
        problem: LayProblem,
        *,
        seconds: float | None,
        seed: int = 0,
        start: Lay | None = None,
        polite: bool = False,
        kept_in: Path | None = None,
    ) -> None:
        """Begin, from the lay ``start`` if there is one; without ``seconds`` the engine ends by itself.

        ``polite`` leaves the processors to everything else; ``kept_in`` is the folder of what was found before.
        """
        assert self._run is None
        self.best = None
        try:
            self._run = EngineRun(
                problem,
                seconds=seconds,
                seed=seed,
                workers=workers_here(),
                start=start,
                polite=polite,
                kept_in=None if kept_in is None else str(kept_in),
            )
        except OSError:
            self.ended.emit(None, translate("Lay", "The engine could not be started."))
            return
        self._timer.start()

    def stop(self) -> None:
        """End the engine at once; ``ended`` follows with the best lay so far."""
        self._stop("cancelled")

    def _stop(self, why: str) -> None:
        best = None if self._run is None else self._run.best_when(why)
        if self._drop():
            self.best = best
            self.ended.emit(best, "")

    def abandon(self) -> None:
        """End the engine at once and say nothing."""
        self._drop()

    def _drop(self) -> bool:
        run, self._run = self._run, None
        self._timer.stop()
        if run is None:
            return False
        run.close()
        return True

    def _look(self) -> None:
        while self._run is not None and (told := self._run.look()) is not None:
            if told.is_last:
                self._end(self._run)
            elif told.event == "phase":
                self.phase.emit(told.phase)
            elif told.lay is not None:
                self.best = told.lay
                self.better.emit(told.lay, told.elapsed_s)
        if self._run is not None and self._run.overdue:
            self._stop("time")

    def _end(self, run: EngineRun) -> None:
        self.best = run.best
        self._drop()
        self.ended.emit(self.best, "" if run.error is None else _said(run.error))


def _said(error: NestingError) -> str:
    if isinstance(error, EngineError):
        text = translate("Lay", "The engine ended unexpectedly ({0}); try again.")
        return text.format(told_text(error.message))
    return told_text(joined(error.message, error.remedy))
