"""Periodic cells descending on sampled depths, many at a time: the compiled part of the lattice search."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

from nesting.contact.penetration import DepthTable, depth_at

Array = NDArray[np.float64]

MOST_AWAY = 12
"""Copies up to this many periods away take part in the descent (never in the judgement). Within 3, which do
for other pieces, a bent strap of 270 by 20 mm went through those beyond."""


@njit(cache=True, nogil=True, inline="always")
def _within(step: float, at: float, low: float, high: float) -> tuple[float, float]:
    """The n (first, last) for which ``at + n step`` lies between low and high."""
    if abs(step) < 1e-9:
        return (-np.inf, np.inf) if low < at < high else (1.0, -1.0)
    one, other = (low - at) / step, (high - at) / step
    return min(one, other), max(one, other)


@njit(cache=True, nogil=True)
def _reduce(p: Array) -> None:
    """Gauss reduction of the basis in p[0:4], in place, keeping a positive determinant."""
    for _ in range(30):
        if p[0] * p[0] + p[1] * p[1] > p[2] * p[2] + p[3] * p[3]:
            p[0], p[1], p[2], p[3] = p[2], p[3], -p[0], -p[1]
        k = np.round((p[0] * p[2] + p[1] * p[3]) / (p[0] * p[0] + p[1] * p[1]))
        if k == 0.0:
            break
        p[2] -= k * p[0]
        p[3] -= k * p[1]


@njit(cache=True, nogil=True)
def _wrap(p: Array) -> None:
    """Bring the offsets of poses 1.. into the cell about the origin, in place."""
    det = p[0] * p[3] - p[1] * p[2]
    for k in range(4, len(p), 2):
        m = np.round((p[k] * p[3] - p[k + 1] * p[2]) / det)
        n = np.round((p[0] * p[k + 1] - p[1] * p[k]) / det)
        p[k] -= m * p[0] + n * p[2]
        p[k + 1] -= m * p[1] + n * p[3]


@njit(cache=True, nogil=True)
def descend(
    params: Array, level: bool, hold: int, rounds: int, scale: float, unit: float, table: DepthTable
) -> tuple[Array, Array]:
    """Adam on each row of ``params`` (u, v, then offsets of poses 1..): cell area over ``unit``
    plus a rising penalty on squared depths over ``scale``. ``hold``: the component of the periods that
    stays as it is (-1: none). Returns (area, worst depth)."""
    cells, start, box, h = table.cells, table.start, table.box, table.h_mm
    count, size = params.shape
    poses = (size - 4) // 2 + 1
    area = np.empty(count)
    worst = np.empty(count)
    for s in range(count):
        p = params[s]
        m1 = np.zeros(size)
        m2 = np.zeros(size)
        for r in range(rounds + 1):
            last = r == rounds
            if r % 8 == 0:
                if level:  # v may slide by whole periods of the row
                    k = np.round(p[2] / p[0])
                    p[2] -= k * p[0]
                else:
                    before = p[:4].copy()
                    _reduce(p)
                    if (before != p[:4]).any():
                        m1[:] = 0.0
                _wrap(p)
            part = r / rounds
            weight = 2.0 * 10.0 ** (3.0 * part)
            det = p[0] * p[3] - p[1] * p[2]
            sign = 1.0 if det >= 0 else -1.0
            g = np.zeros(size)
            g[0], g[1], g[2], g[3] = sign * p[3], -sign * p[2], -sign * p[1], sign * p[0]
            g /= unit
            deep = 0.0
            for i in range(poses):
                for j in range(i, poses):
                    k = table.pair[i, j]
                    f = -1.0 if table.flip[i, j] == 1 else 1.0
                    ox = (p[2 + 2 * j] if j else 0.0) - (p[2 + 2 * i] if i else 0.0)
                    oy = (p[3 + 2 * j] if j else 0.0) - (p[3 + 2 * i] if i else 0.0)
                    # the raster seen from the offsets: beyond it there is no depth
                    x0, y0 = box[k, 0], box[k, 1]
                    x1, y1 = x0 + (box[k, 2] - 1.0) * h, y0 + (box[k, 3] - 1.0) * h
                    if f < 0.0:
                        x0, y0, x1, y1 = -x1, -y1, -x0, -y0
                    wide, tall = max(x1 - ox, ox - x0), max(y1 - oy, oy - y0)
                    away = min(MOST_AWAY, int((wide * abs(p[3]) + tall * abs(p[2])) / max(1e-9, abs(det))))
                    for m in range(-away if i != j else 0, away + 1):
                        left, right = _within(p[2], ox + m * p[0], x0, x1)
                        low, high = _within(p[3], oy + m * p[1], y0, y1)
                        first = max(left, low, -float(MOST_AWAY))
                        final = min(right, high, float(MOST_AWAY))
                        if not first <= final:  # nor where one of them is no number
                            continue
                        for n in range(int(np.ceil(first)), int(np.floor(final)) + 1):
                            if i == j and m == 0 and n <= 0:
                                continue
                            qx = ox + m * p[0] + n * p[2]
                            qy = oy + m * p[1] + n * p[3]
                            d, gx, gy = depth_at(cells, start[k], box[k], h, f * qx, f * qy)
                            if d <= 0.0:
                                continue
                            deep = max(deep, d)
                            c = weight * 2.0 * d * f / (scale * scale)
                            gx *= c
                            gy *= c
                            g[0] += m * gx
                            g[1] += m * gy
                            g[2] += n * gx
                            g[3] += n * gy
                            if j:
                                g[2 + 2 * j] += gx
                                g[3 + 2 * j] += gy
                            if i:
                                g[2 + 2 * i] -= gx
                                g[3 + 2 * i] -= gy
            if last:
                area[s] = abs(det)
                worst[s] = deep
                break
            if level:
                g[1] = 0.0
            if hold >= 0:
                g[hold] = 0.0
            rate = scale * (0.04 * (1.0 - part) + 0.002)
            for q in range(size):
                m1[q] = 0.8 * m1[q] + 0.2 * g[q]
                m2[q] = 0.95 * m2[q] + 0.05 * g[q] * g[q]
                p[q] -= rate * m1[q] / (np.sqrt(m2[q]) + 1e-12)
    return area, worst
