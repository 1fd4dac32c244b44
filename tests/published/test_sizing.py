"""Sizes and grading against known figures. How sure each is stands beside it."""

from fractions import Fraction

import numpy as np
import pytest

from geometry.backing.house_rules import DraftRules
from geometry.edge_kinds import EdgeKind
from geometry.outline import Outline
from geometry.piece import Edge, Edging, PullAxis, UpperPiece
from geometry.sizing import sizes
from geometry.sizing.grading import grade_piece, net_outline

RULES = DraftRules()


@pytest.mark.parametrize(
    ("size", "length"), [("36", 240.0), ("37", 246.667), ("38", 253.333), ("40", 266.667), ("41", 273.333)]
)
def test_paris_points(size, length):
    """Step of 2/3 cm from zero: ISO/TS 19407:2015, introduction; lengths computed from it."""
    assert sizes.last_length_mm("paris", size) == pytest.approx(length, abs=1e-3)


@pytest.mark.parametrize(
    ("size", "length"),
    [("1", 220.133), ("3", 237.067), ("4", 245.533), ("5", 254.0), ("6", 262.467), ("8", 279.4)],
)
def test_english_adult_sizes(size, length):
    """(size + 25)/3 in, from memory; the step of 1/3 in: what-when-how and mysamplefactory (web), seen."""
    assert sizes.last_length_mm("uk", size) == pytest.approx(length, abs=1e-3)


@pytest.mark.parametrize(
    ("system", "foot", "size"),
    [
        ("paris", 235, 37.25),
        ("uk", 235, 4.756),
        ("us-men", 235, 5.756),
        ("us-women", 235, 6.756),
        ("paris", 240, 38.0),
        ("uk", 240, 5.346),
    ],
)
def test_sizes_of_a_foot(system, foot, size):
    """Foot + 2 points; 3 x inches - 23, - 22, - 21 (measuring device): formulas from memory."""
    two_sizes = 2 * sizes.system_of(system).step_mm
    assert sizes.last_length_mm(system, size) - two_sizes == pytest.approx(foot, abs=0.05)


def test_four_paris_points_of_length_and_girth():
    """5 mm of girth per point: mysamplefactory (web), seen."""
    change = sizes.last_length_mm("paris", "41") - sizes.last_length_mm("paris", "37")
    assert change == pytest.approx(26.667, abs=1e-3)
    assert sizes.girth_mm("paris", "37", "41", 220) - 220 == pytest.approx(20.0, abs=1e-3)


def test_the_dividers_in_goldings_book_step_one_size():
    """1/16 + 13/48 in = 1/3 in exactly: F. Y. Golding, The Manufacture of Boots and Shoes (author
    and year from memory, c. 1902), chapter on irregular gradations."""
    assert Fraction(1, 16) + Fraction(13, 48) == Fraction(1, 3)
    step = sizes.last_length_mm("uk", "2") - sizes.last_length_mm("uk", "1")
    assert step == pytest.approx(float(Fraction(1, 16) + Fraction(13, 48)) * 25.4, abs=1e-9)


def test_the_joint_girths_in_goldings_book():
    """Golding, as above: men's third fitting, sizes 1 to 6: 7 1/4 to 8 1/2 in, 1/4 in a size."""
    table = ["7 1/4", "7 1/2", "7 3/4", "8", "8 1/4", "8 1/2"]
    for size, girth in enumerate(table, start=1):
        found = sizes.girth_mm("uk", 1, size, sizes.size_number(table[0]) * 25.4)
        assert found == pytest.approx(sizes.size_number(girth) * 25.4, abs=1e-9)


def test_factors_of_a_proportional_grade():
    """From 37, girth 220 mm, to 38: 38/37 and 225/220 (computed)."""
    assert sizes.grade_factors("paris", "37", "38", 220) == pytest.approx((1.027027, 1.022727), abs=1e-6)
    four = sizes.grade_factors("paris", "37", "41", 220)
    assert four[0] == pytest.approx(1.108108, abs=1e-6)
    assert four[0] != pytest.approx(1.027027**4, abs=1e-3)  # that would be a geometric grade


def lasted_and_folded(axis_deg: float = 0.0) -> UpperPiece:
    """100 x 60 net, 15 lasting margin at one end, 5 fold along one side."""
    kinds = [(EdgeKind.RAW, 0.0), (EdgeKind.LASTING, 15.0), (EdgeKind.FOLDED, 5.0), (EdgeKind.RAW, 0.0)]
    return UpperPiece(
        "piece",
        "37",
        "left",
        Outline.make([(0, 0), (115, 0), (115, 65), (0, 65)]),
        Edging(((0, 1, 2, 3),), (tuple(Edge(k, None, a, True) for k, a in kinds),)),
        PullAxis(axis_deg, "person", True),
    )


@pytest.mark.parametrize(
    ("size", "length", "width", "area"),
    [("38", 117.703, 66.364, None), ("41", 125.811, 70.455, 8863.94)],
)
def test_allowances_are_not_graded(size, length, width, area):
    """Computed by hand: 100 x 60 grown by the factors, then 15 and 5 mm put back."""
    factors = sizes.grade_factors("paris", "37", size, 220)
    graded = grade_piece(lasted_and_folded(), RULES, factors, size=size)
    assert np.ptp(graded.outline.ring_mm, axis=0) == pytest.approx((length, width), abs=1e-3)
    if area is not None:
        assert graded.outline.area_mm2 == pytest.approx(area, abs=0.01)
    net = net_outline(graded, RULES)
    assert graded.outline.ring_mm[1, 0] - net.ring_mm[1, 0] == pytest.approx(15.0, abs=0.01)
    assert graded.outline.ring_mm[2, 1] - net.ring_mm[2, 1] == pytest.approx(5.0, abs=0.01)


def test_up_and_down_again_is_where_one_began():
    piece = lasted_and_folded()
    up = sizes.grade_factors("paris", "37", "41", 220)
    there = grade_piece(piece, RULES, up)
    back = grade_piece(there, RULES, sizes.grade_factors("paris", "41", "37", 240))
    assert np.abs(back.outline.ring_mm - piece.outline.ring_mm).max() < 1e-6
