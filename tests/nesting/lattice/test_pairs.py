"""Left and right in one lattice: used where they fit together better than alone."""

from __future__ import annotations

import numpy as np
import pytest

from geometry.outline import Outline
from nesting.compaction.slp import Arrangement, Contacts, shortfall
from nesting.items import Item
from nesting.lattice.densest import searched
from nesting.lattice.pairs import mirrored, of_other_hand
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
    monkeypatch.setattr("nesting.rows.groups.mirrored", lambda *_: False)
    apart = production.solve(problem)
    assert apart is not None and verify(problem, apart).ok
    assert lay.length_mm < apart.length_mm * 0.99


def test_the_other_hand_has_the_mirrored_lattice() -> None:
    """As dense as that of the first hand, on the outlines as they are; its pull axis stays along the roll."""
    left, right = np.asarray(torn().ring_mm), np.asarray(torn().mirrored().ring_mm)
    found = searched([left, -left], 2.0, starts=300, rounds=120)
    other = of_other_hand(found, [right, -right])
    assert other is not None and len(other) == len(found)
    for one, image in zip(found, other, strict=True):
        assert image.density == pytest.approx(one.density, abs=1e-6)
        cell = Arrangement(np.arange(2), image.at_mm, np.array([image.u_mm, image.v_mm]))
        assert shortfall(Contacts(image.rings_mm), cell, 2.0) <= 1e-3


def test_what_is_no_mirror_image_gets_no_lattice_from_it() -> None:
    left = np.asarray(torn().ring_mm)
    found = searched([left, -left], 2.0, starts=200, rounds=120)
    thick = left * (1.0, 1.3)
    other = of_other_hand(found, [thick, -thick])
    assert other is None or all(
        shortfall(
            Contacts(each.rings_mm),
            Arrangement(np.arange(2), each.at_mm, np.array([each.u_mm, each.v_mm])),
            2.0,
        )
        <= 1e-3
        for each in other
    )
