"""A lay gets shorter as a whole: every lay told keeps every rule, and what is fixed stays."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from nesting.free import arrangement, first_layout, sampling, sections, shortening
from nesting.free.arrangement import contacts_of
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.stop import Never
from nesting.verify import verify, words
from tests.nesting.shoes import STRAP, VAMP, shoe


def shortened(
    problem: LayProblem, lay: Lay, *, tries: int = 20, workers: int = 1, seed: int = 0
) -> list[Lay]:
    """The lays told, each before the independent judge, every one shorter than the one before."""
    told: list[Lay] = []
    best = shortening.shorten(
        problem,
        lay,
        contacts_of(problem),
        seed=seed,
        stop=Never(),
        better=told.append,
        tries=tries,
        workers=workers,
    )
    for each in told:
        verdict = verify(problem, each)
        assert verdict.ok, words(verdict)
    lengths = [lay.length_mm, *(each.length_mm for each in told)]
    assert lengths == sorted(lengths, reverse=True) and len(set(lengths)) == len(lengths)
    assert best.length_mm == lengths[-1]
    return told


def order(pairs: int = 1, **rules: float) -> LayProblem:
    return LayProblem(Roll(500.0), shoe(pairs), gap_mm=2.0, **rules)  # type: ignore[arg-type]


@pytest.mark.parametrize("workers", [1, 2])
def test_a_first_layout_gets_shorter_and_says_how(workers: int) -> None:
    problem = order(2, edge_margin_mm=4.0, end_margin_mm=9.0)
    first = first_layout.solve(problem)
    told = shortened(problem, first, workers=workers)
    assert told[-1].length_mm < 0.97 * first.length_mm
    assert told[-1].engine == f"{first.engine}, {sampling.WHOLE}"


def test_one_worker_finds_the_same_again_and_another_seed_something_else() -> None:
    problem = order()
    first = first_layout.solve(problem)
    one, again, other = (shortened(problem, first, tries=8, seed=seed)[-1] for seed in (3, 3, 4))
    assert one.placements == again.placements != other.placements


def test_what_is_pinned_stays_and_flaws_are_kept_clear_of() -> None:
    ring = np.array([(200.0, 100.0), (230.0, 100.0), (230.0, 120.0), (200.0, 120.0)])
    pinned = (Placement("vamp L", 180.0, 300.0, 300.0),)
    problem = LayProblem(Roll(700.0, flaws=(Flaw(ring),)), shoe(4), gap_mm=2.0, pinned=pinned)
    told = shortened(problem, first_layout.solve(problem))
    assert [at for at in told[-1].placements if at.pinned] == [replace(pinned[0], pinned=True)]
    assert told[-1].engine.endswith(shortening.AROUND)


def test_a_piece_that_must_keep_its_turn_is_not_turned() -> None:
    items = tuple(Item(i.id, i.outline, i.demand, turns_deg=(0.0,)) for i in shoe(1))
    problem = LayProblem(Roll(500.0), items, gap_mm=1.0)
    told = shortened(problem, first_layout.solve(problem))
    assert {at.turn_deg for at in told[-1].placements} == {0.0}


def test_a_lay_as_short_as_can_be_stays_as_it_is() -> None:
    problem = LayProblem(Roll(200.0), (Item("s", STRAP, 1),), end_margin_mm=5.0)
    lay = shortened(problem, first_layout.solve(problem), tries=3)
    assert not lay or lay[-1].length_mm == pytest.approx(80.0, abs=0.01)


def test_a_short_time_is_for_shortening_alone_and_only_where_samples_are_fine_enough() -> None:
    few = order(4)
    assert sampling.suits(few) and sampling.alone(few, sampling.ALONE_S)
    assert not sampling.alone(few, 1000.0) and not sampling.alone(few, 0.9 * sampling.ALONE_FROM_S)
    known = replace(first_layout.solve(few), searched_s=3.0)
    assert sampling.goes_on(few, known, 2.0) and not sampling.goes_on(few, known, 1000.0)
    assert not sampling.goes_on(few, replace(known, searched_s=0.0), 2.0)
    many = LayProblem(Roll(1400.0), (Item("v", VAMP, sampling.MOST_PIECES + 1),))
    assert not sampling.suits(many)
    sliver = Item("thin", STRAP, 1)
    wide = tuple(Item(f"v{k}", VAMP.mirrored() if k % 2 else VAMP, 1) for k in range(2))
    assert sampling.suits(LayProblem(Roll(1400.0), (sliver, *wide)))
    assert not sampling.suits(
        LayProblem(Roll(1400.0), (sliver, *(Item(f"v{k}", VAMP, 1) for k in range(400))))
    )


def test_a_lay_known_before_is_gone_on_with(monkeypatch: pytest.MonkeyPatch) -> None:
    """The next press begins with what the last one found, not with the first layout."""
    problem = order(2)
    known = shortened(problem, first_layout.solve(problem), tries=40)[-1]
    begun: list[Lay] = []
    monkeypatch.setattr(arrangement, "solve", lambda *_, start, **__: begun.append(start) or start)
    best = sections.solve(problem, stop=Never(), workers=1, work=1, start=known)
    assert begun == [known] and best == known


def test_a_lay_known_before_keeps_the_name_of_what_laid_it() -> None:
    problem = order(2)
    known = replace(shortened(problem, first_layout.solve(problem), tries=5)[-1], engine="laid before")
    best = arrangement.solve(problem, stop=Never(), workers=1, work=1, start=known)
    assert best.engine.split(", ")[0] == "laid before"
    first = first_layout.solve(problem)
    best = arrangement.solve(problem, stop=Never(), workers=1, work=1, start=first)
    assert best.engine.split(", ")[0] in (first.engine, "orders")
