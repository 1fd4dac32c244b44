"""Which entry this system's desktop wants, and what it starts."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from app.shortcuts import linux, mac, windows
from nesting import system
from nesting.process import PROJECT

Run = Callable[[Sequence[str]], int]
"""Runs a program of the system; returns its status, or something else than 0 where there is none."""


def place(environment: Mapping[str, str], run: Run) -> list[Path]:
    """Make the entry; returns the files written, the one to start from first. Raises OSError."""
    home = Path(environment.get("USERPROFILE" if system.WINDOWS else "HOME") or Path.home())
    if system.WINDOWS:
        programs = Path(environment.get("APPDATA") or home / "AppData" / "Roaming")
        return windows.place(programs, window_words(), PROJECT, run)
    if system.MAC:
        return mac.place(home / "Applications", window_words(), run)
    data = Path(environment.get("XDG_DATA_HOME") or home / ".local" / "share")
    return linux.place(data, window_words(), run)


def window_words() -> list[str]:
    """The words that open the window, with nothing but this copy of the program.

    Through start.py where it is, so that a changed list of libraries is installed first. On Windows the
    environment's Python without a console, since a console window beside ours serves no purpose.
    """
    python = Path(sys.executable)
    if system.WINDOWS:
        return [str(python.with_name("pythonw.exe")), "-m", "app", "window"]
    start = PROJECT / "start.py"
    if start.exists():
        base = getattr(sys, "_base_executable", "") or sys.executable
        own = os.path.realpath(base)
        return [own, str(start), "window"]
    return [str(python), "-m", "app", "window"]
