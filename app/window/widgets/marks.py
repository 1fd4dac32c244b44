"""How each edge kind is drawn: a colour and a line pattern, so that neither is needed alone.

The patterns are the kind's meaning drawn small: lasting is a heavy line (it is pulled), folded a
long dash (a fold line), skived a dash-dot (a bevel's two layers), and so on. Colours are chosen
for distance under the three common colour-vision deficiencies and for contrast with both
canvases; tests/app/window/test_palette.py holds them to it.
"""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPen

from app.window.canvas.pens import pixels
from app.window.widgets.theme import Theme
from geometry.edge_kinds import EDGE_KINDS, EdgeKind
from geometry.findings import Severity

SEVERITY_ROLE: dict[Severity, str] = {
    Severity.NOTE: "note",
    Severity.WARNING: "warning",
    Severity.QUESTION: "question",
    Severity.ERROR: "error",
}
"""Theme role of a finding's severity."""


def edge_colour(kind: EdgeKind, theme: Theme) -> QColor:
    """Return the colour of a kind for a theme."""
    screen = EDGE_KINDS[kind].screen
    return QColor(screen.night if theme.dark else screen.day)


def edge_pen(kind: EdgeKind, theme: Theme, *, wider_px: float = 0.0) -> QPen:
    """Return the cosmetic pen of a kind."""
    screen = EDGE_KINDS[kind].screen
    pen = QPen(edge_colour(kind, theme), pixels(screen.width_px + wider_px))
    pen.setCosmetic(True)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if screen.dash:
        pen.setDashPattern(list(screen.dash))
    return pen
