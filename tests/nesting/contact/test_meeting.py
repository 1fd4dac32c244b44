"""What is said not to meet shares nothing; what shares something is never said not to meet."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import Polygon

from nesting.contact.meeting import may_meet

FORK = np.array([(0, 0), (30, 0), (30, 25), (20, 25), (20, 10), (10, 10), (10, 25), (0, 25)], float)
WEDGE = np.array([(-4, -3), (5, -2), (3, 6)], float)
PEG = np.array([(-3, -3), (3, -3), (3, 3), (-3, 3)], float)


def plain_may_meet(a: np.ndarray, b: np.ndarray, q: tuple[float, float]) -> float:
    """What the two pieces share as they lie, in square millimetres."""
    return float(Polygon(a).intersection(translate(Polygon(b), *q)).area)


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from([FORK, WEDGE, PEG]),
    st.sampled_from([FORK, WEDGE, PEG, -FORK]),
    st.tuples(st.floats(-60, 60), st.floats(-60, 60)),
)
def test_pieces_that_share_cloth_may_meet_and_those_clearly_apart_do_not(
    a: np.ndarray, b: np.ndarray, q: tuple[float, float]
) -> None:
    if plain_may_meet(a, b, q) > 0.0:
        assert may_meet(a, b, *q)
    elif Polygon(a).distance(translate(Polygon(b), *q)) > 1e-3:
        assert not may_meet(a, b, *q)


@pytest.mark.parametrize("scale", [1.0, 0.1])
def test_a_piece_within_another_meets_it_though_no_edges_cross(scale: float) -> None:
    assert may_meet(FORK, scale * PEG, 5.0, 5.0)
    assert may_meet(scale * PEG, FORK, -5.0, -5.0)


def test_a_piece_in_the_mouth_of_another_does_not_meet_it() -> None:
    assert not may_meet(FORK, PEG, 15.0, 18.0)
    assert not may_meet(PEG, FORK, -15.0, -18.0)


@pytest.mark.parametrize("q", [(33.0, 5.0), (15.0, 13.0), (13.0, 18.0)])
def test_pieces_that_touch_are_left_in_doubt(q: tuple[float, float]) -> None:
    assert plain_may_meet(FORK, PEG, q) == 0.0
    assert may_meet(FORK, PEG, *q)
