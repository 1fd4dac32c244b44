"""A command of the program run in a process of its own: the window never waits for it."""

from __future__ import annotations

import json
import os
import sys
import tempfile
from pathlib import Path

from PySide6.QtCore import QObject, QProcess, Signal

from app.lay.live import LIVE, STOP, TEXT, WATCHED, WORDS
from app.style.file import save_style
from app.style.model import Style
from app.window.running.environment import qt_environment
from app.window.wording.core_words import told_text
from app.words.carried import with_words
from geometry.said import unpacked
from nesting.process import child_environment

PROGRAM = "stayply: "
GONE_WITHIN_MS = 3000
"""A killed process is gone in a few ms; on a very busy machine it may take longer."""


class CommandRun(QObject):
    """Runs ``python -m app WORDS --json`` on a copy of a style.

    ``told`` carries a line of progress, ``live`` the lay in work, ``done`` the command's object, ``failed`` what
    went wrong in one line, both lines in the language of the window; ``begun`` and ``over`` go round all of it,
    also round a run that is stopped. A run that was stopped says nothing more.
    """

    begun = Signal()
    over = Signal()
    told = Signal(str)
    live = Signal(object)
    done = Signal(object)
    failed = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._process: QProcess | None = None
        self._folder: tempfile.TemporaryDirectory[str] | None = None
        self._lines: list[str] = []
        self._rest = b""
        self.expected_s = 0.0

    @property
    def running(self) -> bool:
        """Whether a command is at work."""
        return self._process is not None

    def start(self, command: str, style: Style, words: list[str], *, expected_s: float = 0.0) -> None:
        """Run a command; the style's copy stands before the words. Only one at a time.

        ``expected_s`` is about how long it will be at work, 0 where nobody knows.
        """
        assert self._process is None
        self.expected_s = expected_s
        self._folder = tempfile.TemporaryDirectory(prefix="stayply-")
        copy = Path(self._folder.name) / "shown.style.json"
        save_style(style, copy)
        self._lines, self._rest = [], b""
        process = QProcess(self)
        process.setProgram(sys.executable)
        process.setArguments(["-u", "-m", "app", command, str(copy), *words, "--json"])
        process.setWorkingDirectory(self._folder.name)
        process.setProcessEnvironment(qt_environment({**child_environment(os.environ), WATCHED: "1"}))
        process.readyReadStandardError.connect(self._read)
        process.finished.connect(self._finished)
        process.errorOccurred.connect(self._not_started)
        self._process = process
        self.begun.emit()
        process.start()

    def finish(self) -> None:
        """Ask the command to end with the best it has; ``done`` or ``failed`` follows."""
        if self._process is not None:
            self._process.write(f"{STOP}\n".encode())

    def stop(self) -> None:
        """End the command at once; nothing more is reported of it."""
        process, self._process = self._process, None
        if process is not None:
            process.readyReadStandardError.disconnect(self._read)
            process.finished.disconnect(self._finished)
            process.errorOccurred.disconnect(self._not_started)
            process.kill()
            process.waitForFinished(GONE_WITHIN_MS)
            process.deleteLater()
            self._clear()
            self.over.emit()

    def _read(self) -> None:
        if self._process is None:
            return
        self._take(bytes(self._process.readAllStandardError().data()))

    def _take(self, said: bytes) -> None:
        *lines, self._rest = (self._rest + said).split(b"\n")
        for line in (each.decode("utf-8", "replace").strip() for each in lines):
            if line.startswith(LIVE):
                event = json.loads(line.removeprefix(LIVE))
                if TEXT in event:
                    self._tell(unpacked(event[TEXT]))
                else:
                    self.live.emit(event)
            elif line:
                self._tell(line.removeprefix(PROGRAM))

    def _tell(self, text: str) -> None:
        self._lines.append(told_text(text))
        self.told.emit(self._lines[-1])

    def _finished(self, status: int, how: QProcess.ExitStatus) -> None:
        process, self._process = self._process, None
        assert process is not None
        out = bytes(process.readAllStandardOutput().data()).decode("utf-8", "replace")
        self._take(bytes(process.readAllStandardError().data()) + b"\n")
        process.deleteLater()
        self._clear()
        self.over.emit()
        if status == 0 and how == QProcess.ExitStatus.NormalExit:
            try:
                done = json.loads(out)
            except json.JSONDecodeError:
                pass
            else:
                self.done.emit(with_words(done, done.pop(WORDS, {})))
                return
        self.failed.emit(self._lines[-1] if self._lines else self.tr("The command ended without a message."))

    def _not_started(self, error: QProcess.ProcessError) -> None:
        if error == QProcess.ProcessError.FailedToStart and self._process is not None:
            self._process.deleteLater()
            self._process = None
            self._clear()
            self.over.emit()
            self.failed.emit(self.tr("The command could not be started."))

    def _clear(self) -> None:
        if self._folder is not None:
            self._folder.cleanup()
            self._folder = None
