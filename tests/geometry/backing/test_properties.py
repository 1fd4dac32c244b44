"""What must hold of every backing, whatever the piece."""

from dataclasses import replace

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box
from shapely.ops import unary_union

from geometry.backing.derive import derive_backing
from geometry.backing.edges import edge_points
from geometry.backing.house_rules import DraftRules
from geometry.mirror import mirrored_piece
from geometry.piece import UpperPiece
from geometry.tolerances import SETBACK_MM
from tests.geometry.small_pieces import circle, smooth, upper

WHOLE = DraftRules(sliver_mm=0.0)  # slivers have tests of their own
few = settings(max_examples=40, deadline=None)
setback = st.sampled_from([0.0, 1.5, 2.0, 4.0, 8.0, 12.0])


@st.composite
def smooth_uppers(draw, setbacks=setback, holes=True):
    """A smooth outline of 160 vertices with one to five edges, and perhaps a hole."""
    waves = draw(st.lists(st.floats(-9, 9), min_size=3, max_size=3))
    phases = draw(st.lists(st.floats(0, 6.28), min_size=3, max_size=3))
    breaks = draw(st.lists(st.integers(0, 159), min_size=1, max_size=5, unique=True).map(sorted))
    widths = [draw(setbacks) for _ in breaks]
    hole = [circle(5, 40)] if holes and draw(st.booleans()) else []
    return upper(smooth(160, waves, phases), widths, breaks, hole, [draw(setbacks) for _ in hole])


@st.composite
def convex_uppers(draw):
    """A convex polygon with long sides and real corners, a setback of either sign on each."""
    count = draw(st.integers(3, 7))
    turn = draw(st.floats(0, 6.28))
    spread = np.array(draw(st.lists(st.floats(0.6, 1.4), min_size=count, max_size=count)))
    angle = np.cumsum(spread) / spread.sum() * 2 * np.pi + turn
    points = np.stack([90 * np.cos(angle), 70 * np.sin(angle)], axis=1)
    step = np.roll(points, -1, axis=0) - points
    assume(np.hypot(*step.T).min() > 30)
    return upper(points, draw(st.lists(st.floats(-4, 9), min_size=count, max_size=count)))


@st.composite
def jagged_uppers(draw):
    """A star-shaped polygon with sharp corners in and out, a setback of either sign on each side."""
    count = draw(st.integers(4, 12))
    spread = np.array(draw(st.lists(st.floats(0.4, 1.6), min_size=count, max_size=count)))
    angle = np.cumsum(spread) / spread.sum() * 2 * np.pi
    radius = np.array(draw(st.lists(st.floats(15, 90), min_size=count, max_size=count)))
    points = np.stack([radius * np.cos(angle), radius * np.sin(angle)], axis=1)
    assume(Polygon(points).is_valid and Polygon(points).area > 100)
    signed = st.sampled_from([-3.0, -1.0, 0.0, 0.0, 2.0, 5.0, 8.0, 12.0])
    return upper(points, draw(st.lists(signed, min_size=count, max_size=count)))


def shape(piece: UpperPiece, rules: DraftRules = WHOLE):
    return unary_union([o.polygon for o in derive_backing(piece, rules).outlines])


def with_setbacks(piece: UpperPiece, widths) -> UpperPiece:
    return upper(piece.outline.ring_mm, widths, piece.edging.breaks[0])


@few
@given(smooth_uppers(setbacks=st.just(0.0)))
def test_zero_setbacks_give_the_upper_back(piece):
    assert derive_backing(piece, WHOLE).outlines == (piece.outline,)


@few
@given(convex_uppers())
def test_on_a_convex_polygon_the_lines_run_on_until_they_meet(piece):
    """There the backing is what lies inside every offset line."""
    expected: Polygon = box(-500, -500, 500, 500)
    ring = piece.outline.ring_mm
    for start, end, edge in zip(ring, np.roll(ring, -1, axis=0), piece.edging.edges[0], strict=True):
        way = (end - start) / np.hypot(*(end - start))
        inward = np.array([-way[1], way[0]])
        origin = start + edge.setback_mm * inward
        half = [
            origin - 2e3 * way,
            origin + 2e3 * way,
            origin + 2e3 * (way + inward),
            origin - 2e3 * (way - inward),
        ]
        expected = expected.intersection(Polygon(half))
    assert shape(piece).symmetric_difference(expected).area < 1e-3


