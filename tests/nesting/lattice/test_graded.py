"""Sizes that share a lattice, and bands that slide against a front: exact along the roll."""

from __future__ import annotations

import numpy as np
from shapely.geometry import Polygon

from nesting.compaction.slp import Contacts
from nesting.lattice.graded import graded, graded_runs
from nesting.rows.skyline import Fronts


def test_few_pieces_a_size_share_one_lattice_and_many_do_not() -> None:
    few = [(100.0 * k, 5000.0 * k**2, 40) for k in (1.0, 1.025, 1.05)]
    many = [(length, area, 4000) for length, area, _ in few]
    assert graded_runs(few, 1.2, 1400.0) == [(0, 3)]
    assert graded_runs(many, 1.2, 1400.0) == [(0, 1), (1, 2), (2, 3)]


def test_runs_hold_every_size_once_in_their_order() -> None:
    sizes = [(90.0 + 3 * k, 4000.0 + 260 * k, 30 + 40 * (k % 3)) for k in range(9)]
    runs = graded_runs(sizes, 1.25, 1400.0)
    assert [k for a, b in runs for k in range(a, b)] == list(range(9))


def test_steps_shrink_with_the_piece_but_not_below_a_neighbour_that_is_larger() -> None:
    at = np.column_stack([np.arange(10) * 100.0, np.zeros(10)])
    ratio = np.where(np.arange(10) < 5, 1.0, 0.9)
    drawn = np.diff(graded(at, ratio, 50.0)[:, 0])
    assert np.allclose(drawn[:5], 100.0)
    assert np.allclose(drawn[5:], 90.0)


def test_a_band_slid_as_far_as_its_rows_allow_keeps_the_gap() -> None:
    rng = np.random.default_rng(4)
    for _ in range(20):
        angle = np.sort(rng.uniform(0, 2 * np.pi, 9))
        ring = np.column_stack([np.cos(angle), np.sin(angle)]) * rng.uniform(20, 40, (9, 1))
        contacts = Contacts([ring, -ring])
        fronts = Fronts(contacts, 2.0, (0.0, 300.0))
        pose = np.array([0, 1, 0])
        at = np.column_stack([rng.uniform(0, 60, 3), [50.0, 140.0, 240.0]])
        other = np.column_stack([rng.uniform(0, 60, 3), [60.0, 150.0, 230.0]])
        _, front = fronts.reach(pose, at)
        left, _ = fronts.reach(1 - pose, other)
        shift = float((front - left).max())
        still = [Polygon(contacts.rings[p] + xy) for p, xy in zip(pose, at, strict=True)]
        moved = [
            Polygon(contacts.rings[1 - p] + xy + (shift, 0.0)) for p, xy in zip(pose, other, strict=True)
        ]
        nearest = min(a.distance(b) for a in still for b in moved)
        assert nearest >= 2.0 - 1e-9
