"""Work beside the window: its result comes in the window's own thread, and nobody is told who has gone."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from pathlib import Path

from PySide6.QtCore import QObject

from app.window.running.beside import WorkBeside
from tests.app.window.hands import ROOT

WINDOW = ROOT / "app" / "window"


def test_a_result_is_taken_in_the_windows_thread(qapp, qtbot) -> None:
    parent = QObject()
    beside: WorkBeside[str] = WorkBeside(parent)
    taken: list[tuple[str, threading.Thread]] = []
    beside.begin(
        "test",
        lambda: threading.current_thread().name,
        lambda name: taken.append((name, threading.current_thread())),
        lambda: None,
    )
    assert beside.busy
    qtbot.waitUntil(lambda: bool(taken))
    assert taken == [("test", threading.main_thread())]
    assert not beside.busy


def test_a_fault_ends_the_work_and_is_raised_where_it_can_be_shown(qapp, qtbot) -> None:
    parent = QObject()
    beside: WorkBeside[None] = WorkBeside(parent)
    failed: list[bool] = []

    def broken() -> None:
        raise RuntimeError("a fault that nobody thought of")

    with qtbot.captureExceptions() as caught:
        beside.begin("test", broken, lambda _: None, lambda: failed.append(True))
        qtbot.waitUntil(lambda: bool(caught))
    assert failed == [True] and "nobody thought of" in str(caught[0][1])
    assert not beside.busy


def test_whoever_goes_while_the_work_ends_is_not_told_and_nothing_crashes() -> None:
    driver = Path(__file__).parent / "real" / "gone_meanwhile.py"
    done = subprocess.run(
        [sys.executable, str(driver)],
        env=os.environ | {"PYTHONPATH": str(ROOT), "PYTHONFAULTHANDLER": "1"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("300 askers gone, 0 told")


def test_only_one_place_of_the_window_starts_threads() -> None:
    """A thread that sends a signal of an object under deletion ends the program."""
    starts = {
        p.relative_to(WINDOW).as_posix() for p in WINDOW.rglob("*.py") if "Thread(" in p.read_text("utf-8")
    }
    assert starts == {"running/beside.py", "application.py"}  # the second only imports
