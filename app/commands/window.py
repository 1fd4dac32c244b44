"""``window``: open the window, on a style or a drawing if one is named."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from app.commands import Outcome
from app.errors import UsageError
from nesting.system.screen import has_screen


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", nargs="*", type=Path, help="a style file, or drawings to start a style from")


def run(args: argparse.Namespace) -> Outcome:
    """Open the window and wait until it is closed."""
    for path in args.style:
        if not path.exists():
            raise UsageError("there is no such file", file=str(path), remedy="check the name")
    if not has_screen(os.environ):
        raise UsageError(
            "there is no screen to open a window on",
            remedy="run it in a graphical session, or use the other commands (stayply --help)",
        )
    try:
        from app.window.application import run as run_window
    except ImportError as error:
        raise UsageError(
            f"the display library cannot be loaded ({error})",
            remedy="run: python3 start.py window, which names the missing system packages",
        ) from None
    status = run_window(list(args.style))
    return Outcome({"closed": True}, "", status)
