"""Drawn things lie where the piece takes them: by share of net length at edges, by the frame in the open."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.backing.derive import derive_backing
from geometry.drawn.details import EdgeNotch, Hole, ReliefRow, Word, backings_with, details_on, upper_with
from geometry.drawn.ground import Ground, base_ground
from geometry.drawn.places import AtEdge, Band, Beside, Course, InFrame
from geometry.drawn.shapes import CutLine, LayerDrawing, Region, Split, shaping_on
from geometry.edge_kinds import EdgeKind
from geometry.errors import BackingError
from geometry.mirror import mirrored_piece, mirrored_shaping
from geometry.piece import Edge
from geometry.sizing.grading import grade_frame, grade_piece, net_outline
from tests.geometry.small_pieces import RULES, codes, rectangle, smooth, upper


def lasted(points, breaks, allowance=12.0, setback=5.0, axis_deg=0.0):
    piece = upper(points, [setback] * len(breaks), breaks=breaks, axis_deg=axis_deg)
    edges = (Edge(EdgeKind.LASTING, setback, allowance, True), *piece.edging.edges[0][1:])
    return replace(piece, edging=replace(piece.edging, edges=(edges,)))


PIECE = lasted(smooth(120, [8, -5, 3], [0.3, 1.0, 2.0]), [0, 60], axis_deg=20.0)
SQUARE = lasted(rectangle(100, 60), [0, 1, 2, 3])


def ground(piece):
    return base_ground(piece, net_outline(piece, RULES))


def graded(piece, factors):
    made = grade_piece(piece, RULES, factors)
    return Ground(made, net_outline(made, RULES), grade_frame(piece, RULES, factors), lambda r, v: v)


shares = st.floats(0.0, 1.0)
factors = st.tuples(st.floats(0.85, 1.2), st.floats(0.85, 1.2))


@given(x=st.floats(-70, 70), y=st.floats(-50, 50), start=st.sampled_from([(0, 60), (60, 0), (30, 90)]))
def test_a_point_kept_by_an_edge_comes_back_exactly(x, y, start):
    here = ground(PIECE)
    place = here.place_at(0, *start, (x, y))
    assert here.point(place) == pytest.approx((x, y), abs=1e-6)


@given(share=shares, grade=factors)
def test_a_place_at_an_edge_keeps_its_share_of_the_net_length(share, grade):
    here = graded(PIECE, grade)
    place = AtEdge(0, 0, 60, share)
    net = shapely.LineString(here.net.rings_mm[0][:61])
    cut = shapely.LineString(here.upper.outline.rings_mm[0][:61])
    point = shapely.Point(here.point(place))
    assert cut.distance(point) < 1e-9  # on the cut outline
    beside = shapely.Point(net.interpolate(share, normalized=True))
    assert beside.distance(point) == pytest.approx(12.0, abs=0.35)  # an allowance away from its net place


@given(share=st.floats(0.05, 0.95), inward=st.floats(0.5, 15), grade=factors)
def test_the_distance_from_the_edge_is_the_same_in_every_size(share, inward, grade):
    here = graded(SQUARE, grade)
    _, y = here.point(AtEdge(0, 0, 1, share, inward))
    assert y - here.upper.outline.bbox_mm[1] == pytest.approx(inward)


@given(x=st.floats(20, 80), y=st.floats(20, 40), grade=factors)
def test_a_place_in_the_open_rides_as_a_mark_does(x, y, grade):
    from geometry.piece import Mark

    marked = replace(SQUARE, marks=(Mark(np.array([(x, y), (50.0, 30.0)])),))
    assert graded(SQUARE, grade).point(InFrame(x, y)) == pytest.approx(
        grade_piece(marked, RULES, grade).marks[0].points_mm[0]
    )


@given(grade=factors, inward=st.floats(1, 12))
def test_a_line_beside_the_feather_edge_keeps_its_distance_in_every_size(grade, inward):
    here = graded(SQUARE, grade)
    line = here.line(Beside(AtEdge(0, 0, 1, 0.0), AtEdge(0, 0, 1, 1.0), inward, from_net=True))
    feather = here.net.bbox_mm[1]
    assert line[:, 1] == pytest.approx(feather + inward)


@given(grade=factors, width=st.floats(3, 20))
def test_a_band_along_an_edge_keeps_its_width_in_every_size(grade, width):
    here = graded(SQUARE, grade)
    ring = here.area(Band(AtEdge(0, 2, 3, 0.2), AtEdge(0, 2, 3, 0.7), width))
    low, high = ring.min(axis=0), ring.max(axis=0)
    assert high[1] - low[1] == pytest.approx(width)
    assert high[0] - low[0] == pytest.approx(0.5 * (here.net.bbox_mm[2] - here.net.bbox_mm[0]), rel=0.02)


def test_a_smooth_line_goes_through_its_places_and_a_closed_one_has_no_corner():
    spots = ((30.0, 20.0), (60.0, 20.0), (60.0, 45.0), (30.0, 45.0))
    ring = ground(SQUARE).line(Course(tuple(InFrame(*s) for s in spots), smooth=True, closed=True))
    for spot in spots:
        assert np.hypot(*(ring - spot).T).min() < 1e-9
    step = np.diff(np.concatenate([ring, ring[:2]]), axis=0)
    turn = np.abs(np.diff(np.unwrap(np.arctan2(step[:, 1], step[:, 0]))))
    assert np.degrees(turn.max()) < 12.0


def test_corners_of_a_region_are_rounded_to_the_radius_typed():
    spots = ((30.0, 20.0), (70.0, 20.0), (70.0, 45.0), (30.0, 45.0))
    ring = ground(SQUARE).line(Course(tuple(InFrame(*s) for s in spots), closed=True, rounded_mm=5.0))
    area = shapely.Polygon(ring).area
    assert area == pytest.approx(40 * 25 - (4 - np.pi) * 25, abs=0.6)


def test_a_region_too_small_for_its_radius_is_refused():
    spots = ((30.0, 20.0), (34.0, 20.0), (34.0, 45.0))
    with pytest.raises(BackingError, match="too small"):
        ground(SQUARE).line(Course(tuple(InFrame(*s) for s in spots), closed=True, rounded_mm=5.0))


def everything() -> LayerDrawing:
    return LayerDrawing(
        keeps=(
            CutLine(Beside(AtEdge(0, 0, 60, 0.0), AtEdge(0, 0, 60, 1.0), 8.0, True), InFrame(0.0, -10.0)),
            Region(
                Course(tuple(InFrame(*s) for s in ((-20, -10), (10, -12), (5, 8), (-15, 10))), True, True),
                False,
            ),
        ),
        changes=(
            Course((AtEdge(0, 60, 0, 0.4, 5.0), AtEdge(0, 60, 0, 0.5, 9.0), AtEdge(0, 60, 0, 0.6, 5.0))),
        ),
        splits=(Split(Course((InFrame(30.0, -60.0), InFrame(34.0, 60.0))), ("heel", "toe"), 6.0),),
    )


@given(grade=factors)
def test_laying_on_the_mirrored_piece_is_mirroring_what_was_laid(grade):
    here = graded(PIECE, grade)
    shaping = shaping_on(here, everything())
    left = derive_backing(here.upper, RULES, shaping=shaping)
    right = derive_backing(mirrored_piece(here.upper), RULES, shaping=mirrored_shaping(shaping))
    assert left.part_names == right.part_names
    for a, b in zip(left.outlines, right.outlines, strict=True):
        assert a.mirrored().polygon.symmetric_difference(b.polygon).area < 0.05


@given(grade=factors)
def test_grading_to_a_size_and_back_lays_everything_where_it_was(grade):
    there = graded(SQUARE, grade)
    back = graded(there.upper, (1.0 / grade[0], 1.0 / grade[1]))
    here = ground(SQUARE)
    for place in (AtEdge(0, 0, 1, 0.3, 7.0), AtEdge(0, 2, 3, 0.8)):
        assert back.point(place) == pytest.approx(here.point(place), abs=1e-6)
    # in the open: the frame there, and the frame back
    point = there.frame(np.array([[12.0, -9.0]]))
    assert back.frame(point)[0] == pytest.approx((12.0, -9.0), abs=1e-6)


def test_relief_cuts_keep_the_pitch_and_stand_off_the_ends():
    row = ReliefRow(AtEdge(0, 2, 3, 0.0), AtEdge(0, 2, 3, 1.0), 8.0, 4.0)
    small, large = (details_on(graded(SQUARE, g), [row], "upper").notches for g in ((0.9, 1.0), (1.15, 1.0)))
    assert len(large) > len(small)
    for notches in (small, large):
        at = sorted(n.x_mm for n in notches)
        assert max(np.diff(at)) <= 8.0 + 1e-9
        assert {n.kind for n in notches} == {"v"} and {n.depth_mm for n in notches} == {4.0}
        assert all(n.angle_deg == pytest.approx(-90.0) for n in notches)


def test_details_go_where_they_were_meant():
    drawn = [
        EdgeNotch(AtEdge(0, 2, 3, 0.5), on="both"),
        Hole(InFrame(50.0, 30.0), 3.0, on="upper"),
        Word(InFrame(30.0, 30.0), "glue", on="backing"),
    ]
    here = ground(SQUARE)
    on_upper = upper_with(here.upper, details_on(here, drawn, "upper"))
    (backing,) = backings_with([derive_backing(SQUARE, RULES)], on_upper, details_on(here, drawn, "backing"))
    assert len(on_upper.notches) == 1 and len(on_upper.drill_holes) == 1 and not on_upper.letterings
    assert len(backing.notches) == 1 and not backing.drill_holes and len(backing.letterings) == 1
    assert backing.notches[0].y_mm == pytest.approx(55.0)  # in to the backing's own edge
    assert backing.upper is on_upper


def test_what_no_layer_reaches_is_told_of():
    here = ground(SQUARE)
    cut = shaping_on(
        here, LayerDrawing((CutLine(Course((InFrame(50, 0), InFrame(50, 60))), InFrame(20, 30)),))
    )
    backing = derive_backing(SQUARE, RULES, shaping=cut)
    drawn = details_on(here, [Hole(InFrame(80.0, 30.0))], "backing")
    (made,) = backings_with([backing], here.upper, drawn)
    assert "DETAIL_OFF_BACKING" in codes(made.findings) and not made.drill_holes


def test_details_are_mirrored_and_words_stay_readable():
    here = ground(SQUARE)
    details = details_on(here, [Word(InFrame(30.0, 30.0), "glue", 4.0, 15.0)], "backing")
    twice = details.mirrored().mirrored().letterings[0]
    once = details.mirrored().letterings[0]
    assert (twice.x_mm, twice.y_mm, twice.angle_deg) == pytest.approx((30.0, 30.0, 15.0))
    assert once.angle_deg == -15.0 and once.text == "glue"
    # its room is the mirror image: the head of a capital is where the foot's image would be
    up = np.array([-np.sin(np.radians(-15)), np.cos(np.radians(-15))]) * 4.0
    assert np.array([once.x_mm, once.y_mm]) + up == pytest.approx((30.0, -30.0))
