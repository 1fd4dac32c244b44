"""The pull axis is proposed from what the drawing shows, and confirmed by a person."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.outline import Outline
from geometry.piece import DrawnPiece, PullAxis
from geometry.pull import axis_deviations, propose_axis, symmetry_axis_deg, undirected_deg
from tests.geometry.small_pieces import L_SHAPE, circle, codes, rectangle, smooth, upper


def vamp() -> np.ndarray:
    """Symmetric about the x axis, wider than long, so that only the symmetry tells the axis."""
    half = np.array([(0, 0), (20, 30), (-10, 60), (-30, 62), (-32, 30), (-30, 8)], dtype=float)
    return np.concatenate([half, (half[1 : -0 or None] * (1, -1))[::-1]])


def test_a_grain_line_of_the_file_comes_first_and_stays_a_proposal():
    drawn = DrawnPiece(
        "piece", Outline.make(rectangle(100, 40)), pull_axis=PullAxis(12.0, "grain line", True)
    )
    assert propose_axis(drawn) == PullAxis(12.0, "grain line", False)


@settings(max_examples=25, deadline=None)
@given(st.floats(-89, 89))
def test_a_symmetric_piece_is_pulled_along_its_axis(turn):
    axis = propose_axis(DrawnPiece("vamp", Outline.make(vamp()).turned(turn)))
    assert axis.source == "symmetry"
    assert abs(undirected_deg(axis.axis_deg - turn)) < 0.01
    assert not axis.confirmed


def test_what_is_symmetric_both_ways_has_no_axis_of_symmetry():
    assert symmetry_axis_deg(Outline.make(rectangle(100, 40))) is None
    assert symmetry_axis_deg(Outline.make(circle(30, 90))) is None


def test_otherwise_the_longest_direction_is_proposed():
    assert propose_axis(DrawnPiece("strap", Outline.make(rectangle(20, 150)))) == PullAxis(
        90.0, "longest direction"
    )
    lean = Outline.make(smooth(200, [9, 4, 2], [0.3, 1.0, 2.0])).turned(35)
    assert propose_axis(DrawnPiece("quarter", lean)).source == "longest direction"


@pytest.mark.parametrize(("angle", "line"), [(90, 90), (-90, 90), (135, -45), (180, 0), (270, 90), (-91, 89)])
def test_a_line_has_no_direction(angle, line):
    assert undirected_deg(angle) == line


def test_a_piece_that_leaves_the_common_axis_is_flagged():
    pieces = [upper(L_SHAPE, [0] * 6, axis_deg=a) for a in (0.0, 1.0, -89.5, 0.5)]
    pieces[2] = replace(pieces[2], name="tongue")
    found = axis_deviations(pieces, 5.0)
    assert [f.piece for f in found] == ["tongue"]
    assert codes(found) == {"AXIS_DEVIATES"}
    assert found[0].advice


def test_axes_on_either_side_of_upright_are_near_each_other():
    pieces = [upper(L_SHAPE, [0] * 6, axis_deg=a) for a in (89.0, -89.0, 90.0)]
    assert axis_deviations(pieces, 2.0) == ()
    assert axis_deviations(pieces[:1], 0.0) == ()
