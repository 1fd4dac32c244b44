"""Left and right, or two sizes, in one lattice: used where they fit together better than alone."""

from __future__ import annotations

import numpy as np
import pytest

from geometry.outline import Outline
from nesting.items import Item
from nesting.lattice.pairs import best_pair, mirrored
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.rows import improving, production
from nesting.verify import verify

HEIGHT, HALF = 60.0, 50.0


def torn() -> Outline:
    """One period of a strip with a torn edge y = f(x), f(x + 50) = 60 - f(x): its mirror image, moved by
    half a period, fills the rest of a straight strip exactly. Its half turn does not: f is no odd wave."""
    x = np.linspace(0.0, HALF, 9)
    wave = np.interp(x, [0.0, 12.0, 20.0, 43.0, 50.0], [0.0, 22.0, 6.0, -14.0, 0.0])
    tops = [(a, HEIGHT / 2 + w) for a, w in zip(x, wave, strict=True)]
    tops += [(HALF + a, HEIGHT / 2 - w) for a, w in zip(x[1:], wave[1:], strict=True)]
    return Outline.make([(0.0, 0.0), (2 * HALF, 0.0), *reversed(tops)])


def test_left_and_right_that_fit_like_a_torn_sheet_fill_the_plane() -> None:
    """The strip between two straight edges is filled by construction: density 1, and the half turn
    alone leaves some open."""
    pair = best_pair(torn(), torn().mirrored(), 0.0, starts=500)
    assert pair.lattice.density == pytest.approx(1.0, abs=2e-3)
    assert pair.alone[0].density < 0.97
    assert pair.pays and pair.gain == pytest.approx(1.0 - pair.alone[0].density, abs=5e-3)


def test_what_fills_the_plane_alone_gains_nothing_and_sizes_are_told_apart() -> None:
    small, large = (Outline.make(np.array([[0, 0], [50, 0], [50, 20], [0, 20]]) * s) for s in (1.0, 1.1))
    pair = best_pair(small, large, 1.0, starts=300)
    assert not pair.pays and pair.gain < 1e-3
    assert {which for which, _ in pair.roles} == {0, 1}


def test_one_way_cloth_takes_no_half_turn() -> None:
    pair = best_pair(torn(), torn().mirrored(), 0.0, one_way=True, starts=300)
    assert not any(turned for _, turned in pair.roles)
    assert len(pair.alone[0].rings_mm) == 1


def test_hands_are_known_by_their_shape() -> None:
    left = np.asarray(torn().ring_mm)
    assert mirrored(left, np.asarray(torn().mirrored().ring_mm))
    assert not mirrored(left, left)


def test_a_run_lays_such_hands_together(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(improving, "PASSES", 0)
    items = (Item("left", torn(), 16), Item("right", torn().mirrored(), 16))
    problem = LayProblem(Roll(4 * HEIGHT + 0.2), items)  # four whole strips side by side
    lay = production.solve(problem)
    assert lay is not None and verify(problem, lay).ok
    monkeypatch.setattr("nesting.rows.families.mirrored", lambda *_: False)
    apart = production.solve(problem)
    assert apart is not None and verify(problem, apart).ok
    assert lay.length_mm < apart.length_mm * 0.99
