"""Curves become polylines that never leave them by more than asked, wherever they are placed."""

from __future__ import annotations

import math

import ezdxf
import numpy as np
import pytest
from ezdxf.math import BSpline
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.dxf.lines.curves import BadEntity, arc_points, flatten, spline_points, with_bulges
from geometry.findings import Severity


@given(
    radius=st.floats(0.2, 20000.0),
    start=st.floats(-7.0, 7.0),
    sweep=st.floats(0.01, math.tau),
    distance=st.floats(0.001, 1.0),
)
def test_an_arc_keeps_its_chord_error(radius: float, start: float, sweep: float, distance: float) -> None:
    points = arc_points((3.0, -4.0), radius, start, sweep, distance)
    middles = 0.5 * (points[1:] + points[:-1])
    off = radius - np.hypot(*(middles - (3.0, -4.0)).T)
    assert off.max() <= distance * (1 + 1e-9) + 1e-9
    assert np.hypot(*(points - (3.0, -4.0)).T) == pytest.approx(radius)


def test_a_bulge_of_one_is_a_half_circle() -> None:
    points = with_bulges(np.array([[0.0, 0.0], [10.0, 0.0]]), np.array([1.0, 0.0]), False, 0.01)
    assert np.hypot(*(points - (5.0, 0.0)).T) == pytest.approx(5.0)
    assert points[:, 1].min() == pytest.approx(-5.0, abs=0.01)  # left of the walk is inside: it swings below


def test_every_curve_kind_encloses_the_area_of_its_formula(table) -> None:
    model = table.model
    model.add_circle((0, 0), 50)
    model.add_ellipse((200, 0), (60, 0), 0.5)
    model.add_lwpolyline([(300, 0, 0, 0, 1), (400, 0, 0, 0, 1)], format="xyseb", close=True)
    areas = [piece.outline.area_mm2 for piece in table.read(chord_mm=0.001).pieces]
    expected = [math.pi * 2500, math.pi * 60 * 30, math.pi * 2500]
    assert areas == pytest.approx(expected, rel=2e-4)


def test_a_rational_quarter_circle_is_round(table) -> None:
    """Weights 1, sqrt(1/2), 1 of a quadratic spline give an exact circle (L. Piegl, W. Tiller, The
    NURBS Book, ch. 7, from memory)."""
    spline = table.model.add_rational_spline(
        [(50, 0, 0), (50, 50, 0), (0, 50, 0)], [1, math.sqrt(0.5), 1], degree=2
    )
    (flat,) = flatten(spline, 0.001)
    assert np.hypot(*flat.points[:, :2].T) == pytest.approx(50.0, abs=1e-9)


@settings(max_examples=30)
@given(
    st.lists(st.tuples(st.floats(-200, 200), st.floats(-200, 200)), min_size=6, max_size=12),
    st.integers(2, 5),
)
def test_a_spline_keeps_its_distance(controls: list[tuple[float, float]], degree: int) -> None:
    points = np.array([(x, y, 0.0) for x, y in controls])
    tool = BSpline(points, order=degree + 1)
    flat = spline_points(points, np.array(tool.knots()), np.empty(0), degree, 0.05)
    import shapely

    line = shapely.LineString(flat[:, :2]) if np.ptp(flat[:, :2], axis=0).any() else None
    for p in tool.approximate(200):
        off = math.dist((p.x, p.y), flat[0, :2]) if line is None else line.distance(shapely.Point(p.x, p.y))
        assert off <= 0.05


@given(out=st.floats(100.0, 200.0), back=st.floats(-50.0, 50.0))
def test_a_spline_that_runs_there_and_back_reaches_its_tip(out: float, back: float) -> None:
    """x(t) = 2 t (1 - t) out + t^2 back turns where its derivative is 0: at out^2 / (2 out - back)."""
    controls = np.array([(0.0, 0.0, 0.0), (out, 0.0, 0.0), (back, 0.0, 0.0)])
    flat = spline_points(controls, np.array([0.0, 0, 0, 1, 1, 1]), np.empty(0), 2, 0.05)
    assert flat[:, 0].max() == pytest.approx(out**2 / (2.0 * out - back), abs=0.05)


def test_a_spline_of_absurd_degree_is_refused_by_name() -> None:
    controls = np.array([(float(k), 0.0, 0.0) for k in range(200)])
    with pytest.raises(BadEntity, match="degree"):
        spline_points(controls, np.arange(200.0 + 150), np.empty(0), 149, 0.05)


@pytest.mark.parametrize(
    ("knots", "weights"),
    [
        ([0, 0, 1], []),
        ([0, 0, 0, 0, 1, 0, 1, 1], []),
        ([0, 0, 0, 0, 1, 1, 1, 1], [1, 1, 0, 1]),
        ([2] * 8, []),
    ],
)
def test_a_damaged_spline_is_refused_by_name(knots: list[float], weights: list[float]) -> None:
    controls = np.array([(0.0, 0, 0), (10, 10, 0), (20, 0, 0), (30, 10, 0)])
    with pytest.raises(BadEntity):
        spline_points(controls, np.array(knots, dtype=float), np.array(weights, dtype=float), 3, 0.05)


