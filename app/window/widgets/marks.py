"""How each edge kind is drawn: a colour and a line pattern, so that neither is needed alone.

The patterns are the kind's meaning drawn small: lasting is a heavy line (it is pulled), folded a
long dash (a fold line), skived a dash-dot (a bevel's two layers), and so on. Colours are chosen
for distance under the three common colour-vision deficiencies and for contrast with both
canvases; tests/app/window/test_palette.py holds them to it.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPen

from app.window.canvas.pens import pixels
from app.window.widgets.theme import Theme
from geometry.findings import Severity
from geometry.piece import EdgeKind


@dataclass(frozen=True)
class EdgeMark:
    """Pen of an edge kind: colours by day and night, dash in pen widths, width in px, its key."""

    day: str
    night: str
    dash: tuple[float, ...]
    width_px: float
    key: str

    def colour(self, theme: Theme) -> QColor:
        """Return the colour for a theme."""
        return QColor(self.night if theme.dark else self.day)


MARKS: dict[EdgeKind, EdgeMark] = {
    EdgeKind.LASTING: EdgeMark("#a33b00", "#ff9a5c", (), 3.2, "1"),
    EdgeKind.FOLDED: EdgeMark("#0a5fb4", "#6fb7ff", (6.0, 2.5), 2.4, "2"),
    EdgeKind.SKIVED: EdgeMark("#7a2f8f", "#dc9cf0", (6.0, 2.0, 1.0, 2.0), 2.4, "3"),
    EdgeKind.UNDERLAY: EdgeMark("#00564d", "#6fe6d6", (2.2, 2.0), 2.4, "4"),
    EdgeKind.OVERLAY: EdgeMark("#0a7ea4", "#86d8f5", (), 1.8, "5"),
    EdgeKind.SEAM: EdgeMark("#cf3486", "#ff6cb0", (1.0, 1.6), 2.6, "6"),
    EdgeKind.RAW: EdgeMark("#3f434c", "#d5d2ca", (), 1.3, "7"),
    EdgeKind.CENTRE: EdgeMark("#8a6d00", "#f2d24b", (9.0, 2.0, 2.0, 2.0, 2.0, 2.0), 1.8, "8"),
}
"""One mark a kind, in the order of the number keys."""

SEVERITY_ROLE: dict[Severity, str] = {
    Severity.NOTE: "note",
    Severity.WARNING: "warning",
    Severity.QUESTION: "question",
    Severity.ERROR: "error",
}
"""Theme role of a finding's severity."""


def edge_pen(kind: EdgeKind, theme: Theme, *, wider_px: float = 0.0) -> QPen:
    """Return the cosmetic pen of a kind."""
    mark = MARKS[kind]
    pen = QPen(mark.colour(theme), pixels(mark.width_px + wider_px))
    pen.setCosmetic(True)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if mark.dash:
        pen.setDashPattern(list(mark.dash))
    return pen
