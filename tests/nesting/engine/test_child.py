"""An engine in a child process: progress, cancel, no orphan, and the command that uses it."""

import json
import os
import signal
import subprocess
import sys
from dataclasses import replace

import pytest

from geometry.outline import Outline
from geometry.said import parts_of, said
from nesting.__main__ import main
from nesting.engine.child import lays_in_child, solve_in_child
from nesting.errors import EngineError, ProblemError, TooLongError
from nesting.files.wire import (
    Told,
    lay_from_json,
    lay_to_json,
    problem_from_json,
    problem_to_json,
    told_from_json,
    told_to_json,
)
from nesting.items import Item
from nesting.listen import PhaseCode
from nesting.problem import LayProblem
from nesting.process import Child
from nesting.roll import Roll
from nesting.verify import verify, verify_document
from tests.processes import all_end, children_of

QUARTER = Outline.make([(0, 0), (120, 0), (150, 40), (90, 70), (20, 60)])
PROBLEM = LayProblem(
    Roll(400.0),
    (
        Item("L", QUARTER, 6, piece="quarter", size="36", hand="left"),
        Item("R", QUARTER.mirrored(), 6, piece="quarter", size="36", hand="right"),
    ),
    gap_mm=2.0,
)


def test_a_problem_and_a_lay_come_through_the_wire_unchanged():
    sent = json.loads(json.dumps(problem_to_json(PROBLEM)))
    assert problem_from_json(sent) == PROBLEM
    lay = solve_in_child(PROBLEM, seconds=2.0)
    assert lay_from_json(json.loads(json.dumps(lay_to_json(lay)))) == lay


def test_it_reports_progress_and_returns_a_verified_lay():
    told = []
    lay = solve_in_child(PROBLEM, seconds=3.0, on_progress=told.append)
    assert verify(PROBLEM, lay).ok
    with_lay = [progress for progress in told if progress.lay is not None]
    assert with_lay and all(verify(PROBLEM, progress.lay).ok for progress in with_lay)
    assert PhaseCode.FIRST_LAYOUT in {progress.phase.code for progress in told}
    assert with_lay[-1].yield_ == pytest.approx(PROBLEM.net_area_mm2 / 400.0 / with_lay[-1].length_mm)


def test_an_order_too_long_for_the_table_becomes_several_lays():
    short = replace(PROBLEM, roll=replace(PROBLEM.roll, length_mm=230.0))
    lays = lays_in_child(short, seconds=3.0)
    held = {}
    for demand, lay in lays:
        part = replace(short, items=tuple(replace(i, demand=demand.get(i.id, 0)) for i in short.items))
        assert lay.length_mm <= 230.0 and verify(part, lay).ok
        for item_id, count in demand.items():
            held[item_id] = held.get(item_id, 0) + count
    assert len(lays) > 1 and held == {"L": 6, "R": 6}
    with pytest.raises(ProblemError, match="longer lays"):
        lays_in_child(replace(PROBLEM, roll=replace(PROBLEM.roll, length_mm=100.0)), seconds=3.0)


@pytest.mark.parametrize("patience_s", [0.0, 60.0])
def test_a_lay_longer_than_the_table_is_no_answer_whether_the_engine_or_its_watch_ends_first(
    patience_s, monkeypatch
):
    monkeypatch.setattr("nesting.engine.run.GRACE_S", patience_s)
    short = replace(PROBLEM, roll=replace(PROBLEM.roll, length_mm=170.0))
    with pytest.raises(TooLongError, match="the lay may be"):
        solve_in_child(short, seconds=0.1)


def test_cancel_returns_at_once_with_the_best_lay():
    told = []
    wish = []

    def cancelled():
        if told and told[-1].lay is not None and not wish:
            wish.append(True)
        return bool(wish)

    lay = solve_in_child(PROBLEM, seconds=60.0, on_progress=told.append, cancelled=cancelled)
    assert lay.stopped == "cancelled"
    assert verify(PROBLEM, lay).ok


def test_cancelled_before_any_lay_is_an_error_in_words():
    with pytest.raises(EngineError, match="cancelled"):
        solve_in_child(PROBLEM, seconds=60.0, cancelled=lambda: True)


def test_a_problem_without_an_answer_comes_back_in_words():
    with pytest.raises(ProblemError, match="wider"):
        solve_in_child(LayProblem(Roll(20.0), PROBLEM.items), seconds=5.0)


