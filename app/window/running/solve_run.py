"""The nesting engine in a process of its own, spoken to in lines (``nesting.files.wire``)."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QObject, QProcess, Signal

from app.window.running.environment import qt_environment
from nesting.files.wire import job_to_json, lay_from_json
from nesting.lay import Lay
from nesting.problem import LayProblem
from nesting.process import engine_environment

translate = QCoreApplication.translate
GONE_WITHIN_MS = 3000
"""A killed engine is gone in a few ms; on a very busy machine it may take longer."""


class SolveRun(QObject):
    """One run at a time. ``better`` carries each better lay with the seconds gone, ``phase`` what
    the engine is at, ``ended`` the best lay (or None) and why a run failed ('' = it did not)."""

    better = Signal(object, float)
    phase = Signal(str)
    ended = Signal(object, str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._process: QProcess | None = None
        self._rest = b""
        self._errors = b""
        self.best: Lay | None = None

    @property
    def running(self) -> bool:
        """Whether the engine is at work."""
        return self._process is not None

    def start(
        self,
        problem: LayProblem,
        *,
        seconds: float | None,
        seed: int = 0,
        workers: int = 2,
        start: Lay | None = None,
        polite: bool = False,
        lattices: Path | None = None,
    ) -> None:
        """Begin, from the lay ``start`` if there is one; without ``seconds`` the engine ends by itself.

        ``polite`` leaves the processors to everything else; ``lattices`` is where those found before are kept.
        """
        assert self._process is None
        self.best, self._rest, self._errors = None, b"", b""
        process = QProcess(self)
        process.setProgram(sys.executable)
        process.setArguments(["-u", "-m", "nesting.engine.worker"])
        process.setProcessEnvironment(qt_environment(engine_environment(os.environ)))
        process.readyReadStandardOutput.connect(self._read)
        process.readyReadStandardError.connect(self._read_errors)
        process.finished.connect(self._finished)
        process.errorOccurred.connect(self._error)
        self._process = process
        process.start()
        job = job_to_json(
            "lay",
            problem,
            seconds=seconds,
            seed=seed,
            workers=workers,
            start=start,
            polite=polite,
            lattices=None if lattices is None else str(lattices),
        )
        process.write(json.dumps(job).encode() + b"\n")

    def stop(self) -> None:
        """End the engine at once; ``ended`` follows with the best lay so far."""
        if self._drop():
            self.ended.emit(self.best, "")

    def abandon(self) -> None:
        """End the engine at once and say nothing."""
        self._drop()

    def _drop(self) -> bool:
        process, self._process = self._process, None
        if process is None:
            return False
        process.readyReadStandardOutput.disconnect(self._read)
        process.readyReadStandardError.disconnect(self._read_errors)
        process.finished.disconnect(self._finished)
        process.errorOccurred.disconnect(self._error)
        process.kill()
        process.waitForFinished(GONE_WITHIN_MS)
        process.deleteLater()
        return True

    def _read(self) -> None:
        if self._process is None:
            return
        self._rest += bytes(self._process.readAllStandardOutput().data())
        *lines, self._rest = self._rest.split(b"\n")
        for line in lines:
            if line.strip():
                self._heard(json.loads(line))

    def _read_errors(self) -> None:
        if self._process is not None:
            self._errors = (self._errors + bytes(self._process.readAllStandardError().data()))[-4000:]

    def _heard(self, told: dict) -> None:
        match told.get("event"):
            case "phase":
                self.phase.emit(str(told["name"]))
            case "progress":
                self.best = lay_from_json(told["lay"])
                self.better.emit(self.best, float(told["elapsed_s"]))
            case "done":
                self.best = lay_from_json(told["lay"])
                self._drop()
                self.ended.emit(self.best, "")
            case "failed":
                self._drop()
                words = [str(told.get(name) or "") for name in ("message", "remedy")]
                self.ended.emit(self.best, "; ".join(word for word in words if word))

    def _finished(self, status: int, how: QProcess.ExitStatus) -> None:
        self._read()
        if self._process is None:  # the last line was its word
            return
        self._process.deleteLater()
        self._process = None
        said = self._errors.decode("utf-8", "replace").strip().splitlines()
        reason = said[-1] if said else str(status)
        self.ended.emit(
            self.best, translate("Lay", "The engine ended unexpectedly ({0}); try again.").format(reason)
        )

    def _error(self, error: QProcess.ProcessError) -> None:
        if error == QProcess.ProcessError.FailedToStart and self._process is not None:
            self._process.deleteLater()
            self._process = None
            self.ended.emit(None, translate("Lay", "The engine could not be started."))
