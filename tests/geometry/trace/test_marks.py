"""Pencil lines on a card and notches of its edge, from pictures made by calculation."""

from __future__ import annotations

import cv2
import numpy as np
import pytest
import shapely

from geometry.trace.nicks import without_notches
from geometry.trace.read import trace_picture
from geometry.trace.sheet import trace_sheet
from tests.geometry.trace.test_trace import render

A4 = trace_sheet("A4")
CARD = shapely.box(60, 50, 200, 150)
V_NOTCH = shapely.Polygon([(98.5, 49), (101.5, 49), (100, 54)])  # 2.4 mm wide at the edge, 4 deep
SQUARE_NOTCH = shapely.box(196, 98.5, 201, 101.5)  # 3 wide, 4 deep
STRAIGHT = [(80.0, 70.0), (170.0, 95.0)]
CURVED = [(80 + 90 * t, 120 + 12 * np.sin(3 * t)) for t in np.linspace(0, 1, 60)]


@pytest.fixture(scope="module")
def traced(tmp_path_factory):
    """A card with two notches and two pencil lines, photographed."""
    path = tmp_path_factory.mktemp("marks") / "card.png"
    card = CARD.difference(V_NOTCH).difference(SQUARE_NOTCH)
    picture = render.photograph(A4, [card], render.Shot(2600, 1950), lines=[STRAIGHT, CURVED])
    assert cv2.imwrite(str(path), picture)
    return trace_picture(path, sheet="A4")


def test_pencil_lines_come_as_marks_where_they_were_drawn(traced) -> None:
    (card,) = traced.pieces
    assert len(card.marks) == 2 and not any(mark.closed for mark in card.marks)
    for truth in (shapely.LineString(STRAIGHT), shapely.LineString(CURVED)):
        near = min(card.marks, key=lambda m: shapely.LineString(m.points_mm).hausdorff_distance(truth))
        line = shapely.segmentize(shapely.LineString(near.points_mm), 0.5)
        away = shapely.distance(shapely.points(shapely.get_coordinates(line)), truth)
        assert np.median(away) < 0.15 and np.percentile(away, 95) < 0.4
        assert line.length == pytest.approx(truth.length, abs=1.5)


def test_notches_are_taken_out_of_the_outline_and_told(traced) -> None:
    (card,) = traced.pieces
    assert np.percentile(render.errors_mm(card.outline.polygon, CARD), 95) < 0.4
    by_kind = {notch.kind: notch for notch in card.notches}
    assert len(card.notches) == 2 and set(by_kind) == {"v", "castle"}
    v, square = by_kind["v"], by_kind["castle"]
    assert (v.x_mm, v.y_mm) == (pytest.approx(100, abs=0.4), pytest.approx(50, abs=0.4))
    assert v.angle_deg == pytest.approx(90, abs=6) and v.depth_mm == pytest.approx(4, abs=0.7)
    assert (square.x_mm, square.y_mm) == (pytest.approx(200, abs=0.4), pytest.approx(100, abs=0.4))
    assert abs(square.angle_deg) == pytest.approx(180, abs=6)
    assert square.depth_mm == pytest.approx(4, abs=0.5) and square.width_mm == pytest.approx(3, abs=0.5)


def test_a_notch_is_found_where_the_edge_about_it_is_not_quite_straight() -> None:
    """Closed over a notch, a hollow of a tenth of a mm is closed too and hangs on it as a sliver."""
    hollow = shapely.Polygon([(200, 55), (199.85, 100), (200, 145), (201, 145), (201, 55)])
    ring = np.array(shapely.segmentize(CARD.difference(hollow | SQUARE_NOTCH).exterior, 0.1).coords[:-1])
    (notch,) = without_notches(ring)[1]
    assert (notch.kind, notch.depth_mm) == ("castle", pytest.approx(3.9, abs=0.2))


def test_corners_and_wide_or_shallow_hollows_are_no_notches() -> None:
    shape = (
        CARD.difference(shapely.box(120, 140, 150, 151))
        .difference(shapely.Point(60, 100).buffer(20))
        .difference(shapely.box(90, 49, 93, 50.6))
    )
    ring = np.array(shapely.segmentize(shape.exterior, 0.1).coords[:-1])
    assert without_notches(ring)[1] == ()
    assert np.array_equal(without_notches(ring)[0], ring)
