"""A traced outline is corrected where it is drawn to, and nowhere else."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.errors import OutlineError
from geometry.outline import Outline
from geometry.piece import DrawnPiece
from geometry.trace.correct import REACH_MM, drawn_to, outline_near


def card(points, holes=()):
    return DrawnPiece(name="card 1", outline=Outline.make(points, holes))


SQUARE = card([(0, 0), (100, 0), (100, 60), (0, 60)])
TURN = np.linspace(0, 2 * math.pi, 240, endpoint=False)
DISC = card(np.column_stack([60 * np.cos(TURN), 40 * np.sin(TURN)]))


@settings(max_examples=40, deadline=None)
@given(st.floats(0, 2 * math.pi), st.floats(-3, 3))
def test_the_outline_passes_where_it_was_drawn_to_and_stays_beyond_the_reach(angle, out):
    x, y = 60 * math.cos(angle), 40 * math.sin(angle)
    fx, fy, _ = outline_near(DISC, (x, y))
    length = math.hypot(fx / 3600, fy / 1600)
    to = (fx + out * fx / 3600 / length, fy + out * fy / 1600 / length)
    bent = drawn_to(DISC, (x, y), to)
    assert outline_near(bent, to)[2] < 0.5  # a vertex near by is the one that is taken
    changed = bent.outline.polygon.symmetric_difference(DISC.outline.polygon)
    far = changed.difference(shapely.Point(x, y).buffer(REACH_MM + 4.0))
    assert far.area < 0.01


def test_a_corner_goes_where_it_is_drawn_and_its_sides_stay_straight_beyond():
    bent = drawn_to(SQUARE, (100.1, 60.1), (102.0, 61.0))
    vertices = [tuple(v) for v in bent.outline.ring_mm.tolist()]
    assert (102.0, 61.0) in vertices and (0.0, 0.0) in vertices
    assert outline_near(bent, (80.0, 60.0))[2] == pytest.approx(0.0, abs=1e-9)


def test_one_point_alone_moves_where_the_reach_is_nothing():
    bent = drawn_to(SQUARE, (50.0, 0.0), (50.0, -2.0), 0.0)
    assert bent.outline.area_mm2 == pytest.approx(100 * 60 + 100.0)
    assert len(bent.outline.ring_mm) == 5


def test_a_hole_is_corrected_too_and_may_not_leave_the_card():
    hole = [(45, 25), (45, 35), (55, 35), (55, 25)]
    piece = card([(0, 0), (100, 0), (100, 60), (0, 60)], [hole])
    bent = drawn_to(piece, (45, 25), (43, 24), 0.0)
    assert bent.outline.area_mm2 < piece.outline.area_mm2
    with pytest.raises(OutlineError):
        drawn_to(piece, (45, 25), (-10, 20), 0.0)


def test_an_outline_drawn_across_itself_is_refused():
    with pytest.raises(OutlineError):
        drawn_to(SQUARE, (50.0, 0.0), (50.0, 80.0))
