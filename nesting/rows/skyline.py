"""How a band of pieces fits against the front of a strip: exact along the roll, in thin rows across it.

Along x a band slides freely until some row of it meets the front; the rows of a piece grown by half
the gap say where. So hundreds of ways to cut a band are weighed in milliseconds.
"""

from __future__ import annotations

import math

import numpy as np
from numba import njit
from numpy.typing import NDArray

from nesting.compaction.slp import Contacts
from nesting.contact.row_profiles import grown, profile
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Ints = NDArray[np.int64]

ROW_MM = 2.0
"""Height of the rows: thinner ones change no choice."""


class Fronts:
    """The rows of every pose of ``contacts``, grown by half the gap."""

    def __init__(self, contacts: Contacts, gap_mm: float, across_mm: tuple[float, float]) -> None:
        grow = gap_mm / 2.0 + SPARE_MM
        self._bottom_mm = across_mm[0] - grow
        self.rows = math.ceil((across_mm[1] - across_mm[0] + 2.0 * grow) / ROW_MM) + 1
        left, right, low, start = [], [], [], [0]
        for ring in contacts.rings:
            big = grown(ring, grow)
            low.append(float(big[:, 1].min()))
            one = profile(big - (0.0, low[-1]), ROW_MM)
            left.append(one[0])
            right.append(one[1])
            start.append(start[-1] + len(one[0]))
        self._left, self._right = np.concatenate(left), np.concatenate(right)
        self._low, self._start = np.array(low), np.array(start)

    def reach(self, pose: Ints, at: Array) -> tuple[Array, Array]:
        """Return the least and greatest x of grown pieces in each row (infinite where there is none)."""
        left, right = np.full(self.rows, np.inf), np.full(self.rows, -np.inf)
        row_reach(pose, at, self._bottom_mm, self._low, self._start, self._left, self._right, left, right)
        return left, right


@njit(cache=True, nogil=True)
def row_reach(
    pose: Ints,
    at: Array,
    bottom: float,
    low: Array,
    start: Ints,
    left: Array,
    right: Array,
    least: Array,
    most: Array,
) -> None:
    """Take poses set down at ``at`` into the least and most x of the strip's rows, in place."""
    rows = len(least)
    for i in range(len(pose)):
        p = pose[i]
        first = int(np.floor((at[i, 1] + low[p] - bottom) / ROW_MM))
        for k in range(start[p], start[p + 1]):
            a, b = at[i, 0] + left[k], at[i, 0] + right[k]
            r = first + k - start[p]
            for q in (r, r + 1):  # a row of the piece lies in two of the strip
                if 0 <= q < rows:
                    least[q] = min(least[q], a)
                    most[q] = max(most[q], b)
