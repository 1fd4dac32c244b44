"""The pairs a squeeze looks at are all there are within reach, copies along the periods too, and those that
overlap come apart."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from nesting.compaction.slp import Arrangement, Contacts, near_pairs, shortfall, tighten
from nesting.tolerances import SPARE_MM

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


STRAP = np.array([(0.0, 0.0), (60.0, 0.0), (60.0, 5.0), (0.0, 5.0)])
TIP = np.array([(0.0, 0.0), (20.0, 0.0), (10.0, 30.0)])


@pytest.mark.parametrize("across_mm", [0.5, 2.0, 4.0])
def test_a_tip_that_lies_across_a_strap_comes_out_the_way_it_came(across_mm: float) -> None:
    """Edges of the two cross beyond the strap, so that the nearest of them says nothing of the overlap."""
    contacts = Contacts([STRAP, TIP])
    offset = np.array([20.0, -30.0 + 5.0 + across_mm])
    assert contacts.overlap_mm(0, 1, offset) > 0.0
    start = Arrangement(
        pose=np.array([0, 1]),
        at_mm=np.array([(10.0, 100.0), (10.0, 100.0) + offset]),
        across_mm=(0.0, 300.0),
        along_mm=(0.0, 300.0),
    )
    done = tighten(contacts, start, 2.0 + SPARE_MM, trust_mm=1.0, steps=20)
    assert done is not None
    assert shortfall(contacts, done, 2.0) <= SPARE_MM
    tip = Polygon(TIP + done.at_mm[1])
    assert tip.bounds[3] <= done.at_mm[0, 1] - 2.0 + 1e-6, "below the strap, where the rest of it is"


def test_a_way_out_further_than_asked_for_is_none() -> None:
    contacts = Contacts([STRAP, TIP])
    deep = np.array([20.0, -10.0])
    assert contacts.way_out(0, 1, deep, 5.0) == pytest.approx(deep)
    out = contacts.way_out(0, 1, deep, 50.0)
    assert contacts.overlap_mm(0, 1, out) == pytest.approx(0.0, abs=1e-4)
    assert np.hypot(*(out - deep)) == pytest.approx(15.0, abs=0.1), "up, past the strap's upper edge"
