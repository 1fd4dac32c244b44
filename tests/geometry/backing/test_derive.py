"""A backing stops short of each edge by that edge's setback, and by nothing else."""

import math

import numpy as np
import pytest
from shapely.geometry import LineString

from geometry.backing.derive import derive_backing
from geometry.backing.house_rules import DraftRules
from geometry.edge_kinds import EdgeKind
from geometry.errors import BackingError, EdgeError
from geometry.outline import Outline
from geometry.piece import Edge, Edging, Notch
from tests.geometry.small_pieces import L_SHAPE, RULES, circle, codes, rectangle, upper


def area(piece, rules=RULES) -> float:
    return derive_backing(piece, rules).area_mm2


def has_vertex(backing, x, y) -> bool:
    return any(np.hypot(*(o.ring_mm - (x, y)).T).min() < 1e-6 for o in backing.outlines)


def test_setbacks_of_zero_give_the_upper_itself():
    piece = upper(L_SHAPE, [0] * 6)
    assert derive_backing(piece, RULES).outlines == (piece.outline,)


def test_an_l_shape_keeps_its_inner_corner_sharp():
    backing = derive_backing(upper(L_SHAPE, [4] * 6), RULES)
    assert backing.area_mm2 == pytest.approx(5964.0, abs=1e-6)
    assert has_vertex(backing, 46, 46)
    assert len(backing.outlines[0].ring_mm) == 6


def test_at_an_inner_corner_an_edge_without_setback_keeps_its_own_line():
    """The strip of the wider edge ends on the neighbour's line, not in an arc round the corner."""
    backing = derive_backing(upper(L_SHAPE, [0, 0, 4, 0, 0, 0]), RULES)
    assert backing.area_mm2 == pytest.approx(7500 - 50 * 4, abs=1e-6)
    assert has_vertex(backing, 50, 46)


def test_past_a_sharp_inner_corner_the_line_runs_on_to_the_neighbours_line():
    spike = [(0, 0), (100, 0), (100, 100), (50, 40), (10, 100), (0, 100)]
    only = [0, 0, 6, 0, 0, 0]  # the left flank of the notch, walked downwards
    backing = derive_backing(upper(spike, only), RULES)
    down, up = np.array([-50, -60.0]), np.array([-40, 60.0])
    down, up = down / np.hypot(*down), up / np.hypot(*up)
    start = np.array([50, 40]) + 6 * np.array([-down[1], down[0]])
    meet = start + np.linalg.solve(np.array([down, -up]).T, np.array([50, 40]) - start)[0] * down
    assert has_vertex(backing, *meet)


def test_an_obtuse_corner_with_an_edge_without_setback():
    polygon = [(0, 0), (100, 0), (150, 28.8675), (150, 100), (0, 100)]
    backing = derive_backing(upper(polygon, [5, 0, 0, 0, 0]), RULES)
    assert Outline.make(polygon).area_mm2 - backing.area_mm2 == pytest.approx(521.65, abs=0.005)
    end = min(backing.outlines[0].ring_mm.tolist(), key=lambda p: math.dist(p, (108.660, 5)))
    assert end == pytest.approx((108.660, 5), abs=1e-3)
    assert not has_vertex(backing, 100, 0)  # no hair is left along the neighbour


def test_an_acute_corner_is_cut_to_the_crossing_of_the_two_lines():
    tip = [(0, 0), (100, 0), (0, 20)]
    backing = derive_backing(upper(tip, [2, 3, 0]), RULES)
    slope = math.atan2(20, 100)
    crossing = (100 - (3 + 2 * math.cos(slope)) / math.sin(slope), 2)
    assert has_vertex(backing, *crossing)


def test_holes_are_edges_too():
    backing = derive_backing(
        upper(rectangle(100, 60), [0] * 4, holes=[circle(6, 360, (50, 30))], hole_setbacks=[3]), RULES
    )
    hole = backing.outlines[0].holes_mm[0]
    assert np.hypot(*(hole - (50, 30)).T).min() >= 9 - 0.01
    assert 6000 - backing.area_mm2 == pytest.approx(math.pi * 81, rel=1e-3)


def test_a_hole_too_near_the_edge_opens_into_it():
    piece = upper(rectangle(100, 60), [4] * 4, holes=[circle(6, 90, (50, 12))], hole_setbacks=[4])
    backing = derive_backing(piece, RULES)
    assert backing.outlines[0].holes_mm == ()


def test_a_negative_setback_runs_past_its_edge():
    assert area(upper(rectangle(100, 60), [0, -3, 0, 0])) == pytest.approx(103 * 60, abs=1e-6)
    assert area(upper(rectangle(100, 60), [-3] * 4)) == pytest.approx(106 * 66, abs=1e-6)
    assert area(upper(rectangle(100, 60), [4, -3, 4, 0])) == pytest.approx(103 * 52, abs=1e-6)


