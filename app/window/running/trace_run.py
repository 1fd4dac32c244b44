"""A picture of cards traced in a process of its own: its library takes longer to load than a window may wait."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QProcess, Signal

from app.window.running.environment import qt_environment
from geometry.trace.child import answer_of
from nesting.process import child_environment

GONE_WITHIN_MS = 3000


class TraceRun(QObject):
    """Traces one picture at a time; ``done`` carries what was traced, or the TraceError."""

    done = Signal(object)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._process: QProcess | None = None
        self._file = ""

    @property
    def running(self) -> bool:
        """Whether a picture is being traced."""
        return self._process is not None

    def start(self, path: Path, **options: Any) -> None:
        """Trace a picture as ``trace_picture`` does."""
        assert self._process is None
        self._file = str(path)
        process = QProcess(self)
        process.setProgram(sys.executable)
        process.setArguments(["-m", "geometry.trace.child"])
        process.setProcessEnvironment(qt_environment(child_environment(os.environ)))
        process.finished.connect(self._ended)
        process.errorOccurred.connect(self._ended)
        self._process = process
        process.start()
        process.write(json.dumps({"path": str(path.absolute()), **options}).encode() + b"\n")

    def stop(self) -> None:
        """End it at once; nothing more is reported of it."""
        process = self._let_go()
        if process is not None:
            process.kill()
            process.waitForFinished(GONE_WITHIN_MS)
            process.deleteLater()

    def _ended(self) -> None:
        process = self._let_go()
        if process is not None:
            data = bytes(process.readAllStandardOutput().data())
            process.deleteLater()
            self.done.emit(answer_of(data, self._file))

    def _let_go(self) -> QProcess | None:
        process, self._process = self._process, None
        if process is not None:
            process.finished.disconnect(self._ended)
            process.errorOccurred.disconnect(self._ended)
        return process
