"""Reading a drawing in a process of its own, which can be ended at once: ``python -m geometry.dxf.child``.

Takes one line of JSON on standard input (``path`` and the options of ``read_drawing``), says each step as a
line on standard error, and answers with one pickle on standard output: a Drawing, or the error.
"""

from __future__ import annotations

import json
import pickle
import sys

from geometry.dxf.read import ReadDrawing, read_drawing
from geometry.errors import DrawingError, GeometryError
from geometry.said import said

Answer = ReadDrawing | GeometryError


def answer_of(data: bytes, file: str) -> Answer:
    """Return what a child answered; a child that ended without an answer ran out of memory or was ended."""
    if not data:
        return DrawingError(
            "reading it ended without a result",
            file=file,
            remedy="close other programs to free memory, or save the pieces alone in a smaller drawing",
        )
    answer: Answer = pickle.loads(data)  # it was written by our own child
    return answer


def _main() -> None:
    options = json.loads(sys.stdin.readline())

    def told(words: str) -> None:
        sys.stderr.write(words + "\n")
        sys.stderr.flush()

    answer: Answer
    try:
        answer = read_drawing(options.pop("path"), told=told, **options)
    except GeometryError as error:
        answer = error
    except (OSError, MemoryError) as error:
        answer = DrawingError(said("it cannot be read ({0})", error), remedy="check the file and the disk")
    sys.stdout.buffer.write(pickle.dumps(answer))


if __name__ == "__main__":
    _main()
