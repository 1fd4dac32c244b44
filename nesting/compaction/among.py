"""How deep a piece would lie among others: the question that local search asks thousands of times a round.

Nearly all places tried are bad, and what they cost is reading: of which piece lies there, and of how deep.
So pieces stand in slices of the roll, of which a place touches a few, and a place is given up where the
depths that are certain, from a table that fits a processor's cache, exceed what is known to be better.
On a cylinder, whose end meets its beginning, neither is used.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numba import njit
from numpy.typing import NDArray

from nesting.contact.penetration import BLOCK, PARTS, DepthTable, depth_at

Array = NDArray[np.float64]
Ints = NDArray[np.int64]

# _nrt=False, below: these kernels make no array, and without it each call counts a reference to every array
# that it is given, up and down again (a round of local search on 96 pieces: 2.06 ms with that, 1.44 without)

SLICES = 2
"""Slices to the widest pose. On 96 and 400 pieces 1, 2 and 4 take as long (measured)."""


class Among(NamedTuple):
    """Pieces that one more is set among: places ``at`` (n, 2), ``pose`` (n,), how far each reaches
    (``reach``, n x 4), and what a depth counts against each (``weight``, pieces x n).

    A piece stands in the slice of ``slice_mm`` in which it begins, the first slice from ``from_mm`` on:
    ``head`` is a piece of each slice, ``after`` (n,) the next one in the same slice, -1 where there is none.
    ``met`` (n,) is for who is met at a place.
    """

    at: Array
    pose: Ints
    reach: Array
    weight: Array
    from_mm: float
    slice_mm: float
    head: Ints
    after: Ints
    met: Ints


@njit(cache=True, nogil=True, inline="always")
def _slice_at(x: float, from_mm: float, slice_mm: float, slices: int) -> int:
    """The slice of an x; beyond the ends the last one."""
    return max(0, min(slices - 1, int(np.floor((x - from_mm) / slice_mm))))


@njit(cache=True, nogil=True)
def among_of(at: Array, pose: Ints, weight: Array, table: DepthTable) -> Among:
    """Return pieces in slices; ``at``, ``pose`` and ``weight`` are taken as they are, not copied."""
    n = len(pose)
    reach = np.empty((n, 4))
    widest = 1e-9
    for p in range(len(table.reach)):
        widest = max(widest, table.reach[p, 1] - table.reach[p, 0])
    for j in range(n):
        for k in range(4):
            reach[j, k] = at[j, k // 2] + table.reach[pose[j], k]
    first, last = 0.0, 0.0
    if n > 0:
        first, last = reach[:, 0].min(), reach[:, 0].max()
    slice_mm = widest / SLICES
    head = np.full(int((last - first) / slice_mm) + 1, -1)
    after = np.full(n, -1)
    for j in range(n):
        s = _slice_at(reach[j, 0], first, slice_mm, len(head))
        after[j] = head[s]
        head[s] = j
    return Among(at, pose, reach, weight, first, slice_mm, head, after, np.empty(n, np.int64))


@njit(cache=True, nogil=True)
def move(j: int, c: int, x: float, y: float, among: Among, table: DepthTable) -> None:
    """Set piece j down at (x, y) in pose c."""
    at, pose, reach, _, from_mm, slice_mm, head, after, _ = among
    old = _slice_at(reach[j, 0], from_mm, slice_mm, len(head))
    pose[j] = c
    at[j, 0], at[j, 1] = x, y
    for k in range(4):
        reach[j, k] = at[j, k // 2] + table.reach[c, k]
    new = _slice_at(reach[j, 0], from_mm, slice_mm, len(head))
    if new == old:
        return
    if head[old] == j:
        head[old] = after[j]
    else:
        k = head[old]
        while after[k] != j:
            k = after[k]
        after[k] = after[j]
    after[j] = head[new]
    head[new] = j


@njit(cache=True, nogil=True, _nrt=False)  # type: ignore[call-overload]
def weighted_depth(
    i: int,
    c: int,
    x: float,
    y: float,
    limit: float,
    among: Among,
    period: float,
    table: DepthTable,
) -> float:
    """Weighted depth of piece i in pose c at (x, y) against all others; what is not below ``limit`` is told
    as something not below it."""
    if period > 0.0:
        return _depth_around(i, c, x, y, limit, among, period, table)
    at, pose, reach, weight, from_mm, slice_mm, head, after, met = among
    h, cells, start, boxes, pair, flip, reaches, least, least_start = table
    mine = reaches[c]
    x0, x1, y0, y1 = x + mine[0], x + mine[1], y + mine[2], y + mine[3]
    per_mm = 1.0 / h
    bound = limit * PARTS * per_mm
    certain = 0.0
    n = 0
    last = _slice_at(x1, from_mm, slice_mm, len(head))
    for s in range(_slice_at(x0 - SLICES * slice_mm, from_mm, slice_mm, len(head)), last + 1):
        j = head[s]
        while j >= 0:
            meets = y1 > reach[j, 2] and y0 < reach[j, 3] and x1 > reach[j, 0] and x0 < reach[j, 1] and j != i
            if meets:
                k = pair[c, pose[j]]
                f = -1.0 if flip[c, pose[j]] == 1 else 1.0
                box = boxes[k]
                fx = (f * (at[j, 0] - x) - box[0]) * per_mm
                fy = (f * (at[j, 1] - y) - box[1]) * per_mm
                if fx >= 0.0 and fy >= 0.0 and fx < box[2] - 1.0 and fy < box[3] - 1.0:
                    across = (int(box[2]) - 2) // BLOCK + 1
                    block = least_start[k] + (int(fy) // BLOCK) * across + int(fx) // BLOCK
                    certain += weight[i, j] * least[block]
                    if certain >= bound:
                        return limit
                    met[n] = j
                    n += 1
            j = after[j]
    total = 0.0
    for m in range(n):
        j = met[m]
        k = pair[c, pose[j]]
        f = -1.0 if flip[c, pose[j]] == 1 else 1.0
        d, _, _ = depth_at(cells, start[k], boxes[k], h, f * (at[j, 0] - x), f * (at[j, 1] - y))
        total += weight[i, j] * d
        if total >= limit:
            return total
    return total


@njit(cache=True, nogil=True, _nrt=False)  # type: ignore[call-overload]
def _depth_around(
    i: int, c: int, x: float, y: float, limit: float, among: Among, period: float, table: DepthTable
) -> float:
    """The same on a cylinder."""
    reach, weight = among.reach, among.weight
    y0, y1 = y + table.reach[c, 2], y + table.reach[c, 3]
    total = 0.0
    for j in range(len(among.pose)):
        if j != i and y1 > reach[j, 2] and y0 < reach[j, 3]:
            total += weight[i, j] * pair_depth(c, x, y, j, among, period, table)
            if total >= limit:
                return total
    return total


@njit(cache=True, nogil=True, _nrt=False)  # type: ignore[call-overload]
def pair_depth(c: int, x: float, y: float, j: int, among: Among, period: float, table: DepthTable) -> float:
    """Depth of a piece in pose c at (x, y) in piece j, on a cylinder summed over its copies."""
    h = table.h_mm
    k = table.pair[c, among.pose[j]]
    f = -1.0 if table.flip[c, among.pose[j]] == 1 else 1.0
    box = table.box[k]
    qx = f * (among.at[j, 0] - x)
    qy = f * (among.at[j, 1] - y)
    if period <= 0.0:
        d, _, _ = depth_at(table.cells, table.start[k], box, h, qx, qy)
        return d
    total = 0.0
    qx += np.ceil((box[0] - qx) / period) * period
    while qx < box[0] + (box[2] - 1.0) * h:
        d, _, _ = depth_at(table.cells, table.start[k], box, h, qx, qy)
        total += d
        qx += period
    return total
