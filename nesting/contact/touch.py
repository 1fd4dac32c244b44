"""Where two pieces touch, without building a no-fit polygon.

Piece B at offset q from piece A overlaps it iff q lies inside A + (-B) (Minkowski sum). The
boundary of that sum is made of edges of one ring moved to convex vertices of the other whose
normals agree (the reduced convolution; Guibas, Ramshaw & Stolfi 1983, from memory). Some of those
segments lie inside the sum; seen from an offset that does not overlap, the boundary hides them. So
the free space about such an offset can be cut out of the segments alone, in time proportional to
the vertices, on the true outlines in double precision.
"""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Array = NDArray[np.float64]

MOST_CUTS = 48
"""Half-planes kept about one offset: what is left uncut would not keep the gap. Ten are not enough for two
curved edges of many vertices nested in each other: a step of 4 mm broke the gap by up to 0.4 mm there."""


NO_EDGE_MM = 1e-7
"""Vertices closer than this are one."""


def without_doubles(ring: Array) -> Array:
    """The ring without vertices on top of the one before: an edge needs a direction."""
    ring = np.ascontiguousarray(ring, dtype=np.float64)
    step = np.hypot(*(ring - np.roll(ring, 1, axis=0)).T)
    return ring if step.min() > NO_EDGE_MM else np.ascontiguousarray(ring[step > NO_EDGE_MM])


@njit(cache=True, nogil=True)
def convolution(a: Array, b: Array) -> Array:
    """Return segments (k, 4) of the reduced convolution of ring ``a`` with ``-b``.

    Both rings counter-clockwise. Every boundary point of A + (-B) lies on one of the segments;
    the sum lies to their left.
    """
    out = np.empty((2 * len(a) * len(b), 4))
    k = 0
    c = -b  # a point reflection keeps the direction of travel
    along_a, along_c = _directions(a), _directions(c)
    for turn in range(2):
        first, second = (a, c) if turn == 0 else (c, a)
        into, along = (along_a, along_c) if turn == 0 else (along_c, along_a)
        for i in range(len(first)):
            ax, ay = into[i - 1]
            bx, by = into[i]
            if ax * by - ay * bx < -1e-12:
                continue  # a reflex vertex never bounds the sum
            for j in range(len(second)):
                dx, dy = along[j]
                if ax * dy - ay * dx < -1e-9 or dx * by - dy * bx < -1e-9:
                    continue
                if (ax + bx) * dx + (ay + by) * dy <= 0.0:
                    continue
                s, e, v = second[j], second[j + 1 - len(second)], first[i]
                out[k, 0], out[k, 1] = s[0] + v[0], s[1] + v[1]
                out[k, 2], out[k, 3] = e[0] + v[0], e[1] + v[1]
                k += 1
    return out[:k].copy()


@njit(cache=True, nogil=True)
def _directions(ring: Array) -> Array:
    """The unit vector of the edge from each vertex to the next."""
    found = np.empty_like(ring)
    for i in range(len(ring)):
        dx, dy = ring[i + 1 - len(ring), 0] - ring[i, 0], ring[i + 1 - len(ring), 1] - ring[i, 1]
        long = np.hypot(dx, dy)
        found[i, 0], found[i, 1] = dx / long, dy / long
    return found


@njit(cache=True, nogil=True)
def free_space(segments: Array, qx: float, qy: float, gap: float, reach: float) -> Array:
    """Return half-planes (k, 3) ``nx, ny, c`` whose intersection near (qx, qy) keeps the gap.

    An offset x with ``n . x >= c`` for every row, and within ``reach`` of (qx, qy), lies at least
    ``gap`` outside the sum. (qx, qy) itself may break a few by the depth it lies inside. No
    obstacle within reach: no rows. Greedy: the nearest obstacle first, and what its half-plane
    cuts off is forgotten.
    """
    k = len(segments)
    live = np.empty((k, 4))
    home = np.empty(k, np.int64)
    count = 0
    far = reach + gap
    for i in range(k):
        x0, y0, x1, y1 = segments[i]
        if (
            min(x0, x1) > qx + far
            or max(x0, x1) < qx - far
            or min(y0, y1) > qy + far
            or max(y0, y1) < qy - far
        ):
            continue
        live[count] = segments[i]
        home[count] = i
        count += 1
    cuts = np.empty((MOST_CUTS, 3))
    found = 0
    first = True
    while count > 0 and found < MOST_CUTS:
        best, at, fx, fy, inner = np.inf, -1, 0.0, 0.0, False
        for i in range(count):
            x0, y0, x1, y1 = live[i]
            dx, dy = x1 - x0, y1 - y0
            ll = dx * dx + dy * dy
            t = 0.0 if ll == 0.0 else ((qx - x0) * dx + (qy - y0) * dy) / ll
            inside = 0.0 < t < 1.0
            t = min(1.0, max(0.0, t))
            px, py = x0 + t * dx, y0 + t * dy
            d = np.hypot(qx - px, qy - py)
            if d < best - 1e-12:
                best, at, fx, fy, inner = d, i, px, py, inside
        if best > far:
            break
        x0, y0, x1, y1 = segments[home[at]]
        length = np.hypot(x1 - x0, y1 - y0)
        nx, ny = (y1 - y0) / length, -(x1 - x0) / length  # the sum lies to the left
        front = nx * (qx - x0) + ny * (qy - y0)
        if (
            (first and inner and front < 0.0) or front >= min(gap - 1e-7, best - 1e-9) or best < 1e-9
        ):  # the offset lies inside: out through this segment
            c = nx * x0 + ny * y0 + gap
        else:
            nx, ny = (qx - fx) / best, (qy - fy) / best
            c = nx * fx + ny * fy + gap
        first = False
        cuts[found, 0], cuts[found, 1], cuts[found, 2] = nx, ny, c
        found += 1
        edge = c - gap + 1e-9
        keep = 0
        for i in range(count):
            x0, y0, x1, y1 = live[i]
            s0 = nx * x0 + ny * y0 - edge
            s1 = nx * x1 + ny * y1 - edge
            if s0 <= 0.0 and s1 <= 0.0:
                continue
            if s0 < 0.0:
                t = s0 / (s0 - s1)
                x0, y0 = x0 + t * (x1 - x0), y0 + t * (y1 - y0)
            elif s1 < 0.0:
                t = s0 / (s0 - s1)
                x1, y1 = x0 + t * (x1 - x0), y0 + t * (y1 - y0)
            live[keep, 0], live[keep, 1], live[keep, 2], live[keep, 3] = x0, y0, x1, y1
            home[keep] = home[i]
            keep += 1
        count = keep
    return cuts[:found].copy()


