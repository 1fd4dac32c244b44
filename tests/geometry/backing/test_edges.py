"""Edges end at corners and turn points, and never put a vertex in."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.backing.edges import (
    add_break,
    carry_edging,
    corners,
    edge_points,
    find_edging,
    move_break,
    remove_break,
    turns_deg,
)
from geometry.edge_kinds import EdgeKind
from geometry.errors import EdgeError
from geometry.outline import Outline
from geometry.piece import DrawnPiece, Edge, Edging, Mark
from tests.geometry.small_pieces import L_SHAPE, RULES, circle, codes, rectangle


def d_shape() -> np.ndarray:
    """A straight side from (0, 0) to (0, 60) closed by a half circle: two corners."""
    angle = np.linspace(np.pi / 2, -np.pi / 2, 61)[1:-1]
    return np.concatenate(
        [[(0, 0), (0, 60)], np.stack([30 * np.cos(angle), 30 + 30 * np.sin(angle)], axis=1)]
    )


def drawn(points, holes=(), **more) -> DrawnPiece:
    return DrawnPiece("piece", Outline.make(points, holes), **more)


def test_turns_add_up_to_a_full_circle():
    assert turns_deg(Outline.make(L_SHAPE).ring_mm).sum() == pytest.approx(360)
    assert turns_deg(Outline.make(L_SHAPE).ring_mm)[3] == pytest.approx(-90)


def test_a_doubled_vertex_does_not_hide_its_corner():
    ring = Outline.make([(0, 0), (10, 0), (10, 0), (10, 10), (0, 10)]).ring_mm
    assert len(corners(ring, 25)) == 4


def dense(points, step=0.05) -> np.ndarray:
    """The same outline with a vertex every ``step`` mm."""
    ring = np.vstack([points, points[:1]]).astype(float)
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    at = np.arange(0.0, along[-1] - step / 2, step)
    return np.stack([np.interp(at, along, ring[:, i]) for i in (0, 1)], axis=1)


def test_the_jitter_of_a_scanned_line_makes_no_corners():
    scan = np.round(dense(rectangle(50, 30)) + np.array([3.001, 1.002]), 2)
    jitter = np.random.default_rng(5).choice([-0.01, 0.0, 0.01], scan.shape)
    found = corners(Outline.make(scan + jitter).ring_mm, 25.0)
    assert len(found) == 4


def test_a_corner_with_a_tiny_rounding_is_one_corner():
    angle = np.radians(np.linspace(0, 90, 11))
    rounding = np.stack([9.9 + 0.1 * np.cos(angle), 9.9 + 0.1 * np.sin(angle)], axis=1)
    ring = Outline.make(np.vstack([[(0, 0), (10, 0)], rounding, [(0, 10)]])).ring_mm
    found = [tuple(np.round(ring[i])) for i in corners(ring, 25.0)]
    assert sorted(found) == [(0, 0), (0, 10), (10, 0), (10, 10)]


@pytest.mark.parametrize("radius", [0.3, 0.5, 1.0, 2.0, 10.0])
def test_a_circle_has_no_corner_however_small(radius):
    assert corners(Outline.make(circle(radius, 100)).ring_mm, 25.0) == ()


def test_an_outline_breaks_at_its_corners_and_nowhere_along_a_curve():
    edging, findings = find_edging(drawn(d_shape()), RULES)
    points = drawn(d_shape()).outline.ring_mm
    assert {tuple(points[i]) for i in edging.breaks[0]} == {(0, 0), (0, 60)}
    assert codes(findings) == {"EDGES_TO_CONFIRM"}
    assert not any(edge.confirmed for ring in edging.edges for edge in ring)


def test_turn_points_end_edges_on_a_smooth_curve():
    ring = circle(30, 90)
    edging, _ = find_edging(drawn(ring, turn_points_mm=((30.1, 0.1), (-30.0, 0.0))), RULES)
    assert edging.breaks == ((0, 45),)


def test_a_turn_point_off_the_outline_is_reported():
    edging, findings = find_edging(drawn(rectangle(100, 60), turn_points_mm=((50, 30),)), RULES)
    assert edging.breaks == ((0, 1, 2, 3),)
    assert "TURN_POINT_OFF_OUTLINE" in codes(findings)


def test_a_ring_without_corners_is_one_edge_that_comes_back_to_its_start():
    piece = drawn(circle(40, 120))
    edging, _ = find_edging(piece, RULES)
    assert edging.breaks == ((0,),)
    points = edge_points(piece.outline, edging, 0, 0)
    assert len(points) == 121
    assert np.array_equal(points[0], points[-1])


def test_a_fold_line_drawn_on_a_straight_edge_suggests_a_centre():
    line = Mark(np.array([(0.0, 60.0), (0.0, 0.0)]))
    piece = drawn(d_shape(), marks=(line,))
    edging, _ = find_edging(piece, RULES)
    kinds = {edge_points(piece.outline, edging, 0, k).shape[0]: e.kind for k, e in enumerate(edging.edges[0])}
    assert kinds[2] is EdgeKind.CENTRE
    assert kinds[61] is EdgeKind.RAW


def test_a_sew_line_beside_an_edge_suggests_a_seam_and_its_allowance():
    line = Mark(np.array([(5.0, 1.5), (95.0, 1.5)]), "sew")
    edging, _ = find_edging(drawn(rectangle(100, 60), marks=(line,)), RULES)
    assert edging.edges[0][0] == Edge(EdgeKind.SEAM, allowance_mm=1.5)
    assert edging.edges[0][2].kind is EdgeKind.RAW


def test_a_punched_hole_goes_through_both_layers():
    edging, _ = find_edging(drawn(rectangle(100, 60), [circle(2.5, 24, (50, 30))]), RULES)
    assert edging.edges[1] == (Edge(EdgeKind.RAW, setback_mm=0.0),)


SQUARE = Outline.make(rectangle(10, 10))
NAMED = Edging(
    ((0, 1, 2, 3),),
    (tuple(Edge(k) for k in (EdgeKind.RAW, EdgeKind.SEAM, EdgeKind.FOLDED, EdgeKind.LASTING)),),
)


def kinds(edging) -> list[str]:
    return [str(e.kind) for e in edging.edges[0]]


def test_an_added_break_halves_the_edge_it_falls_on():
    eight = Edging(((2, 4, 6),), ((Edge(EdgeKind.RAW), Edge(EdgeKind.SEAM), Edge(EdgeKind.FOLDED)),))
    assert kinds(add_break(eight, 0, 5)) == ["raw", "seam", "seam", "folded"]
    before_the_first = add_break(eight, 0, 1)
    assert before_the_first.breaks == ((1, 2, 4, 6),)
    assert kinds(before_the_first) == ["folded", "raw", "seam", "folded"]
    with pytest.raises(EdgeError, match="already"):
        add_break(eight, 0, 4)


def test_a_removed_break_joins_two_edges():
    assert kinds(remove_break(NAMED, 0, 1)) == ["raw", "folded", "lasting"]
    assert remove_break(NAMED, 0, 1).breaks == ((0, 2, 3),)
    with pytest.raises(EdgeError, match="one break"):
        remove_break(Edging(((0,),), ((Edge(EdgeKind.RAW),),)), 0, 0)


def test_a_break_moves_between_its_neighbours_but_not_past_them():
    eight = Edging(((2, 4, 6),), ((Edge(EdgeKind.RAW), Edge(EdgeKind.SEAM), Edge(EdgeKind.FOLDED)),))
    assert move_break(eight, 0, 1, 5).breaks == ((2, 5, 6),)
    wrapped = move_break(eight, 0, 0, 7)  # backwards over vertex 0
    assert wrapped.breaks == ((4, 6, 7),)
    assert kinds(wrapped) == ["seam", "folded", "raw"]
    with pytest.raises(EdgeError, match="pass"):
        move_break(eight, 0, 0, 5)
    with pytest.raises(EdgeError, match="pass"):
        move_break(eight, 0, 0, 4)


@given(st.floats(0.7, 1.5), st.floats(0.7, 1.5))
def test_edges_carry_over_to_a_scaled_size(kx, ky):
    base = Outline.make(d_shape())
    other = Outline.make(base.ring_mm * (kx, ky))
    edging, _ = find_edging(DrawnPiece("piece", base), RULES)
    assert carry_edging(edging, base, other) == (edging, ())


def test_edges_carry_over_to_a_size_drawn_with_other_points():
    base = Outline.make(d_shape())
    edging, _ = find_edging(DrawnPiece("piece", base), RULES)
    edging = add_break(edging, 0, int(np.hypot(*(base.ring_mm - (30, 30)).T).argmin()))
    angle = np.linspace(-np.pi / 2, np.pi / 2, 101)
    other = Outline.make(np.stack([33 * np.cos(angle), 33 + 33 * np.sin(angle)], axis=1))
    carried, findings = carry_edging(edging, base, other)
    assert findings == ()
    named = {k: edge_points(base, edging, 0, k)[0] for k in range(3)}
    there = {tuple(np.round(edge_points(other, carried, 0, k)[0], 6)) for k in range(3)}
    assert there == {tuple(np.round(p * 1.1, 6)) for p in named.values()}


def test_where_corners_differ_edges_go_by_length_and_must_be_confirmed():
    base = Outline.make(rectangle(100, 60))
    edging = Edging(((0, 1, 2, 3),), (tuple(Edge(EdgeKind.RAW, confirmed=True) for _ in range(4)),))
    cut = Outline.make([(0, 0), (104, 0), (104, 50), (92, 64), (0, 64)])
    carried, findings = carry_edging(edging, base, cut)
    assert codes(findings) == {"EDGES_CARRIED_BY_LENGTH"}
    assert not any(e.confirmed for e in carried.edges[0])
    assert len(carried.breaks[0]) == 4


def test_a_size_with_other_holes_is_refused():
    base = Outline.make(rectangle(100, 60), [circle(3, 12, (50, 30))])
    edging, _ = find_edging(DrawnPiece("piece", base), RULES)
    with pytest.raises(EdgeError, match="holes"):
        carry_edging(edging, base, Outline.make(rectangle(100, 60)))
