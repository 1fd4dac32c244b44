"""The best verified lay so far: nothing unverified passes, nothing longer replaces it."""

from __future__ import annotations

import threading
from dataclasses import replace

from nesting.engine.holes import FilledHoles
from nesting.lay import Lay
from nesting.listen import Listener, Phase
from nesting.problem import LayProblem
from nesting.verify import verify

SHORTER_MM = 1e-6
"""A lay must be shorter by this to count as better."""


class Best:
    """A listener that judges every lay it is given and passes on the good ones.

    It hears lays of the problem with its holes filled and passes on lays of the original.
    """

    def __init__(self, filled: FilledHoles, listener: Listener) -> None:
        self._filled = filled
        self._problem = filled.original
        self._listener = listener
        self.lay: Lay | None = None
        self.refused = 0
        self._lock = threading.Lock()  # engines beside each other report their lays

    def phase(self, phase: Phase) -> None:
        """Pass on."""
        self._listener.phase(phase)

    def better(self, lay: Lay) -> None:
        """Keep and pass on a lay that is shorter and verified; count one that is refused."""
        with self._lock:
            self._better(lay)

    def _better(self, lay: Lay) -> None:
        lay = self._filled.whole(lay)
        if self.lay is not None and lay.length_mm > self.lay.length_mm - SHORTER_MM:
            return
        limit = self._problem.roll.length_mm
        judged = self._problem if limit is None else _without_limit(self._problem)
        if verify(judged, lay).ok:
            self.lay = lay
            self._listener.better(lay)
        else:
            self.refused += 1


def _without_limit(problem: LayProblem) -> LayProblem:
    """A lay still too long for the roll may yet be shortened: only the end result must fit."""
    return replace(problem, roll=replace(problem.roll, length_mm=None))
