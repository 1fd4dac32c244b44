"""What a command tells a program that watches it, the window above all: the lay in work, and how to stop.

A watcher sets ``STAYPLY_LIVE`` in the command's environment. The command then writes, beside its lines for
people, lines that begin with ``LIVE`` and carry a JSON object: the lay in work, or a text with its words
apart from its figures (``TEXT``); the texts of its result stand so under ``WORDS`` of the object it prints.
When a line ``stop`` comes on standard input it ends with the best it has, as after Ctrl-C (which not every
system can send to a program without a terminal).
"""

from __future__ import annotations

import json
import os
import sys
import threading
import time
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from app.words.carried import texts_of
from geometry.said import packed

if TYPE_CHECKING:  # every command says something, and few of them need an engine
    from nesting.engine.child import Progress
    from nesting.problem import LayProblem

WATCHED = "STAYPLY_LIVE"
LIVE = "stayply-live: "
STOP = "stop"
TEXT = "text"
WORDS = "words"
EVERY_S = 0.5
"""Drawn this often, a picture looks live; drawing thousands of pieces more often would cost the search."""

_stopped = threading.Event()
_listening = threading.Event()
_told_s = [0.0]


def watched() -> bool:
    """Whether a program watches this command."""
    return bool(os.environ.get(WATCHED))


def stop_asked() -> bool:
    """Whether the watcher has asked for an end; the first call begins to listen."""
    if watched() and not _listening.is_set():
        _listening.set()
        threading.Thread(target=_listen, daemon=True).start()
    return _stopped.is_set()


def tell_lay(problem: LayProblem, progress: Progress, label: str) -> None:
    """Tell the watcher of the best lay so far, not too often."""
    now = time.monotonic()
    if progress.lay is None or not watched() or now - _told_s[0] < EVERY_S:
        return
    _told_s[0] = now
    placements = []
    for at in progress.lay.placements:
        item = problem.by_id[at.item_id]
        ring = [[round(x, 1), round(y, 1)] for x, y in at.place(item.outline).ring_mm]
        placements.append({"hand": item.hand, "outline_mm": ring})
    tell(
        {
            "label": label,
            "phase": progress.phase.code.value,
            "length_mm": progress.length_mm,
            "yield": progress.yield_,
            "roll": {"usable_width_mm": problem.roll.usable_width_mm},
            "placements": placements,
        }
    )


def tell_strip(document: Mapping[str, Any], label: str) -> None:
    """Tell the watcher of a lay that is done, as its file tells it."""
    if watched():
        kept = ("length_mm", "yield", "roll", "placements")
        tell({"label": label, "done": True, **{name: document[name] for name in kept}})


def tell_text(text: str) -> None:
    """Tell the watcher a text, its words apart from its figures."""
    tell({TEXT: packed(text)})


def with_texts(payload: dict[str, Any]) -> dict[str, Any]:
    """Return a command's object as it is printed: for a watcher with the words of its texts beside it."""
    return {**payload, WORDS: texts_of(payload)} if watched() else payload


def tell(event: dict[str, Any]) -> None:
    """Write one event for the watcher."""
    sys.stderr.write(LIVE + json.dumps(event, separators=(",", ":")) + "\n")
    sys.stderr.flush()


def _listen() -> None:
    for line in sys.stdin:
        if line.strip() == STOP:
            _stopped.set()
            return
