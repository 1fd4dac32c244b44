"""The workshop remembers its lays: across presses, processes and damage."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

from app.commands.solving import solve
from app.lay import kept as kept_module
from app.lay.kept import KeptLays, open_kept
from app.lay.searching import search_for
from geometry.outline import Outline
from nesting.free import first_layout
from nesting.items import Item
from nesting.known.folder import KeptFiles
from nesting.known.pool import best_known
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Roll
from nesting.verify import verify

ROOT = Path(__file__).parents[3]
STRAP = Outline.make([(0, 0), (90, 0), (90, 25), (0, 25)])
PROBLEM = LayProblem(Roll(120.0), (Item("strap", STRAP, 6),), gap_mm=2.0)


def poor_lay() -> Lay:
    """Straps one behind the other: true, and as long as a lay may be."""
    places = tuple(Placement("strap", 0.0, 92.0 * i, 0.0) for i in range(6))
    return Lay(places, PROBLEM.length_of_mm(places))


def test_a_better_lay_takes_the_place_of_a_worse_one_and_never_the_reverse() -> None:
    store = KeptLays()
    good = first_layout.solve(PROBLEM)
    for lay in (poor_lay(), good, poor_lay()):
        store.keep(PROBLEM, lay)
    found = best_known(PROBLEM, KeptLays().candidates(PROBLEM))
    assert found is not None and found[0].length_mm == good.length_mm < poor_lay().length_mm
    assert verify(PROBLEM, found[0]).ok
    assert store.searches(PROBLEM) == 3


def test_the_second_press_begins_from_the_first_and_fresh_does_not() -> None:
    first = solve(PROBLEM, seconds=0.5, seed=0, workers=1, store=open_kept())
    assert first.began_from == ""
    second = solve(PROBLEM, seconds=0.5, seed=0, workers=1, store=open_kept())
    assert second.began_from.startswith("kept lay of ") and second.length_mm <= first.length_mm
    fresh = solve(PROBLEM, seconds=0.5, seed=0, workers=1, store=open_kept(), fresh=True)
    assert fresh.began_from == "" and verify(PROBLEM, fresh).ok
    assert KeptLays().searches(PROBLEM) == 3


def test_only_the_lay_of_the_same_problem_counts_as_searched_for() -> None:
    """On a wider roll or for twice as many it is a start, but its seconds were another lay's."""
    store = KeptLays()
    store.keep(PROBLEM, replace(first_layout.solve(PROBLEM), searched_s=12.0))
    same = search_for(PROBLEM, store)
    assert same.start is not None and same.start.searched_s == 12.0
    wider = replace(PROBLEM, roll=Roll(150.0))
    twice = replace(PROBLEM, items=(replace(PROBLEM.items[0], demand=12),))
    for other in (wider, twice, replace(PROBLEM, gap_mm=1.0)):
        search = search_for(other, store)
        assert search.start is not None and search.start.searched_s == 0.0


def test_only_so_many_lays_are_kept_the_longest_unused_go_first(monkeypatch) -> None:
    monkeypatch.setattr(kept_module, "MOST_LAYS", 3)
    store = KeptLays()
    problems = [LayProblem(Roll(120.0 + i), PROBLEM.items, gap_mm=2.0) for i in range(5)]
    for each in problems:
        store.keep(each, first_layout.solve(each))
    assert [store.searches(each) for each in problems] == [0, 0, 1, 1, 1]


def test_a_damaged_store_is_set_aside_and_said(tmp_path) -> None:
    path = tmp_path / "lays-1.db"
    path.write_bytes(b"this is no database at all" * 100)
    told: list[str] = []
    store = open_kept(told.append, path)
    assert store is not None and "set aside" in told[0]
    store.keep(PROBLEM, poor_lay())
    assert store.searches(PROBLEM) == 1
    (aside,) = tmp_path.glob("*.damaged-*")
    assert aside.read_bytes().startswith(b"this is no database")


def test_a_home_that_cannot_be_written_costs_the_memory_and_not_the_lay(tmp_path) -> None:
    blocked = tmp_path / "a file, no folder"
    blocked.write_text("", encoding="utf-8")
    told: list[str] = []
    assert open_kept(told.append, blocked / "stayply" / "lays-1.db") is None
    (line,) = told
    assert "lays cannot be kept there; the work goes on without it" in line, (
        "nothing was there to be set aside"
    )
    files = KeptFiles(blocked / "found")
    files.keep("lattice", [1.0])
    assert files.find("lattice") is None


def test_a_record_that_cannot_be_read_is_as_good_as_none() -> None:
    store = KeptLays()
    store.keep(PROBLEM, poor_lay())
    with store._db.write() as db:
        db.execute("UPDATE lays SET record = x'00ff'")
    assert list(store.candidates(PROBLEM)) == []
    store.keep(PROBLEM, first_layout.solve(PROBLEM))
    assert len(list(store.candidates(PROBLEM))) == 1


def test_two_processes_keep_their_lays_in_one_store() -> None:
    code = """
import sys
sys.path.insert(0, sys.argv[1])
from test_kept import KeptLays, LayProblem, PROBLEM, Roll, first_layout
store = KeptLays()
for i in range(20):
    each = LayProblem(Roll(200.0 + 2 * i + int(sys.argv[2])), PROBLEM.items, gap_mm=2.0)
    store.keep(each, first_layout.solve(each))
"""
    words = [sys.executable, "-c", code, str(Path(__file__).parent)]
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    desks = [subprocess.Popen([*words, str(which)], cwd=ROOT, env=environment) for which in (0, 1)]
    assert [desk.wait() for desk in desks] == [0, 0]
    wide = LayProblem(Roll(400.0), PROBLEM.items, gap_mm=2.0)
    assert len(list(KeptLays().candidates(wide))) == 40


def test_killed_while_it_keeps_the_store_still_opens_and_holds_whole_lays() -> None:
    code = """
import sys
sys.path.insert(0, sys.argv[1])
from test_kept import KeptLays, LayProblem, PROBLEM, Roll, first_layout
store = KeptLays()
lay = first_layout.solve(LayProblem(Roll(200.0), PROBLEM.items, gap_mm=2.0))
for i in range(100_000):
    each = LayProblem(Roll(200.0 + 0.01 * i), PROBLEM.items, gap_mm=2.0)
    store.keep(each, lay)
    if i % 10 == 3:
        print(i, flush=True)
"""
    words = [sys.executable, "-c", code, str(Path(__file__).parent)]
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    desk = subprocess.Popen(words, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True)
    assert desk.stdout is not None
    desk.stdout.readline()
    desk.kill()  # SIGKILL on POSIX: nothing is tidied
    desk.wait()
    desk.stdout.close()
    wide = LayProblem(Roll(2000.0), PROBLEM.items, gap_mm=2.0)
    kept = list(KeptLays().candidates(wide))
    assert len(kept) >= 4 and all(len(each.placements) == PROBLEM.pieces for each in kept)