def test_a_negative_setback_fills_an_inner_corner():
    assert area(upper(L_SHAPE, [0, 0, -4, -4, 0, 0])) == pytest.approx(7500 + 2 * 50 * 4 - 16, abs=1e-6)


def test_where_both_compete_the_setback_wins_over_the_run_past():
    backing = derive_backing(upper(L_SHAPE, [0, 0, 4, -3, 0, 0]), RULES)
    for outline in backing.outlines:
        inside = outline.ring_mm[(outline.ring_mm[:, 0] > 50 + 1e-6) & (outline.ring_mm[:, 0] < 100 - 1e-6)]
        assert (np.abs(inside[:, 1] - 50) >= 4 - 1e-6).all()


def test_an_edge_shorter_than_its_setback_is_reported():
    chamfer = [(0, 0), (97, 0), (100, 3), (100, 60), (0, 60)]
    backing = derive_backing(upper(chamfer, [0, 10, 0, 0, 0]), RULES)
    assert "SHORT_EDGE" in codes(backing.findings)
    # its line runs on both ways: the triangle under x - y = 97 - 10 * sqrt(2)
    leg = 3 + 10 * math.sqrt(2)
    assert 6000 - backing.area_mm2 == pytest.approx(leg**2 / 2, abs=1e-6)


def test_a_piece_that_vanishes_is_an_error_and_leaves_no_outline():
    backing = derive_backing(upper(rectangle(100, 20), [10] * 4), RULES)
    assert backing.outlines == ()
    assert "BACKING_VANISHED" in codes(backing.findings)
    assert backing.findings[-1].where_mm


def test_a_neck_splits_the_backing_and_both_parts_are_kept():
    bone = [
        (0, 0),
        (40, 0),
        (40, 16),
        (60, 16),
        (60, 0),
        (100, 0),
        (100, 40),
        (60, 40),
        (60, 24),
        (40, 24),
        (40, 40),
        (0, 40),
    ]
    backing = derive_backing(upper(bone, [4] * 12), RULES)
    assert [round(o.area_mm2, 6) for o in backing.outlines] == [32 * 32, 32 * 32]
    assert "BACKING_SPLIT" in codes(backing.findings)


def test_a_strip_too_thin_to_cut_is_taken_off_and_reported():
    piece = upper([(0, 0), (60, 0), (60, 8.6), (100, 8.6), (100, 20), (0, 20)], [4, 0, 0, 0, 4, 0])
    thin = upper([(0, 0), (60, 0), (60, 11.5), (100, 11.5), (100, 20), (0, 20)], [4, 0, 4, 0, 4, 0])
    assert "SLIVER_REMOVED" not in codes(derive_backing(piece, RULES).findings)
    backing = derive_backing(thin, RULES)
    assert "SLIVER_REMOVED" in codes(backing.findings)
    assert backing.area_mm2 == pytest.approx(60 * 12, abs=0.5)


def test_a_hollow_tighter_than_its_setback_keeps_all_that_is_farther_away():
    """A half-round scoop of radius 5 with a setback of 8: the offset is the half circle of 13."""
    angle = np.linspace(np.pi, 2 * np.pi, 181)
    scoop = np.stack([50 + 5 * np.cos(angle), 60 + 5 * np.sin(angle)], axis=1)
    piece = np.concatenate([[(0, 0), (100, 0), (100, 60)], scoop[::-1], [(0, 60)]])
    piece_upper = upper(piece, [0, 0, 0, 8, 0, 0], breaks=[0, 1, 2, 3, 183, 184])
    gone = 6000 - math.pi * 25 / 2 - area(piece_upper)
    assert gone == pytest.approx(math.pi * (13**2 - 5**2) / 2, rel=2e-3)


def test_a_bulge_tighter_than_its_setback_leaves_only_what_is_far_enough():
    """The round end of a tongue 10 wide, setback 8 round the end only, 0 along the sides."""
    angle = np.linspace(-np.pi / 2, np.pi / 2, 181)
    end = np.stack([50 + 5 * np.cos(angle), 5 + 5 * np.sin(angle)], axis=1)
    backing = derive_backing(
        upper(np.concatenate([[(0, 0)], end, [(0, 10)]]), [0, 8, 0, 0], breaks=[0, 1, 181, 182]), RULES
    )
    for outline in backing.outlines:
        beyond = outline.ring_mm[outline.ring_mm[:, 0] > 50.01]
        assert len(beyond) == 0


