"""Seats for a piece more: what is near a box, and what the search for a seat may and may not do."""

from __future__ import annotations

import numpy as np
import pytest

from nesting.compaction.seats import LaidStrip, Wish, near_box, room_made
from nesting.compaction.separation import Effort
from nesting.contact.penetration import depth_table
from tests.nesting.compaction.test_separation import plain_depth

SQUARE = np.array([(-20, -20), (20, -20), (20, 20), (-20, 20)], float)
LOW, HIGH = SQUARE.min(axis=0)[None], SQUARE.max(axis=0)[None]
TABLE = depth_table([SQUARE], 1.0, 2.0)
WIDTH = 300.0


def plain_near_box(at: np.ndarray, box: tuple[float, float, float, float], but: int) -> list[int]:
    x0, x1, y0, y1 = box
    return [
        i
        for i, (x, y) in enumerate(at.tolist())
        if i != but and x + 20 >= x0 and x - 20 <= x1 and y + 20 >= y0 and y - 20 <= y1
    ]


def plain_room_made(at: np.ndarray) -> float:
    """The greatest depth of any pair of squares."""
    return max(
        plain_depth(0, 0, at[j] - at[i], 0.0, TABLE) for i in range(len(at)) for j in range(i + 1, len(at))
    )


@pytest.mark.parametrize("seed", range(4))
def test_near_a_box_are_those_whose_boxes_meet_it(seed: int) -> None:
    rng = np.random.default_rng(seed)
    at = rng.uniform(0, 400, (40, 2))
    for _ in range(20):
        x, y = np.sort(rng.uniform(0, 400, 2)), np.sort(rng.uniform(0, 400, 2))
        box, but = (x[0], x[1], y[0], y[1]), int(rng.integers(-1, 40))
        found = near_box(at, np.zeros(40, np.int64), LOW, HIGH, *box, but)
        assert found.tolist() == plain_near_box(at, box, but)


def columns(rows: int) -> np.ndarray:
    """Four columns of squares, evenly from edge to edge, and one square behind them."""
    full = [(20 + 42.01 * c, y) for c in range(4) for y in np.linspace(20, WIDTH - 20, rows)]
    return np.array([*full, (20 + 42.01 * 4, 20.0)])


def sought(at: np.ndarray, tries: int) -> tuple:
    n = len(at)
    laid = LaidStrip(at, np.zeros(n, np.int64), LOW, HIGH, np.zeros((1, 1), np.int64), (0.0, WIDTH))
    wish = Wish(np.array([n - 1]), 4.0, 120.0, 36.0, 0.7)
    failed, halt = np.zeros((60, 60)), np.zeros(1, np.uint8)
    return room_made(laid, wish, Effort(60, 6, 8, 0.25, 5), tries, failed, TABLE, halt)


def test_a_seat_found_is_one_by_every_pair_and_lies_nearer() -> None:
    at = columns(rows=5)  # 25 mm between squares of 40: room only when neighbours give way
    before = at.copy()
    who, ids, places, _, worst, _ = sought(at, 60)
    assert who == len(at) - 1 and np.array_equal(at, before)
    after = before.copy()
    after[ids], after[who] = places[:-1], places[-1]
    assert after[who, 0] <= before[who, 0] - 4.0 + 1e-9
    assert plain_room_made(after) <= 0.7 + 1e-6
    assert worst <= 0.7
    assert (after[:, 1] >= 20 - 1e-9).all() and (after[:, 1] <= WIDTH - 20 + 1e-9).all()


def test_where_there_is_no_room_no_seat_is_told() -> None:
    who, ids, _, _, _, used = sought(columns(rows=7), 12)  # 3.3 mm between squares
    assert who == -1 and len(ids) == 0 and used == 12
