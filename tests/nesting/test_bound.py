"""Lower bounds: never above a lay that exists, and equal to it where the lay is perfect."""

from __future__ import annotations

import numpy as np
import pytest

from geometry.outline import Outline
from nesting import bound
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.verify import verify


def rectangle(length: float, height: float) -> Outline:
    return Outline.make([[0, 0], [length, 0], [length, height], [0, height]])


def problem(outline: Outline, demand: int, width: float, **how: float) -> LayProblem:
    return LayProblem(Roll(width), (Item("a", outline, demand),), **how)


def test_rectangles_that_fill_the_roll_meet_the_area_bound() -> None:
    asked = problem(rectangle(100, 50), 4, 100.0)
    lay = Lay(tuple(Placement("a", 0.0, x, y) for x in (0, 100) for y in (0, 50)), 200.0)
    assert verify(asked, lay).ok
    assert bound.lower_bound(asked).best_mm == pytest.approx(200.0)


def test_with_a_gap_the_grown_pieces_bound_the_same_lay() -> None:
    """Two by two rectangles with a gap of 2: 100 + 2 + 100 long, and the bound comes within the corners."""
    asked = problem(rectangle(100, 50), 4, 102.0, gap_mm=2.0)
    lay = Lay(tuple(Placement("a", 0.0, x, y) for x in (0, 102) for y in (0, 52)), 202.0)
    assert verify(asked, lay).ok
    found = bound.lower_bound(asked)
    assert 201.8 < found.values_mm["area with gap"] <= 202.0
    assert found.best_mm <= 202.0


def test_pieces_wider_than_half_the_roll_lie_one_behind_the_other() -> None:
    asked = problem(rectangle(10, 60), 5, 100.0, gap_mm=2.0)
    assert bound.lower_bound(asked).values_mm["widest pieces"] == pytest.approx(5 * 10 + 4 * 2)


def test_a_wide_triangle_counts_only_what_it_cannot_keep_off_the_middle() -> None:
    """60 high on a roll of 100, base 40 along the roll: pushed to an edge its tip reaches 10 past
    the middle, where it is 40 * 10/60 long."""
    asked = problem(Outline.make([[0, 0], [40, 0], [20, 60]]), 2, 100.0)
    assert bound.lower_bound(asked).values_mm["widest pieces"] == pytest.approx(2 * 40 / 6, rel=1e-6)


def test_a_piece_that_can_keep_off_the_middle_adds_nothing() -> None:
    assert "widest pieces" not in bound.lower_bound(problem(rectangle(10, 50), 5, 100.0)).values_mm


def test_margins_are_counted() -> None:
    asked = problem(rectangle(100, 50), 2, 110.0, edge_margin_mm=5.0, end_margin_mm=7.0)
    assert bound.lower_bound(asked).values_mm["area"] == pytest.approx(100.0 + 14.0)
    assert bound.lower_bound(asked).values_mm["longest piece"] == pytest.approx(114.0)


@pytest.mark.parametrize("seed", range(5))
def test_no_lay_is_shorter_than_its_bound(seed: int) -> None:
    from nesting.free import first_layout

    rng = np.random.default_rng(seed)
    items = tuple(
        Item(str(k), Outline.make([[0, 0], [w, 0], [w * 0.7, h], [0, h * 0.8]]), 3)
        for k, (w, h) in enumerate(rng.uniform(20, 90, (4, 2)))
    )
    asked = LayProblem(Roll(120.0), items, gap_mm=float(rng.uniform(0, 4)))
    lay = first_layout.solve(asked, seed=seed)
    assert verify(asked, lay).ok
    assert bound.lower_bound(asked).best_mm <= lay.length_mm + 1e-9


def test_a_granted_angle_may_shorten_the_longest_piece_and_the_bound_knows_it() -> None:
    """A bar of 100 x 20 drawn 5 deg off the line is 100 cos 5 + 20 sin 5 long; square to the roll it
    would be 20, and 3 deg of 5 granted leave it at 2 or 8."""
    drawn = rectangle(100, 20).turned(5.0)

    def longest(turns: tuple[float, ...] | None, granted: float) -> float:
        item = Item("a", drawn, 1, turns_deg=turns, turn_tolerance_deg=granted)
        return bound.lower_bound(LayProblem(Roll(200.0), (item,))).values_mm["longest piece"]

    def extent(degrees: float) -> float:
        return float(100 * np.cos(np.radians(degrees)) + 20 * np.sin(np.radians(abs(degrees))))

    assert longest((0.0, 180.0), 0.0) == pytest.approx(extent(5.0))
    assert longest((0.0, 180.0), 3.0) == pytest.approx(min(extent(2.0), extent(8.0)))
    assert longest((0.0,), 10.0) == pytest.approx(min(100.0, extent(15.0)))
    assert longest(None, 0.0) == pytest.approx(20.0)


def test_a_lay_says_how_far_it_is_above_its_bound() -> None:
    lay = Lay((), 110.0, bound=bound.lower_bound(problem(rectangle(100, 50), 1, 50.0)))
    assert lay.above_bound == pytest.approx(0.1)
    assert Lay((), 110.0).above_bound is None
