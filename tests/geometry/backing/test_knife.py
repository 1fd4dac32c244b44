"""What a knife cannot cut is taken off or rounded, and nothing else changes."""

import math

import numpy as np
import pytest
from shapely.geometry import Polygon

from geometry.backing.knife import rounded, without_slivers
from tests.geometry.small_pieces import L_SHAPE, circle, rectangle


def test_a_piece_without_thin_parts_is_left_exactly_alone():
    polygon = Polygon(L_SHAPE)
    assert without_slivers([polygon], 1.0) == ([polygon], [])


def test_a_thin_tail_goes_and_the_rest_keeps_its_coordinates():
    tail = Polygon([(0, 0), (40, 0), (40, 0.8), (20, 0.8), (20, 20), (0, 20)])
    (left,), (cut,) = without_slivers([tail], 1.0)
    assert cut.area_mm2 == pytest.approx(20 * 0.8, abs=0.5)
    assert cut.at_mm[0] > 20
    assert {(0.0, 0.0), (20.0, 20.0), (0.0, 20.0)} <= set(left.exterior.coords)


def test_a_small_hair_goes_too():
    hair = Polygon([(0, 0), (20, 0), (20, 10), (26, 10), (26, 10.5), (20, 10.5), (20, 20), (0, 20)])
    (left,), (cut,) = without_slivers([hair], 1.0)
    assert cut.area_mm2 == pytest.approx(3.0, abs=0.3)
    assert left.area == pytest.approx(400.0, abs=0.3)


def test_a_piece_that_is_thin_all_over_goes_whole():
    left, cuts = without_slivers([Polygon(rectangle(50, 0.9))], 1.0)
    assert left == []
    assert cuts[0].area_mm2 == pytest.approx(45.0)


def test_a_pointed_tip_is_no_sliver():
    tip = Polygon([(0, 0), (60, 0), (60, 12)])  # 11 degrees
    assert without_slivers([tip], 1.0)[1] == []


def test_a_thin_bridge_goes_and_both_banks_stay():
    bridge = Polygon(
        [
            (0, 0),
            (20, 0),
            (20, 9.6),
            (30, 9.6),
            (30, 0),
            (50, 0),
            (50, 20),
            (30, 20),
            (30, 10.4),
            (20, 10.4),
            (20, 20),
            (0, 20),
        ]
    )
    left, cuts = without_slivers([bridge], 1.0)
    assert len(left) == 2
    assert len(cuts) == 1


def test_four_corners_of_a_rectangle_lose_what_a_quarter_round_leaves():
    (left,), cuts = rounded([Polygon(rectangle(100, 60))], 5.0, 0.05, 25.0)
    assert len(cuts) == 4
    assert 6000 - left.area == pytest.approx(4 * (1 - math.pi / 4) * 25, rel=0.02)
    corner = np.hypot(*(np.asarray(left.exterior.coords) - (5, 5)).T)
    assert corner[(np.asarray(left.exterior.coords) < 5).all(axis=1)] == pytest.approx(5, abs=0.02)


def test_rounding_never_eats_a_narrow_piece():
    """A strap 6 mm wide with a radius of 5: its corners get what there is room for."""
    (left,), cuts = rounded([Polygon(rectangle(120, 6))], 5.0, 0.05, 25.0)
    assert len(cuts) == 4
    assert left.bounds == pytest.approx((0, 0, 120, 6))


def test_rounding_leaves_holes_near_an_edge_alone():
    plate = Polygon(rectangle(100, 60), [circle(2, 24, (50, 3.5))])
    (left,), cuts = rounded([plate], 5.0, 0.05, 25.0)
    assert len(cuts) == 4
    assert len(left.interiors) == 1
