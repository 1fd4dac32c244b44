"""Reading a drawing in a process of its own, which can be ended at once: ``python -m geometry.dxf.child``.

It is asked ``path`` and the options of ``read_drawing``, says each step as a line on standard error, and
answers with a Drawing, or the error.
"""

from __future__ import annotations

import sys
from typing import Any

from geometry.dxf.read import ReadDrawing, read_drawing
from geometry.errors import DrawingError, GeometryError
from geometry.own_process import answer_once, answered
from geometry.said import said

Answer = ReadDrawing | GeometryError


def answer_of(data: bytes, file: str) -> Answer:
    """Return what a child answered, an error where it ended without an answer."""
    nothing = DrawingError(
        "reading it ended without a result",
        file=file,
        remedy="close other programs to free memory, or save the pieces alone in a smaller drawing",
    )
    answer: Answer = answered(data, nothing)
    return answer


def _read(asked: dict[str, Any]) -> ReadDrawing:
    def told(words: str) -> None:
        sys.stderr.write(words + "\n")
        sys.stderr.flush()

    return read_drawing(asked.pop("path"), told=told, **asked)


def _refused(error: Exception, path: str) -> DrawingError:
    return DrawingError(
        said("it cannot be read ({0})", error), remedy="check the file and the disk", file=path
    )


if __name__ == "__main__":
    answer_once(_read, _refused)
