"""Tracing a picture in a process of its own, which can be ended at once: ``python -m geometry.trace.child``.

Takes one line of JSON on standard input (``path`` and the options of ``trace_picture``), and answers with one
pickle on standard output: what was traced, or the error.
"""

from __future__ import annotations

import json
import pickle
import sys
from pathlib import Path

from geometry.errors import TraceError
from geometry.said import said
from geometry.trace.read import Traced, trace_picture

Answer = Traced | TraceError


def answer_of(data: bytes, file: str) -> Answer:
    """Return what a child answered; a child that ended without an answer ran out of memory or was ended."""
    if not data:
        return TraceError(
            "tracing it ended without a result",
            file=file,
            remedy="close other programs to free memory, or give a picture with fewer pixels",
        )
    answer: Answer = pickle.loads(data)  # it was written by our own child
    return answer


def _main() -> None:
    options = json.loads(sys.stdin.readline())
    path = Path(options.pop("path"))
    answer: Answer
    try:
        answer = trace_picture(path, **options)
    except TraceError as error:
        answer = error
    except (OSError, MemoryError) as error:
        answer = TraceError(
            said("cannot be read ({0})", error), remedy="check the file and the disk", file=str(path)
        )
    sys.stdout.buffer.write(pickle.dumps(answer))


if __name__ == "__main__":
    _main()
