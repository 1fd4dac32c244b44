"""The pairs a squeeze looks at are all there are within reach, copies along the periods too."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.compaction.slp import near_pairs

LOW = np.array([(-10.0, -4.0), (-3.0, -7.0)])
HIGH = np.array([(8.0, 6.0), (5.0, 9.0)])
BASES = [np.zeros((0, 2)), np.array([(37.0, 0.0)]), np.array([(31.0, 4.0), (-9.0, 26.0)])]


def plain_near_pairs(
    pose: np.ndarray, at: np.ndarray, basis: np.ndarray, reach: float
) -> set[tuple[int, ...]]:
    """Every pair and every copy up to six periods away, by its boxes."""
    found = set()
    most = (6 if len(basis) else 0, 6 if len(basis) == 2 else 0)
    for i in range(len(pose)):
        for j in range(i, len(pose)):
            for m in range(-most[0], most[0] + 1):
                for n in range(-most[1], most[1] + 1):
                    if i == j and (m, n) <= (0, 0):
                        continue
                    offset = at[j] - at[i] + np.array([m, n][: len(basis)], float) @ basis
                    low, high = LOW[pose[j]] + offset - reach, HIGH[pose[j]] + offset + reach
                    if (low <= HIGH[pose[i]]).all() and (high >= LOW[pose[i]]).all():
                        found.add((i, j, m, n))
    return found


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from([0, 1, 2]), st.floats(0.0, 12.0))
def test_each_near_pair_once(seed: int, periods: int, reach: float) -> None:
    rng = np.random.default_rng(seed)
    pose, at = rng.integers(0, 2, 9), rng.uniform(0, 45, (9, 2))
    basis = BASES[periods]
    idx, off = near_pairs(pose, at, basis, LOW, HIGH, reach)
    told = [tuple(row) for row in idx.tolist()]
    assert len(told) == len(set(told))
    assert set(told) == plain_near_pairs(pose, at, basis, reach)
    for (i, j, m, n), offset in zip(told, off, strict=True):
        moved = np.array([m, n][:periods], float) @ basis
        assert np.allclose(offset, at[j] - at[i] + moved)