@few
@given(smooth_uppers(holes=False), st.data())
def test_growing_one_setback_never_grows_the_piece(piece, data):
    widths = [edge.setback_mm for edge in piece.edging.edges[0]]
    which = data.draw(st.integers(0, len(widths) - 1))
    more = [w + (data.draw(st.floats(0.1, 6)) if k == which else 0.0) for k, w in enumerate(widths)]
    assert shape(with_setbacks(piece, more)).difference(shape(piece)).area < 1e-3


@few
@given(smooth_uppers(), st.floats(-180, 180), st.floats(-300, 300), st.floats(-300, 300))
def test_backing_commutes_with_turning_and_moving(piece, turn, dx, dy):
    def moved(outline):
        return outline.turned(turn).moved(dx, dy)

    there = shape(replace(piece, outline=moved(piece.outline)))
    here = unary_union([moved(o).polygon for o in derive_backing(piece, WHOLE).outlines])
    assert there.symmetric_difference(here).area < 1e-2


@few
@given(smooth_uppers())
def test_backing_commutes_with_mirroring(piece):
    there = shape(mirrored_piece(piece))
    here = unary_union([o.mirrored().polygon for o in derive_backing(piece, WHOLE).outlines])
    assert there.symmetric_difference(here).area < 1e-2


@few
@given(st.one_of(smooth_uppers(), jagged_uppers()))
def test_no_backing_lies_nearer_to_an_edge_than_its_setback(piece):
    """Measured along the edge itself: at right angles to its segments, through the material."""
    backing = derive_backing(piece, WHOLE)
    region = piece.outline.polygon.buffer(1e-4)
    for outline in backing.outlines:
        for ring in outline.rings_mm:
            points = np.asarray(LineString(np.vstack([ring, ring[:1]])).segmentize(1.0).coords)
            for r, widths in enumerate(backing.setbacks_mm):
                for k, wide in enumerate(widths):
                    if wide <= 0.0:
                        continue
                    edge = edge_points(piece.outline, piece.edging, r, k)
                    for point, foot in too_near(points, edge, wide - SETBACK_MM):
                        assert not LineString([point, foot]).within(region), (r, k, point, foot)


def too_near(points, edge, wide):
    """Pairs (point, foot) of points within ``wide`` to the left of an edge's segments.

    Feet within 0.01 mm of a segment's ends do not count: there a point may lie on the very
    face of a strip.
    """
    a, step = edge[:-1], np.diff(edge, axis=0)
    length = np.hypot(*step.T)
    way = step / length[:, None]
    off = points[:, None] - a
    along = np.einsum("pij,ij->pi", off, way)
    height = way[:, 0] * off[..., 1] - way[:, 1] * off[..., 0]
    found = (along > 0.01) & (along < length - 0.01) & (height > -1e-6) & (height < wide)
    for p, i in np.argwhere(found):
        yield points[p], a[i] + along[p, i] * way[i]


@few
@given(smooth_uppers())
def test_nothing_is_taken_that_lies_farther_than_every_setback(piece):
    """But the mitres of the polyline that stands for the curve (3 % of a setback here)."""
    backing = derive_backing(piece, WHOLE)
    reach = [
        LineString(edge_points(piece.outline, piece.edging, r, k)).buffer(wide * 1.03 + 0.01, quad_segs=32)
        for r, widths in enumerate(backing.setbacks_mm)
        for k, wide in enumerate(widths)
        if wide > 0
    ]
    taken = piece.outline.polygon.difference(unary_union([o.polygon for o in backing.outlines]))
    assert taken.difference(unary_union(reach)).area < 0.2


@few
@given(st.one_of(smooth_uppers(setbacks=st.floats(-3, 12)), jagged_uppers()))
def test_a_backing_is_a_proper_outline_whatever_the_setbacks(piece):
    for outline in derive_backing(piece, DraftRules(knife_radius_mm=2.0)).outlines:
        assert outline.polygon.is_valid
        assert outline.area_mm2 > 0
