"""Openings of a strip marked cell by cell, and the one most shut in."""

from __future__ import annotations

import numpy as np
import pytest

from nesting.compaction.strip import cells_left, closest_spot, stamp
from nesting.contact.penetration import depth_at, depth_raster

WEDGE = np.array([(-14, -10), (16, -8), (6, 18)], float)
STEP = 1.5


def plain_stamp(
    free: np.ndarray, origin: tuple, at: tuple, cells: np.ndarray, box: np.ndarray, f: float
) -> None:
    """Each place by itself: shut where the raster reads a depth there."""
    for j in range(free.shape[0]):
        for i in range(free.shape[1]):
            qx, qy = origin[0] + i * STEP - at[0], origin[1] + j * STEP - at[1]
            if depth_at(cells, 0, box, STEP, f * qx, f * qy)[0] > 1e-4:
                free[j, i] = 0


def plain_closest_spot(free: np.ndarray, span: int) -> int:
    """The fewest free cells about any free cell."""
    padded = np.pad(free, span)
    side = 2 * span + 1
    return min(int(padded[j : j + side, i : i + side].sum()) for j, i in np.argwhere(free))


def plain_cells_left(free: np.ndarray) -> list[list[int]]:
    """The free cells, one by one."""
    return [[j, i] for j in range(free.shape[0]) for i in range(free.shape[1]) if free[j, i]]


@pytest.mark.parametrize("share", [0.0, 0.2, 1.0])
@pytest.mark.parametrize("shape", [(0, 0), (0, 5), (7, 11)])
def test_free_cells_are_told_row_by_row(shape: tuple[int, int], share: float) -> None:
    free = (np.random.default_rng(1).uniform(size=shape) < share).astype(np.uint8)
    assert cells_left(free).tolist() == plain_cells_left(free)


@pytest.mark.parametrize("f", [1.0, -1.0])
@pytest.mark.parametrize("seed", range(5))
def test_a_piece_shuts_the_places_too_near_to_it(seed: int, f: float) -> None:
    rng = np.random.default_rng(seed)
    raster, x0, y0 = depth_raster(WEDGE, -WEDGE if seed % 2 else WEDGE, STEP, 2.0)
    cells, box = raster.ravel(), np.array([x0, y0, raster.shape[1], raster.shape[0]], float)
    origin, at = tuple(rng.uniform(-5, 5, 2)), tuple(rng.uniform(0, 60, 2))
    told, plain = np.ones((40, 44), np.uint8), np.ones((40, 44), np.uint8)
    stamp(told, *origin, *at, cells, box, f, STEP)
    plain_stamp(plain, origin, at, cells, box, f)
    assert 0 < (plain == 0).sum() < plain.size
    # a depth of nearly nothing may round either way
    assert (told != plain).sum() <= 2


@pytest.mark.parametrize("seed", range(6))
def test_the_closest_spot_has_fewest_free_about_it(seed: int) -> None:
    free = (np.random.default_rng(seed).uniform(size=(18, 25)) < 0.4).astype(np.uint8)
    cells = np.argwhere(np.ones_like(free))
    row, column, score = closest_spot(free, cells, 2)
    assert free[row, column] and score == plain_closest_spot(free, 2)
    upper = cells[cells[:, 0] < 9]  # only these are asked about, all are counted
    assert closest_spot(free, upper, 2)[0] < 9 and closest_spot(free, upper, 2)[2] >= score


def test_where_nothing_is_free_there_is_no_spot() -> None:
    assert closest_spot(np.zeros((4, 4), np.uint8), np.array([[1, 2]]), 1)[:2] == (-1, -1)
