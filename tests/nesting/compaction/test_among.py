"""How deep a piece lies among others, against depths added up pair by pair."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import Polygon

from nesting.compaction.among import Among, among_of, move, pair_depth, weighted_depth
from nesting.compaction.separation import Pieces
from tests.nesting.compaction.test_separation import LENGTH, RINGS, ROOM, TABLE, plain_depth, thrown


def plain_pair_depth(c: int, q: np.ndarray, j: int, pieces: Pieces, period: float) -> float:
    return plain_depth(c, int(pieces.pose[j]), pieces.at[j] - q, period)


def plain_weighted_depth(i: int, c: int, q: np.ndarray, pieces: Pieces, period: float) -> float:
    """Weighted depth of piece i in pose c at q against every other."""
    return sum(
        pieces.weight[i, j] * plain_pair_depth(c, q, j, pieces, period)
        for j in range(len(pieces.pose))
        if j != i
    )


def plain_among_of(at: np.ndarray, pose: np.ndarray) -> tuple[np.ndarray, list[int]]:
    """How far each piece reaches, and the slices from the first that begins on, half the widest each."""
    reach = np.column_stack([at[:, [0]] + TABLE.reach[pose, :2], at[:, [1]] + TABLE.reach[pose, 2:]])
    half = np.ptp(TABLE.reach[:, :2], axis=1).max() / 2.0
    return reach, [int((x - reach[:, 0].min()) // half) for x in reach[:, 0]]


def plain_move(j: int, c: int, q: np.ndarray, pieces: Pieces) -> Pieces:
    at, pose = pieces.at.copy(), pieces.pose.copy()
    at[j], pose[j] = q, c
    return pieces._replace(at=at, pose=pose)


def among(pieces: Pieces) -> Among:
    return among_of(pieces.at, pieces.pose, pieces.weight, TABLE)


def in_slices(found: Among) -> dict[int, int]:
    """Each piece's slice; a piece in two of them, or in none, fails."""
    slices: dict[int, int] = {}
    for s, j in enumerate(found.head.tolist()):
        while j >= 0:
            assert j not in slices
            slices[j] = s
            j = int(found.after[j])
    assert sorted(slices) == list(range(len(found.pose)))
    return slices


@settings(max_examples=80, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from([0.0, 150.0]), st.floats(0.05, 2.0))
def test_a_piece_lies_as_deep_as_its_pairs_together_or_is_told_not_to_be_better(
    seed: int, period: float, share: float
) -> None:
    pieces = thrown(seed)
    q = pieces.at[2] + 3.0
    plain = plain_weighted_depth(2, 1, q, pieces, period)
    told = weighted_depth(2, 1, q[0], q[1], np.inf, among(pieces), period, TABLE)
    assert told == pytest.approx(plain, abs=1e-9)
    limit = share * plain + 1e-6
    told = weighted_depth(2, 1, q[0], q[1], limit, among(pieces), period, TABLE)
    assert told == pytest.approx(plain, abs=1e-9) if plain < limit else told >= limit


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), st.sampled_from([0.0, 150.0]))
def test_a_pair_is_as_deep_as_its_samples_say(seed: int, period: float) -> None:
    pieces = thrown(seed)
    q = pieces.at[2] + 3.0
    told = pair_depth(1, q[0], q[1], 4, among(pieces), period, TABLE)
    assert told == pytest.approx(plain_pair_depth(1, q, 4, pieces, period), abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000))
def test_pieces_that_move_are_found_where_they_are(seed: int) -> None:
    pieces = thrown(seed, n=20)
    found, plain = among(pieces._replace(at=pieces.at.copy(), pose=pieces.pose.copy())), pieces
    assert in_slices(found) == dict(enumerate(plain_among_of(pieces.at, pieces.pose)[1]))
    rng = np.random.default_rng(seed)
    for j in rng.integers(0, 20, 30).tolist():
        c, q = int(rng.integers(0, 3)), rng.uniform((-50.0, 0.0), (LENGTH + 80.0, 90.0))
        move(j, c, q[0], q[1], found, TABLE)
        plain = plain_move(j, c, q, plain)
    in_slices(found)
    assert found.reach == pytest.approx(plain_among_of(plain.at, plain.pose)[0])
    for x in np.linspace(-40.0, LENGTH + 60.0, 25):
        told = weighted_depth(3, 2, x, 45.0, np.inf, found, 0.0, TABLE)
        assert told == pytest.approx(plain_weighted_depth(3, 2, np.array([x, 45.0]), plain, 0.0), abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000))
def test_pieces_whose_reaches_do_not_meet_keep_the_gap(seed: int) -> None:
    pieces = thrown(seed)
    reach = among(pieces).reach
    unmet = 0
    for i, j in itertools.combinations(range(len(reach)), 2):
        a, b = reach[i], reach[j]
        if a[0] < b[1] and b[0] < a[1] and a[2] < b[3] and b[2] < a[3]:
            continue
        unmet += 1
        one, other = (translate(Polygon(RINGS[pieces.pose[k]]), *pieces.at[k]) for k in (i, j))
        assert one.distance(other) >= 2.0
    assert unmet


def test_nobody_lies_among_none() -> None:
    pieces = thrown(1)
    nobody = among_of(pieces.at[:0], pieces.pose[:0], np.ones((1, 0)), TABLE)
    assert weighted_depth(-1, 0, ROOM[0, 0], ROOM[0, 2], np.inf, nobody, 0.0, TABLE) == 0.0
