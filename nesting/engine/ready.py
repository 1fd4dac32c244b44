"""Engines' processes started before there is a question, and used again for the next one.

Reading the libraries and compiled code of an engine takes about a second of a processor: a command starts its
engine first and reads style and order meanwhile, and a plan of many lays reads them once. Light to load.
"""

from __future__ import annotations

import atexit
import threading
from typing import Any

from nesting.process import Child

WORKER = "nesting.engine.worker"
"""The module that an engine's process runs."""

MOST_IDLE = 2
"""Idle engines kept for the next question."""

_idle: list[Child] = []
_lock = threading.Lock()


def prepare() -> None:
    """Start an engine's process for the question that is about to come, unless one is idle."""
    with _lock:
        if not _idle:
            _idle.append(Child(WORKER))


def asked(job: dict[str, Any]) -> Child:
    """Return an engine's process that has been sent a job; it belongs to the caller."""
    with _lock:
        while _idle:
            child = _idle.pop()
            if not child.ended:
                child.begin(job)
                return child
            child.kill()
    child = Child(WORKER)
    child.begin(job)
    return child


def give_back(child: Child) -> None:
    """Keep an engine whose job is done for the next one, or end it when enough are idle."""
    with _lock:
        if len(_idle) < MOST_IDLE and not child.ended:
            _idle.append(child)
            return
    child.kill()


def _end_all() -> None:
    with _lock:
        while _idle:
            _idle.pop().kill()


atexit.register(_end_all)
