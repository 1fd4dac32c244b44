"""A setback that changes along its edge: linear in the length walked, as sure as a constant one."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.backing.derive import derive_backing
from geometry.backing.edges import edge_points
from geometry.mirror import mirrored_piece
from tests.geometry.small_pieces import RULES, circle, codes, rectangle, smooth, upper

widths = st.floats(0.0, 9.0)


def tapered(piece, ends, first=0):
    """The piece with the setbacks at the ends of its first ring's edges set."""
    edges = tuple(
        replace(edge, setback_end_mm=float(end)) if end is not None else edge
        for edge, end in zip(piece.edging.edges[0], ends, strict=True)
    )
    return replace(piece, edging=replace(piece.edging, edges=(edges, *piece.edging.edges[1:])))


def test_four_to_eight_along_a_side_takes_a_trapezoid_off():
    piece = tapered(upper(rectangle(100, 60), [4, 0, 0, 0]), [8, None, None, None])
    backing = derive_backing(piece, RULES)
    assert backing.area_mm2 == pytest.approx(100 * 60 - 100 * (4 + 8) / 2)
    assert shapely.Point(0, 4).distance(backing.outlines[0].polygon.boundary) < 1e-6
    assert shapely.Point(100, 8).distance(backing.outlines[0].polygon.boundary) < 1e-6


def test_a_taper_through_zero_runs_past_the_edge_at_one_end_only():
    piece = tapered(upper(rectangle(100, 60), [-4, 0, 0, 0]), [4, None, None, None])
    backing = derive_backing(piece, RULES)
    assert backing.area_mm2 == pytest.approx(100 * 60, abs=1e-4)
    box = backing.outlines[0].bbox_mm
    assert box[1] == pytest.approx(-4.0)


def test_a_taper_steeper_than_a_corner_is_told_of():
    piece = tapered(upper(rectangle(20, 60), [0, 0, 0, 0]), [15, None, None, None])
    assert "STEEP_TAPER" in codes(derive_backing(piece, RULES).findings)


@given(width=widths, count=st.integers(12, 80))
def test_a_taper_between_equal_values_is_the_constant_setback(width, count):
    piece = upper(circle(50, count), [width, width], breaks=[0, count // 2])
    constant = derive_backing(piece, RULES)
    same = derive_backing(tapered(piece, [width, width]), RULES)
    assert same.outlines == constant.outlines


@given(
    waves=st.lists(st.floats(-9, 9), min_size=3, max_size=3),
    phases=st.lists(st.floats(0, 6), min_size=3, max_size=3),
    starts=st.lists(widths, min_size=3, max_size=3),
    ends=st.lists(widths, min_size=3, max_size=3),
)
def test_no_point_of_a_backing_lies_nearer_than_its_local_setback(waves, phases, starts, ends):
    piece = tapered(upper(smooth(90, waves, phases), starts, breaks=[0, 30, 60]), ends)
    backing = derive_backing(piece, RULES)
    boundary = [np.asarray(o.polygon.exterior.coords) for o in backing.outlines]
    for k in range(3):
        line = edge_points(piece.outline, piece.edging, 0, k)
        step = np.hypot(*np.diff(line, axis=0).T)
        along = np.append(0.0, np.cumsum(step))
        setback = starts[k] + (ends[k] - starts[k]) * along / along[-1]
        for ring in boundary:
            for a, b, low, high in zip(line[:-1], line[1:], setback[:-1], setback[1:], strict=True):
                way = (b - a) / np.hypot(*(b - a))
                inside = ring - a
                t = inside @ way / np.hypot(*(b - a))
                square = inside @ np.array([-way[1], way[0]])
                over = (t > 1e-6) & (t < 1.0 - 1e-6) & (square >= 0.0)
                asked = low + t * (high - low)
                near = over & (square < asked - 0.01)
                for x, y in ring[near]:  # seen through the material only
                    foot = a + way * float((np.array([x, y]) - a) @ way)
                    sight = shapely.LineString([(x, y), foot + 1e-6 * (np.array([x, y]) - foot)])
                    assert not piece.outline.polygon.buffer(1e-7).covers(sight)


@given(starts=st.lists(widths, min_size=4, max_size=4), ends=st.lists(widths, min_size=4, max_size=4))
def test_a_taper_is_mirrored_with_its_piece(starts, ends):
    piece = tapered(upper(rectangle(120, 70), starts), ends)
    left = derive_backing(piece, RULES)
    right = derive_backing(mirrored_piece(piece), RULES)
    for a, b in zip(left.outlines, right.outlines, strict=True):
        assert a.mirrored().polygon.symmetric_difference(b.polygon).area < 1e-4
    assert mirrored_piece(mirrored_piece(piece)) == piece


@given(low=widths, more=st.floats(0.0, 5.0))
def test_a_wider_taper_never_adds_material(low, more):
    piece = upper(smooth(60, [6, -4, 3], [0, 1, 2]), [low, 2, 2], breaks=[0, 20, 40])
    slim = derive_backing(tapered(piece, [low + more, None, None]), RULES)
    wide = derive_backing(
        tapered(
            upper(smooth(60, [6, -4, 3], [0, 1, 2]), [low + 1, 2, 2], breaks=[0, 20, 40]),
            [low + more + 1, None, None],
        ),
        RULES,
    )
    extra = wide.outlines[0].polygon.difference(slim.outlines[0].polygon)
    assert extra.area < 0.02
