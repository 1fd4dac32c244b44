"""Rows of a die on the press: figures on the rule, places that keep to them, both hands alike."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from geometry.outline import Outline
from nesting.errors import ProblemError
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.press.rows import RULE_MM, PressRows, press_rows
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.verify import verify

QUARTER = Outline.make([[0, 0], [120, 10], [150, 60], [110, 70], [60, 45], [10, 80]])


def fault_free(outline: Outline, rows: PressRows, width_mm: float, gap_mm: float, margin_mm: float) -> None:
    """The judge, which shares nothing with the rows, finds every place right."""
    x0, y0, x1, y1 = outline.bbox_mm
    item = Item("die", outline, len(rows.turned))
    problem = LayProblem(Roll(width_mm), (item,), gap_mm=gap_mm, edge_margin_mm=margin_mm)
    places = tuple(
        Placement("die", 180.0, x + x1, y + y1) if turned else Placement("die", 0.0, x - x0, y - y0)
        for (x, y), turned in zip(rows.corners_mm, rows.turned, strict=True)
    )
    verdict = verify(problem, Lay(places, problem.length_of_mm(places)))
    assert verdict.ok, verdict.faults[0].message
    assert problem.length_of_mm(places) == pytest.approx(rows.length_mm, abs=1e-6)


def on_the_rule(value: float) -> bool:
    return abs(value / RULE_MM - round(value / RULE_MM)) < 1e-6


@pytest.fixture(scope="module")
def forty() -> PressRows:
    return press_rows(QUARTER, 700.0, 2.5, 40, edge_margin_mm=5.0, starts=50)


def test_every_place_follows_from_step_pitch_and_shift(forty: PressRows) -> None:
    rows = forty
    assert len(rows.corners_mm) == 40
    fault_free(QUARTER, rows, 700.0, 2.5, 5.0)
    along = 0 if rows.runs == "along" else 1
    figures = (rows.step_mm, rows.pitch_mm, rows.shift_mm, *(rows.twin_mm or ()))
    assert all(on_the_rule(figure) for figure in figures)
    assert all(
        on_the_rule(value - rows.corners_mm.min(axis=0)[k])
        for c in rows.corners_mm
        for k, value in enumerate(c)
    )
    first = rows.corners_mm[np.flatnonzero(~rows.turned)[0]] if (~rows.turned).any() else None
    for corner, turned in zip(rows.corners_mm, rows.turned, strict=True):
        start = first if not turned else (None if first is None else first + np.array(rows.twin_mm))
        if start is None:
            continue
        away = corner - start
        number = round(away[1 - along] / rows.pitch_mm)
        assert away[1 - along] == pytest.approx(number * rows.pitch_mm, abs=1e-5)
        steps = (away[along] - number * rows.shift_mm) / rows.step_mm
        assert steps == pytest.approx(round(steps), abs=1e-5)


def test_the_rows_told_hold_every_place(forty: PressRows) -> None:
    assert sum(row.places for row in forty.rows) == 40
    assert min(row.x_mm for row in forty.rows) == 0.0
    assert min(row.y_mm for row in forty.rows) >= 5.0


def test_the_other_hands_rows_are_the_mirror_image(forty: PressRows) -> None:
    fault_free(QUARTER.mirrored(), forty.mirrored, 700.0, 2.5, 5.0)
    assert forty.mirrored.mirrored.twin_mm == forty.twin_mm


def test_one_way_cloth_is_never_half_turned() -> None:
    rows = press_rows(QUARTER, 700.0, 2.0, 12, one_way=True, starts=50)
    assert rows.twin_mm is None and not rows.turned.any()
    fault_free(QUARTER, rows, 700.0, 2.0, 0.0)


def test_a_rectangle_steps_by_its_sides_and_the_gap() -> None:
    """Arithmetic: a die of 80 x 50 mm, 3 mm apart, steps 83 and pitches 53 (or the other way round)."""
    rows = press_rows(Outline.make([[0, 0], [80, 0], [80, 50], [0, 50]]), 540.0, 3.0, 60, starts=50)
    # two-way: one of the pair lies where a one-way place would
    cell = 2 * 83.0 * 53.0
    assert rows.step_mm * rows.pitch_mm == pytest.approx(cell, rel=4e-3)
    assert rows.step_mm * rows.pitch_mm >= cell - 1e-6
    fault_free(Outline.make([[0, 0], [80, 0], [80, 50], [0, 50]]), rows, 540.0, 3.0, 0.0)


def test_pieces_a_metre_is_the_rate_of_a_long_strip(forty: PressRows) -> None:
    corners, _ = forty.strip(400, (5.0, 695.0))
    length = float(corners[:, 0].max()) + forty.size_mm[0]
    assert forty.per_m == pytest.approx(400 / length * 1000.0, rel=0.05)


def test_a_die_wider_than_the_roll_is_refused() -> None:
    with pytest.raises(ProblemError, match="wider than the roll"):
        press_rows(QUARTER, 70.0, 2.0, 3)


@settings(max_examples=2, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 120), st.floats(0, 90)), min_size=5, max_size=9),
    st.floats(0.0, 4.0),
    st.integers(1, 25),
)
def test_any_die_lies_right(points: list[tuple[float, float]], gap_mm: float, count: int) -> None:
    hull = Polygon(points).convex_hull if len(set(points)) > 2 else None
    assume(isinstance(hull, Polygon) and hull.area >= 400.0)
    assume(min(np.ptp(np.array(hull.exterior.coords), axis=0)) >= 15)
    outline = Outline.make(np.asarray(hull.exterior.coords)[:-1])
    rows = press_rows(outline, 420.0, gap_mm, count, edge_margin_mm=4.0, starts=60)
    fault_free(outline, rows, 420.0, gap_mm, 4.0)
