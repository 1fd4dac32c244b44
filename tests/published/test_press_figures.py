"""Step and pitch of press rows against shapes whose densest lattices are published.

A die's rows obey step x pitch = area of the pieces in a cell / density. Gap 0, shapes of a
metre, so that the tenth of a millimetre the figures are set to weighs less than 4e-4.
"""

from __future__ import annotations

import numpy as np
import pytest

from geometry.outline import Outline
from nesting.lattice.densest import two_way
from nesting.press.rows import press_rows

R = 1000.0


def regular(sides: int, turn_deg: float) -> Outline:
    angle = np.arange(sides) * 2 * np.pi / sides + np.radians(turn_deg)
    return Outline.make(np.column_stack([np.cos(angle), np.sin(angle)]) * R)


@pytest.mark.parametrize(
    ("outline", "one_way", "step_mm", "pitch_mm", "density"),
    [
        # regular hexagon on its corner: rows of touching sides (elementary tiling)
        (regular(6, 90.0), True, np.sqrt(3) * R, 1.5 * R, 1.0),
        # circle: diameter, and sqrt 3 / 2 of it (Lagrange; density pi / sqrt 12)
        (regular(180, 1.0), True, 2 * R, np.sqrt(3) * R, np.pi / np.sqrt(12)),
        # equilateral triangle and its half turn: side, and height of the triangle (elementary tiling)
        (regular(3, 90.0), False, np.sqrt(3) * R, 1.5 * R, 1.0),
    ],
)
def test_figures_of_known_rows(
    outline: Outline, one_way: bool, step_mm: float, pitch_mm: float, density: float
) -> None:
    rows = press_rows(outline, 7.0 * R, 0.0, 12, one_way=one_way, starts=150)
    assert rows.density == pytest.approx(density, abs=1e-3)
    assert rows.step_mm * rows.pitch_mm == pytest.approx(step_mm * pitch_mm, rel=1e-3)
    pieces = 1 if one_way else 2
    assert rows.step_mm * rows.pitch_mm * density == pytest.approx(pieces * outline.area_mm2, rel=1e-3)


def test_regular_pentagon_in_straight_rows() -> None:
    """(5 - sqrt 5)/3, the best of all packings (Hales and Kusner 2016), once its rows lie straight."""
    pentagon = regular(5, 0.0)
    lattice = two_way(pentagon, starts=300)
    assert lattice is not None
    lean = float(np.degrees(np.arctan2(lattice.u_mm[1], lattice.u_mm[0])))
    rows = press_rows(pentagon.turned(-lean), 25.0 * R, 0.0, 400, starts=150)
    assert rows.density == pytest.approx((5 - np.sqrt(5)) / 3, abs=1e-3)
    assert rows.step_mm * rows.pitch_mm == pytest.approx(2 * pentagon.area_mm2 / 0.9213107, rel=1e-3)
