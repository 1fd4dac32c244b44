"""Restricted grading: the net outline grows, allowances and punched holes do not."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString

from geometry.backing.edges import edge_points, turns_deg
from geometry.edge_kinds import EdgeKind
from geometry.errors import SizeError
from geometry.outline import Outline
from geometry.piece import DrillHole, Edge, Edging, Mark, Notch, PullAxis, UpperPiece
from geometry.sizing.grading import grade_piece, net_outline
from tests.geometry.small_pieces import RULES, circle, rectangle, smooth, upper

factor = st.floats(0.88, 1.14)


def allowed(piece: UpperPiece, widths) -> UpperPiece:
    """The piece with the allowances given on its outer ring."""
    edges = tuple(Edge(EdgeKind.FOLDED, 0.0, float(w), True) for w in widths)
    return replace(piece, edging=Edging(piece.edging.breaks, (edges, *piece.edging.edges[1:])))


@st.composite
def polygons(draw):
    """A convex polygon with sides and corners of a shoe's size, a different allowance on each side."""
    count = draw(st.integers(3, 6))
    spread = np.array(draw(st.lists(st.floats(0.7, 1.3), min_size=count, max_size=count)))
    angle = np.cumsum(spread) / spread.sum() * 2 * np.pi
    piece = upper(np.stack([90 * np.cos(angle), 70 * np.sin(angle)], axis=1), [0] * count)
    piece = replace(piece, pull_axis=PullAxis(draw(st.floats(-89, 89)), "person"))
    return allowed(
        piece, draw(st.lists(st.sampled_from([0.0, 1.5, 5.0, 8.0, 15.0]), min_size=count, max_size=count))
    )


def smooth_piece(width: float, axis_deg: float = 20.0) -> UpperPiece:
    return allowed(upper(smooth(160, [6, 3, 2], [0.2, 1.0, 2.0]), [0], [0], axis_deg=axis_deg), [width])


@settings(max_examples=60, deadline=None)
@given(polygons(), factor, factor)
def test_up_and_down_again_is_where_one_began(piece, along, across):
    there = grade_piece(piece, RULES, (along, across))
    back = grade_piece(there, RULES, (1 / along, 1 / across))
    assert np.abs(back.outline.ring_mm - piece.outline.ring_mm).max() < 1e-6


@settings(max_examples=40, deadline=None)
@given(st.sampled_from([0.0, 5.0, 15.0]), factor, factor)
def test_up_and_down_again_on_a_smooth_outline(width, along, across):
    piece = smooth_piece(width)
    back = grade_piece(grade_piece(piece, RULES, (along, across)), RULES, (1 / along, 1 / across))
    assert np.abs(back.outline.ring_mm - piece.outline.ring_mm).max() < 1e-6


@settings(max_examples=60, deadline=None)
@given(polygons(), factor, factor)
def test_every_allowance_keeps_its_width(piece, along, across):
    graded = grade_piece(piece, RULES, (along, across))
    net = net_outline(graded, RULES)
    for k, edge in enumerate(piece.edging.edges[0]):
        outer = edge_points(graded.outline, graded.edging, 0, k)
        (a, b) = edge_points(net, graded.edging, 0, k)
        way = (b - a) / np.hypot(*(b - a))
        apart = (outer - a) @ np.array([way[1], -way[0]])
        assert apart == pytest.approx([edge.allowance_mm] * 2, abs=0.01)


@settings(max_examples=40, deadline=None)
@given(polygons(), factor, factor)
def test_the_net_outline_is_scaled_along_and_across_the_pull_axis(piece, along, across):
    angle = np.radians(piece.pull_axis.axis_deg)
    turn = np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]])
    before = np.ptp(net_outline(piece, RULES).ring_mm @ turn.T, axis=0)
    after = np.ptp(net_outline(grade_piece(piece, RULES, (along, across)), RULES).ring_mm @ turn.T, axis=0)
    assert after == pytest.approx(before * (along, across), rel=1e-9)


def test_without_allowances_a_grade_is_plain_scaling():
    piece = allowed(upper(rectangle(100, 60), [0] * 4), [0] * 4)
    graded = grade_piece(piece, RULES, (1.1, 1.05), size="39", about_mm=(0.0, 0.0))
    assert np.allclose(graded.outline.ring_mm, np.array(rectangle(110, 63)))
    assert graded.size == "39"


