"""Lines drawn on a card, pencil or pen: thin, of another lightness than the card beside them."""

from __future__ import annotations

from collections import deque
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.ndimage import gaussian_filter1d

Array = NDArray[np.float64]
Line = tuple[Array, bool]
"""Points (n, 2), and whether it closes on itself."""

LEAST_MM = 8.0
"""A shorter stroke is a speck, a letter or a figure (common practice, no source)."""

WIDEST_MM = 1.4
"""A line is no wider than a soft pencil or a felt pen draws."""

LEAST_CONTRAST = 9.0
"""Of 255 in lightness, between a line and the card beside it."""

SIGMAS = 6.0
"""And this many times the card's own grain."""

RIM_MM = 1.2
"""Beside the card's edge nothing is looked for: its shadow and its bevel are lines too."""

SMOOTH_PX = 5.0
"""Width of the smoothing along a line: half a millimetre, the width of a pencil line (our own choice)."""

TOLERANCE_PX = 0.5
"""Points this near a line between their neighbours are left out: half a pixel (our own choice, no source)."""


def pencil_lines(lightness: Any, card: Any, px_per_mm: float) -> tuple[Line, ...]:
    """Return the lines on a card, in pixels of the flat picture, longest first.

    ``lightness`` and ``card`` (not 0 where it is card) are of the same shape. A line that others join or
    cross is followed along its longest way; what is left of the others is told as lines of their own.
    """
    import cv2

    x0, y0, wide, high = cv2.boundingRect((card > 0).astype(np.uint8))
    card = (card[y0 : y0 + high, x0 : x0 + wide] > 0).astype(np.uint8)
    seen = cv2.GaussianBlur(lightness[y0 : y0 + high, x0 : x0 + wide], (0, 0), 1.5).astype(np.float32)
    inner = cv2.erode(card, _disc(RIM_MM * px_per_mm), borderType=cv2.BORDER_CONSTANT, borderValue=0) > 0
    if inner.sum() < (LEAST_MM * px_per_mm) ** 2:
        return ()
    seen[~inner] = np.median(seen[inner])
    kernel = _disc(WIDEST_MM * px_per_mm)
    off = np.maximum(
        cv2.morphologyEx(seen, cv2.MORPH_BLACKHAT, kernel), cv2.morphologyEx(seen, cv2.MORPH_TOPHAT, kernel)
    )
    middle = float(np.median(off[inner]))
    grain = 1.4826 * float(np.median(np.abs(off[inner] - middle)))
    line = ((off > max(LEAST_CONTRAST, middle + SIGMAS * grain)) & inner).astype(np.uint8)
    line = cv2.morphologyEx(line, cv2.MORPH_CLOSE, _disc(0.4 * px_per_mm))
    count, labels, stats, _ = cv2.connectedComponentsWithStats(line, connectivity=8)
    found: list[Line] = []
    least = LEAST_MM * px_per_mm
    for k in range(1, count):
        left, top, w, h, _ = stats[k].tolist()
        if np.hypot(w, h) < least / 2.0:
            continue
        spot = np.pad(labels[top : top + h, left : left + w] == k, 1)
        for points, closed in _ways(_thinned(spot), least):
            found.append((points + (x0 + left - 1, y0 + top - 1), closed))
    return tuple(sorted(found, key=lambda f: -shapely.LineString(f[0]).length))


def _disc(radius_px: float) -> Any:
    import cv2

    side = 2 * max(1, round(radius_px)) + 1
    return cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))


def _thinned(spot: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Return the middle of a stroke, a pixel wide (Zhang and Suen, Communications of the ACM 27, 1984)."""
    spot = spot.copy()
    while True:
        before = int(spot.sum())
        for first in (True, False):
            p = [np.roll(spot, shift, axis=(0, 1)) for shift in AROUND]
            count = sum(q.astype(np.int8) for q in p)
            steps = sum((~p[k] & p[(k + 1) % 8]).astype(np.int8) for k in range(8))
            n, e, s, w = p[0], p[2], p[4], p[6]
            free = ~(n & e & s) & ~(e & s & w) if first else ~(n & e & w) & ~(n & s & w)
            spot &= ~((count >= 2) & (count <= 6) & (steps == 1) & free)
        if int(spot.sum()) == before:
            return spot


AROUND = ((1, 0), (1, -1), (0, -1), (-1, -1), (-1, 0), (-1, 1), (0, 1), (1, 1))
"""Shifts that bring the neighbours of a pixel to it: north, then clockwise."""


def _ways(middle: NDArray[np.bool_], least_px: float) -> list[Line]:
    """Return the ways through a stroke's middle, longest first; each leaves the rest to the next."""
    left = set(map(tuple, np.argwhere(middle).tolist()))
    found: list[Line] = []
    while len(left) >= 0.7 * least_px:
        start = next(iter(left))
        reached = _spread(left, start)
        piece = set(reached)
        ends = [at for at in piece if len(_beside(piece, at)) == 1]
        cut = None
        if not ends:  # it closes on itself: opened at one pixel
            cut = start
            piece_open = piece - {cut} - set(_beside(piece, cut)[1:])
            way = _longest(piece_open) if piece_open else []
        else:
            way = _longest(piece)
        gone = {(r + i, c + j) for r, c in way for i in (-1, 0, 1) for j in (-1, 0, 1)}
        left -= gone if way else piece
        if cut is not None:
            left.discard(cut)
        closed = cut is not None and len(way) > 0.8 * len(piece)
        points = np.array(way, dtype=np.float64)[:, ::-1] if way else np.empty((0, 2))
        if len(points) >= 0.7 * least_px:
            smooth = gaussian_filter1d(points, SMOOTH_PX, axis=0, mode="wrap" if closed else "nearest")
            if not closed:
                smooth[[0, -1]] = points[[0, -1]]
            line = shapely.LineString(smooth)
            if line.length >= least_px:
                found.append((shapely.get_coordinates(line.simplify(TOLERANCE_PX)), closed))
    return found


Pixel = tuple[int, ...]


def _beside(piece: set[Pixel], at: Pixel) -> list[Pixel]:
    return [p for i, j in AROUND if (p := (at[0] + i, at[1] + j)) in piece]


def _spread(piece: set[Pixel], start: Pixel) -> dict[Pixel, Pixel]:
    """Return the pixels reached from one, in order, each with the one before it."""
    before, waiting = {start: start}, deque([start])
    while waiting:
        at = waiting.popleft()
        for each in _beside(piece, at):
            if each not in before:
                before[each] = at
                waiting.append(each)
    return before


def _longest(piece: set[Pixel]) -> list[Pixel]:
    """Return the way between the two pixels farthest apart along the stroke."""
    far = list(_spread(piece, next(iter(piece))))[-1]
    before = _spread(piece, far)
    at = list(before)[-1]
    way = [at]
    while before[at] != at:
        at = before[at]
        way.append(at)
    return way
