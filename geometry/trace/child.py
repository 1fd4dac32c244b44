"""Tracing a picture in a process of its own, which can be ended at once: ``python -m geometry.trace.child``.

It is asked ``path`` and the options of ``trace_picture``, and answers with what was traced, or the error.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from geometry.errors import TraceError
from geometry.own_process import answer_once, answered
from geometry.said import said
from geometry.trace.read import Traced, trace_picture

Answer = Traced | TraceError


def answer_of(data: bytes, file: str) -> Answer:
    """Return what a child answered, an error where it ended without an answer."""
    nothing = TraceError(
        "tracing it ended without a result",
        file=file,
        remedy="close other programs to free memory, or give a picture with fewer pixels",
    )
    answer: Answer = answered(data, nothing)
    return answer


def _trace(asked: dict[str, Any]) -> Traced:
    return trace_picture(Path(asked.pop("path")), **asked)


def _refused(error: Exception, path: str) -> TraceError:
    return TraceError(said("cannot be read ({0})", error), remedy="check the file and the disk", file=path)


if __name__ == "__main__":
    answer_once(_trace, _refused)
