"""Small pieces set into what large ones leave open."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from nesting.compaction.strip import cells_left, closest_spot, stamp
from nesting.contact.penetration import depth_raster
from nesting.contact.touch import clearance
from nesting.rows.columns import Columns
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Ints = NDArray[np.int64]
Places = NDArray[np.uint8]
"""1 where a piece may lie, in cells from its least place along and across."""

ABOUT = 3
"""A larger piece lies within so many cells of where a smaller one of its shape may lie: both about the middle
of their boxes, which are rounded to cells."""

BLOCK = 16
"""Cells of a block: only pieces that come near one with a place in it are looked at."""


def fill(columns: Columns, dies: list[int], from_mm: float = 0.0, room_mm: float = 0.0) -> int:
    """Set pieces of ``dies`` that are left into openings of the strip, largest first; returns how many.

    Each lies where it touches most between ``from_mm`` and the strip's end, which stays; with
    ``room_mm`` it may reach that far beyond the end, and lies as far left as it can.
    """
    count = len(columns.strip.pose)
    stretch = _Stretch(columns, max(0.0, from_mm), columns.strip.end_mm + room_mm)
    rooms = {} if room_mm else _rooms_of_families(stretch, dies)
    for d in sorted(dies, key=lambda d: -columns.dies[d].area_mm2):
        stretch.forget()
        for k, p in enumerate(columns.choices_of(columns.pose_of[d, 0])):
            room = rooms.get((columns.place_of[d][0], k))
            if columns.left[d] == 0 or columns.stop() or (room is not None and not room.any()):
                continue
            before = len(columns.strip.pose)
            _fill_pose(stretch, d, p, room, leftmost=room_mm > 0.0)
            for n in range(before, len(columns.strip.pose)):
                for each in rooms.values():
                    stretch.take(each.places, each.pose, n)
    return len(columns.strip.pose) - count


class _Room:
    """Where the smallest die left of a family may lie in one of its poses.

    Where that has no room, at first or as pieces are set in, larger sizes have none, and most openings hold
    nothing: so places of those are looked for only near these (four fifths of the time of filling are saved,
    measured on 5,760 pieces).
    """

    def __init__(self, stretch: _Stretch, pose: int) -> None:
        self.pose = pose
        self.places = stretch.places(pose)
        self._cells = cells_left(self.places)

    def any(self) -> bool:
        """Whether there is room still."""
        return bool(self.cells.size)

    @property
    def cells(self) -> Ints:
        """The cells (k, 2: row, column) that are left."""
        self._cells = self._cells[self.places[self._cells[:, 0], self._cells[:, 1]] > 0]
        return self._cells


def _rooms_of_families(stretch: _Stretch, dies: list[int]) -> dict[tuple[int, int], _Room]:
    """Return the room of the smallest die left of each family with several left, by family and pose."""
    columns = stretch.columns
    by_family: dict[int, list[int]] = {}
    for d in dies:
        if columns.left[d] > 0:
            by_family.setdefault(columns.place_of[d][0], []).append(d)
    rooms = {}
    for family, sizes in by_family.items():
        if len(sizes) > 1:
            stretch.forget()
            smallest = min(sizes, key=lambda d: columns.dies[d].area_mm2)
            for k, p in enumerate(columns.choices_of(columns.pose_of[smallest, 0])):
                rooms[family, k] = _Room(stretch, p)
    return rooms


class _Stretch:
    """A stretch of the strip, from ``low_mm`` to ``high_mm`` along the roll, in cells of ``h_mm``."""

    def __init__(self, columns: Columns, low_mm: float, high_mm: float) -> None:
        self.columns, self.low_mm, self.high_mm = columns, low_mm, high_mm
        self.h_mm = 2.0 * columns.cell_mm
        self._turned = _half_turns(columns)
        self._rasters: dict[tuple[int, int], tuple[NDArray[np.float32], Array, float]] = {}

    def forget(self) -> None:
        """Let go of the rasters: no other die asks for them, and on 400 pieces of 80 poses all would take
        300 MB."""
        self._rasters.clear()

    def least(self, p: int) -> tuple[float, float]:
        """Return the place of a pose's cell (0, 0)."""
        low = self.columns.contacts.low[p]
        return self.low_mm - low[0], self.columns.across[0] - low[1]

    def places(self, p: int, near: _Room | None = None) -> Places:
        """Return where a piece in pose p may lie, only ``near`` the room of a smaller one if given; no cells
        where it is too large."""
        columns, h = self.columns, self.h_mm
        low, high = columns.contacts.low, columns.contacts.high
        x0, y0 = self.least(p)
        if self.high_mm - high[p, 0] < x0 or columns.across[1] - high[p, 1] < y0:
            return np.zeros((0, 0), np.uint8)
        nx = int((self.high_mm - high[p, 0] - x0) / h) + 1
        ny = int((columns.across[1] - high[p, 1] - y0) / h) + 1
        strip = columns.strip
        pose, at = strip.pose, strip.at_mm
        meets = at[:, 0] + high[pose, 0] > self.low_mm - columns.gap_mm - h
        if near is None:
            places = np.ones((ny, nx), np.uint8)
        else:
            places = self._about(near, p, (ny, nx))
            margin = columns.gap_mm + 2.0 * h
            first = (at + low[pose] - high[p] - margin - (x0, y0)) / h
            last = (at + high[pose] - low[p] + margin - (x0, y0)) / h
            meets &= _any_within(places, first[:, ::-1], last[:, ::-1])
        for n in np.flatnonzero(meets).tolist():
            self.take(places, p, n)
        return places

    def _about(self, near: _Room, p: int, shape: tuple[int, int]) -> Places:
        """The cells of pose p whose places lie within ABOUT cells of those of a smaller piece."""
        x0, y0 = self.least(p)
        at_x0, at_y0 = self.least(near.pose)
        cells = near.cells + np.round([(at_y0 - y0) / self.h_mm, (at_x0 - x0) / self.h_mm]).astype(np.int64)
        inside = ((cells >= -ABOUT) & (cells < np.array(shape) + ABOUT)).all(axis=1)
        frame = 2 * ABOUT  # so that no cell about one inside lies outside of it
        places = np.zeros((shape[0] + 2 * frame, shape[1] + 2 * frame), np.uint8)
        at = (cells[inside] + frame) @ (places.shape[1], 1)
        flat = places.reshape(-1)
        for down in range(-ABOUT, ABOUT + 1):
            for aside in range(-ABOUT, ABOUT + 1):
                flat[at + (down * places.shape[1] + aside)] = 1
        return np.ascontiguousarray(places[frame : frame + shape[0], frame : frame + shape[1]])

    def take(self, places: Places, p: int, n: int) -> None:
        """Take from the places of pose p those too near to the strip's piece n."""
        q, (x, y) = int(self.columns.strip.pose[n]), self.columns.strip.at_mm[n].tolist()
        cells, box, sign = self._raster(q, p)
        stamp(places, *self.least(p), x, y, cells, box, sign, self.h_mm)

    def _raster(self, q: int, p: int) -> tuple[NDArray[np.float32], Array, float]:
        """Depth of pose p seen from pose q, and +1, or -1 when it is asked for at minus the offset."""
        hit = self._rasters.get((q, p))
        if hit is None:
            rings = self.columns.contacts.rings
            cells, x0, y0 = depth_raster(rings[q], rings[p], self.h_mm, self.columns.gap_mm, False)
            box = np.array([x0, y0, cells.shape[1], cells.shape[0]], dtype=np.float64)
            hit = (cells.ravel(), box, 1.0)
            self._rasters[q, p] = hit
            if q in self._turned and p in self._turned:
                self._rasters[self._turned[q], self._turned[p]] = (hit[0], box, -1.0)
        return hit


