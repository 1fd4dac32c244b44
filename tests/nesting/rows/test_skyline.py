"""How far pieces reach in each row of a strip."""

from __future__ import annotations

import numpy as np
import pytest

from nesting.rows.skyline import ROW_MM, row_reach

LEFT, RIGHT = np.array([-3.0, -5.0, -1.0, -2.0, -2.0]), np.array([4.0, 2.0, 3.0, 6.0, 1.0])
START, LOWEST = np.array([0, 3, 5]), np.array([-2.5, -1.0])


def plain_row_reach(pose: np.ndarray, at: np.ndarray, bottom: float, rows: int) -> tuple[list, list]:
    """Row by row: every row of a piece lies in the row where it begins and in the one above."""
    least, most = [np.inf] * rows, [-np.inf] * rows
    for row in range(rows):
        for p, (x, y) in zip(pose.tolist(), at.tolist(), strict=True):
            first = int((y + LOWEST[p] - bottom) // ROW_MM)
            for k in range(START[p], START[p + 1]):
                if row - (first + k - START[p]) in (0, 1):
                    least[row], most[row] = min(least[row], x + LEFT[k]), max(most[row], x + RIGHT[k])
    return least, most


@pytest.mark.parametrize("seed", range(6))
def test_rows_reach_as_far_as_the_pieces_in_them(seed: int) -> None:
    rng = np.random.default_rng(seed)
    pose, at = rng.integers(0, 2, 6), rng.uniform((0, -4), (50, 44), (6, 2))
    least, most = np.full(20, np.inf), np.full(20, -np.inf)
    row_reach(pose, at, -1.0, LOWEST, START, LEFT, RIGHT, least, most)
    plain = plain_row_reach(pose, at, -1.0, 20)
    assert least.tolist() == plain[0] and most.tolist() == plain[1]
