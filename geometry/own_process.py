"""Work in a process of its own, which can be ended at once: one line of JSON in, one pickled answer out."""

from __future__ import annotations

import json
import pickle
import sys
from collections.abc import Callable
from typing import Any

from geometry.errors import GeometryError


def answer_once(
    work: Callable[[dict[str, Any]], object], refused: Callable[[Exception, str], GeometryError]
) -> None:
    """Read a line of JSON on standard input, with a ``path`` in it, and write what ``work`` makes of it.

    An error of geometry is an answer; ``refused`` makes one of an OSError or MemoryError and the path.
    """
    asked: dict[str, Any] = json.loads(sys.stdin.readline())
    path = str(asked["path"])
    answer: object
    try:
        answer = work(asked)
    except GeometryError as error:
        answer = error
    except (OSError, MemoryError) as error:
        answer = refused(error, path)
    sys.stdout.buffer.write(pickle.dumps(answer))


def answered(data: bytes, nothing: GeometryError) -> Any:
    """Return what our own child answered; ``nothing`` where it ended without, of memory or by force."""
    return pickle.loads(data) if data else nothing
