"""Sections found before: the next order that holds them begins from the best, never from a false one."""

import json
from dataclasses import replace

import pytest

from geometry.outline import Outline
from nesting.free import kept_sections, section_parts, sections
from nesting.free.first_layout import solve as first_layout
from nesting.items import Item
from nesting.known import folder
from nesting.listen import Silent
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.stop import Never
from nesting.verify import verify

TRIANGLE = Outline.make([(0, 0), (60, 0), (0, 40)])
STRAP = Outline.make([(0, 0), (90, 0), (90, 12), (0, 12)])


def asked(times=1):
    items = (Item("triangle", TRIANGLE, 100 * times), Item("strap", STRAP, 60 * times))
    return LayProblem(Roll(700.0), items, gap_mm=2.0)


@pytest.fixture
def store(tmp_path):
    folder.use(tmp_path)
    yield folder.in_use()
    folder.use(None)


def test_a_section_comes_back_as_it_was_and_a_longer_one_does_not_replace_it(store):
    problem = asked()
    lay = first_layout(problem)
    kept_sections.keep(store, problem, lay)
    away = tuple(replace(at, x_mm=at.x_mm + 100.0) for at in lay.placements)
    kept_sections.keep(store, problem, replace(lay, placements=away, length_mm=lay.length_mm + 100.0))
    again = kept_sections.find(store, problem)
    assert again.length_mm == pytest.approx(lay.length_mm) and verify(problem, again).ok


def test_without_a_folder_nothing_is_kept():
    kept_sections.keep(None, asked(), first_layout(asked()))
    assert kept_sections.find(None, asked()) is None


@pytest.mark.parametrize("damage", ["no placements", "not a section", "no counts", "overlapping"])
def test_a_false_section_is_forgotten(store, damage):
    problem = asked()
    kept_sections.keep(store, problem, first_layout(problem))
    (file,) = store.folder.iterdir()
    told = json.loads(file.read_text())
    if damage == "no placements":
        del told["placements"]
    elif damage == "not a section":
        told = [1, 2]
    elif damage == "no counts":
        told["demand"] = ["triangle"]
    else:
        told["placements"][1] = told["placements"][0]
    file.write_text(json.dumps(told))
    assert kept_sections.find(store, problem) is None and not file.exists()


def test_another_order_of_the_same_section_begins_from_it(store, monkeypatch):
    (part,) = section_parts.parts_of(asked(3))
    (other,) = section_parts.parts_of(asked(6))
    assert part.times != other.times and part.problem == other.problem
    best = first_layout(part.problem)
    begun = []

    def solve(problem, *, start, **_):
        begun.append(start)
        return best

    monkeypatch.setattr(sections.mixed, "solve", solve)
    poor = first_layout(asked(3))
    sections.solve(asked(3), stop=Never(), listener=Silent(), workers=0, work=1, start=poor, firsts=[poor])
    shifted = tuple(replace(at, x_mm=at.x_mm + 500.0) for at in best.placements)
    worse = replace(best, placements=shifted, length_mm=best.length_mm + 500.0)
    monkeypatch.setattr(sections.first_layout, "layouts", lambda *_, **__: [worse])
    long = first_layout(asked(6))
    sections.solve(asked(6), stop=Never(), listener=Silent(), workers=0, work=1, start=long, firsts=[worse])
    assert begun[-1].length_mm == pytest.approx(best.length_mm)
