"""A demand dealt out to whole columns that reach from edge to edge of the roll."""

from __future__ import annotations

import numpy as np
import pytest

from nesting.compaction.slp import Contacts
from nesting.lattice.cuts import pressed
from nesting.lattice.fixed_count import fitted

BAR = np.array([[-60, 0], [-40, -9], [40, -9], [60, 0], [40, 9], [-40, 9]], dtype=float)
"""120 x 18 with pointed ends: bars that stand apart reach with their points between others."""


def test_columns_of_equal_numbers_reach_from_edge_to_edge() -> None:
    """30 bars on 250: 13 would stand in a column, and four be left over for a third. Ten in each of
    three stand (250 - 18) / 9 apart instead."""
    lattices = list(fitted((BAR, -BAR), 30, (0.0, 250.0), 2.0))
    thirds = [a for a in lattices if a.u_mm[1] == pytest.approx(232.0 / 9.0)]
    assert thirds
    contacts = Contacts((BAR, -BAR))
    shortest = min(s.measure for a in thirds for s in pressed(a, contacts, 30, (0.0, 250.0)))
    assert shortest < 3 * 120 - 4  # less than three bars end to end: their points overlap


def test_strips_pressed_between_the_edges_keep_to_the_roll_and_the_count() -> None:
    lattice = next(fitted((BAR, -BAR), 30, (5.0, 245.0), 2.0))
    contacts = Contacts((BAR, -BAR))
    for strip in pressed(lattice, contacts, 30, (5.0, 245.0)):
        assert len(strip.pose) == 30
        low, high = strip.at_mm[:, 1] - 9.0, strip.at_mm[:, 1] + 9.0
        assert low.min() >= 5.0 - 1e-9 and high.max() <= 245.0 + 1e-9


def test_a_roll_no_wider_than_the_piece_has_no_columns_to_fit() -> None:
    assert list(fitted((BAR,), 5, (0.0, 18.0), 2.0)) == []
