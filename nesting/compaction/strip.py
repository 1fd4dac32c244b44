"""A strip being laid: bands set down one against the other, pulled together, openings filled."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numba import njit
from numpy.typing import NDArray

from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.stop import Stop
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(eq=False)
class Strip:
    """Poses and places so far, x from 0: ``pose`` indexes ``contacts.rings``."""

    contacts: Contacts
    gap_mm: float
    across_mm: tuple[float, float]
    pose: Ints = field(default_factory=lambda: np.zeros(0, np.int64))
    at_mm: Array = field(default_factory=lambda: np.zeros((0, 2)))

    @property
    def end_mm(self) -> float:
        """Where the last piece ends."""
        if not len(self.pose):
            return 0.0
        return float((self.at_mm[:, 0] + self.contacts.high[self.pose, 0]).max())

    def add(self, pose: Ints, at_mm: Array) -> None:
        """Set pieces down."""
        self.pose = np.concatenate([self.pose, pose])
        self.at_mm = np.concatenate([self.at_mm, at_mm])

    def drop(self, first: int) -> None:
        """Take up again what was set down last, from piece ``first`` on."""
        self.pose, self.at_mm = self.pose[:first], self.at_mm[:first]


def pull(
    strip: Strip,
    first: int,
    last: int,
    *,
    steps: int,
    trust_mm: float,
    stop: Stop | None = None,
    reach_mm: float = 40.0,
) -> bool:
    """Pull pieces ``first:last`` (in order of x) towards the start, those before them held fast.

    Overlaps of a few mm are taken out first. False (and nothing moved) when that fails.
    """
    order = np.argsort(strip.at_mm[:, 0] + strip.contacts.low[strip.pose, 0], kind="stable")
    free = order[first:last]
    low, high = strip.contacts.low[strip.pose], strip.contacts.high[strip.pose]
    left = float((strip.at_mm[free, 0] + low[free, 0]).min()) - reach_mm - steps * trust_mm * 0.5
    right = float((strip.at_mm[free, 0] + high[free, 0]).max()) + reach_mm
    held = [k for k in order[:first] if strip.at_mm[k, 0] + high[k, 0] > left]
    held += [k for k in order[last:] if strip.at_mm[k, 0] + low[k, 0] < right]
    which = np.concatenate([np.array(held, np.int64), free])
    a = Arrangement(
        strip.pose[which],
        strip.at_mm[which],
        across_mm=strip.across_mm,
        along_mm=(0.0, np.inf),
        fixed=np.arange(len(which)) < len(held),
    )
    done = tighten(
        strip.contacts, a, strip.gap_mm + SPARE_MM, trust_mm=trust_mm, steps=steps, least_gain=1e-5, stop=stop
    )
    if done is None or shortfall(strip.contacts, done, strip.gap_mm) > SPARE_MM / 2:
        return False
    strip.at_mm[which] = done.at_mm
    return True


@njit(cache=True, nogil=True)
def stamp(
    free: NDArray[np.uint8],
    x0: float,
    y0: float,
    px: float,
    py: float,
    cells: NDArray[np.float32],
    box: Array,
    f: float,
    h: float,
) -> None:
    """Mark places of a piece (cells of ``free``, ``h`` apart as those of the raster) that lie too near
    to one at (px, py). ``f`` is -1 where the raster is asked for at minus the offset."""
    ny, nx = free.shape
    wide, tall = int(box[2]), int(box[3])
    # cell (i, j) of ``free`` reads the raster at (f i + a, f j + b): its fractions are everywhere the same
    a = (f * (x0 - px) - box[0]) / h
    b = (f * (y0 - py) - box[1]) / h
    ka, kb = int(np.floor(a)), int(np.floor(b))
    tx, ty = np.float32(a - ka), np.float32(b - kb)
    w00, w10 = (1 - tx) * (1 - ty), tx * (1 - ty)
    w01, w11 = (1 - tx) * ty, tx * ty
    s = 1 if f > 0 else -1
    # 0 <= s i + ka <= wide - 2
    i0, i1 = (-ka, wide - 2 - ka) if s > 0 else (ka - wide + 2, ka)
    j0, j1 = (-kb, tall - 2 - kb) if s > 0 else (kb - tall + 2, kb)
    i0, i1, j0, j1 = max(0, i0), min(nx - 1, i1), max(0, j0), min(ny - 1, j1)
    for j in range(j0, j1 + 1):
        low = (s * j + kb) * wide + ka
        for i in range(i0, i1 + 1):
            if not free[j, i]:  # most cells: the pieces' sums overlap each other
                continue
            k = low + s * i
            d = w00 * cells[k] + w10 * cells[k + 1] + w01 * cells[k + wide] + w11 * cells[k + wide + 1]
            if d > 0.0:
                free[j, i] = 0


@njit(cache=True, nogil=True)
def cells_left(free: NDArray[np.uint8]) -> Ints:
    """The free cells (k, 2: row, column), row by row."""
    ny, nx = free.shape
    count = 0
    for j in range(ny):
        for i in range(nx):
            count += free[j, i] != 0
    cells = np.empty((count, 2), np.int64)
    k = 0
    for j in range(ny):
        for i in range(nx):
            if free[j, i]:
                cells[k, 0], cells[k, 1] = j, i
                k += 1
    return cells


@njit(cache=True, nogil=True)
def closest_spot(free: NDArray[np.uint8], cells: Ints, span: int) -> tuple[int, int, int]:
    """The free cell of ``cells`` (k, 2: row, column) with the fewest free cells about it: (row, column,
    score), -1 when none is free."""
    ny, nx = free.shape
    bi, bj, best = -1, -1, 1 << 30
    for k in range(len(cells)):
        j, i = cells[k]
        if not free[j, i]:
            continue
        n = 0
        for dj in range(-span, span + 1):
            for di in range(-span, span + 1):
                a, b = j + dj, i + di
                if 0 <= a < ny and 0 <= b < nx and free[a, b]:
                    n += 1
        if n < best:
            bi, bj, best = i, j, n
    return bj, bi, best
