"""The work of reading a drawing, counted: a small file never takes minutes.

A drawing of a few hundred bytes can place a block 300,000 times, cross every line with every other, or
cross itself at a million places. What each step will take is estimated before it is done, in microseconds
of a common desktop computer (measured, see docs/import.md), and added up: the same drawing is read or
refused on every machine, however busy. The count belongs to the reading at hand (a context variable), so
that the functions that join and nest lines stay functions of lines.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass

import numpy as np
import shapely

from geometry import tolerances
from geometry.dxf.lines.curves import Points
from geometry.errors import DrawingError

Told = Callable[[str], None]
"""Takes the step that a reading has come to, in words."""

CHUNK = 500
"""Segments asked about at a time, so that a count that runs away is stopped soon; our own choice."""
"""Segments looked up at a time: few, so that a count beyond the work allowed is soon noticed."""


@dataclass
class _Effort:
    file: str
    limit: float
    told: Told | None
    spent: float = 0.0


_current: ContextVar[_Effort | None] = ContextVar("effort", default=None)


@contextmanager
def counted(file: str, size_bytes: int, told: Told | None = None) -> Iterator[None]:
    """Count the work inside; ``told`` is called with each step. A large file may cost more."""
    share = min(1.0, size_bytes / tolerances.LARGE_FILE_BYTES)
    limit = tolerances.SMALL_WORK + share * (tolerances.LARGE_WORK - tolerances.SMALL_WORK)
    mark = _current.set(_Effort(file, limit, told))
    try:
        yield
    finally:
        _current.reset(mark)


def step(words: str) -> None:
    """Say which step comes next."""
    effort = _current.get()
    if effort is not None and effort.told is not None:
        effort.told(words)


def spend(work: float) -> None:
    """Count work about to be done; raises DrawingError (TOO_MUCH_WORK) when it would take too long."""
    effort = _current.get()
    if effort is None:
        return
    effort.spent += work
    if effort.spent > effort.limit:
        raise DrawingError(
            "it holds so many lines, or they overlap and cross so often, that reading it would take minutes",
            file=effort.file,
            remedy="save the pieces alone, each as one closed outline",
            code="TOO_MUCH_WORK",
        )


def crossings(rings: Sequence[Points], closed: bool) -> int:
    """Count, and pay for, the places where segments of polylines meet, neighbours included."""
    if closed:
        rings = [np.concatenate([ring, ring[:1]]) for ring in rings]
    ends = np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings])
    spend(3.0 * len(ends))
    segments = shapely.linestrings(ends)
    tree = shapely.STRtree(segments)
    found = 0
    for begin in range(0, len(segments), CHUNK):
        part = tree.query(segments[begin : begin + CHUNK], predicate="intersects").shape[1]
        spend(0.5 * part)
        found += part
    return (found - len(segments)) // 2
