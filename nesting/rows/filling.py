"""Small pieces set into what large ones leave open."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from nesting.compaction.strip import closest_spot, stamp
from nesting.contact.penetration import depth_raster
from nesting.contact.touch import clearance
from nesting.rows.columns import Columns
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Raster = Callable[[int, int], tuple[NDArray[np.float32], Array, float]]


def fill(columns: Columns, dies: list[int], from_mm: float = 0.0, room_mm: float = 0.0) -> int:
    """Set pieces of ``dies`` that are left into openings of the strip, largest first; returns how many.

    Each lies where it touches most between ``from_mm`` and the strip's end, which stays; with
    ``room_mm`` it may reach that far beyond the end, and lies as far left as it can.
    """
    strip = columns.strip
    end = strip.end_mm + room_mm
    h = 2.0 * columns.cell_mm
    rasters: dict[tuple[int, int], tuple[NDArray[np.float32], Array, float]] = {}
    turned = _half_turns(columns)

    def raster(q: int, p: int) -> tuple[NDArray[np.float32], Array, float]:
        """Depth of pose p seen from pose q, and +1, or -1 when it is asked for at minus the offset."""
        hit = rasters.get((q, p))
        if hit is None:
            cells, x0, y0 = depth_raster(
                columns.contacts.rings[q], columns.contacts.rings[p], h, columns.gap_mm, False
            )
            box = np.array([x0, y0, cells.shape[1], cells.shape[0]], dtype=np.float64)
            hit = (cells.ravel(), box, 1.0)
            rasters[q, p] = hit
            if q in turned and p in turned:
                rasters[turned[q], turned[p]] = (hit[0], box, -1.0)
        return hit

    count = len(strip.pose)
    along, leftmost = (max(0.0, from_mm), end), room_mm > 0.0
    without_room: dict[int, set[int]] = {}
    for smallest in [] if leftmost else _smallest_of_families(columns, dies):
        rasters.clear()  # no other die asks for them, and on 400 pieces of 80 poses all would take 300 MB
        without_room[columns.place_of[smallest][0]] = {
            k
            for k, p in enumerate(columns.choices_of(columns.pose_of[smallest, 0]))
            if columns.stop() or not _free(columns, p, h, raster, along).any()
        }
    for d in sorted(dies, key=lambda d: -columns.dies[d].area_mm2):
        rasters.clear()
        for k, p in enumerate(columns.choices_of(columns.pose_of[d, 0])):
            full = k in without_room.get(columns.place_of[d][0], ())
            if columns.left[d] > 0 and not full and not columns.stop():
                _fill_pose(columns, d, p, h, raster, along, leftmost)
    return len(strip.pose) - count


def _smallest_of_families(columns: Columns, dies: list[int]) -> list[int]:
    """The smallest die left of each family that has several left: where that has no room the larger sizes
    have none, and most openings hold nothing (measured: half of the time of filling)."""
    by_family: dict[int, list[int]] = {}
    for d in dies:
        if columns.left[d] > 0:
            by_family.setdefault(columns.place_of[d][0], []).append(d)
    several = [sizes for sizes in by_family.values() if len(sizes) > 1]
    return [min(sizes, key=lambda d: columns.dies[d].area_mm2) for sizes in several]


def _half_turns(columns: Columns) -> dict[int, int]:
    """Poses whose die has exactly the half turn of it as its other pose."""
    found = {}
    for d, die in enumerate(columns.dies):
        if len(die.rings_mm) == 2 and np.array_equal(die.rings_mm[1], -die.rings_mm[0]):
            a, b = columns.pose_of[d, 0], columns.pose_of[d, 1]
            found[a], found[b] = b, a
    return found


def _clear(columns: Columns, p: int, x: float, y: float) -> bool:
    """Whether a piece at (x, y) keeps the gap to all others, on the true outlines."""
    strip, contacts, gap = columns.strip, columns.contacts, columns.gap_mm + SPARE_MM
    low, high = contacts.low, contacts.high
    at, pose = strip.at_mm, strip.pose
    meets = (
        (at[:, 0] + low[pose, 0] < x + high[p, 0] + gap)
        & (at[:, 0] + high[pose, 0] > x + low[p, 0] - gap)
        & (at[:, 1] + low[pose, 1] < y + high[p, 1] + gap)
        & (at[:, 1] + high[pose, 1] > y + low[p, 1] - gap)
    )
    return all(
        clearance(contacts.segments(int(pose[k]), p), x - at[k, 0], y - at[k, 1]) >= gap
        for k in np.flatnonzero(meets)
    )


def _free(
    columns: Columns, p: int, h: float, raster: Raster, along: tuple[float, float]
) -> NDArray[np.uint8]:
    """Where a piece in pose p may lie, in cells of h from its least place; no cells where it is too large."""
    strip = columns.strip
    low, high = columns.contacts.low[p], columns.contacts.high[p]
    x0, y0 = along[0] - low[0], columns.across[0] - low[1]
    if along[1] - high[0] < x0 or columns.across[1] - high[1] < y0:
        return np.zeros((0, 0), np.uint8)
    nx = int((along[1] - high[0] - x0) / h) + 1
    ny = int((columns.across[1] - high[1] - y0) / h) + 1
    free = np.ones((ny, nx), np.uint8)
    reach = strip.at_mm[:, 0] + columns.contacts.high[strip.pose, 0]
    near = np.flatnonzero(reach > along[0] - columns.gap_mm - h)
    for q, (x, y) in zip(strip.pose[near].tolist(), strip.at_mm[near].tolist(), strict=True):
        cells, box, sign = raster(q, p)
        stamp(free, x0, y0, x, y, cells, box, sign, h)
    return free


def _fill_pose(
    columns: Columns, d: int, p: int, h: float, raster: Raster, along: tuple[float, float], leftmost: bool
) -> None:
    free = _free(columns, p, h, raster, along)
    if not free.size:
        return
    low = columns.contacts.low[p]
    x0, y0 = along[0] - low[0], columns.across[0] - low[1]
    while columns.left[d] > 0 and not columns.stop():
        if leftmost:
            i = int(np.argmax(free.any(axis=0)))
            if not free[:, i].any():
                return
            j = int(np.argmax(free[:, i]))
        else:
            j, i, _ = closest_spot(free, 2)
            if j < 0:
                return
        x, y = x0 + i * h, y0 + j * h
        if not _clear(columns, p, x, y):
            free[j, i] = 0
            continue
        columns.strip.add(np.array([p]), np.array([[x, y]]))
        columns.left[d] -= 1
        cells, box, sign = raster(p, p)
        stamp(free, x0, y0, x, y, cells, box, sign, h)
