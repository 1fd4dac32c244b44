"""``shortcut``: put the program into the desktop's menu, with its icon, and style files on it."""

from __future__ import annotations

import argparse
import os
import subprocess
from collections.abc import Sequence

from app.commands import Outcome
from app.errors import UsageError
from app.shortcuts.place import place


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command: none, the system at hand says what is made."""


def run(args: argparse.Namespace) -> Outcome:
    """Make the entry and say which files it consists of."""
    try:
        files = place(os.environ, _run)
    except OSError as error:
        raise UsageError(
            f"the shortcut cannot be made ({error.strerror or error})",
            file=str(error.filename or ""),
            remedy="check the rights to that folder; the program runs without it",
        ) from error
    told = [str(path) for path in files]
    return Outcome({"files": told}, "\n".join(["stayply is in the menu; it consists of:", *told]))


def _run(words: Sequence[str]) -> int:
    try:
        return subprocess.run(words, capture_output=True, check=False, timeout=60).returncode
    except (OSError, subprocess.TimeoutExpired):
        return -1
