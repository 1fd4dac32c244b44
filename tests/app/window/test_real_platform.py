"""The window under a real platform plugin: what offscreen tests cannot see, a crash least of all.

Each driver runs in a process of its own on a virtual display (xcb under Xvfb), so that a crash is a failed
test and not the end of all tests.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.app.window.hands import ROOT, SAMPLES

DRIVERS = Path(__file__).parent / "real"


@pytest.fixture(scope="module")
def display() -> Iterator[str]:
    """A virtual display of our own."""
    if not shutil.which("Xvfb"):
        pytest.skip("no virtual display here: Xvfb is not installed")
    read, write = os.pipe()
    words = ["Xvfb", "-displayfd", str(write), "-screen", "0", "1600x1000x24", "-nolisten", "tcp"]
    server = subprocess.Popen(words, pass_fds=(write,), stderr=subprocess.DEVNULL)
    os.close(write)
    try:
        with os.fdopen(read) as told:
            number = told.readline().strip()  # ends when the server is up, or gone
        if not number:
            pytest.skip("no virtual display here: Xvfb does not start")
        yield f":{number}"
    finally:
        server.terminate()
        server.wait()


def run_driver(display: str, name: str, *words: str | Path) -> str:
    """Run a driver to its end and return what it said; a missing library of the platform skips."""
    environment = os.environ | {
        "DISPLAY": display,
        "QT_QPA_PLATFORM": "xcb",
        "PYTHONPATH": str(ROOT),
        "PYTHONFAULTHANDLER": "1",
    }
    done = subprocess.run(
        [sys.executable, str(DRIVERS / f"{name}.py"), *map(str, words)],
        env=environment,
        capture_output=True,
        text=True,
        check=False,
        cwd=ROOT,
    )
    if "no Qt platform plugin could be initialized" in done.stderr:
        pytest.skip("the libraries of the xcb platform plugin are not installed")
    last = "\n".join(done.stdout.splitlines()[-3:])
    assert done.returncode == 0, f"it ended with {done.returncode} after:\n{last}\n{done.stderr[-3000:]}"
    return done.stdout


@pytest.mark.slow
def test_every_field_of_every_desk_is_opened_changed_and_closed(display: str, tmp_path: Path) -> None:
    style = tmp_path / SAMPLES["derby"].name
    style.write_bytes(SAMPLES["derby"].read_bytes())
    said = run_driver(display, "every_field", style, tmp_path).splitlines()
    assert said[-1].startswith("done ") and int(said[-1].split()[1]) > 100
    for desk in ("draft", "cloth", "lay", "cost"):
        assert any(line.startswith(f"{desk} ") for line in said), f"no field of the {desk} desk was touched"
    assert sum(line.startswith("cloth Chooser Cloth of ") for line in said) >= 4
    fields = {line.rsplit(" ", 2)[0] for line in said}
    of_a_piece = {
        "TextField Name",
        "Chooser Left or right",
        "NumberField Pieces per shoe",
        "LengthField Setback",
    }
    assert {f"draft {each}" for each in of_a_piece} <= fields, "the inspector was not reached"
    assert sum(line.startswith("draft kind ") and line.endswith("True") for line in said) >= 8
