"""Pieces pulled apart on sampled depths, against depths added up pair by pair."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.compaction.separation import Effort, Pieces, Walls, separate
from nesting.contact.penetration import DepthTable, depth_at, depth_table

BAR = np.array([(-25, -8), (25, -8), (25, 8), (-25, 8)], float)
WEDGE = np.array([(-14, -10), (16, -8), (6, 18)], float)
RINGS = [BAR, WEDGE, -WEDGE]
TABLE = depth_table(RINGS, 1.0, 2.0)
LENGTH, WIDTH = 220.0, 90.0
ROOM = np.array(
    [
        [-r[:, 0].min(), r[:, 0].max(), -r[:, 1].min(), WIDTH - r[:, 1].max(), 0, np.ptp(r[:, 1])]
        for r in RINGS
    ]
)


def plain_depth(a: int, b: int, offset: np.ndarray, period: float, table: DepthTable = TABLE) -> float:
    """Depth of pose b at an offset from pose a, and of its copies along the roll."""
    raster = table.pair[a, b]
    sign = -1.0 if table.flip[a, b] else 1.0
    copies = range(-3, 4) if period else (0,)
    return sum(
        depth_at(
            table.cells,
            table.start[raster],
            table.box[raster],
            table.h_mm,
            sign * (offset[0] + k * period),
            sign * offset[1],
        )[0]
        for k in copies
    )


def plain_separate(pieces: Pieces, period: float) -> float:
    """What it has to bring down: the greatest depth of a pair of which one may move."""
    n = len(pieces.pose)
    return max(
        plain_depth(int(pieces.pose[i]), int(pieces.pose[j]), pieces.at[j] - pieces.at[i], period)
        for i in range(n)
        for j in range(i + 1, n)
        if pieces.free[i] or pieces.free[j]
    )


def thrown(seed: int, n: int = 7) -> Pieces:
    """Pieces anywhere on the strip, the first of them held."""
    rng = np.random.default_rng(seed)
    pose = rng.integers(0, 3, n)
    low, high = ROOM[pose][:, [0, 2]], np.column_stack([LENGTH - ROOM[pose, 1], ROOM[pose, 3]])
    choices = np.array([[p, -1] if p == 0 else [1, 2] for p in pose.tolist()])
    free = np.arange(n) > 0
    weight = rng.uniform(1.0, 3.0, (n, n))
    return Pieces(rng.uniform(low, high), pose, choices, free, weight + weight.T)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from([0.0, LENGTH]))
def test_what_is_left_is_told_and_never_worse_and_what_holds_held(seed: int, period: float) -> None:
    pieces = thrown(seed)
    before = Pieces(*(each.copy() for each in pieces))
    worst, used = separate(
        pieces, Walls(ROOM, period, LENGTH), Effort(40, 12, 8, 0.25, seed), TABLE, np.zeros(1, np.uint8)
    )
    assert (pieces.weight >= before.weight).all()  # what a depth counts at least
    assert (pieces.weight == pieces.weight.T).all()
    left = plain_separate(pieces, period)
    # the search leaves the state of least total depth: its own greatest is what it tells
    assert worst == pytest.approx(left, abs=1e-6) and used <= 40
    assert left <= max(0.25, 7.0 * 7.0 * plain_separate(before, period))
    assert (pieces.at[0] == before.at[0]).all() and pieces.pose[0] == before.pose[0]
    for place, pose, may in zip(pieces.at, pieces.pose, pieces.choices, strict=True):
        assert pose in may
        assert ROOM[pose, 2] - 1e-9 <= place[1] <= ROOM[pose, 3] + 1e-9
        assert period or ROOM[pose, 0] - 1e-9 <= place[0] <= LENGTH - ROOM[pose, 1] + 1e-9


def test_pieces_with_room_come_apart() -> None:
    apart = 0
    for seed in range(6):
        pieces = thrown(seed, n=5)
        separate(pieces, Walls(ROOM, 0.0, LENGTH), Effort(300, 60, 30, 0.25, 1), TABLE, np.zeros(1, np.uint8))
        apart += plain_separate(pieces, 0.0) <= 0.25
    assert apart >= 5
