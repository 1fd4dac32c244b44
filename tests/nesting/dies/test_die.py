"""Dies and families: what is cut alike, and one shape in its sizes."""

from __future__ import annotations

import pytest

from nesting.dies.die import dealt, dies_of
from nesting.dies.family import families_of
from tests.nesting.runs import order


def test_a_symmetric_piece_is_one_die_for_both_hands() -> None:
    dies = dies_of(order())
    assert len(dies) == 6  # two crescents, four wedges
    assert sorted(len(d.members) for d in dies) == [1, 1, 1, 1, 2, 2]
    assert sum(d.demand for d in dies) == order().pieces


def test_sizes_of_one_shape_are_a_family_and_hands_of_another_are_two() -> None:
    dies = dies_of(order())
    assert sorted(len(f.dies) for f in families_of(dies)) == [2, 2, 2]


def test_places_are_dealt_out_until_every_demand_is_met() -> None:
    problem = order(1)
    dies = dies_of(problem)
    places = [(d, 0, 100.0 * k, 50.0) for d, die in enumerate(dies) for k in range(die.demand)]
    placed = dealt(dies, places)
    assert sorted(p.item_id for p in placed) == sorted(i.id for i in problem.items)
    with pytest.raises(ValueError, match="more places"):
        dealt(dies, [*places, (0, 0, 0.0, 0.0)])