@njit(cache=True, nogil=True)
def half_planes(
    idx: NDArray[np.int64],
    off: Array,
    which: NDArray[np.int64],
    start: NDArray[np.int64],
    segments: Array,
    gap: float,
    reach: Array,
) -> tuple[NDArray[np.int64], Array]:
    """Return the half-planes (k, 3) that keep pairs apart, and the pair (k,) of each.

    Pair p's segments are those from ``start[which[p]]`` on; it may move by ``reach[p]``.
    """
    room = 64
    pair, planes = np.empty(room, np.int64), np.empty((room, 3))
    k = 0
    for p in range(len(idx)):
        w = which[p]
        cuts = free_space(segments[start[w] : start[w + 1]], off[p, 0], off[p, 1], gap, reach[p])
        while k + len(cuts) > room:
            room *= 2
            pair2, planes2 = np.empty(room, np.int64), np.empty((room, 3))
            pair2[:k], planes2[:k] = pair[:k], planes[:k]
            pair, planes = pair2, planes2
        pair[k : k + len(cuts)] = p
        planes[k : k + len(cuts)] = cuts
        k += len(cuts)
    return pair[:k].copy(), planes[:k].copy()


@njit(cache=True, nogil=True)
def clearance(segments: Array, qx: float, qy: float) -> float:
    """Return the distance of (qx, qy) from the sum's boundary, negative inside.

    The nearest segment of an outside point faces it. Inside, segments that lie within the sum may make the
    depth too small, and its sign wrong where one of them is nearer than the boundary: deep inside, and about
    the sum's reflex corners, where two segments go on behind each other.
    """
    best, sign = np.inf, 1.0
    for i in range(len(segments)):
        x0, y0, x1, y1 = segments[i]
        dx, dy = x1 - x0, y1 - y0
        ll = dx * dx + dy * dy
        t = 0.0 if ll == 0.0 else ((qx - x0) * dx + (qy - y0) * dy) / ll
        inside = 0.0 < t < 1.0
        t = min(1.0, max(0.0, t))
        d = np.hypot(qx - x0 - t * dx, qy - y0 - t * dy)
        if d < best - 1e-12:
            best = d
            front = dy * (qx - x0) - dx * (qy - y0)
            sign = -1.0 if inside and front < 0.0 else 1.0
    return best * sign


@njit(cache=True, nogil=True)
def ways_out(segments: Array, qx: float, qy: float, beyond: float) -> Array:
    """Return the points (k, 2) by which (qx, qy) may leave the sum, the nearest first.

    Each lies ``beyond`` a segment that (qx, qy) is squarely behind. Those past segments within the sum, which
    are not told apart here, lead nowhere.
    """
    far = np.empty(len(segments))
    out = np.empty((len(segments), 2))
    k = 0
    for i in range(len(segments)):
        x0, y0, x1, y1 = segments[i]
        dx, dy = x1 - x0, y1 - y0
        long = np.hypot(dx, dy)
        dx, dy = dx / long, dy / long
        along = (qx - x0) * dx + (qy - y0) * dy
        behind = dx * (qy - y0) - dy * (qx - x0)  # the sum lies to the left
        if along < 0.0 or along > long or behind < 0.0:
            continue
        far[k] = behind
        out[k, 0] = qx + (behind + beyond) * dy
        out[k, 1] = qy - (behind + beyond) * dx
        k += 1
    return out[np.argsort(far[:k])]
