"""Ticks on an outline, and what a fold does to them."""

from __future__ import annotations

import math

import numpy as np
import pytest

from geometry.dxf.marks import tick_notch
from geometry.dxf.mirror_line import unfold
from geometry.outline import Outline
from geometry.piece import DrawnPiece, Notch

PIECE = Outline.make([(0, 0), (100, 0), (100, 60), (0, 60)])


@pytest.mark.parametrize(
    ("start", "end", "depth_mm"),
    [((50, -2), (50, 3), 3.0), ((50, 0), (50, 4), 4.0), ((50, -5), (50, 0), 5.0)],
)
def test_a_tick_is_as_deep_as_it_reaches_into_the_piece(
    start: tuple[float, float], end: tuple[float, float], depth_mm: float
) -> None:
    """One that stands on the outline from outside gives its whole length."""
    notch = tick_notch(PIECE, PIECE.polygon, np.array([start, end], dtype=float))
    assert notch is not None
    assert (notch.x_mm, notch.y_mm, notch.depth_mm) == pytest.approx((50.0, 0.0, depth_mm), abs=1e-9)
    assert notch.angle_deg == pytest.approx(90.0)


@pytest.mark.parametrize("fold_deg", [0.0, 30.0])
def test_a_notch_leans_the_other_way_on_the_half_that_is_unfolded(fold_deg: float) -> None:
    half = Outline.make([(0, 0), (100, 0), (100, 60), (0, 60)]).turned(fold_deg)
    turn = math.radians(fold_deg)
    x, y = 70 * math.cos(turn) - 60 * math.sin(turn), 70 * math.sin(turn) + 60 * math.cos(turn)
    drawn = DrawnPiece("half", half, notches=(Notch(x, y, fold_deg - 60.0),))
    line = np.array([(0.0, 0.0), (100 * math.cos(turn), 100 * math.sin(turn))])
    full, _ = unfold(drawn, line)
    assert full.outline.area_mm2 == pytest.approx(2 * 6000.0)
    assert sorted(round(n.angle_deg - fold_deg, 6) for n in full.notches) == [-60.0, 60.0]
