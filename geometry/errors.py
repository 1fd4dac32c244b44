"""Errors that geometry raises when it cannot go on; everything else is a Finding.

``DeskError`` is the base of the errors of all three packages: one shape for the person at the desk.
"""

from __future__ import annotations

from geometry.said import joined, said


class DeskError(Exception):
    """What is wrong, where, and what the person at the desk can do about it.

    ``message`` says what is wrong, ``remedy`` what can be done; ``file`` and ``piece`` say where, as far
    as known. ``code`` is stable.
    """

    code = "ERROR"

    def __init__(
        self, message: str, *, remedy: str = "", file: str = "", piece: str = "", code: str = ""
    ) -> None:
        self.message = message
        self.remedy = remedy
        self.file = file
        self.piece = piece
        if code:
            self.code = code
        super().__init__(str(self))

    def __str__(self) -> str:
        place = ": ".join(part for part in (self.file, self.piece) if part)
        text = said("{0}: {1}", place, self.message) if place else self.message
        return joined(text, self.remedy)


class GeometryError(DeskError):
    """Base of all errors of this package."""

    code = "GEOMETRY"


class OutlineError(GeometryError):
    """A ring of points that is not an outline: too few points, not finite, or without area."""

    code = "BAD_OUTLINE"


class DrawingError(GeometryError):
    """A drawing that cannot be read at all (empty, not a DXF, truncated beyond repair...)."""

    code = "BAD_DRAWING"


class EdgeError(GeometryError):
    """Break points or edges that do not fit the outline they are said to belong to."""

    code = "BAD_EDGES"


class BackingError(GeometryError):
    """A backing that cannot be asked for (a cut line that misses the piece, say)."""

    code = "BAD_BACKING"


class SizeError(GeometryError):
    """A size, size system or grade that does not exist or does not fit."""

    code = "BAD_SIZE"


class SheetError(GeometryError):
    """Stretch data or sheet constants from which nothing can be computed."""

    code = "BAD_SHEET"


class TraceError(GeometryError):
    """A picture from which no outline can be traced, or not surely enough."""

    code = "BAD_PICTURE"
