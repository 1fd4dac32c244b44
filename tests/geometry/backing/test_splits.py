"""A backing divided in parts: they cover it, butt or overlap by exactly what was asked, and match."""

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.backing.derive import derive_backing
from geometry.backing.house_rules import DraftRules
from geometry.drawn.details import details_of_part
from geometry.mirror import mirrored_piece, mirrored_shaping
from geometry.piece import Shaping, SplitLine
from tests.geometry.small_pieces import RULES, codes, rectangle, smooth, upper

PIECE = upper(rectangle(100, 60), [4] * 4)
SMOOTH = upper(smooth(120, [8, -5, 3], [0.3, 1.0, 2.0]), [5, 3], breaks=[0, 60])


def split(points, overlap=0.0, names=("left part", "right part"), notches=2, part="") -> SplitLine:
    return SplitLine(np.array(points, dtype=float), names, overlap, notches, part)


def divided(piece, *lines):
    return derive_backing(piece, RULES, shaping=Shaping(splits=lines))


def test_two_parts_butt_and_bear_their_names():
    backing = divided(PIECE, split([(40, 0), (40, 60)]))
    assert backing.part_names == ("left part", "right part")
    assert [o.area_mm2 for o in backing.outlines] == pytest.approx([36 * 52, 56 * 52])


def test_the_name_goes_by_the_side_of_the_line_it_lies_on():
    upwards = divided(PIECE, split([(40, 0), (40, 60)]))
    downwards = divided(PIECE, split([(40, 60), (40, 0)]))
    assert upwards.outlines[0].bbox_mm[0] == pytest.approx(4)
    assert downwards.outlines[0].bbox_mm[2] == pytest.approx(96)


def test_each_part_reaches_half_the_overlap_past_the_line():
    front, back = divided(PIECE, split([(40, 0), (40, 60)], overlap=10)).outlines
    assert front.bbox_mm[2] == pytest.approx(45)
    assert back.bbox_mm[0] == pytest.approx(35)


def test_notches_of_both_parts_stand_one_over_the_other():
    backing = divided(PIECE, split([(40, 0), (40, 60)], overlap=10, notches=3))
    front, back = (details_of_part(backing, k).notches for k in (0, 1))
    assert sorted(n.y_mm for n in front) == pytest.approx([4 + 13, 4 + 26, 4 + 39])
    assert sorted(n.y_mm for n in back) == pytest.approx(sorted(n.y_mm for n in front))
    assert {round(n.x_mm) for n in front} == {45} and {round(n.x_mm) for n in back} == {35}
    for n in front:  # points into its own part
        assert np.cos(np.radians(n.angle_deg)) == pytest.approx(-1)


def test_a_lap_line_on_each_part_shows_how_far_the_other_reaches():
    backing = divided(PIECE, split([(40, 0), (40, 60)], overlap=10))
    front, back = (details_of_part(backing, k).marks for k in (0, 1))
    assert [m.kind for m in (*front, *back)] == ["lap", "lap"]
    assert {round(float(x), 6) for x in front[0].points_mm[:, 0]} == {35}
    assert {round(float(x), 6) for x in back[0].points_mm[:, 0]} == {45}


def test_parts_that_butt_share_no_notch():
    backing = divided(PIECE, split([(40, 0), (40, 60)], notches=2))
    assert [len(details_of_part(backing, k).notches) for k in (0, 1)] == [2, 2]


def test_a_second_split_can_name_the_part_it_divides():
    backing = divided(
        PIECE,
        split([(40, 0), (40, 60)], names=("toe", "rest")),
        split([(0, 30), (100, 30)], names=("upper rest", "lower rest"), part="rest"),
    )
    assert backing.part_names == ("toe", "upper rest", "lower rest")


def test_a_line_that_crosses_nothing_is_told_of_and_leaves_the_backing_whole():
    backing = derive_backing(PIECE, RULES, shaping=Shaping(splits=(split([(2, 0), (2, 60)]),)))
    assert "SPLIT_MISSES" in codes(backing.findings)
    assert backing.area_mm2 == pytest.approx(92 * 52)


lines = st.tuples(st.floats(-50, 50), st.floats(-40, 40), st.floats(0, np.pi))


@given(line=lines, overlap=st.floats(0.0, 20.0))
def test_the_parts_cover_the_backing_and_overlap_by_exactly_the_width(line, overlap):
    x, y, angle = line
    way = np.array([np.cos(angle), np.sin(angle)])
    ends = [np.array([x, y]) - 40 * way, np.array([x, y]) + 40 * way]
    blunt = DraftRules(sliver_mm=0.0)  # else slivers that no knife cuts are missing
    whole = derive_backing(SMOOTH, blunt).outlines[0].polygon
    assume(shapely.LineString(ends).intersection(whole.buffer(-12)).length > 5)
    backing = derive_backing(SMOOTH, blunt, shaping=Shaping(splits=(split(ends, overlap=overlap),)))
    left = shapely.union_all(
        [o.polygon for o, n in zip(backing.outlines, backing.part_names, strict=True) if n[0] == "l"]
    )
    right = shapely.union_all(
        [o.polygon for o, n in zip(backing.outlines, backing.part_names, strict=True) if n[0] == "r"]
    )
    assert whole.symmetric_difference(shapely.union(left, right)).area < 0.05
    both = left.intersection(right)
    square = np.array([-way[1], way[0]])
    points = shapely.get_coordinates(both)
    if overlap > 1.0:
        reach = (points - ends[0]) @ square
        assert reach.max() == pytest.approx(overlap / 2, abs=1e-3)
        assert reach.min() == pytest.approx(-overlap / 2, abs=1e-3)
    else:
        assert both.area < 0.05 + 250 * overlap


@given(line=lines, overlap=st.floats(0.0, 20.0))
def test_a_split_is_mirrored_with_its_piece_and_its_names(line, overlap):
    x, y, angle = line
    way = np.array([np.cos(angle), np.sin(angle)])
    ends = [np.array([x, y]) - 40 * way, np.array([x, y]) + 40 * way]
    whole = derive_backing(SMOOTH, RULES).outlines[0].polygon
    assume(shapely.LineString(ends).intersection(whole.buffer(-12)).length > 5)
    shaping = Shaping(splits=(split(ends, overlap=overlap),))
    left = derive_backing(SMOOTH, RULES, shaping=shaping)
    right = derive_backing(mirrored_piece(SMOOTH), RULES, shaping=mirrored_shaping(shaping))
    assert left.part_names == right.part_names
    for a, b in zip(left.outlines, right.outlines, strict=True):
        assert a.mirrored().polygon.symmetric_difference(b.polygon).area < 1e-3
    assert [len(details_of_part(left, k).notches) for k in range(2)] == [
        len(details_of_part(right, k).notches) for k in range(2)
    ]
