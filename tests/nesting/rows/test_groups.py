"""Which cells a run is made of: what mirrors what was searched for is not searched for."""

from __future__ import annotations

import itertools

import pytest

from nesting.dies.die import dies_of
from nesting.dies.family import families_of
from nesting.rows import groups
from nesting.stop import Never
from tests.nesting.runs import order


def test_of_two_hands_only_one_is_searched_for(monkeypatch: pytest.MonkeyPatch) -> None:
    dies = dies_of(order())
    families = families_of(dies)
    searches = []
    searched = groups.searched

    def counted(rings, *given, **how):
        searches.append(len(rings))
        return searched(rings, *given, **how)

    monkeypatch.setattr(groups, "_warm_up", lambda: None)
    monkeypatch.setattr(groups, "searched", counted)
    found = groups.groups_of(dies, families, 2.0, seed=0, starts=200, stop=Never(), quick=True)
    # the crescent is its own mirror image, the wedge comes as left and right
    assert len(families) == 3 and len(searches) == 2
    densities = sorted(round(group.lattice.density, 6) for group, _ in found if group.plain)
    assert len(densities) == 3
    assert any(a == b for a, b in itertools.pairwise(densities))


def test_a_family_without_a_lattice_keeps_no_other_from_having_groups(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    dies = dies_of(order())
    families = families_of(dies)
    searched = groups.searched

    def but_of_crescents(rings, *given, **how):
        crescent = any(len(ring) > 10 for ring in rings)
        return [] if crescent else searched(rings, *given, **how)

    monkeypatch.setattr(groups, "searched", but_of_crescents)
    found = groups.groups_of(dies, families, 2.0, seed=0, starts=200, stop=Never(), quick=True)
    corners = {len(dies[families[group.main].dies[0]].rings_mm[0]) for group, _ in found}
    assert corners == {5}, "the wedges have theirs"
