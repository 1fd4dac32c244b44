"""Pieces set together: as close as the gap allows, where they fill their common hull best."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.outline import Outline
from nesting.dies.die import dies_of
from nesting.free.fitting import DIRECTIONS, Fitting, Pose, cells_mm, hull_mm2
from nesting.items import Item
from nesting.problem import LayProblem
from nesting.roll import Roll
from tests.nesting.shoes import STRAP, VAMP, shoe

TRIANGLE = Outline.make([(0, 0), (90, 0), (0, 60)])


def fitting_of(*outlines: Outline, gap_mm: float = 2.0) -> tuple[Fitting, tuple]:
    items = tuple(Item(str(number), outline, 4) for number, outline in enumerate(outlines))
    dies = dies_of(LayProblem(Roll(1400.0), items, gap_mm=gap_mm))
    return Fitting(dies, gap_mm, cells_mm(dies)[1]), dies


def placed(dies, fitted) -> list[shapely.Polygon]:
    return [
        shapely.Polygon(dies[p.die].rings_mm[p.pose] + at)
        for p, at in zip(fitted.poses, fitted.at_mm, strict=True)
    ]


def test_a_triangle_and_its_half_turn_make_the_parallelogram():
    """Two halves of a parallelogram fill it: known from school, and the gap takes its part."""
    fitting, dies = fitting_of(TRIANGLE)
    pair = fitting.together((Pose(0, 0), Pose(0, 1)))
    one, other = placed(dies, pair)
    assert 2.0 <= one.distance(other) < 3.0
    grown = 90.0 * 60.0 / shapely.union(one, other).convex_hull.area
    assert 0.98 * grown <= pair.share <= grown
    assert pair.share > 0.94


def test_a_strap_goes_into_the_opening_of_a_vamp_not_beside_it():
    fitting, dies = fitting_of(VAMP, STRAP)
    alone = fitting.alone(Pose(0, 0))
    filled = fitting.joined_by(alone, Pose(1, 0))
    vamp, strap = placed(dies, filled)
    assert vamp.convex_hull.contains(strap)
    assert filled.share > alone.share


@given(st.lists(st.tuples(st.integers(0, 2), st.integers(0, 1)), min_size=2, max_size=5), st.floats(0.0, 6.0))
@settings(max_examples=30, deadline=None)
def test_whatever_is_set_together_keeps_the_gap(poses, gap_mm):
    items = shoe(2)[::2]
    fitting, dies = fitting_of(*(item.outline for item in items), gap_mm=gap_mm)
    fitted = fitting.together([Pose(die, pose % len(dies[die].rings_mm)) for die, pose in poses])
    assert fitted is not None
    pieces = placed(dies, fitted)
    for k, piece in enumerate(pieces):
        assert all(piece.distance(other) >= gap_mm - 1e-6 for other in pieces[:k])
        assert all(piece.intersection(other).area < 1e-3 for other in pieces[:k])
    hull = shapely.union_all(pieces).convex_hull.area
    share = sum(piece.area for piece in pieces) / hull
    assert 0.97 * share <= fitted.share <= share + 1e-9


def test_a_pair_makes_room_for_a_third_piece_where_that_fills_more():
    """Mouth to mouth, as close as can be, two of these are 1 mm too close for the bar between them; slid
    along their slanted tips they are not."""
    mouth = Outline.make(
        [(-40, 42), (0, 0), (110, 0), (90, 28), (20, 28), (20, 56), (110, 56), (90, 84), (0, 84)]
    )
    bar = Outline.make([(0, 0), (159, 0), (159, 14), (0, 14)])
    fitting, _ = fitting_of(mouth, bar)
    poses = (Pose(0, 0), Pose(0, 1), Pose(1, 0))
    assert fitting.together(poses, enough=1.0).share > fitting.together(poses).share + 0.05


@pytest.mark.parametrize("radius_mm", [3.0, 250.0])
def test_the_hull_of_a_disc_is_read_off_its_reach(radius_mm):
    area = float(hull_mm2(np.full(DIRECTIONS, radius_mm)))
    assert area == pytest.approx(np.pi * radius_mm**2, rel=5e-4)


def test_the_hull_of_a_rectangle_as_it_lies_is_its_area():
    corners = np.array([(0, 0), (80, 0), (80, 30), (0, 30)]) + (500.0, -200.0)
    angle = np.arange(DIRECTIONS) * 2.0 * np.pi / DIRECTIONS
    reach = (corners @ np.stack([np.cos(angle), np.sin(angle)])).max(axis=0)
    assert float(hull_mm2(reach)) == pytest.approx(2400.0, rel=1e-9)
