"""For how long a window answered nothing, and where its thread stood meanwhile.

A timer of the window beats every few milliseconds; what lies between two beats is a silence. Its wall time
says what a person at this machine waited; the processor time of the window's own thread says what the window
itself did, whoever else kept the machine busy.
"""

from __future__ import annotations

import faulthandler
import re
import tempfile
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field

from PySide6.QtCore import QTimer

BEAT_MS = 5
LOOK_S = 0.04
"""How often the watcher looks where a silent window stands."""
SILENT_S = 0.15
"""From here on it looks."""
KEPT = 25


@dataclass
class Silence:
    """One stretch without an answer."""

    wall_s: float
    thread_s: float
    event: str
    stood: list[str] = field(default_factory=list)


class Silences:
    """Measures from its making on; ``event`` tells what was sent last."""

    def __init__(self, event: Callable[[], str]) -> None:
        self._event = event
        self._all: list[Silence] = []
        self._stood: list[str] = []
        self._main = threading.get_ident()
        self._beat_wall, self._beat_thread = time.perf_counter(), time.thread_time()
        self._timer = QTimer()
        self._timer.timeout.connect(self._beaten)
        self._timer.start(BEAT_MS)
        threading.Thread(target=self._watch, name="silences", daemon=True).start()

    def longest(self) -> list[Silence]:
        """The longest by the thread's own time, longest first."""
        return sorted(self._all, key=lambda each: -each.thread_s)[:KEPT]

    def longest_waits(self) -> list[Silence]:
        """The longest by the clock on the wall, longest first."""
        return sorted(self._all, key=lambda each: -each.wall_s)[:KEPT]

    def _beaten(self) -> None:
        wall, thread = time.perf_counter(), time.thread_time()
        if wall - self._beat_wall > SILENT_S:
            stood, self._stood = self._stood, []
            self._all.append(
                Silence(wall - self._beat_wall, thread - self._beat_thread, self._event(), stood)
            )
        self._beat_wall, self._beat_thread = time.perf_counter(), time.thread_time()

    def _watch(self) -> None:
        while True:
            time.sleep(LOOK_S)
            if time.perf_counter() - self._beat_wall > SILENT_S:
                # not by frames: one that is held keeps its painter alive, which ends the program
                with tempfile.TemporaryFile() as dumped:
                    faulthandler.dump_traceback(dumped)
                    dumped.seek(0)
                    told = dumped.read().decode()
                lines = told[told.index(f"{self._main:#018x}") :].split("\n\n")[0].splitlines()[1:]
                self._stood.append(" < ".join(_PLACE.sub(r"\1:\2 \3", line.strip()) for line in lines[:9]))


_PLACE = re.compile(r'File ".*?([^/"]+)", line (\d+) in (.*)')
