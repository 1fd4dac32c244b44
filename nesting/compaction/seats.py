"""Where a piece more may find room in a strip: the least overlap, then its neighbours give way.

Compiled and without the interpreter's lock, so that two threads search one strip. All on sampled
depths (``penetration``): what is found is a proposal, which ``reinsertion`` finishes on the true outlines.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numba import njit
from numpy.typing import NDArray

from nesting.compaction.among import among_of, weighted_depth
from nesting.compaction.separation import Effort, Pieces, Walls, separate
from nesting.contact.penetration import DepthTable

Array = NDArray[np.float64]
Ints = NDArray[np.int64]

SEATS = 40
"""Places looked at, each at a random spot for a random piece, before neighbours are moved for the best."""

SPOTS = 30
"""Random offsets about such a spot; the best descends to the least overlap there."""

WORSE = 1.5
"""A place where no room was found counts this many times worse from then on."""

MARGIN_MM = 30.0
"""Pieces so far outside the box that gives way are looked at too, and hold."""


@njit(cache=True, nogil=True)
def near_box(
    at: Array, pose: Ints, low: Array, high: Array, x0: float, x1: float, y0: float, y1: float, but: int
) -> Ints:
    """Return the pieces whose boxes meet a box, without piece ``but``."""
    found = np.empty(len(pose), np.int64)
    k = 0
    for i in range(len(pose)):
        p = pose[i]
        if i == but or at[i, 0] + high[p, 0] < x0 or at[i, 0] + low[p, 0] > x1:
            continue
        if at[i, 1] + high[p, 1] < y0 or at[i, 1] + low[p, 1] > y1:
            continue
        found[k] = i
        k += 1
    return found[:k].copy()


@njit(cache=True, nogil=True)
def _seat(
    c: int, lx: float, hx: float, ly: float, hy: float, at: Array, pose: Ints, table: DepthTable
) -> tuple[float, float, float]:
    """Least overlap found for a piece in pose c with its origin in [lx, hx] x [ly, hy]: (mm, x, y)."""
    h = table.h_mm
    among = among_of(at, pose, np.ones((2, len(pose))), table)
    best, x, y = np.inf, lx, ly
    for _ in range(SPOTS):
        tx, ty = lx + np.random.random() * (hx - lx), ly + np.random.random() * (hy - ly)
        f = weighted_depth(-1, c, tx, ty, best, among, 0.0, table)
        if f < best:
            best, x, y = f, tx, ty
    step = 8.0 * h
    while step > 0.2 * h and best > 0.0:
        won = False
        for k in range(9):
            tx = min(max(x + step * (k % 3 - 1), lx), hx)
            ty = min(max(y + step * (k // 3 - 1), ly), hy)
            f = weighted_depth(-1, c, tx, ty, best, among, 0.0, table)
            if f < best:
                best, x, y, won = f, tx, ty, True
                break
        if not won:
            step *= 0.5
    return best, x, y


class LaidStrip(NamedTuple):
    """A strip as it lies: places ``at`` (n, 2), ``pose`` (n,), the boxes of poses ``low`` and ``high``
    (poses, 2) about their origins, the poses ``choices`` (poses, k) a piece in each may take (-1 padded),
    and the least and greatest y ``across``."""

    at: Array
    pose: Ints
    low: Array
    high: Array
    choices: Ints
    across: tuple[float, float]


class Wish(NamedTuple):
    """What is to be moved: one of the pieces ``tail``, so that it ends at least ``gain`` before its end now.

    A seat is looked for within ``reach`` of a random spot; pieces within ``half`` of it along and across
    give way, no others. It is good when no depth is left above ``nearly``. All in mm.
    """

    tail: Ints
    gain: float
    half: float
    reach: float
    nearly: float


@njit(cache=True, nogil=True)
def room_made(
    laid: LaidStrip,
    wish: Wish,
    effort: Effort,
    tries: int,
    failed: Array,
    table: DepthTable,
    halt: NDArray[np.uint8],
) -> tuple[int, Ints, Array, Ints, float, int]:
    """Try to move one of the pieces wished for, at most ``tries`` times, each with ``effort``.

    ``failed`` (cells of the strip, a quarter of the reach) counts failed tries by place, in place. Returns
    (piece, neighbours, places of the neighbours and then of the piece, their poses likewise, greatest depth
    left, tries used); piece -1 when no try was good.
    """
    at, pose, low, high, choices, across = laid
    tail, gain, half, reach, nearly = wish
    rounds, patience, samples, enough, seed = effort
    h = table.h_mm
    np.random.seed(seed)
    across_low, across_high = across
    grain = reach / 4.0
    poses = len(low)
    room = np.zeros((poses, 6))
    for p in range(poses):
        room[p, 0], room[p, 1] = -low[p, 0], high[p, 0]
        room[p, 5] = min(high[p, 0] - low[p, 0], high[p, 1] - low[p, 1])
    for turn in range(tries):
        if halt[0] != 0:
            break
        least, who, which, bx, by = np.inf, -1, -1, 0.0, 0.0
        for _ in range(SEATS):
            t = tail[np.random.randint(len(tail))]
            kinds = 0
            while kinds < choices.shape[1] and choices[pose[t], kinds] >= 0:
                kinds += 1
            c = choices[pose[t], np.random.randint(kinds)]
            end = at[t, 0] + high[pose[t], 0] - gain
            cx = np.random.random() * end
            cy = across_low + np.random.random() * (across_high - across_low)
            lx, hx = max(cx - reach, -low[c, 0]), min(cx + reach, end - high[c, 0])
            bottom, top = across_low - low[c, 1], across_high - high[c, 1]
            ly, hy = max(min(cy - reach, top), bottom), min(max(cy + reach, bottom), top)
            if hx < lx or hy < ly:
                continue
            ids = near_box(
                at, pose, low, high, lx + low[c, 0], hx + high[c, 0], ly + low[c, 1], hy + high[c, 1], t
            )
            mm, x, y = _seat(c, lx, hx, ly, hy, at[ids], pose[ids], table)
            gx = int((x + (low[c, 0] + high[c, 0]) / 2) / grain)
            gy = int((y + (low[c, 1] + high[c, 1]) / 2 - across_low) / grain)
            mm = (mm + h) * WORSE ** failed[gx, gy]
            if mm < least:
                least, who, which, bx, by = mm, t, c, x, y
        if who < 0:
            continue
        mx, my = bx + (low[which, 0] + high[which, 0]) / 2, by + (low[which, 1] + high[which, 1]) / 2
        failed[int(mx / grain), int((my - across_low) / grain)] += 1
        end = at[who, 0] + high[pose[who], 0] - gain
        x0, x1 = max(mx - half, 0.0), min(mx + half, end)
        y0, y1 = max(my - half, across_low), min(my + half, across_high)
        m = MARGIN_MM
        ids = near_box(at, pose, low, high, x0 - m, x1 + m, y0 - m, y1 + m, who)
        n = len(ids)
        places, kinds_of = np.empty((n + 1, 2)), np.empty(n + 1, np.int64)
        free = np.ones(n + 1, np.bool_)
        may = np.empty((n + 1, choices.shape[1]), np.int64)
        for k in range(n):
            i = ids[k]
            p = pose[i]
            places[k], kinds_of[k], may[k] = at[i], p, choices[p]
            free[k] = (
                at[i, 0] + low[p, 0] >= x0
                and at[i, 0] + high[p, 0] <= x1
                and at[i, 1] + low[p, 1] >= y0
                and at[i, 1] + high[p, 1] <= y1
            )
        places[n, 0], places[n, 1], kinds_of[n], may[n] = bx, by, which, choices[which]
        for p in range(poses):
            room[p, 2], room[p, 3] = y0 - low[p, 1], y1 - high[p, 1]
        places[:, 0] -= x0
        worst, _ = separate(
            Pieces(places, kinds_of, may, free, np.ones((n + 1, n + 1))),
            Walls(room, 0.0, x1 - x0),
            Effort(rounds, patience, samples, enough, np.random.randint(1 << 30)),
            table,
            halt,
        )
        if worst <= nearly:
            places[:, 0] += x0
            return who, ids, places, kinds_of, worst, turn + 1
    return -1, np.empty(0, np.int64), np.empty((0, 2)), np.empty(0, np.int64), 0.0, tries