def test_on_a_smooth_stretch_the_setback_changes_in_a_square_step():
    ring = circle(50, 360)
    backing = derive_backing(upper(ring, [10, 2], breaks=[0, 180]), RULES)
    assert "SETBACK_STEP" in codes(backing.findings)
    wide = math.pi * (50**2 - 40**2) / 2
    narrow = math.pi * (50**2 - 48**2) / 2
    assert math.pi * 50**2 - backing.area_mm2 == pytest.approx(wide + narrow, rel=2e-3)


def test_a_very_sharp_notch_is_bevelled_at_the_setback():
    notch = [(0, 0), (100, 0), (100, 60), (52, 60), (50, 50), (48, 60), (0, 60)]
    backing = derive_backing(upper(notch, [0, 0, 0, 4, 4, 0, 0]), RULES)
    assert "MITRE_BEVELLED" in codes(backing.findings)
    assert backing.outlines[0].polygon.intersection(LineString([(50, 0), (50, 60)])).bounds[
        3
    ] == pytest.approx(50 - 4, abs=1e-6)
    pointed = derive_backing(upper(notch, [0, 0, 0, 4, 4, 0, 0]), DraftRules(mitre_limit=1000.0))
    assert has_vertex(pointed, 50, 50 - 4 / math.sin(math.atan(2 / 10)))


def test_rounding_for_the_knife_takes_only_outer_corners():
    backing = derive_backing(upper(L_SHAPE, [4] * 6), DraftRules(knife_radius_mm=5.0))
    assert "CORNER_ROUNDED" in codes(backing.findings)
    assert 5964 - backing.area_mm2 == pytest.approx(5 * (1 - math.pi / 4) * 25, rel=0.02)
    assert has_vertex(backing, 46, 46)
    assert not has_vertex(backing, 4, 4)


def test_a_flush_backing_can_be_rounded_too():
    backing = derive_backing(upper(rectangle(100, 60), [0] * 4), DraftRules(knife_radius_mm=5.0))
    assert 6000 - backing.area_mm2 == pytest.approx(4 * (1 - math.pi / 4) * 25, rel=0.02)


def test_notches_move_to_the_backings_own_edge():
    from dataclasses import replace

    piece = replace(
        upper(rectangle(100, 60), [4, 0, 0, 0]), notches=(Notch(30, 0, 90.0), Notch(100, 20, 180.0))
    )
    moved = derive_backing(piece, RULES).notches
    assert (moved[0].x_mm, moved[0].y_mm) == pytest.approx((30, 4))
    assert (moved[1].x_mm, moved[1].y_mm) == pytest.approx((100, 20))


def test_the_house_rule_of_a_kind_holds_where_an_edge_has_no_setback_of_its_own():
    from dataclasses import replace

    piece = upper(rectangle(100, 60), [0] * 4)
    edges = (Edge(EdgeKind.LASTING), *piece.edging.edges[0][1:])
    piece = replace(piece, edging=Edging(piece.edging.breaks, (edges,)))
    expected = RULES.edge_rules[EdgeKind.LASTING].setback_mm
    assert area(piece) == pytest.approx(100 * (60 - expected))


def test_what_makes_no_sense_is_refused_with_a_remedy():
    with pytest.raises(BackingError, match=r"crosses itself.*redraw"):
        derive_backing(upper([(0, 0), (10, 10), (10, 0), (0, 12)], [1] * 4), RULES)
    with pytest.raises(BackingError, match="not a number"):
        derive_backing(upper(rectangle(10, 10), [math.nan] * 4), RULES)
    with pytest.raises(EdgeError, match="do not fit"):
        derive_backing(upper(rectangle(10, 10), [1] * 5, breaks=[0, 1, 2, 3, 4]), RULES)


@pytest.mark.parametrize(("opening_deg", "mitred"), [(35.0, True), (25.0, False)])
def test_a_mitre_runs_to_its_point_up_to_four_setbacks(opening_deg: float, mitred: bool) -> None:
    """Round the end of a V cut into a piece: 1 / cos(t / 2) is 3.3 at 35 degrees, 4.6 at 25."""
    half = np.tan(np.radians(opening_deg / 2.0)) * 60.0
    piece = upper(
        [(-100, 0), (100, 0), (100, 100), (half, 100), (0, 40), (-half, 100), (-100, 100)],
        [0, 0, 0, 3, 3, 0, 0],
    )
    backing = derive_backing(piece, RULES)
    lowest = 40.0 - 3.0 / np.sin(np.radians(opening_deg / 2.0))
    assert ("MITRE_BEVELLED" in codes(backing.findings)) is not mitred
    apex = min(abs(np.hypot(x, y - lowest)) for x, y in backing.outlines[0].ring_mm)
    assert bool(apex < 1e-6) is mitred
