"""A stretch of the backing changed by hand: an exception that is shown, checked and taken back."""

import numpy as np
import pytest

from geometry.backing.derive import derive_backing
from geometry.mirror import mirrored_piece, mirrored_shaping
from geometry.piece import Keep, Shaping, SplitLine
from tests.geometry.small_pieces import RULES, codes, rectangle, upper

PIECE = upper(rectangle(100, 60), [4] * 4)


def changed(*points):
    line = np.array(points, dtype=float)
    return derive_backing(PIECE, RULES, shaping=Shaping(changes=(line,)))


def test_a_stretch_drawn_inwards_takes_material_off_and_breaks_nothing():
    backing = changed((30, 4), (50, 14), (70, 4))
    assert backing.area_mm2 == pytest.approx(92 * 52 - 40 * 10 / 2)
    assert codes(backing.findings) == {"CHANGED_BY_HAND"}
    assert len(backing.changes) == 1


def test_a_stretch_drawn_outwards_tells_what_is_left_of_the_setback():
    backing = changed((30, 4), (50, 1), (70, 4))
    assert backing.area_mm2 == pytest.approx(92 * 52 + 40 * 3 / 2)
    told = next(f for f in backing.findings if f.code == "CHANGE_TOO_NEAR")
    assert "1.0 mm from" in told.message and "4.0 mm" in told.message
    assert told.where_mm[0] == pytest.approx((50, 1))


def test_the_ends_go_to_the_outline_however_roughly_they_were_drawn():
    exact, rough = changed((30, 4), (50, 14), (70, 4)), changed((30, 3), (50, 14), (70, 5.5))
    assert rough.area_mm2 == pytest.approx(exact.area_mm2, abs=0.01)


def test_the_direction_it_was_drawn_in_does_not_matter():
    there, back = changed((30, 4), (50, 14), (70, 4)), changed((70, 4), (50, 14), (30, 4))
    assert there.area_mm2 == pytest.approx(back.area_mm2)


def test_a_corner_can_be_cut_off():
    backing = changed((80, 4), (96, 24))
    assert backing.area_mm2 == pytest.approx(92 * 52 - 16 * 20 / 2)


def test_a_line_that_leaves_no_outline_is_left_out_and_told_of():
    backing = changed((30, 4), (30, 4))
    assert "CHANGE_LEFT_OUT" in codes(backing.findings)
    assert backing.area_mm2 == pytest.approx(92 * 52)


def test_it_is_mirrored_with_its_piece():
    shaping = Shaping(changes=(np.array([(30.0, 4.0), (50.0, 14.0), (75.0, 4.0)]),))
    left = derive_backing(PIECE, RULES, shaping=shaping).outlines[0]
    right = derive_backing(mirrored_piece(PIECE), RULES, shaping=mirrored_shaping(shaping)).outlines[0]
    assert left.mirrored().polygon.symmetric_difference(right.polygon).area < 1e-4


def test_it_comes_after_cuts_and_before_splits():
    cut = Keep(np.array([(60.0, 0.0), (60.0, 60.0)]), False, (20.0, 30.0))
    change = np.array([(60.0, 20.0), (50.0, 30.0), (60.0, 40.0)])
    halves = SplitLine(np.array([(0.0, 30.0), (100.0, 30.0)]), ("above", "below"))
    backing = derive_backing(PIECE, RULES, shaping=Shaping((cut,), (change,), (halves,)))
    assert [o.area_mm2 for o in backing.outlines] == pytest.approx([56 * 26 - 50, 56 * 26 - 50])
