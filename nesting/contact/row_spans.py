"""Pieces and obstacles cut into rows across the roll: every stretch of a row that an outline covers.

A row's stretches hold every point of the outline within the row, so they are never smaller than the piece;
what an outline leaves open in a row between two of its arms stays open.
"""

from __future__ import annotations

import math

import numpy as np
from numba import njit
from numpy.typing import NDArray

Spans = tuple[NDArray[np.int64], NDArray[np.float64], NDArray[np.float64]]


def spans(ring: NDArray[np.float64], row_mm: float, open_mm: float) -> Spans:
    """Return (row, left, right) of the stretches that a ring covers, y = 0 the lower edge of row 0.

    Openings narrower than ``open_mm`` count as covered. A row is touched even by a single point of it.
    """
    return stretches(np.ascontiguousarray(ring, dtype=np.float64), row_mm, open_mm)


@njit(cache=True)
def stretches(ring: NDArray[np.float64], row_mm: float, open_mm: float) -> Spans:
    """``spans`` of a ring that lies in memory row by row."""
    corners = len(ring)
    first = math.floor(ring[:, 1].min() / row_mm + 1e-9)
    last = max(first + 1, math.ceil(ring[:, 1].max() / row_mm - 1e-9))
    rows, lefts, rights = [0], [0.0], [0.0]
    low, high = np.empty(3 * corners + 4), np.empty(3 * corners + 4)
    crossing = np.empty(corners)
    for row in range(first, last):
        bottom, top = row * row_mm, (row + 1) * row_mm
        found = 0
        for i in range(corners):  # the edges, as far as they lie in the row
            ax, ay = ring[i]
            bx, by = ring[i + 1 if i + 1 < corners else 0]
            if max(ay, by) < bottom or min(ay, by) > top:
                continue
            start, end = 0.0, 1.0
            if ay != by:
                one, other = (bottom - ay) / (by - ay), (top - ay) / (by - ay)
                start, end = max(0.0, min(one, other)), min(1.0, max(one, other))
            one, other = ax + start * (bx - ax), ax + end * (bx - ax)
            low[found], high[found] = min(one, other), max(one, other)
            found += 1
        for level in (bottom, top):  # what lies inside of the outline along the row's two edges
            crossings = 0
            for i in range(corners):
                ay = ring[i, 1]
                bx, by = ring[i + 1 if i + 1 < corners else 0]
                if (ay <= level) != (by <= level):
                    crossing[crossings] = ring[i, 0] + (level - ay) / (by - ay) * (bx - ring[i, 0])
                    crossings += 1
            along = np.sort(crossing[:crossings])
            for k in range(0, crossings - 1, 2):
                low[found], high[found] = along[k], along[k + 1]
                found += 1
        order = np.argsort(low[:found])
        for k in range(found):
            left, right = low[order[k]], high[order[k]]
            if k and left <= rights[-1] + open_mm:
                rights[-1] = max(rights[-1], right)
            else:
                rows.append(row)
                lefts.append(left)
                rights.append(right)
    return np.array(rows[1:]), np.array(lefts[1:]), np.array(rights[1:])
