"""Loose lines become outlines; every gap that is closed is told, every wider one is an error."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.dxf.lines.join import Chain, join
from geometry.errors import DrawingError
from geometry.findings import Severity

RECTANGLE = [(0.0, 0.0), (120.0, 0.0), (120.0, 80.0), (0.0, 80.0)]


def _codes(drawing) -> list[str]:
    return [finding.code for finding in drawing.findings]


def test_lines_in_any_order_and_direction(table) -> None:
    for a, b in [(2, 3), (1, 0), (2, 1), (3, 0)]:
        table.model.add_line(RECTANGLE[a], RECTANGLE[b])
    drawing = table.read()
    assert drawing.pieces[0].outline.area_mm2 == pytest.approx(9600.0)
    assert _codes(drawing) == []


def test_a_gap_of_a_third_of_a_millimetre_is_closed_and_told(table) -> None:
    table.lines([*RECTANGLE, (0.0, 0.3)], close=False)
    drawing = table.read()
    (gap,) = [f for f in drawing.findings if f.code == "GAP_CLOSED"]
    assert "0.3 mm" in gap.message and gap.severity is Severity.WARNING
    assert math.dist(gap.where_mm[0], (0.0, 0.15)) < 1e-9
    assert drawing.pieces[0].outline.area_mm2 == pytest.approx(9600.0, rel=1e-3)


def test_a_gap_at_a_corner_is_closed_in_the_corner(table) -> None:
    """Two lines that stop short of their corner meet where they point, not half-way."""
    table.lines([(0.2, 0.0), (120.0, 0.0), (120.0, 80.0), (0.0, 80.0), (0.0, 0.2)], close=False)
    (piece,) = table.read().pieces
    assert piece.outline.area_mm2 == pytest.approx(9600.0, abs=1e-9)
    assert len(piece.outline.ring_mm) == 4


def test_a_mark_in_the_very_corner_of_a_gap_does_not_open_the_outline(table) -> None:
    table.lines([*RECTANGLE, (0.0, 0.3)], close=False)
    table.model.add_line((0, 0), (30, 20))
    (piece,) = table.read().pieces
    assert piece.outline.area_mm2 == pytest.approx(9600.0, rel=1e-3)
    assert len(piece.marks) == 1


def test_a_gap_of_five_millimetres_is_no_outline_and_names_both_ends(table) -> None:
    table.lines([*RECTANGLE, (0.0, 5.0)], close=False)
    with pytest.raises(DrawingError) as caught:
        table.read()
    assert caught.value.code == "OPEN_OUTLINE"
    for words in ("no closed outline", "5.00 mm", "(0.00, 0.00)", "(0.00, 5.00)", "--join"):
        assert words in str(caught.value)
    assert len(table.read(join_mm=5.0).pieces) == 1


def test_an_open_outline_beside_a_closed_one_is_an_error_finding(table) -> None:
    table.lines([*RECTANGLE, (0.0, 5.0)], close=False)
    table.rectangle(x=300)
    drawing = table.read()
    assert len(drawing.pieces) == 1
    (finding,) = [f for f in drawing.findings if f.code == "OPEN_OUTLINE"]
    assert finding.severity is Severity.ERROR
    assert set(finding.where_mm) == {(0.0, 0.0), (0.0, 5.0)}


def test_a_small_piece_is_not_pulled_together(table) -> None:
    """0.4 mm sides are shorter than the join distance: they must not collapse."""
    table.rectangle(x=200)
    corners = [(0.4 * math.cos(t), 0.4 * math.sin(t)) for t in np.linspace(0, math.tau, 7)[:-1]]
    table.lines([(x + 260, y + 40) for x, y in corners])
    (piece,) = table.read().pieces
    assert len(piece.outline.holes_mm) == 1
    assert len(piece.outline.holes_mm[0]) == 6


def test_lines_drawn_twice_in_part_and_of_no_length(table) -> None:
    table.lines(RECTANGLE)
    table.lines(RECTANGLE[::-1])
    table.model.add_line((10, 0), (50, 0))
    table.model.add_line((5, 5), (5, 5))
    drawing = table.read()
    (piece,) = drawing.pieces
    assert piece.outline.area_mm2 == pytest.approx(9600.0)
    assert piece.marks == () and piece.notches == ()
    assert "DOUBLE" in _codes(drawing)


def test_two_pieces_with_a_common_line_are_two_and_asked(table) -> None:
    table.lines([(0, 0), (60, 0), (60, 80), (0, 80)])
    table.lines([(60, 0), (120, 0), (120, 80), (60, 80)], close=False)
    drawing = table.read()
    assert [p.outline.area_mm2 for p in drawing.pieces] == pytest.approx([4800.0, 4800.0])
    (asked,) = [f for f in drawing.findings if f.code == "SHARED_LINE"]
    assert asked.severity is Severity.QUESTION


def test_a_style_line_on_its_own_layer_never_cuts_a_piece(table) -> None:
    table.lines(RECTANGLE, layer="CUT")
    table.model.add_line((0, 0), (120, 80), dxfattribs={"layer": "STYLE"})
    (piece,) = table.read().pieces
    assert piece.outline.area_mm2 == pytest.approx(9600.0)
    assert len(piece.marks) == 1


def test_an_outline_drawn_on_several_layers_is_one(table) -> None:
    for i, layer in enumerate(("LASTING", "FOLD", "SEAM", "FOLD")):
        table.model.add_line(RECTANGLE[i], RECTANGLE[(i + 1) % 4], dxfattribs={"layer": layer})
    (piece,) = table.read().pieces
    assert piece.outline.area_mm2 == pytest.approx(9600.0)


def test_lines_that_run_past_their_corners_are_trimmed(table) -> None:
    table.model.add_line((-2, 0), (102, 0))
    table.model.add_line((100, -2), (100, 62))
    table.model.add_line((102, 60), (-2, 60))
    table.model.add_line((0, 62), (0, -2))
    drawing = table.read()
    assert drawing.pieces[0].outline.area_mm2 == pytest.approx(6000.0)
    (finding,) = [f for f in drawing.findings if f.code == "TRIMMED_OVERSHOOT"]
    assert "4 corners" in finding.message and "2.00 mm" in finding.message
    assert len(finding.where_mm) == 4


def test_long_lines_that_merely_cross_are_no_outline(table) -> None:
    for y in (0, 60):
        table.model.add_line((-50, y), (150, y))
    for x in (0, 100):
        table.model.add_line((x, -50), (x, 110))
    with pytest.raises(DrawingError, match="no closed outline"):
        table.read()


@settings(max_examples=40, deadline=None)
@given(
    corners=st.integers(3, 25),
    noise=st.floats(0.0, 0.2),
    seed=st.integers(0, 10_000),
)
def test_shuffled_loose_segments_close_to_the_same_area(corners: int, noise: float, seed: int) -> None:
    """Ends moved apart by up to ``noise`` still close; the area moves by no more than the strip."""
    rng = np.random.default_rng(seed)
    angles = np.linspace(0, math.tau, corners + 1)[:-1]
    ring = np.column_stack([200 * np.cos(angles), 150 * np.sin(angles)])
    chains = []
    for i in rng.permutation(corners):
        ends = np.array([ring[i], ring[(i + 1) % corners]]) + rng.uniform(-noise, noise, (2, 2)) / 2.9
        chains.append(Chain(ends[:: rng.choice([-1, 1])], (int(i),)))
    joined = join(chains, 0.5)
    assert len(joined.loops) == 1 and not joined.open
    x, y = joined.loops[0].points.T
    area = abs(0.5 * np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))
    exact = abs(0.5 * np.sum(ring[:, 0] * np.roll(ring[:, 1], -1) - np.roll(ring[:, 0], -1) * ring[:, 1]))
    assert area == pytest.approx(exact, abs=noise * 1200 + 1e-6)
