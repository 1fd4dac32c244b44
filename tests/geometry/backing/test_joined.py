"""Two pieces backed in one: no setback at the seam, every setback outside it, and a word where they part."""

from dataclasses import replace

import numpy as np
import pytest

from geometry.backing.derive import derive_backing
from geometry.piece import Shaping
from tests.geometry.small_pieces import RULES, codes, rectangle, upper

LEFT = replace(upper(rectangle(60, 50), [4] * 4), name="front")


def other(x, width=60):
    return replace(upper(np.add(rectangle(width, 50), (x, 0)), [4] * 4), name="back")


def joined(piece):
    return derive_backing(LEFT, RULES, shaping=Shaping(joined=(piece,)))


def test_pieces_drawn_edge_to_edge_are_backed_over_the_seam():
    backing = joined(other(60))
    assert len(backing.outlines) == 1
    assert backing.area_mm2 == pytest.approx((120 - 8) * (50 - 8), abs=1e-3)
    assert backing.joined == ("back",)


def test_pieces_that_overlap_by_their_underlay_are_backed_once_there():
    backing = joined(other(52))
    assert backing.area_mm2 == pytest.approx((112 - 8) * (50 - 8), abs=1e-3)


def test_a_hairs_gap_of_the_drawing_is_closed():
    backing = joined(other(60.2))
    assert len(backing.outlines) == 1
    assert backing.area_mm2 == pytest.approx((120.2 - 8) * 42, abs=0.1)


def test_pieces_that_lie_apart_are_told_of():
    backing = joined(other(70))
    assert len(backing.outlines) == 2
    assert "JOIN_APART" in codes(backing.findings)


def test_an_edge_that_is_a_seam_for_half_its_length_is_told_of():
    tall = replace(upper(np.add(rectangle(60, 90), (60, 0)), [4] * 4), name="back")
    assert "JOIN_EDGE_HALF" in codes(joined(tall).findings)
