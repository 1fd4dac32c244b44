"""The commands, one module each with ``add_arguments(parser)`` and ``run(args) -> Outcome``.

A module is imported only when its command is called, so that each starts fast and none but
``window`` needs a display library. Messages and progress go to standard error (``say``).
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from typing import Any

from app.lay import live
from geometry.said import Said


@dataclass(frozen=True)
class Outcome:
    """What a command gives back: the JSON object, the same as text, and the exit status."""

    payload: dict[str, Any]
    text: str
    status: int = 0


@dataclass(frozen=True)
class Command:
    """Where a command lives and what it does."""

    module: str
    help: str


COMMANDS: dict[str, Command] = {
    "window": Command("window", "open the window"),
    "pieces": Command("pieces", "read a drawing and report its pieces"),
    "trace": Command("trace", "outlines of card patterns from a photograph or a scan"),
    "new": Command("new", "make a style file from a drawing"),
    "piece": Command("piece", "half patterns, twins, pieces added, duplicated, deleted"),
    "sizes": Command("sizes", "the size run: system, base, sizes added and removed, how each is made"),
    "measure": Command("measure", "lengths along edges, seam pairs, areas; two sizes or versions compared"),
    "revise": Command("revise", "bring a revised drawing into a style: what was marked stays"),
    "edit": Command("edit", "draw on pieces and backings: cuts, layers, splits, joins, notches, tapers"),
    "backing": Command("backing", "derive the backing of every piece, size and hand"),
    "boards": Command("boards", "card patterns at full size: uppers and their backing"),
    "lay": Command("lay", "arrange the backing pieces of some pairs on the roll"),
    "verify": Command("verify", "check a lay with code that no engine uses"),
    "cost": Command("cost", "fabric per pair and its cost, by size and by roll width"),
    "plan": Command("plan", "plan a production run: lays, plies, rolls, cloth and cost"),
    "press": Command("press", "cut on a press: dies, strokes, and the rows of each die"),
    "used": Command("used", "enter what a lay of a run actually took"),
    "history": Command("history", "runs planned and used, and an estimate from similar ones"),
    "hold": Command("hold", "how far each piece gives along its pull axis, against its limit"),
    "cloth": Command("cloth", "the register of cloths: list, show, add, change, import, export, use"),
    "stretch": Command("stretch", "fit stretch tests of a cloth or upper: constants and tight direction"),
    "trial": Command("trial", "the trial book: fused samples, skiving checks, lasting trials"),
    "shortcut": Command(
        "shortcut", "add the program to the desktop's menu; style files open by a double click"
    ),
    "demo": Command("demo", "do the whole job on a bundled style and write every paper and file"),
}


def say(text: str) -> None:
    """Tell the person something beside the result: standard error, one line.

    A program that watches is given words and figures apart, to say them in its own language.
    """
    if live.watched() and isinstance(text, Said) and text.values:
        live.tell_text(text)
        return
    print(f"stayply: {' '.join(text.split())}", file=sys.stderr, flush=True)
