"""The no-fit region says where a piece may lie: checked against really placing it."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.outline import Outline
from nesting.contact.nofit import EXCESS_MM, nofit

radii = st.lists(st.floats(8.0, 60.0), min_size=5, max_size=14)


def star(lengths):
    """A simple outline, mostly with hollows: one radius each way."""
    angles = np.linspace(0.0, 2.0 * np.pi, len(lengths), endpoint=False)
    return Outline.make(np.column_stack([np.cos(angles), np.sin(angles)]) * np.array(lengths)[:, None])


def distances(a, b, moves):
    """The distance of ``b`` at each move from ``a``: 0 where they touch or overlap."""
    placed = np.array([shapely.transform(b.polygon, lambda xy, m=move: xy + m) for move in moves])
    return shapely.distance(a.polygon, placed)


@settings(deadline=None, max_examples=25)
@given(radii, radii, st.floats(0.0, 5.0), st.integers(0, 2**32 - 1))
def test_outside_the_region_the_gap_is_kept_and_inside_it_is_not(first, second, gap, seed):
    a, b = star(first), star(second)
    moves = np.random.default_rng(seed).uniform(-130.0, 130.0, (200, 2))
    forbidden = nofit(a, b, gap).forbids(moves)
    apart = distances(a, b, moves)
    assert (apart[~forbidden] >= gap - 1e-9).all()
    assert (apart[forbidden] <= gap + EXCESS_MM).all()


@settings(deadline=None, max_examples=25)
@given(radii, radii, st.floats(0.0, 5.0))
def test_a_move_on_its_boundary_touches_at_the_gap(first, second, gap):
    a, b = star(first), star(second)
    moves = np.concatenate([np.asarray(p.exterior.coords) for p in nofit(a, b, gap).polygons])
    apart = distances(a, b, moves)
    assert (apart >= gap - 1e-9).all()
    assert (apart <= gap + EXCESS_MM).all()


FRAME = Outline.make([(0, 0), (100, 0), (100, 100), (0, 100)], [[(30, 30), (70, 30), (70, 70), (30, 70)]])
SMALL = Outline.make([(0, 0), (20, 0), (20, 20), (0, 20)])


def test_a_hole_takes_what_fits_with_the_gap():
    (polygon,) = nofit(FRAME, SMALL, 2.0).polygons
    (hole,) = polygon.interiors
    assert hole.bounds == pytest.approx((32.0, 32.0, 48.0, 48.0), abs=EXCESS_MM)


def test_a_hole_too_small_takes_nothing():
    (polygon,) = nofit(FRAME, SMALL.turned(45.0), 10.0).polygons
    assert len(polygon.interiors) == 0


def test_holes_are_closed_when_told_so():
    (polygon,) = nofit(FRAME, SMALL, 2.0, False).polygons
    assert len(polygon.interiors) == 0


def test_a_piece_cannot_lie_around_another_it_covers():
    big = Outline.make([(0, 0), (100, 0), (100, 100), (0, 100)])
    (polygon,) = nofit(SMALL, big, 0.0).polygons
    assert len(polygon.interiors) == 0


def test_the_mouth_of_a_piece_stays_open():
    mouth = Outline.make([(0, 0), (100, 0), (100, 30), (30, 30), (30, 70), (100, 70), (100, 100), (0, 100)])
    moves = np.array([(40.0, 40.0), (40.0, 30.0), (31.9, 40.0), (32.1, 40.0)])
    assert nofit(mouth, SMALL, 2.0).forbids(moves).tolist() == [False, True, True, False]
