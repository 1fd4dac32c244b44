"""A half pattern unfolds to the whole piece, and a whole piece folds to its half."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from geometry.edge_kinds import EdgeKind
from geometry.errors import OutlineError
from geometry.outline import Outline, rotation
from geometry.piece import DrawnPiece, DrillHole, Edge, Edging, Mark, Notch
from geometry.symmetry.halves import centre_line, folded, unfolded, unfolded_edging
from geometry.symmetry.reflection import Reflection

# right half of a vamp: the centre line from (0, 80) down to (0, 0), the toe runs square into it
HALF = [(0, 0), (40, 0), (55, 30), (50, 70), (20, 80), (0, 80)]
KINDS = (EdgeKind.LASTING, EdgeKind.UNDERLAY, EdgeKind.FOLDED, EdgeKind.CENTRE)
BREAKS = (0, 2, 4, 5)
CORNER_DEG = 25.0


def half(turn_deg: float = 0.0, shift=(0.0, 0.0)) -> tuple[DrawnPiece, Edging]:
    """A half piece with four edges, turned and moved on the drawing."""
    ring = np.array(HALF, dtype=float) @ rotation(turn_deg).T + shift
    edging = Edging((BREAKS,), (tuple(Edge(kind, 4.0 + k) for k, kind in enumerate(KINDS)),))
    return DrawnPiece(name="Vamp", outline=Outline.make(ring)), edging


@given(st.floats(-180, 180), st.floats(-500, 500), st.floats(-500, 500))
def test_the_whole_has_twice_the_area_and_lies_the_same_on_both_sides(turn, dx, dy):
    drawn, edging = half(turn, (dx, dy))
    line = centre_line(drawn.outline, edging, (0, 5))
    full = unfolded(drawn, line)
    assert full.outline.area_mm2 == pytest.approx(2 * drawn.outline.area_mm2, rel=1e-9)
    image = Reflection.across(*line).outline(full.outline)
    assert image.polygon.symmetric_difference(full.outline.polygon).area < 1e-5


@given(st.floats(-180, 180))
def test_edges_of_the_half_stand_on_both_sides_and_run_on_over_the_fold(turn):
    drawn, edging = half(turn)
    line = centre_line(drawn.outline, edging, (0, 5))
    full = unfolded(drawn, line)
    whole = unfolded_edging(drawn.outline, edging, full.outline, line, CORNER_DEG)
    kinds = [edge.kind for edge in whole.edges[0]]
    # lasting and folded run on square to the fold, so each is one edge; the underlay stands twice
    assert sorted(kinds) == ["folded", "lasting", "underlay", "underlay"]
    assert EdgeKind.CENTRE not in kinds
    assert {e.setback_mm for e in whole.edges[0] if e.kind is EdgeKind.UNDERLAY} == {5.0}


def test_a_corner_at_the_fold_stays_a_break():
    ring = [(0, 0), (40, 20), (40, 80), (0, 60)]  # a point at the toe
    edging = Edging(((0, 2, 3),), ((Edge(EdgeKind.LASTING), Edge(EdgeKind.RAW), Edge(EdgeKind.CENTRE)),))
    drawn = DrawnPiece(name="Cap", outline=Outline.make(ring))
    line = centre_line(drawn.outline, edging, (0, 3))
    full = unfolded(drawn, line)
    whole = unfolded_edging(drawn.outline, edging, full.outline, line, CORNER_DEG)
    at = {tuple(np.round(full.outline.ring_mm[b], 6)) for b in whole.breaks[0]}
    assert (0.0, 0.0) in at and (0.0, 60.0) in at


def test_notches_holes_and_marks_come_twice_but_for_those_on_the_fold():
    drawn, edging = half()
    drawn = DrawnPiece(
        name="Vamp",
        outline=drawn.outline,
        notches=(Notch(40, 0, 90.0), Notch(0, 0, 90.0)),
        drill_holes=(DrillHole(30, 40, 2.0), DrillHole(0, 40, 2.0)),
        marks=(Mark(np.array([(10.0, 10.0), (10.0, 60.0)])),),
    )
    full = unfolded(drawn, centre_line(drawn.outline, edging, (0, 5)))
    assert sorted(n.x_mm for n in full.notches) == [-40, 0, 40]
    assert sorted(d.x_mm for d in full.drill_holes) == [-30, 0, 30]
    assert len(full.marks) == 2


def test_a_curved_centre_edge_is_refused():
    drawn, edging = half()
    with pytest.raises(OutlineError, match="not straight"):
        centre_line(drawn.outline, edging, (0, 0))


@given(st.floats(-180, 180), st.floats(-300, 300))
def test_folding_and_unfolding_gives_the_piece_back(turn, dx):
    drawn, edging = half(turn, (dx, 0.0))
    line = centre_line(drawn.outline, edging, (0, 5))
    full = unfolded(drawn, line)
    whole = unfolded_edging(drawn.outline, edging, full.outline, line, CORNER_DEG)
    again, half_edging = folded(full, whole, line)
    assert again.outline.area_mm2 == pytest.approx(drawn.outline.area_mm2, rel=1e-6)
    kinds = sorted(edge.kind for edge in half_edging.edges[0])
    assert kinds == sorted(KINDS)
    start = half_edging.breaks[0][[e.kind for e in half_edging.edges[0]].index(EdgeKind.CENTRE)]
    back = unfolded(again, centre_line(again.outline, half_edging, (0, start)))
    assert Polygon(back.outline.ring_mm).symmetric_difference(full.outline.polygon).area < 1e-3


@given(st.floats(-0.04, 0.04), st.floats(-0.04, 0.04), st.floats(-180, 180))
def test_a_fold_a_hair_beside_the_vertices_on_it_doubles_none(foot, head, turn):
    """An axis of symmetry that was found lies never quite on the vertices that were drawn on it."""
    drawn, edging = half(turn)
    line = centre_line(drawn.outline, edging, (0, 5))
    full = unfolded(drawn, line)
    whole = unfolded_edging(drawn.outline, edging, full.outline, line, CORNER_DEG)
    across = np.array([-(line[1] - line[0])[1], (line[1] - line[0])[0]]) / 80.0
    made, _ = folded(full, whole, line + np.array([[head], [foot]]) * across)
    ring = made.outline.ring_mm
    assert np.hypot(*(np.roll(ring, -1, axis=0) - ring).T).min() > 1.0
    assert made.outline.area_mm2 == pytest.approx(drawn.outline.area_mm2, abs=80 * 0.05)


def test_halves_that_differ_are_not_folded():
    lopsided = DrawnPiece(name="Vamp", outline=Outline.make([(-40, 0), (45, 0), (45, 60), (-40, 60)]))
    edging = Edging(((0,),), ((Edge(EdgeKind.RAW),),))
    with pytest.raises(OutlineError, match=r"differ by up to 5\.0 mm"):
        folded(lopsided, edging, np.array([(0.0, 0.0), (0.0, 60.0)]))


def test_a_line_beside_the_piece_is_refused():
    drawn, edging = half()
    with pytest.raises(OutlineError):
        folded(drawn, edging, np.array([(500.0, 0.0), (500.0, 60.0)]))
