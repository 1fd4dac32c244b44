"""What a program that watches a command is told, and how it ends the search with the best lay."""

from __future__ import annotations

import json
import os
import subprocess
import sys

from app.lay.live import LIVE, STOP, WATCHED
from nesting.files.lay_file import read_lay
from nesting.verify import verify
from tests.app.window.hands import ROOT, SAMPLES


def test_a_watcher_sees_the_lay_in_work_and_ends_the_search_with_it(tmp_path) -> None:
    words = ["lay", str(SAMPLES["court"]), "--pairs", "37:2", "--seconds", "3600", "--fresh", "--json"]
    with subprocess.Popen(
        [sys.executable, "-u", "-m", "app", *words, "-o", str(tmp_path / "lay")],
        env=os.environ | {WATCHED: "1", "PYTHONPATH": str(ROOT)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=tmp_path,
    ) as process:
        assert process.stdin and process.stderr and process.stdout
        line = next(line for line in process.stderr if line.startswith(LIVE) and "placements" in line)
        process.stdin.write(f"{STOP}\n")
        process.stdin.flush()
        out, _ = process.communicate()
    told = json.loads(line.removeprefix(LIVE))
    assert len(told["placements"]) == 12 and told["length_mm"] > 0 and 0 < told["yield"] < 1
    assert process.returncode == 0
    problem, lay = read_lay(tmp_path / "lay" / "lay.json")
    assert verify(problem, lay).ok
    assert lay.length_mm <= told["length_mm"] + 1e-6
    assert json.loads(out)["verification"]["ok"]


def test_nobody_who_does_not_watch_is_told(tmp_path) -> None:
    words = ["lay", str(SAMPLES["court"]), "--pairs", "37:1", "--seconds", "0.5", "--fresh"]
    done = subprocess.run(
        [sys.executable, "-m", "app", *words, "-o", str(tmp_path / "lay")],
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
    )
    assert LIVE not in done.stderr
