"""Insets whose result can be worked out by hand, and what was found in print on allowances."""

import math

import pytest

from geometry.backing.derive import derive_backing
from geometry.edge_kinds import EDGE_RULES, EdgeKind
from tests.geometry.small_pieces import L_SHAPE, RULES, circle, codes, rectangle, upper


@pytest.mark.parametrize(
    ("setbacks", "area"), [([4, 4, 4, 4], 92 * 52), ([4, 12, 4, 4], 84 * 52), ([4, -3, 4, 0], 103 * 52)]
)
def test_rectangles_of_100_by_60(setbacks, area):
    """Worked out by hand."""
    assert derive_backing(upper(rectangle(100, 60), setbacks), RULES).area_mm2 == pytest.approx(
        area, abs=1e-6
    )


def test_a_circle_of_50_set_back_by_4():
    """pi x 46^2, worked out by hand; the polygon stands within the chord error of the circle."""
    count = math.ceil(math.pi / math.acos(1 - RULES.chord_mm / 50))
    backing = derive_backing(upper(circle(50, count), [4], [0]), RULES)
    exact = math.pi * 46**2
    assert exact - 2 * math.pi * 46 * RULES.chord_mm <= backing.area_mm2 <= exact


def test_a_circle_drawn_finely_comes_to_the_exact_area():
    backing = derive_backing(upper(circle(50, 3000), [4], [0]), RULES)
    assert backing.area_mm2 == pytest.approx(6647.61, abs=0.05)


def test_an_inset_wider_than_half_the_piece_vanishes_and_is_reported():
    backing = derive_backing(upper(rectangle(100, 60), [31] * 4), RULES)
    assert "BACKING_VANISHED" in codes(backing.findings)


def test_out_and_in_again_does_not_round_a_hollow_corner():
    out = derive_backing(upper(L_SHAPE, [-4] * 6), RULES).outlines[0]
    assert len(out.ring_mm) == 6
    back = derive_backing(upper(out.ring_mm, [4] * 6), RULES).outlines[0]
    assert back.area_mm2 == pytest.approx(7500, abs=1e-4)
    assert len(back.ring_mm) == 6


def test_house_rules_agree_with_what_was_found_in_print():
    """Closed seam 1.5 mm from the edge: leathernbd, notes on closing (web, 2018), seen.
    Lapped seam 7 mm, others 8 to 10 mm: 7 seen there, 8 to 10 from memory.
    The rest of the house rules is common practice, no source."""
    assert EDGE_RULES[EdgeKind.SEAM].allowance_mm == 1.5
    assert 7.0 <= EDGE_RULES[EdgeKind.UNDERLAY].allowance_mm <= 10.0


def test_no_house_rule_ends_a_backing_where_it_shows():
    """Not on the feather line (5 to 8 mm past it) and not inside a fold: common practice, no source."""
    lasting, folded = EDGE_RULES[EdgeKind.LASTING], EDGE_RULES[EdgeKind.FOLDED]
    assert 5.0 <= lasting.allowance_mm - lasting.setback_mm <= 8.0
    assert 0.5 <= folded.setback_mm - folded.allowance_mm <= 1.0
