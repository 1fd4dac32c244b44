"""An engine at work in a process of its own, beside the search: whichever is better wins."""

from __future__ import annotations

import math
import threading

from nesting.engine.run import EngineRun
from nesting.known import folder
from nesting.listen import Listener
from nesting.problem import LayProblem
from nesting.stop import Stop

LOOK_S = 0.05  # a wish to stop is met within 200 ms

TELLING_S_PER_PIECE = 5e-4
"""Handing over and judging a lay takes this long per piece: the engine ends earlier by that."""


class BackgroundEngine:
    """The engine at work; its lays are told to ``listener`` from a thread."""

    def __init__(
        self,
        engine: str,
        problem: LayProblem,
        *,
        seed: int,
        stop: Stop,
        workers: int,
        listener: Listener,
        work: int | None = None,
    ) -> None:
        left_s = stop.left_s - TELLING_S_PER_PIECE * problem.pieces
        seconds = max(0.5 * stop.left_s, left_s) if math.isfinite(left_s) else None
        self._run = EngineRun(
            problem,
            job=engine,
            seconds=seconds,
            seed=seed,
            workers=workers,
            work=work,
            kept_in=folder.folder_in_use(),
        )
        self._listener = listener
        self._closed = False
        self.laid = False
        self._thread = threading.Thread(target=self._listen, daemon=True)
        self._thread.start()

    def wait(self, stop: Stop) -> None:
        """Wait until it is done or must stop."""
        while self._thread.is_alive() and not stop():
            self._thread.join(LOOK_S)

    def wait_for_a_lay(self, stop: Stop) -> None:
        """Wait until it has reported a lay, is done, or must stop."""
        while self._thread.is_alive() and not self.laid and not stop():
            self._thread.join(LOOK_S)

    def __enter__(self) -> BackgroundEngine:
        return self

    def __exit__(self, *_: object) -> None:
        self._closed = True
        self._run.close()
        self._thread.join()

    def _listen(self) -> None:
        while not self._closed and not self._run.over:
            told = self._run.look(LOOK_S)
            if told is None:
                continue
            if told.event == "phase" and told.phase is not None:
                self._listener.phase(told.phase)
            elif told.lay is not None:
                self.laid = True
                self._listener.better(told.lay)
