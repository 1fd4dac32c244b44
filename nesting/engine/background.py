"""Bands of rows laid in a process of their own, beside the search: whichever is better wins."""

from __future__ import annotations

import math
import threading

from nesting.files.wire import job_to_json, lay_from_json
from nesting.lattice import kept
from nesting.listen import Listener
from nesting.problem import LayProblem
from nesting.process import Child
from nesting.stop import Stop

LOOK_S = 0.05  # a wish to stop is met within 200 ms

TELLING_S_PER_PIECE = 5e-4
"""Handing a lay over and judging it takes so long a piece: the bands end earlier by that."""


class Bands:
    """The production engine at work; its lays are told to ``listener`` from a thread."""

    def __init__(
        self,
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
        job = job_to_json(
            "bands",
            problem,
            seconds=seconds,
            seed=seed,
            workers=workers,
            work=work,
            lattices=kept.folder_in_use(),
        )
        self._child = Child("nesting.engine.worker", job)
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
        """Wait until it has told of a lay, is done, or must stop."""
        while self._thread.is_alive() and not self.laid and not stop():
            self._thread.join(LOOK_S)

    def close(self) -> None:
        """End the process."""
        self._closed = True
        self._child.kill()
        self._thread.join()

    def _listen(self) -> None:
        while not self._closed:
            try:
                event = self._child.event(LOOK_S)
            except EOFError:
                return
            if event is None:
                continue
            if event["event"] == "phase":
                self._listener.phase(event["name"])
            elif event["event"] in ("progress", "done") and event["lay"] is not None:
                self.laid = True
                self._listener.better(lay_from_json(event["lay"]))
            if event["event"] in ("done", "failed"):
                return
