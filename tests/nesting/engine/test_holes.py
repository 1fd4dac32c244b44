"""Small pieces lie in the holes of large ones where that is allowed, whichever engine lays them."""

from dataclasses import replace

import pytest

from geometry.outline import Outline
from nesting.engine import solve as engine
from nesting.engine.holes import FilledHoles
from nesting.items import Item
from nesting.lay import Placement
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.stop import Deadline
from nesting.verify import verify, words

COLLAR = Outline.make(
    [(0, 0), (200, 0), (210, 100), (200, 200), (0, 200)], [[(40, 40), (160, 40), (160, 150), (40, 160)]]
)
PATCH = Outline.make([(0, 0), (50, 5), (55, 40), (0, 45)])


def problem(collars=4, patches=10, **options):
    items = (Item("collar", COLLAR, collars), Item("patch", PATCH, patches, piece="patch", hand="left"))
    return LayProblem(Roll(215.0), items, gap_mm=2.0, **options)


def laid(asked):
    lay = engine.solve(asked, stop=Deadline(0.0))
    verdict = verify(asked, lay)
    assert verdict.ok, words(verdict)
    return lay


def test_patches_in_the_collars_holes_take_no_length():
    collars_only = LayProblem(Roll(215.0), problem().items[:1], gap_mm=2.0)
    assert laid(problem()).length_mm == pytest.approx(laid(collars_only).length_mm, abs=1.0)


def test_holes_stay_empty_when_told_so():
    assert laid(problem(use_holes=False)).length_mm > laid(problem()).length_mm + 10.0


def test_a_filled_hole_holds_as_much_as_fits_and_no_piece_is_lost():
    filled = FilledHoles(problem(collars=3, patches=7))
    clusters = filled.problem.items[2:]
    assert clusters
    assert sum(i.demand for i in clusters) + filled.problem.items[0].demand == 3
    inside = 7 - filled.problem.items[1].demand
    assert inside >= 3


def test_a_pinned_collar_is_left_as_it_is():
    pinned = (Placement("collar", 0.0, 50.0, 10.0),)
    lay = laid(problem(collars=1, pinned=pinned))
    assert replace(pinned[0], pinned=True) in lay.placements


def test_a_one_way_patch_is_not_laid_in_a_collar_that_may_be_turned():
    items = (Item("collar", COLLAR, 1), Item("patch", PATCH, 1, turns_deg=(0.0,)))
    asked = LayProblem(Roll(215.0), items, gap_mm=2.0)
    assert FilledHoles(asked).problem is asked
    laid(asked)