def test_pieces_drawn_assembled_stay_assembled_about_a_common_point():
    left = allowed(upper(rectangle(100, 60), [0] * 4), [0] * 4)
    right = replace(left, outline=left.outline.moved(100, 0))
    graded = [grade_piece(p, RULES, (1.1, 1.1), about_mm=(30.0, 10.0)).outline for p in (left, right)]
    assert graded[0].bbox_mm[2] == pytest.approx(graded[1].bbox_mm[0])


def test_punched_holes_keep_their_size_and_follow_the_piece():
    holes = [circle(2.5, 24, (20, 30)), circle(15, 60, (65, 30))]
    piece = upper(rectangle(100, 60), [0] * 4, holes=holes, hole_setbacks=[0, 0])
    piece = replace(piece, drill_holes=(DrillHole(10, 50, 3.0),))
    graded = grade_piece(piece, RULES, (1.1, 1.1), about_mm=(0.0, 0.0))
    punched, window = (np.ptp(h, axis=0) for h in graded.outline.holes_mm)
    assert punched == pytest.approx((5, 5))
    assert window == pytest.approx((33, 33))
    assert graded.outline.holes_mm[0].mean(axis=0) == pytest.approx((22, 33))
    assert graded.drill_holes == (DrillHole(pytest.approx(11), pytest.approx(55), 3.0),)


def test_notches_stay_on_the_outline_and_marks_on_the_piece():
    piece = allowed(upper(rectangle(100, 60), [0] * 4), [15, 0, 5, 0])
    piece = replace(
        piece,
        notches=(Notch(25, 0, 90.0), Notch(100, 30, 180.0)),
        marks=(Mark(np.array([(50.0, 20.0), (50.0, 50.0)])),),
    )
    graded = grade_piece(piece, RULES, (1.1, 1.1))
    line = LineString(np.vstack([graded.outline.ring_mm, graded.outline.ring_mm[:1]]))
    for notch in graded.notches:
        assert line.distance(LineString([(notch.x_mm, notch.y_mm)] * 2)) < 1e-9
    assert [n.angle_deg for n in graded.notches] == pytest.approx([90, 180])
    assert np.ptp(graded.marks[0].points_mm[:, 1]) == pytest.approx(33)


@pytest.mark.parametrize("wide", [(15.0, 1.5), (1.5, 15.0), (8.0, 0.0)])
def test_where_the_allowance_changes_on_a_smooth_outline_the_graded_outline_stays_smooth(wide):
    piece = allowed(upper(circle(80, 240), [0, 0], [0, 120]), wide)
    for k in (0.9, 1.1):
        graded = grade_piece(piece, RULES, (k, k)).outline
        assert graded.polygon.is_valid
        assert np.abs(turns_deg(graded.ring_mm)).max() < 8.0


def test_vertices_close_to_a_corner_stay_in_order_through_a_large_grade():
    """A finely drawn seam edge crosses the lasting margin: its last vertices have no net place."""
    side = np.stack([np.full(120, 100.0), np.linspace(0, 60, 121)[1:]], axis=1)
    points = np.concatenate([[(0, 0), (100, 0)], side, [(0, 60)]])
    piece = allowed(upper(points, [0] * 4, [0, 1, 121, 122]), [15, 1.5, 5, 1.5])
    graded = grade_piece(piece, RULES, (1.2, 1.2))
    height = edge_points(graded.outline, graded.edging, 0, 1)[:, 1]
    assert (np.diff(height) > 0).all()


@pytest.mark.parametrize("factors", [(0.0, 1.0), (1.0, -1.0), (np.nan, 1.0), (1.0, np.inf)])
def test_a_factor_that_is_none_is_refused(factors):
    with pytest.raises(SizeError, match="cannot grade"):
        grade_piece(upper(rectangle(10, 10), [0] * 4), RULES, factors)


def test_an_outline_that_would_cross_itself_is_refused():
    """A slot as narrow as its two allowances closes when the piece is graded down."""
    slot = [(0, 0), (100, 0), (100, 60), (52, 60), (52, 20), (48, 20), (48, 60), (0, 60)]
    piece = allowed(upper(slot, [0] * 8), [0, 0, 0, 15, 0, 15, 0, 0])
    with pytest.raises(SizeError, match=r"crosses itself.*draw this size"):
        grade_piece(piece, RULES, (0.8, 0.8), size="30")


def test_the_outline_keeps_its_vertices():
    piece = smooth_piece(15.0)
    graded = grade_piece(piece, RULES, (1.05, 1.02))
    assert graded.edging == piece.edging
    assert len(graded.outline.ring_mm) == len(piece.outline.ring_mm)
    assert isinstance(graded.outline, Outline)
