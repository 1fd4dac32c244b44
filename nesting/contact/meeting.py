"""Whether two pieces can lie on each other, said at once where they do not.

Most pairs that are asked about lie side by side, their boxes meeting. Polygons are made of the others only.
"""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Array = NDArray[np.float64]

IN_DOUBT_MM2 = 1e-7
"""Twice the area of a triangle below which its corners are taken to lie in line: they may cross, then."""


@njit(cache=True, nogil=True)
def may_meet(a: Array, b: Array, x: float, y: float) -> bool:
    """Whether the insides of rings ``a`` and, moved by (x, y), ``b`` may meet.

    False is certain; True is said of rings that touch, too, or all but touch.
    """
    x0 = max(a[:, 0].min(), b[:, 0].min() + x)
    x1 = min(a[:, 0].max(), b[:, 0].max() + x)
    y0 = max(a[:, 1].min(), b[:, 1].min() + y)
    y1 = min(a[:, 1].max(), b[:, 1].max() + y)
    if x0 > x1 or y0 > y1:
        return False
    ours, one = _edges_within(a, 0.0, 0.0, x0, x1, y0, y1)
    theirs, other = _edges_within(b, x, y, x0, x1, y0, y1)
    for i in range(one):
        px, py, qx, qy = ours[i]
        for j in range(other):
            rx, ry, sx, sy = theirs[j]
            if max(px, qx) < min(rx, sx) or max(rx, sx) < min(px, qx):
                continue
            if max(py, qy) < min(ry, sy) or max(ry, sy) < min(py, qy):
                continue
            if not _beside(px, py, qx, qy, rx, ry, sx, sy) and not _beside(rx, ry, sx, sy, px, py, qx, qy):
                return True
    # no edges cross: one lies within the other, or they lie apart
    return _holds(a, b[0, 0] + x, b[0, 1] + y) or _holds(b, a[0, 0] - x, a[0, 1] - y)


@njit(cache=True, nogil=True)
def _edges_within(
    ring: Array, x: float, y: float, x0: float, x1: float, y0: float, y1: float
) -> tuple[Array, int]:
    """Edges (k, 4) of a ring moved by (x, y) whose boxes meet one, and how many."""
    found = np.empty((len(ring), 4))
    k = 0
    for i in range(len(ring)):
        px, py, qx, qy = ring[i - 1, 0] + x, ring[i - 1, 1] + y, ring[i, 0] + x, ring[i, 1] + y
        if max(px, qx) < x0 or min(px, qx) > x1 or max(py, qy) < y0 or min(py, qy) > y1:
            continue
        found[k, 0], found[k, 1], found[k, 2], found[k, 3] = px, py, qx, qy
        k += 1
    return found, k


@njit(cache=True, nogil=True, inline="always")
def _beside(px: float, py: float, qx: float, qy: float, rx: float, ry: float, sx: float, sy: float) -> bool:
    """Whether r and s lie clearly on one side of the line through p and q."""
    r = (qx - px) * (ry - py) - (qy - py) * (rx - px)
    s = (qx - px) * (sy - py) - (qy - py) * (sx - px)
    return (r > IN_DOUBT_MM2 and s > IN_DOUBT_MM2) or (r < -IN_DOUBT_MM2 and s < -IN_DOUBT_MM2)


@njit(cache=True, nogil=True)
def _holds(ring: Array, x: float, y: float) -> bool:
    """Whether a ring goes round a point, by what lies to the right of it."""
    inside = False
    for i in range(len(ring)):
        px, py, qx, qy = ring[i - 1, 0], ring[i - 1, 1], ring[i, 0], ring[i, 1]
        if (py <= y) != (qy <= y) and px + (y - py) / (qy - py) * (qx - px) > x:
            inside = not inside
    return inside
