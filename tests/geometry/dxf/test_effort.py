"""Work is counted, not timed: what would take minutes is refused on every machine alike."""

from __future__ import annotations

import math

import numpy as np
import pytest

from geometry.dxf.lines.effort import counted, crossings, spend
from geometry.dxf.read import read_drawing
from geometry.errors import DrawingError


def _refused(path) -> str:
    with pytest.raises(DrawingError) as caught:
        read_drawing(path)
    assert path.name in str(caught.value) and caught.value.remedy
    return caught.value.code


def test_a_net_of_lines_that_all_cross_is_refused(table) -> None:
    for k in range(300):
        table.model.add_line((0, k), (999, k))
        table.model.add_line((k, 0), (k, 999))
    table.rectangle(x=2000)
    assert _refused(table.save()) == "TOO_MUCH_WORK"


def test_an_outline_that_crosses_itself_everywhere_is_refused(table) -> None:
    points = [(500 * math.cos(k * k), 500 * math.sin(3.0 * k * k)) for k in range(400)]
    table.model.add_lwpolyline(points, close=True)
    assert _refused(table.save()) == "TOO_MUCH_WORK"


def test_a_small_file_that_places_a_piece_a_hundred_thousand_times_is_refused(table) -> None:
    table.document.blocks.new("B").add_lwpolyline([(0, 0), (9, 0), (9, 6), (0, 6)], close=True)
    table.model.add_blockref(
        "B",
        (0, 0),
        dxfattribs={"row_count": 300, "column_count": 400, "row_spacing": 20, "column_spacing": 20},
    )
    assert _refused(table.save()) == "TOO_MUCH_WORK"


def test_many_cut_outs_in_a_piece_are_read(table) -> None:
    table.rectangle(x=0)
    for k in range(600):
        table.model.add_circle((2 + 3.8 * (k % 30), 2 + 3.8 * (k // 30)), 1.2)
    (piece,) = table.read().pieces
    assert len(piece.outline.holes_mm) == 600


def test_each_step_of_a_reading_is_told(table) -> None:
    table.rectangle(x=0)
    heard: list[str] = []
    read_drawing(table.save(), told=heard.append)
    assert heard[0] == "reading the file" and len(heard) == len(set(heard)) >= 3


def test_two_lines_that_cross_cross_once() -> None:
    a, b = np.array([[0.0, 0.0], [9.0, 9.0]]), np.array([[0.0, 9.0], [9.0, 0.0]])
    assert crossings([a, b], closed=False) == 1


def test_a_large_file_may_cost_more_than_a_small_one() -> None:
    with counted("large.dxf", 10**9):
        spend(1e7)
    with pytest.raises(DrawingError, match=r"small\.dxf"), counted("small.dxf", 10):
        spend(1e7)
