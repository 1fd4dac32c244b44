"""Pull overlapping pieces apart: guided local search on sampled depths.

The way of Gardeyn & Wauters (arXiv 2509.13329) on other ground: overlap is the depth read from
``penetration`` rasters, and the field may be a strip between walls or a cylinder, a strip whose end
meets its own beginning, so that what is found repeats along the roll without a seam. Pairs that
keep overlapping weigh more and more until they give way. Runs without the interpreter's lock and
looks at ``halt[0]`` after every piece.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numba import njit
from numpy.typing import NDArray

from nesting.compaction.among import Among as Among  # compiled code of before names it here
from nesting.compaction.among import among_of, move, pair_depth, weighted_depth
from nesting.contact.penetration import DepthTable

Array = NDArray[np.float64]
Ints = NDArray[np.int64]


BEST, FINE = 2, 0.25
"""So many of the places tried for a piece are descended from, in steps down to this share of a cell (three,
and a twentieth, take longer and bring no more on five orders of 24 to 144 pieces, measured)."""


class Pieces(NamedTuple):
    """Pieces to be pulled apart: places ``at`` (n, 2) and ``pose`` (n,), both changed in place.

    ``choices`` (n, k) are the poses allowed for each piece (-1 padded); those that are not ``free`` hold.
    ``weight`` (n, n), the same both ways, is what a depth of a pair counts at least, and is carried over.
    """

    at: Array
    pose: Ints
    choices: Ints
    free: NDArray[np.bool_]
    weight: Array


class Walls(NamedTuple):
    """Where origins may lie: ``room`` (poses, 6) is how far a pose reaches left and right of its origin,
    the least and greatest y of it, 0 and the piece's smaller measure.

    With a ``period`` x wraps, without one (0) x stays in [room[c, 0], length - room[c, 1]].
    """

    room: Array
    period: float
    length: float


class Effort(NamedTuple):
    """How long to go on: ``rounds`` in all, ``patience`` of them without progress, ``samples`` places tried
    for a piece in each, until no pair lies deeper than ``enough`` mm. ``seed`` makes chance repeat itself."""

    rounds: int
    patience: int
    samples: int
    enough: float
    seed: int


@njit(cache=True, nogil=True)
def separate(
    pieces: Pieces, walls: Walls, effort: Effort, table: DepthTable, halt: NDArray[np.uint8]
) -> tuple[float, int]:
    """Move pieces in place until no pair lies deeper than what is enough, or the effort is spent.

    Leaves the best state found; returns (its greatest pair depth, rounds used).
    """
    at, pose, choices, free, weight = pieces
    room, period, length = walls
    rounds, patience, samples, enough, seed = effort
    h = table.h_mm
    np.random.seed(seed)
    n = len(pose)
    among = among_of(at, pose, weight, table)
    reach = among.reach
    best_total = np.inf
    best_worst = np.inf
    best_at = at.copy()
    best_pose = pose.copy()
    depth = np.zeros((n, n))
    order = np.arange(n)
    top_cost = np.empty(BEST)
    top = np.empty((BEST, 3))
    idle = 0
    used = 0
    fine = h * FINE
    floor = weight.copy()
    for r in range(rounds + 1):
        used = r
        worst, total = 0.0, 0.0
        for i in range(n):
            for j in range(i + 1, n):
                d = 0.0
                meet = reach[i, 3] > reach[j, 2] and reach[i, 2] < reach[j, 3]
                if period <= 0.0:
                    meet = meet and reach[i, 1] > reach[j, 0] and reach[i, 0] < reach[j, 1]
                if meet and (free[i] or free[j]):
                    d = pair_depth(pose[i], at[i, 0], at[i, 1], j, among, period, table)
                depth[i, j] = d
                total += d
                worst = max(worst, d)
        if total < best_total * 0.98 or worst <= enough:
            idle = 0
        else:
            idle += 1
        if total < best_total or worst <= enough:
            best_total, best_worst = total, worst
            best_at[:] = at
            best_pose[:] = pose
        if worst <= enough or idle >= patience or r == rounds or halt[0] != 0:
            break
        for i in range(n):
            for j in range(i + 1, n):
                w = weight[i, j]
                if depth[i, j] > enough * 0.5:
                    w *= 1.2 + 0.8 * depth[i, j] / worst
                elif w > floor[i, j]:
                    w = max(floor[i, j], w * 0.95)
                else:
                    continue
                weight[i, j] = weight[j, i] = w
        for q in range(n - 1, 0, -1):
            p = np.random.randint(q + 1)
            order[q], order[p] = order[p], order[q]
        for i in order:  # type: ignore[assignment]
            if not free[i] or halt[0] != 0:
                continue
            here = weighted_depth(i, pose[i], at[i, 0], at[i, 1], np.inf, among, period, table)
            if here <= 0.0:
                continue
            top_cost[:] = np.inf
            top_cost[0] = here
            top[0, 0], top[0, 1], top[0, 2] = pose[i], at[i, 0], at[i, 1]
            kinds = 0
            while kinds < choices.shape[1] and choices[i, kinds] >= 0:
                kinds += 1
            for s in range(samples):
                near = s * 3 < samples
                if near:
                    c = pose[i]
                    spread = (room[c, 5] - room[c, 4]) * 0.15
                    x = at[i, 0] + np.random.normal() * spread
                    y = at[i, 1] + np.random.normal() * spread
                else:
                    c = choices[i, np.random.randint(kinds)]
                    if period > 0.0:
                        x = np.random.random() * period
                    else:
                        x = room[c, 0] + np.random.random() * (length - room[c, 1] - room[c, 0])
                    y = room[c, 2] + np.random.random() * (room[c, 3] - room[c, 2])
                y = min(max(y, room[c, 2]), room[c, 3])
                if period <= 0.0:
                    x = min(max(x, room[c, 0]), length - room[c, 1])
                e = weighted_depth(i, c, x, y, top_cost[BEST - 1], among, period, table)
                if e < top_cost[BEST - 1]:
                    k = BEST - 1
                    while k > 0 and top_cost[k - 1] > e:
                        top_cost[k] = top_cost[k - 1]
                        top[k] = top[k - 1]
                        k -= 1
                    top_cost[k] = e
                    top[k, 0], top[k, 1], top[k, 2] = c, x, y
            for k in range(BEST):
                if top_cost[k] == np.inf:
                    continue
                c, x, y, e = int(top[k, 0]), top[k, 1], top[k, 2], top_cost[k]
                sx = sy = (room[c, 5] - room[c, 4]) * 0.04
                while (sx > fine or sy > fine) and e > 0.0:
                    kind = np.random.randint(3)
                    dx = sx if kind != 1 else 0.0
                    dy = sy if kind != 0 else 0.0
                    if kind == 2 and np.random.random() < 0.5:
                        dy = -dy
                    won = False
                    for sign in (1.0, -1.0):
                        tx, ty = x + sign * dx, min(max(y + sign * dy, room[c, 2]), room[c, 3])
                        if period <= 0.0:
                            tx = min(max(tx, room[c, 0]), length - room[c, 1])
                        t = weighted_depth(i, c, tx, ty, e, among, period, table)
                        if t < e:
                            x, y, e, won = tx, ty, t, True
                            break
                    factor = 1.1 if won else 0.5
                    if kind != 1:
                        sx *= factor if kind == 0 else (1.1 if won else 0.7)
                    if kind != 0:
                        sy *= factor if kind == 1 else (1.1 if won else 0.7)
                top_cost[k] = e
                top[k, 1], top[k, 2] = x, y
            k = int(np.argmin(top_cost))
            if top_cost[k] <= here:
                x = top[k, 1]
                if period > 0.0:
                    x -= np.floor(x / period) * period
                move(i, int(top[k, 0]), x, top[k, 2], among, table)
    at[:] = best_at
    pose[:] = best_pose
    return best_worst, used
