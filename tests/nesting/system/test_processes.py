"""Processes and screens on every system, the system faked."""

from __future__ import annotations

import signal
import subprocess
import sys
import threading

import pytest

from nesting import system
from nesting.system.processes import (
    NEW_PROCESS_GROUP,
    NO_CONSOLE,
    apart_from_keyboard,
    on_interrupt,
    was_killed,
    without_console,
)
from nesting.system.screen import has_screen


def test_a_child_that_must_not_hear_the_keyboard(monkeypatch) -> None:
    monkeypatch.setattr(system, "WINDOWS", True)
    assert apart_from_keyboard() == {"creationflags": NEW_PROCESS_GROUP}
    assert without_console() == {"creationflags": NO_CONSOLE}
    monkeypatch.setattr(system, "WINDOWS", False)
    assert apart_from_keyboard() == {"start_new_session": True}


@pytest.mark.skipif(system.WINDOWS, reason="a status of POSIX")
def test_a_killed_process_is_known_by_its_status() -> None:
    process = subprocess.Popen([sys.executable, "-c", "input()"], stdin=subprocess.PIPE)
    process.kill()
    process.communicate()
    assert was_killed(process.returncode) and not was_killed(1)


@pytest.mark.parametrize(
    ("status", "killed"), [(0, False), (1, False), (2, False), (0xC0000005, True), (15, True)]
)
def test_on_windows_any_status_that_is_not_ours_is_a_kill(monkeypatch, status: int, killed: bool) -> None:
    monkeypatch.setattr(system, "WINDOWS", True)
    assert was_killed(status) is killed


def test_the_keyboards_interrupt_is_heard_inside_the_block_only() -> None:
    before, heard = signal.getsignal(signal.SIGINT), []
    with on_interrupt(lambda: heard.append(1)):
        signal.raise_signal(signal.SIGINT)
    assert heard == [1] and signal.getsignal(signal.SIGINT) is before


def test_in_another_thread_no_signal_is_touched() -> None:
    before, ran = signal.getsignal(signal.SIGINT), []

    def work() -> None:
        with on_interrupt(lambda: None):
            ran.append(signal.getsignal(signal.SIGINT) is before)

    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert ran == [True]


@pytest.mark.parametrize(
    ("windows", "mac", "environment", "seen"),
    [
        (True, False, {}, True),
        (False, True, {}, True),
        (False, False, {}, False),
        (False, False, {"DISPLAY": ""}, False),
        (False, False, {"WAYLAND_DISPLAY": "wayland-0"}, True),
        (False, False, {"QT_QPA_PLATFORM": "offscreen"}, True),
    ],
)
def test_where_a_window_can_be_shown(monkeypatch, windows, mac, environment, seen) -> None:
    monkeypatch.setattr(system, "WINDOWS", windows)
    monkeypatch.setattr(system, "MAC", mac)
    assert has_screen(environment) is seen