@pytest.mark.skipif(not os.path.isdir("/proc"), reason="reads the process table of Linux")
def test_no_engine_outlives_a_parent_that_is_killed():
    code = (
        "from nesting.process import Child\n"
        "from nesting.files.wire import problem_to_json\n"
        "import sys, json, time\n"
        "job = json.loads(sys.stdin.readline())\n"
        "child = Child('nesting.engine.worker', job)\n"
        "while True:\n"
        "    event = child.event(1.0)\n"
        "    if event and event['event'] == 'phase' and event['phase'][0] == 'search':\n"
        "        print(child._process.pid, flush=True)\n"
    )
    parent = subprocess.Popen(
        [sys.executable, "-c", code], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    job = {"job": "lay", "problem": problem_to_json(PROBLEM), "seconds": 600.0, "seed": 0, "workers": 1}
    parent.stdin.write(json.dumps(job) + "\n")
    parent.stdin.flush()
    worker = int(parent.stdout.readline())
    family = [worker, *children_of(worker)]
    assert len(family) >= 2  # the worker and its searches
    os.kill(parent.pid, signal.SIGKILL)
    parent.wait()
    assert all_end(family)


def test_an_error_comes_through_the_wire_with_its_words_apart_from_its_figures():
    error = ProblemError(
        said("its demand is {0}", -3), remedy=said("of {0}; {1}", said("{0} mm", 2.5), "b"), piece="x"
    )
    told = told_from_json(json.loads(json.dumps(told_to_json(Told("failed", error=error)))))
    assert isinstance(told.error, ProblemError) and str(told.error) == str(error)
    assert parts_of(told.error.message) == ("its demand is {0}", ("-3",))


def test_a_child_that_fails_says_why():
    child = Child("nesting.engine.worker", {"job": "lay", "problem": {"roll": 3}})
    try:
        while (event := child.event(20.0)) is not None and event["event"] != "failed":
            continue
        assert event is not None and "roll" in event["message"]
    finally:
        child.kill()


# ------------------------------------------------------------------ the command


@pytest.fixture
def instance(tmp_path):
    path = tmp_path / "two.json"
    items = [
        {
            "id": 7 + k,
            "demand": 3,
            "allowed_orientations": [0, 180],
            "shape": {"type": "simple_polygon", "data": outline.ring_mm.tolist()},
        }
        for k, outline in enumerate((QUARTER, QUARTER.mirrored()))
    ]
    path.write_text(json.dumps({"name": "two", "strip_height": 300, "items": items}))
    return path


def test_the_command_writes_a_lay_that_verifies_and_a_summary_in_json(instance, tmp_path, capsys):
    out = tmp_path / "lay.json"
    assert main([str(instance), "--gap", "2", "--seconds", "3", "-o", str(out), "--json"]) == 0
    summary = json.loads(capsys.readouterr().out)
    doc = json.loads(out.read_text())
    assert verify_document(doc).ok
    assert summary["length_mm"] == doc["length_mm"] and summary["pieces"] == 6
    assert {at["piece"] for at in doc["placements"]} == {7, 8}
    assert {at["rotation_deg"] for at in doc["placements"]} <= {0.0, 180.0}


def test_with_a_greatest_length_the_command_writes_as_many_lays_as_it_takes(instance, tmp_path, capsys):
    words = [str(instance), "--gap", "2", "--seconds", "3", "-o", str(tmp_path / "lay.json"), "--json"]
    assert main([*words, "--max-length", "230"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["ok"] and len(told["lays"]) > 1
    held = []
    for number, lay in enumerate(told["lays"], start=1):
        assert lay["lay_file"] == str(tmp_path / f"lay-{number}.json")
        doc = json.loads((tmp_path / f"lay-{number}.json").read_text())
        assert verify_document(doc).ok and doc["length_mm"] <= 230.0
        held += [at["piece"] for at in doc["placements"]]
    assert sorted(held) == [7, 7, 7, 8, 8, 8]
    assert not (tmp_path / "lay.json").exists()


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["missing.json", "-o", "x.json"],
        ["two.json"],
        ["two.json", "-o", "no/folder/x.json"],
        ["two.json", "-o", "x.json", "--gap", "-1"],
        ["two.json", "-o", "x.json", "--gap", "nan"],
        ["two.json", "-o", "x.json", "--seconds", "0"],
        ["two.json", "-o", "x.json", "--max-length", "0"],
        ["two.json", "-o", "x.json", "--max-length", "500", "--work", "1"],
        ["two.json", "-o", "x.json", "--workers", "none"],
    ],
)
def test_bad_usage_is_one_line_and_status_2(arguments, instance, monkeypatch, capsys):
    monkeypatch.chdir(instance.parent)
    try:
        status = main(arguments)
    except SystemExit as stop:
        status = stop.code
    assert status == 2
    assert capsys.readouterr().err.count("\n") == 1
    assert not (instance.parent / "x.json").exists()


def test_a_piece_wider_than_the_strip_is_named_with_its_file(instance, tmp_path, capsys):
    doc = json.loads(instance.read_text())
    doc["strip_height"] = 30
    instance.write_text(json.dumps(doc))
    assert main([str(instance), "-o", str(tmp_path / "x.json")]) == 2
    line = capsys.readouterr().err.strip().splitlines()[-1]
    assert "two.json" in line and "7" in line and "wider" in line
