"""The outline of a remnant, from a drawing of it: the largest piece, x along the roll it came from."""

from __future__ import annotations

from pathlib import Path

from app.errors import UsageError
from geometry.dxf.read import Unit, read_drawing
from geometry.findings import Severity
from geometry.outline import Outline
from geometry.said import said


def read_remnant(path: Path, unit: Unit = "auto") -> Outline:
    """Return the remnant's outline in mm; ``unit`` is the drawing's, "auto" goes by the file.

    Raises DrawingError when the file cannot be read, UsageError when it does not hold one piece
    or does not say its unit.
    """
    drawing = read_drawing(path, unit=unit)
    if len(drawing.pieces) != 1:
        raise UsageError(
            said("holds {0} pieces, a remnant is one", len(drawing.pieces)),
            file=str(path),
            remedy="draw it alone",
        )
    asked = [finding for finding in drawing.findings if finding.severity == Severity.QUESTION]
    if asked:
        raise UsageError(asked[0].message, file=str(path), remedy="state it with --remnant-unit")
    return drawing.pieces[0].outline
