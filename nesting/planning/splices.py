"""Where in a lay one roll may end and the next begin, so that no piece is cut from two.

A ply that is spread from two rolls overlaps itself: the first roll runs on to where its last piece
ends, the next begins before its first piece. The cutter needs to know the places where the overlap
is shortest, marked on the table before spreading (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

EVERY_MM = 500.0
"""One place is named for this much of a lay: a roll's end is then at most so far beyond one.
Common practice, no source."""

SPARE_MM = 10.0
"""Cloth left beyond the last piece and before the first: an end is torn or cut by hand. Common
practice, no source."""


@dataclass(frozen=True)
class Splice:
    """A roll may end at ``ends_mm`` along the lay; the next is laid from ``begins_mm``."""

    ends_mm: float
    begins_mm: float

    @property
    def overlap_mm(self) -> float:
        """Cloth that lies double."""
        return self.ends_mm - self.begins_mm


def splices(spans_mm: Iterable[tuple[float, float]], length_mm: float) -> tuple[Splice, ...]:
    """Return the best place to splice in each half metre of a lay, none at its ends.

    ``spans_mm``: from where to where each piece lies along the lay. A lay shorter than a metre has
    none: its plies are rather begun again.
    """
    spans = np.array(sorted(spans_mm, key=lambda span: span[1]), dtype=np.float64)
    if len(spans) < 2 or length_mm < 2.0 * EVERY_MM:
        return ()
    ends = spans[:-1, 1] + SPARE_MM
    begins = np.minimum.accumulate(spans[::-1, 0])[::-1][1:] - SPARE_MM
    apart = begins > ends  # a straight cut between pieces: nothing lies double but the spare
    begins = np.where(apart, ends - 2.0 * SPARE_MM, begins)
    found: list[Splice] = []
    count = int(length_mm // EVERY_MM)
    for k in range(count):
        inside = (ends >= k * length_mm / count) & (ends < (k + 1) * length_mm / count)
        inside &= (begins > EVERY_MM / 2.0) & (ends < length_mm - EVERY_MM / 2.0)
        if found:
            inside &= ends > found[-1].ends_mm + EVERY_MM / 2.0
        if inside.any():
            best = int(np.argmin(np.where(inside, ends - begins, np.inf)))
            found.append(Splice(float(ends[best]), float(begins[best])))
    return tuple(found)
