"""Lattices kept between runs: judged again, never needed, whole after an end by force."""

import json
import signal
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from nesting.known import folder as kept
from nesting.lattice import densest

ROOT = Path(__file__).resolve().parents[3]
RING = np.array([(0.0, 0.0), (60.0, 0.0), (75.0, 20.0), (45.0, 35.0), (10.0, 30.0)])
HOW = {"starts": 40, "rounds": 60, "keep": 3}


@pytest.fixture
def folder(tmp_path):
    kept.use(tmp_path / "lattices")
    yield tmp_path / "lattices"
    kept.use(None)


def searched(seed=0):
    return densest.searched([RING, -RING], 2.0, seed=seed, **HOW)


def same(first, second):
    return all(
        np.array_equal(a.at_mm, b.at_mm) and np.array_equal(a.u_mm, b.u_mm) and np.array_equal(a.v_mm, b.v_mm)
        for a, b in zip(first, second, strict=True)
    )


def test_what_was_found_is_not_searched_for_again_whatever_the_seed(folder, monkeypatch):
    first = searched()
    monkeypatch.setattr(densest, "_run", lambda *_: pytest.fail("searched again"))
    again = searched(seed=5)
    assert same(first, again)
    assert [each.density for each in again] == pytest.approx([each.density for each in first])


def test_where_none_are_kept_nothing_is_written_and_the_seed_decides(tmp_path):
    kept.use(None)
    assert same(searched(), searched())


def test_a_search_cut_short_is_not_kept(folder):
    class Now:
        left_s = 0.0

        def __call__(self):
            return True

    densest.searched([RING, -RING], 2.0, stop=Now(), **HOW)
    assert not folder.exists() or list(folder.iterdir()) == []


@pytest.mark.parametrize("text", ["", "[[", "[[[1, 2]]]", '{"a": 1}', '[[[["x", 1]], [[1, 0], [0, 1]]]]'])
def test_a_damaged_file_is_searched_for_anew(folder, text):
    first = searched()
    (file,) = folder.iterdir()
    file.write_text(text)
    assert same(first, searched())
    assert json.loads(file.read_text())


def test_a_lattice_whose_copies_overlap_is_not_believed(folder):
    first = searched()
    (file,) = folder.iterdir()
    told = json.loads(file.read_text())
    told[0][1] = [[0.9 * x for x in period] for period in told[0][1]]
    file.write_text(json.dumps(told))
    assert same(first, searched())


def test_the_folder_stays_within_its_bound(folder, monkeypatch):
    monkeypatch.setattr(kept, "MOST_FILES", 10)
    monkeypatch.setattr(kept, "TIDY_EVERY", 5)
    store = kept.in_use()
    for number in range(40):
        store.keep(f"{number:040d}", [[[0.0, 0.0]], [[1.0, 0.0], [0.0, 1.0]]])
    assert len(list(folder.iterdir())) <= 15
    assert store.find(f"{39:040d}") is not None


def test_killed_while_it_writes_it_leaves_only_whole_files(folder):
    code = """
import sys
import random
from nesting.known import folder
store = folder.KeptFiles(__import__("pathlib").Path(sys.argv[1]))
cells = [[[[random.random(), random.random()] for _ in range(400)], [[1.0, 0.0], [0.0, 1.0]]]]
print("begun", flush=True)
for number in range(100_000):
    store.keep(f"{number % 7:040d}", cells)
"""
    for _ in range(3):
        child = subprocess.Popen(
            [sys.executable, "-c", code, str(folder)], cwd=ROOT, stdout=subprocess.PIPE, text=True
        )
        child.stdout.readline()
        while not list(folder.glob("*.json")):
            assert child.poll() is None
        child.send_signal(signal.SIGKILL if hasattr(signal, "SIGKILL") else signal.SIGTERM)
        child.wait()
        child.stdout.close()
        for file in folder.glob("*.json"):
            assert len(json.loads(file.read_text())[0][0]) == 400
