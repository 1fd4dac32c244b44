"""Where a piece fits others so that they fill their common hull best.

The offsets at which it touches them are read off rasters. The hull of pieces set together is read off how far
each reaches in every one of a fixed number of directions: so thousands of offsets are judged at once without
building a polygon. The gap is kept on the true outlines.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.contact.penetration import depth_raster
from nesting.contact.touch import clearance, convolution
from nesting.dies.die import Die
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Raster = tuple[NDArray[np.float32], float, float]

DIRECTIONS = 120
"""Directions in which a reach is taken, those along and across the roll among them: the hull read off them is
right of a rectangle as it lies, too large by 0.02 % of a circle, by up to 2 % of what is sharp."""

ROUGH_CELLS, FINE_CELLS, MOST_CELLS = 8, 24, 400
"""Cells of a raster along the narrowest die, to see what fits what and to set it together, and at most along
the longest, ..."""

ROUGH_MM, FINE_MM = 3.0, 1.0
"""... which are no larger than this. What a fine cell leaves between two pieces the squeeze closes."""

TRIES = 400
"""Offsets, the best first, that are judged on the true outlines: between cells a raster is a little off."""

PLACES, APART_MM = 8, 1.5
"""Places in which a second piece is tried, at least so far from each other."""

_STEP = 2.0 * np.pi / DIRECTIONS
_WAYS = np.stack([np.cos(np.arange(DIRECTIONS) * _STEP), np.sin(np.arange(DIRECTIONS) * _STEP)], axis=1)


@dataclass(frozen=True)
class Pose:
    """A die in one of its poses."""

    die: int
    pose: int


@dataclass(frozen=True, eq=False)
class Fitted:
    """Pieces set together: ``poses[k]`` about the centre of its box at ``at_mm[k]`` (n, 2)."""

    poses: tuple[Pose, ...]
    at_mm: Array
    share: float
    """Their area over that of their common hull."""


def cells_mm(dies: Sequence[Die]) -> tuple[float, float]:
    """Return the cells of a rough and of a fine raster for these dies."""
    narrowest = min(min(die.size_mm) for die in dies)
    least = max(max(die.size_mm) for die in dies) / MOST_CELLS
    rough = min(ROUGH_MM, max(narrowest / ROUGH_CELLS, least))
    return rough, min(FINE_MM, max(narrowest / FINE_CELLS, least))


class Fitting:
    """Sets pieces of ``dies`` together, at least ``gap_mm`` apart, at offsets ``cell_mm`` from each other."""

    def __init__(self, dies: Sequence[Die], gap_mm: float, cell_mm: float) -> None:
        self._dies = dies
        self._gap_mm = gap_mm + SPARE_MM
        self._cell_mm = cell_mm
        self._rasters: dict[tuple[Pose, Pose], Raster] = {}
        self._segments: dict[tuple[Pose, Pose], Array] = {}
        self._reaches: dict[Pose, Array] = {}

    def alone(self, pose: Pose) -> Fitted:
        """Return a piece by itself."""
        share = self._dies[pose.die].area_mm2 / float(hull_mm2(self._reach(pose)))
        return Fitted((pose,), np.zeros((1, 2)), share)

    def together(self, poses: Sequence[Pose], enough: float = 0.0) -> Fitted | None:
        """Return the pieces set together one after the other; None when one finds no place.

        Two pieces as close as can be may leave a third no room: what fills its hull less than ``enough`` is
        tried with the second touching the first elsewhere, and the fullest is returned.
        """
        fullest: Fitted | None = None
        for pair in self._joined(self.alone(poses[0]), poses[1]):
            fitted: Fitted | None = pair
            for pose in poses[2:]:
                fitted = None if fitted is None else self.joined_by(fitted, pose)
            if fitted is not None and (fullest is None or fitted.share > fullest.share):
                fullest = fitted
            if fullest is not None and fullest.share >= enough:
                break
        return fullest

    def joined_by(self, fitted: Fitted, pose: Pose) -> Fitted | None:
        """Return the pieces and one more where their common hull is least; None when it finds no place."""
        return next(self._joined(fitted, pose), None)

    def _joined(self, fitted: Fitted, pose: Pose) -> Iterator[Fitted]:
        """Yield the pieces and one more in a few places, where their common hull is least first."""
        offsets = self._places(fitted, pose)
        if not len(offsets):
            return
        reach = np.max(
            [self._reach(p) + at @ _WAYS.T for p, at in zip(fitted.poses, fitted.at_mm, strict=True)], axis=0
        )
        hulls = hull_mm2(np.maximum(reach, self._reach(pose) + offsets @ _WAYS.T))
        poses = (*fitted.poses, pose)
        area = sum(self._dies[p.die].area_mm2 for p in poses)
        chosen: list[Array] = []
        for k in np.argsort(hulls, kind="stable")[:TRIES].tolist():
            apart = all(np.hypot(*(offsets[k] - other)) > APART_MM for other in chosen)
            if apart and self._keeps_gap(fitted, pose, offsets[k]):
                yield Fitted(poses, np.vstack([fitted.at_mm, offsets[k]]), area / float(hulls[k]))
                chosen.append(offsets[k])
                if len(chosen) == PLACES:
                    return

    def _keeps_gap(self, fitted: Fitted, pose: Pose, offset: Array) -> bool:
        """Return whether the piece keeps the gap from each of those fitted, on the true outlines."""
        for p, at in zip(fitted.poses, fitted.at_mm, strict=True):
            if (p, pose) not in self._segments:
                self._segments[p, pose] = convolution(self._ring(p), self._ring(pose))
            x, y = (offset - at).tolist()
            if clearance(self._segments[p, pose], x, y) < self._gap_mm - SPARE_MM / 2.0:
                return False
        return True

    def _places(self, fitted: Fitted, pose: Pose) -> Array:
        """Return the offsets (n, 2) at which the piece touches one of those fitted and overlaps none."""
        near = [self._rim(p, pose) + at for p, at in zip(fitted.poses, fitted.at_mm, strict=True)]
        offsets = np.concatenate(near)
        free = np.ones(len(offsets), dtype=np.bool_)
        for p, at in zip(fitted.poses, fitted.at_mm, strict=True):
            free &= self._clear(p, pose, offsets - at)
        return offsets[free]

    def _rim(self, a: Pose, b: Pose) -> Array:
        """Return the cells (n, 2) about a pair's forbidden offsets that are free themselves."""
        raster, x0, y0 = self._raster(a, b)
        free = raster <= 0.0
        beside = np.zeros_like(free)
        beside[1:] |= ~free[:-1]
        beside[:-1] |= ~free[1:]
        beside[:, 1:] |= ~free[:, :-1]
        beside[:, :-1] |= ~free[:, 1:]
        j, i = np.nonzero(free & beside)
        return np.stack([x0 + i * self._cell_mm, y0 + j * self._cell_mm], axis=1)

    def _clear(self, a: Pose, b: Pose, offsets: Array) -> NDArray[np.bool_]:
        """Return whether b keeps the gap from a at each offset, read between the cells about it."""
        raster, x0, y0 = self._raster(a, b)
        at = (offsets - (x0, y0)) / self._cell_mm
        low = np.floor(at + 1e-9).astype(np.int64)
        top = np.array([raster.shape[1] - 2, raster.shape[0] - 2])
        outside = ((low < 0) | (low > top)).any(axis=1)
        i, j = np.clip(low, 0, top).T
        part_x, part_y = np.clip(at - np.stack([i, j], axis=1), 0.0, 1.0).T
        bottom = raster[j, i] * (1.0 - part_x) + raster[j, i + 1] * part_x
        upper = raster[j + 1, i] * (1.0 - part_x) + raster[j + 1, i + 1] * part_x
        clear: NDArray[np.bool_] = outside | (bottom * (1.0 - part_y) + upper * part_y <= 1e-6)
        return clear

    def _raster(self, a: Pose, b: Pose) -> Raster:
        if (a, b) not in self._rasters:
            self._rasters[a, b] = depth_raster(
                self._ring(a), self._ring(b), self._cell_mm, self._gap_mm, False
            )
        return self._rasters[a, b]

    def _reach(self, pose: Pose) -> Array:
        if pose not in self._reaches:
            self._reaches[pose] = (self._ring(pose) @ _WAYS.T).max(axis=0)
        return self._reaches[pose]

    def _ring(self, pose: Pose) -> Array:
        return self._dies[pose.die].rings_mm[pose.pose]


def hull_mm2(reach: Array) -> Array:
    """Return the area (...) of what reaches so far (..., DIRECTIONS): of the polygon about it with a side
    square to each direction (area of a polygon by its support numbers: any book on convex bodies)."""
    side = np.roll(reach, 1, axis=-1) + np.roll(reach, -1, axis=-1) - 2.0 * reach * np.cos(_STEP)
    area: Array = 0.5 * (reach * side).sum(axis=-1) / np.sin(_STEP)
    return area
