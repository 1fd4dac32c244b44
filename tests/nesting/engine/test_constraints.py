"""Every engine keeps every rule of the problem; the independent judge says so."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from geometry.outline import Outline
from nesting.engine import solve as engine
from nesting.engine.holes import FilledHoles
from nesting.errors import ProblemError
from nesting.free import arrangement as mixed
from nesting.free import first_layout
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll
from nesting.rows import improving, production
from nesting.stop import Deadline
from nesting.verify import verify, words

COLLAR = Outline.make(
    [(0, 0), (90, 4), (96, 50), (84, 92), (0, 80)], [[(20, 20), (60, 20), (60, 60), (20, 60)]]
)
WEDGE = Outline.make([(0, 0), (28, 2), (24, 22), (3, 17)])
FLAW = Flaw(np.array([(40.0, 60.0), (70.0, 60.0), (70.0, 90.0), (40.0, 90.0)]))
PINNED = Placement("collar", 180.0, 260.0, 150.0)
TURNED_DEG = 3.0


def order(collars: int = 4, wedges: int = 8, **rules: object) -> LayProblem:
    items = (Item("collar", COLLAR, collars), Item("wedge", WEDGE, wedges))
    return LayProblem(Roll(200.0), items, **rules)  # type: ignore[arg-type]


def with_items(problem: LayProblem, **what: object) -> LayProblem:
    return replace(problem, items=tuple(replace(i, **what) for i in problem.items))  # type: ignore[arg-type]


def flawed(problem: LayProblem) -> LayProblem:
    return replace(problem, roll=replace(problem.roll, flaws=(FLAW,)))


RULES: dict[str, Callable[[LayProblem], LayProblem]] = {
    "gap": lambda p: replace(p, gap_mm=3.0),
    "margins": lambda p: replace(p, edge_margin_mm=7.0, end_margin_mm=11.0),
    "0 only": lambda p: with_items(p, turns_deg=(0.0,)),
    "tolerance": lambda p: with_items(p, turn_tolerance_deg=TURNED_DEG),
    "pinned": lambda p: replace(p, pinned=(PINNED,)),
    "flaws": flawed,
    "longest lay": lambda p: replace(p, roll=replace(p.roll, length_mm=900.0)),
    "holes": lambda p: p,
}


def kept(problem: LayProblem, lay: Lay | None) -> Lay:
    """The lay, before the independent judge and for what the judge cannot know was wanted."""
    assert lay is not None
    verdict = verify(problem, lay)
    assert verdict.ok, words(verdict)
    if problem.pinned:
        assert replace(PINNED, pinned=True) in lay.placements
    return lay


def in_holes(problem: LayProblem, lay: Lay) -> int:
    """How many pieces lie in holes of others."""
    placed = [at.place(problem.by_id[at.item_id].outline).polygon for at in lay.placements]
    holes = [type(p)(ring) for p in placed for ring in p.interiors]
    return sum(hole.contains(p) for hole in holes for p in placed)


@pytest.mark.parametrize("rule", RULES)
def test_the_first_layout(rule: str) -> None:
    problem = RULES[rule](order(use_holes=rule == "holes"))
    filled = FilledHoles(problem)
    lay = kept(problem, filled.whole(first_layout.solve(filled.problem)))
    assert in_holes(problem, lay) >= 4 if rule == "holes" else not in_holes(problem, lay)


@pytest.mark.parametrize(
    "rules", [("gap", "margins", "0 only", "holes"), ("gap", "tolerance", "longest lay")]
)
def test_bands_of_rows(monkeypatch: pytest.MonkeyPatch, rules: tuple[str, ...]) -> None:
    """Collars alone, or with a wedge in the hole of each: what lies in a hole goes with its collar."""
    monkeypatch.setattr(improving, "PASSES", 0)
    collars, wedges = 32, 32 if "holes" in rules else 0
    problem = order(collars, wedges, use_holes="holes" in rules)
    problem = replace(problem, roll=Roll(500.0))
    for rule in rules:
        problem = RULES[rule](problem)
    filled = FilledHoles(problem)
    assert production.suits(filled.problem)
    lay = production.solve(filled.problem)
    assert lay is not None
    assert in_holes(problem, kept(problem, filled.whole(lay))) == wedges


def test_bands_go_over_a_flaw_and_a_pinned_piece_and_lay_again_what_meets_them(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(improving, "PASSES", 0)
    problem = RULES["pinned"](flawed(order(40, 0, gap_mm=2.0)))
    assert production.suits(problem)
    lay = kept(problem, production.solve(problem))
    assert lay.length_mm < first_layout.solve(problem).length_mm


@pytest.mark.parametrize(
    "rules", [("gap", "margins", "0 only", "holes"), ("gap", "tolerance"), ("tolerance", "pinned", "flaws")]
)
def test_the_mixed_search(rules: tuple[str, ...]) -> None:
    problem = order(use_holes="holes" in rules)
    for rule in rules:
        problem = RULES[rule](problem)
    filled = FilledHoles(problem)
    lay = filled.whole(mixed.solve(filled.problem, stop=Deadline(1.2), workers=1))
    assert in_holes(problem, kept(problem, lay)) == (4 if "holes" in rules else 0)


def test_the_whole_engine_keeps_them_all_at_once() -> None:
    problem = order()
    for rule in RULES:
        if rule != "0 only":
            problem = RULES[rule](problem)
    lay = kept(problem, engine.solve(problem, stop=Deadline(1.0), workers=1))
    assert lay.length_mm <= 900.0 and lay.above_bound is not None and lay.above_bound >= 0.0
    short = replace(problem, roll=replace(problem.roll, length_mm=lay.length_mm - 50.0))
    with pytest.raises(ProblemError, match="several lays"):
        engine.solve(short, stop=Deadline(0.0))
