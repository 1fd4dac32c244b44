"""A traced ring made a drawn one: corners kept sharp, the stretches between smoothed within a tolerance."""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.ndimage import gaussian_filter1d, maximum_filter1d

Array = NDArray[np.float64]

STEP_MM = 0.2
"""The ring is sampled again at this."""

ARM_MM = 3.0
"""A corner is a turn between the directions of stretches so long on either side, ..."""

GAP_MM = 0.7
"""... leaving out this much beside it: a traced corner is rounded by the camera, ..."""

CORNER_DEG = 28.0
"""... of at least this: as the edges of a drawing break."""

SMOOTH_MM = 0.6
"""Width of the smoothing between corners."""

TOLERANCE_MM = 0.03
"""Points that lie this near a line between their neighbours are left out."""


def fitted_ring(ring_mm: Array) -> Array:
    """Return a ring with its corners where the sides beside them meet, smooth between them."""
    ring = _sampled(ring_mm)
    count = len(ring)
    arm, gap = max(3, round(ARM_MM / STEP_MM)), max(1, round(GAP_MM / STEP_MM))
    if count < 4 * (arm + gap):
        return ring
    corners = _corners(ring, arm, gap)
    if not corners:
        smooth = gaussian_filter1d(ring, SMOOTH_MM / STEP_MM, axis=0, mode="wrap")
        return _thinned(smooth)
    parts: list[Array] = []
    sharp = [_meeting(ring, c, arm, gap) for c in corners]
    for k, corner in enumerate(corners):
        stop = corners[(k + 1) % len(corners)]
        indices = np.arange(corner + gap, (stop if stop > corner else stop + count) - gap + 1) % count
        parts.append(sharp[k][None])
        if len(indices) > 2:
            stretch = ring[indices]
            sigma = min(SMOOTH_MM / STEP_MM, len(stretch) / 4.0)
            parts.append(_eased(stretch, sigma))
    return _thinned(np.vstack(parts))


def _sampled(ring: Array) -> Array:
    line = shapely.LineString(np.vstack([ring, ring[0]]))
    count = max(12, round(line.length / STEP_MM))
    return shapely.get_coordinates(line.interpolate(np.arange(count) / count, normalized=True))


def _corners(ring: Array, arm: int, gap: int) -> list[int]:
    """Places of local maxima of the turn between the arms on both sides."""
    before = np.roll(ring, gap, axis=0) - np.roll(ring, gap + arm, axis=0)
    after = np.roll(ring, -gap - arm, axis=0) - np.roll(ring, -gap, axis=0)
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    turn = np.degrees(np.abs(np.arctan2(cross, (before * after).sum(axis=1))))
    # beside a corner the arms still reach over it: the turn is less there, and no corner of its own
    peak = maximum_filter1d(turn, 2 * gap + 1, mode="wrap")
    found: list[int] = []
    for index in np.argsort(-turn).tolist():
        if turn[index] < CORNER_DEG:
            break
        if turn[index] < peak[index]:
            continue
        if all(min((index - c) % len(ring), (c - index) % len(ring)) > gap + arm // 2 for c in found):
            found.append(index)
    return sorted(found)


def _meeting(ring: Array, corner: int, arm: int, gap: int) -> Array:
    """Where the lines through the stretches beside a corner meet; the point itself if they do not."""
    count = len(ring)
    before = ring[np.arange(corner - gap - arm, corner - gap + 1) % count]
    after = ring[np.arange(corner + gap, corner + gap + arm + 1) % count]
    p, u = _line(before)
    q, v = _line(after)
    cross = u[0] * v[1] - u[1] * v[0]
    if abs(cross) < 0.1:
        return ring[corner]
    t = ((q - p)[0] * v[1] - (q - p)[1] * v[0]) / cross
    met = p + t * u
    return met if np.hypot(*(met - ring[corner])) < 2.0 * GAP_MM else ring[corner]


def _line(points: Array) -> tuple[Array, Array]:
    middle = points.mean(axis=0)
    _, _, axes = np.linalg.svd(points - middle)
    return middle, axes[0]


def _eased(stretch: Array, sigma: float) -> Array:
    """Smooth an open stretch; its ends are mirrored through themselves so that they stay."""
    pad = max(1, int(3 * sigma))
    pad = min(pad, len(stretch) - 1)
    head = 2 * stretch[0] - stretch[pad:0:-1]
    tail = 2 * stretch[-1] - stretch[-2 : -pad - 2 : -1]
    smooth = gaussian_filter1d(np.vstack([head, stretch, tail]), sigma, axis=0, mode="nearest")
    return np.asarray(smooth[pad : pad + len(stretch)])


def _thinned(ring: Array) -> Array:
    polygon = shapely.Polygon(ring).simplify(TOLERANCE_MM)
    return shapely.get_coordinates(polygon.exterior)[:-1]
