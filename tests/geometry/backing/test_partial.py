"""A partial backing stays inside its region or on its side of the cut line."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.backing.derive import derive_backing
from geometry.errors import BackingError
from geometry.piece import Keep, Shaping
from tests.geometry.small_pieces import RULES, codes, rectangle, upper

PIECE = upper(rectangle(100, 60), [4] * 4)


def keep(points, closed=False, side=None) -> Keep:
    return Keep(np.array(points, dtype=float), closed, side)


def test_a_cut_line_keeps_the_side_that_was_clicked():
    left = derive_backing(PIECE, RULES, shaping=Shaping(keeps=(keep([(70, 10), (70, 50)], side=(20, 30)),)))
    right = derive_backing(PIECE, RULES, shaping=Shaping(keeps=(keep([(70, 10), (70, 50)], side=(90, 30)),)))
    assert left.area_mm2 == pytest.approx(66 * 52)
    assert right.area_mm2 == pytest.approx(26 * 52)


def test_a_bent_cut_line_runs_on_straight_past_its_ends():
    backing = derive_backing(
        PIECE, RULES, shaping=Shaping(keeps=(keep([(40, 30), (60, 30), (60, 40)], side=(50, 50)),))
    )
    assert backing.area_mm2 == pytest.approx(56 * 26)


def test_a_region_keeps_the_backing_inside():
    backing = derive_backing(
        PIECE, RULES, shaping=Shaping(keeps=(keep([(50, -5), (110, -5), (110, 20), (50, 20)], closed=True),))
    )
    assert backing.area_mm2 == pytest.approx(46 * 16)


def test_a_region_round_a_hole_keeps_the_hole_and_its_setback():
    piece = upper(rectangle(100, 60), [4] * 4, holes=[np.add(rectangle(10, 10), (45, 25))], hole_setbacks=[2])
    backing = derive_backing(
        piece, RULES, shaping=Shaping(keeps=(keep([(30, 15), (70, 15), (70, 45), (30, 45)], closed=True),))
    )
    assert len(backing.outlines) == 1
    assert 40 * 30 - backing.area_mm2 == pytest.approx(14 * 14, abs=1e-6)


def test_a_region_beside_the_backing_leaves_nothing_and_says_so():
    backing = derive_backing(
        PIECE, RULES, shaping=Shaping(keeps=(keep([(0, 0), (3, 0), (3, 60), (0, 60)], closed=True),))
    )
    assert backing.outlines == ()
    assert "BACKING_VANISHED" in codes(backing.findings)


@pytest.mark.parametrize(
    ("where", "says"),
    [
        (keep([(300, 0), (300, 50)], side=(0, 0)), "misses the piece"),
        (keep([(50, 0), (50, 50)]), "side to keep"),
        (keep([(50, 0), (50, 50)], side=(50, 30)), "not clear which side"),
        (keep([(50, 0), (50, 0)], side=(0, 0)), "two points in one place"),
        (keep([(0, 10), (90, 10), (90, 50), (50, 50), (50, -20)], side=(0, 0)), "crosses itself"),
        (keep([(0, 0), (1, 1)], closed=True), "not a closed outline"),
        (keep([(200, 0), (220, 0), (220, 20)], closed=True), "off the piece"),
    ],
)
def test_a_line_or_region_that_makes_no_sense_is_refused(where, says):
    with pytest.raises(BackingError, match=says) as caught:
        derive_backing(PIECE, RULES, shaping=Shaping(keeps=(where,)))
    assert caught.value.piece == "piece"
    assert caught.value.remedy


def test_a_region_can_be_what_is_left_free():
    free = Keep(
        np.array([(50.0, -5.0), (110.0, -5.0), (110.0, 20.0), (50.0, 20.0)]), True, None, inside=False
    )
    backing = derive_backing(PIECE, RULES, shaping=Shaping(keeps=(free,)))
    assert backing.area_mm2 == pytest.approx(92 * 52 - 46 * 16)


def test_a_layer_may_end_at_several_lines():
    ends = (keep([(70, 10), (70, 50)], side=(20, 30)), keep([(10, 30), (50, 30)], side=(20, 50)))
    backing = derive_backing(PIECE, RULES, shaping=Shaping(keeps=ends))
    assert backing.area_mm2 == pytest.approx(66 * 26)


@given(x=st.floats(15, 85), y=st.floats(15, 45), angle=st.floats(0, 3.14), off=st.floats(2, 10))
def test_a_cut_keeps_the_side_that_was_clicked_and_both_sides_make_the_whole(x, y, angle, off):
    way = np.array([np.cos(angle), np.sin(angle)])
    square = np.array([-way[1], way[0]])
    line = [np.array([x, y]) - 5 * way, np.array([x, y]) + 5 * way]
    sides = [tuple(np.array([x, y]) + s * off * square) for s in (1, -1)]
    halves = [derive_backing(PIECE, RULES, shaping=Shaping(keeps=(keep(line, side=side),))) for side in sides]
    for half, s in zip(halves, (1, -1), strict=True):
        for outline in half.outlines:
            assert (((outline.ring_mm - (x, y)) @ square) * s > -1e-6).all()
    assert sum(half.area_mm2 for half in halves) == pytest.approx(92 * 52, abs=2.0)  # slivers are cut off
