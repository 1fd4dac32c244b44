"""A granted angle is used where the roll gains by it, and never more of it than is granted."""

from __future__ import annotations

import numpy as np
import pytest

from geometry.outline import Outline
from nesting.dies.die import dealt, dies_of
from nesting.free import first_layout
from nesting.items import Item
from nesting.lattice.densest import searched
from nesting.lay import Lay
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.rows import improving, production
from nesting.rows.tilt import best_lean_deg, tilted
from nesting.stop import Never
from nesting.verify import verify

BAR = Outline.make([[0, 0], [100, 0], [100, 20], [0, 20]]).turned(2.0)
"""A bar drawn 2 deg off the line: five lie side by side on 108.2 mm with a gap of 2 when they are
set straight (5 * 20 + 4 * 2), four as drawn (23.5 + 4 * 22 is more than 108.2)."""


def bars(count: int, tolerance: float, width: float = 108.2) -> LayProblem:
    item = Item("bar", BAR, count, turn_tolerance_deg=tolerance)
    return LayProblem(Roll(width), (item,), gap_mm=2.0)


def checked(problem: LayProblem, lay: Lay | None) -> float:
    assert lay is not None
    verdict = verify(problem, lay)
    assert verdict.ok, verdict.faults[:1]
    return lay.length_mm


def test_no_more_is_taken_than_is_granted_and_nothing_where_it_brings_no_row() -> None:
    ring = np.asarray(BAR.ring_mm)
    lattices = searched([ring, -ring], 2.0, starts=600, keep=6)
    assert best_lean_deg(lattices, 10, (0.0, 108.2), 0.5, stop=Never()) == 0.0
    assert best_lean_deg(lattices, 10, (0.0, 108.2), 5.0, stop=Never()) == pytest.approx(-2.0, abs=0.05)


def test_long_runs_lean_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(improving, "PASSES", 0)
    assert checked(bars(30, 2.0), production.solve(bars(30, 2.0))) == pytest.approx(610.0, abs=0.2)


def test_the_first_layout_uses_it_and_lays_what_fits_in_no_other_way() -> None:
    assert checked(bars(10, 2.0), first_layout.solve(bars(10, 2.0))) < 210.0
    assert checked(bars(10, 0.0), first_layout.solve(bars(10, 0.0))) > 300.0
    narrow = bars(2, 2.0, width=22.0)  # as drawn the bar is 23.5 high
    assert checked(narrow, first_layout.solve(narrow)) == pytest.approx(202.0, abs=1.0)


def test_a_leaning_die_puts_every_member_where_its_shape_is() -> None:
    """Left and right of one die, drawn about different origins, come back onto the same places."""
    shape = Outline.make([[0, 0], [60, 5], [50, 40], [3, 30]])
    items = tuple(
        Item(n, shape.moved(*o), 1, turn_tolerance_deg=3.0) for n, o in (("a", (0, 0)), ("b", (30, -9)))
    )
    problem = LayProblem(Roll(200.0), items)
    (die,) = dies_of(problem)
    (lean,) = (tilted(die, 3.0),)
    for k, ring in enumerate(lean.rings_mm):
        for placed in dealt((lean,), [(0, k, 100.0, 80.0), (0, k, 100.0, 80.0)]):
            outline = placed.place(problem.by_id[placed.item_id].outline)
            assert np.allclose(
                outline.polygon.symmetric_difference(Outline.make(ring + (100.0, 80.0)).polygon).area,
                0.0,
                atol=1e-6,
            )