def _any_within(places: Places, first: Array, last: Array) -> NDArray[np.bool_]:
    """Whether any place lies in each box of cells from ``first`` to ``last`` (k, 2: row, column), or in a
    block of BLOCK cells that it meets."""
    shape = (np.array(places.shape) - 1) // BLOCK + 1
    rows, columns = (cells_left(places) // BLOCK).T
    sums = np.zeros(shape + 1, np.int64)
    np.add.at(sums, (rows + 1, columns + 1), 1)
    sums = sums.cumsum(axis=0).cumsum(axis=1)
    a = np.clip(np.floor(first / BLOCK).astype(np.int64), 0, shape)
    b = np.clip(np.floor(last / BLOCK).astype(np.int64) + 1, 0, shape)
    b = np.maximum(a, b)
    return (
        sums[b[:, 0], b[:, 1]] - sums[a[:, 0], b[:, 1]] - sums[b[:, 0], a[:, 1]] + sums[a[:, 0], a[:, 1]]
    ) > 0


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


def _fill_pose(stretch: _Stretch, d: int, p: int, room: _Room | None, *, leftmost: bool) -> None:
    """Set pieces of a die in this pose into the stretch, as long as there are any and they have room."""
    columns = stretch.columns
    places = stretch.places(p, room)
    cells = cells_left(places if not leftmost else places[:0])
    x0, y0 = stretch.least(p)
    while places.size and columns.left[d] > 0 and not columns.stop():
        if leftmost:
            i = int(np.argmax(places.any(axis=0)))
            if not places[:, i].any():
                return
            j = int(np.argmax(places[:, i]))
        else:
            j, i, _ = closest_spot(places, cells, 2)
            if j < 0:
                return
        x, y = x0 + i * stretch.h_mm, y0 + j * stretch.h_mm
        if not _clear(columns, p, x, y):
            places[j, i] = 0
            continue
        columns.strip.add(np.array([p]), np.array([[x, y]]))
        columns.left[d] -= 1
        stretch.take(places, p, len(columns.strip.pose) - 1)