def test_a_mirrored_plane_lies_where_it_is_seen(table) -> None:
    """Extrusion (0, 0, -1) turns x round; drawn points at x = 10..60 are seen at -60..-10."""
    table.model.add_lwpolyline(
        [(10, 0), (60, 0, 0, 0, 0.5), (60, 40), (10, 40)],
        format="xyseb",
        close=True,
        dxfattribs={"extrusion": (0, 0, -1)},
    )
    (piece,) = table.read().pieces
    x0, y0, x1, y1 = piece.outline.bbox_mm
    assert (x1, y0, y1) == pytest.approx((-10.0, 0.0, 40.0))
    assert x0 == pytest.approx(-70.0, abs=0.05)  # the bulge reaches 0.5 x half the chord further


def test_blocks_nested_mirrored_and_stretched(table) -> None:
    inner = table.document.blocks.new("INNER", base_point=(5, 5))
    inner.add_lwpolyline(
        [(5, 5, 0, 0, 0), (105, 5, 0, 0, 1), (105, 55, 0, 0, 0), (5, 55, 0, 0, 0)], format="xyseb", close=True
    )
    inner.add_circle((50, 30), 10)
    outer = table.document.blocks.new("OUTER")
    outer.add_blockref("INNER", (10, 10), dxfattribs={"rotation": 30, "xscale": -1, "yscale": 2})
    table.model.add_blockref("OUTER", (7, 9), dxfattribs={"xscale": 1.5, "rotation": 45})
    (piece,) = table.read().pieces
    flat = 100 * 50 + math.pi * 25**2 / 2 - math.pi * 100
    assert piece.outline.area_mm2 == pytest.approx(flat * 2 * 1.5, rel=3e-4)
    assert piece.name == "INNER"
    assert len(piece.outline.holes_mm) == 1


def test_an_array_of_blocks_is_counted_out(table) -> None:
    block = table.document.blocks.new("STRAP")
    block.add_lwpolyline([(0, 0), (40, 0), (40, 20), (0, 20)], close=True)
    table.model.add_blockref(
        "STRAP",
        (0, 0),
        dxfattribs={"row_count": 3, "column_count": 4, "row_spacing": 30, "column_spacing": 50},
    )
    pieces = table.read().pieces
    assert len(pieces) == 12
    assert len({piece.name for piece in pieces}) == 12
    assert {piece.outline.bbox_mm[0] for piece in pieces} == {0, 50, 100, 150}


def test_blocks_that_are_missing_or_hold_themselves_are_said(table) -> None:
    ring = table.document.blocks.new("RING")
    ring.add_blockref("RING", (10, 0))
    ring.add_lwpolyline([(0, 0), (90, 0), (90, 60)], close=True)
    table.model.add_blockref("RING", (0, 0))
    table.model.add_blockref("NOWHERE", (0, 0))
    drawing = table.read()
    assert len(drawing.pieces) == 1
    messages = [f.message for f in drawing.findings if f.code == "MISSING_BLOCK"]
    assert any("NOWHERE is not in the file" in m for m in messages)
    assert any("RING contains itself" in m for m in messages)


def test_a_tilted_piece_is_said_to_be_too_small(table) -> None:
    table.model.add_polyline3d([(0, 0, 0), (100, 0, 0), (100, 50, 80), (0, 50, 80)], close=True)
    drawing = table.read()
    assert any(f.code == "NOT_FLAT" and f.severity is Severity.WARNING for f in drawing.findings)


def test_the_frame_of_a_fitted_spline_is_no_part_of_it(tmp_path) -> None:
    document = ezdxf.new("R2000")
    document.header["$INSUNITS"] = 4
    line = document.modelspace().add_polyline2d([(0, 0), (100, 0), (100, 60), (0, 60)], close=True)
    line.append_vertices([(500, 500), (600, 600)], dxfattribs={"flags": 16})
    document.saveas(tmp_path / "fitted.dxf")
    from geometry.dxf.read import read_drawing

    (piece,) = read_drawing(tmp_path / "fitted.dxf").pieces
    assert piece.outline.area_mm2 == pytest.approx(6000.0)


def test_what_has_no_shape_is_left_out_by_name(table) -> None:
    table.rectangle()
    model = table.model
    model.add_circle((10, 10), 0)
    model.add_line((5, 5), (5, 5))
    model.add_lwpolyline([(1, 1)])
    model.add_lwpolyline([(0, 0, 0), (float("inf"), 0, 0)], format="xyb")
    model.add_lwpolyline([(0, 0, 1e300), (50, 0, 0)], format="xyb", close=True)
    model.add_line((0, 0), (1e15, 0))
    drawing = table.read()
    assert len(drawing.pieces) == 1
    codes = [f.code for f in drawing.findings]
    assert codes.count("DEGENERATE") == 3
    assert "BAD_COORDINATE" in codes
    assert sum("finite" in item.why for item in drawing.left_out) >= 2


def test_a_drawing_far_from_the_origin_loses_nothing(table) -> None:
    table.rectangle(x=5_000_000.25, y=-4_800_000.5)
    table.lines([(5_000_300.0, 0.0), (5_000_400.0, 0.0), (5_000_400.0, 50.0), (5_000_300.0, 50.0)])
    drawing = table.read()
    assert [piece.outline.area_mm2 for piece in drawing.pieces] == pytest.approx([9600.0, 5000.0])
    assert drawing.pieces[0].outline.bbox_mm == pytest.approx(
        (5_000_000.25, -4_800_000.5, 5_000_120.25, -4_799_920.5), abs=1e-6
    )
