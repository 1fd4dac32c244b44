"""How each edge kind is drawn: a colour and a line pattern, so that neither is needed alone.

The patterns are the kind's meaning drawn small: lasting is a heavy line (it is pulled), folded a
long dash (a fold line), skived a dash-dot (a bevel's two layers), and so on. Colours are chosen
for distance under the three common colour-vision deficiencies and for contrast with both
canvases; tests/app/window/test_palette.py holds them to it.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QT_TRANSLATE_NOOP, Qt
from PySide6.QtGui import QColor, QPen

from app.window.canvas.pens import pixels
from app.window.widgets.theme import Theme
from geometry.findings import Severity
from geometry.piece import EdgeKind


@dataclass(frozen=True)
class EdgeMark:
    """Pen of an edge kind: colours by day and night, dash in pen widths, width in px; its key and words.

    ``word`` and ``meaning`` are texts of the context Edge, ``action`` one of DraftAction.
    """

    day: str
    night: str
    dash: tuple[float, ...]
    width_px: float
    key: str
    word: str
    meaning: str
    action: str

    def colour(self, theme: Theme) -> QColor:
        """Return the colour for a theme."""
        return QColor(self.night if theme.dark else self.day)


MARKS: dict[EdgeKind, EdgeMark] = {
    EdgeKind.LASTING: EdgeMark(
        "#a33b00",
        "#ff9a5c",
        (),
        3.2,
        "1",
        str(QT_TRANSLATE_NOOP("Edge", "Lasting")),
        str(QT_TRANSLATE_NOOP("Edge", "Pulled under the last and cemented to the insole.")),
        str(QT_TRANSLATE_NOOP("DraftAction", "Edge: lasting")),
    ),
    EdgeKind.FOLDED: EdgeMark(
        "#0a5fb4",
        "#6fb7ff",
        (6.0, 2.5),
        2.4,
        "2",
        str(QT_TRANSLATE_NOOP("Edge", "Folded")),
        str(QT_TRANSLATE_NOOP("Edge", "Turned over and cemented; the backing stops short of the fold.")),
        str(QT_TRANSLATE_NOOP("DraftAction", "Edge: folded")),
    ),
    EdgeKind.SKIVED: EdgeMark(
        "#7a2f8f",
        "#dc9cf0",
        (6.0, 2.0, 1.0, 2.0),
        2.4,
        "3",
        str(QT_TRANSLATE_NOOP("Edge", "Skived")),
        str(QT_TRANSLATE_NOOP("Edge", "Upper and backing are thinned together towards the edge.")),
        str(QT_TRANSLATE_NOOP("DraftAction", "Edge: skived")),
    ),
    EdgeKind.UNDERLAY: EdgeMark(
        "#00564d",
        "#6fe6d6",
        (2.2, 2.0),
        2.4,
        "4",
        str(QT_TRANSLATE_NOOP("Edge", "Underlay")),
        str(QT_TRANSLATE_NOOP("Edge", "Goes under another piece; no bulk is wanted there.")),
        str(QT_TRANSLATE_NOOP("DraftAction", "Edge: underlay")),
    ),
    EdgeKind.OVERLAY: EdgeMark(
        "#0a7ea4",
        "#86d8f5",
        (),
        1.8,
        "5",
        str(QT_TRANSLATE_NOOP("Edge", "Overlay")),
        str(QT_TRANSLATE_NOOP("Edge", "Lies over another piece and is stitched down.")),
        str(QT_TRANSLATE_NOOP("DraftAction", "Edge: overlay")),
    ),
    EdgeKind.SEAM: EdgeMark(
        "#cf3486",
        "#ff6cb0",
        (1.0, 1.6),
        2.6,
        "6",
        str(QT_TRANSLATE_NOOP("Edge", "Seam")),
        str(QT_TRANSLATE_NOOP("Edge", "Joined to another piece by a closed seam.")),
        str(QT_TRANSLATE_NOOP("DraftAction", "Edge: seam")),
    ),
    EdgeKind.RAW: EdgeMark(
        "#3f434c",
        "#d5d2ca",
        (),
        1.3,
        "7",
        str(QT_TRANSLATE_NOOP("Edge", "Raw")),
        str(QT_TRANSLATE_NOOP("Edge", "Cut and left as it is; the cloth must not show.")),
        str(QT_TRANSLATE_NOOP("DraftAction", "Edge: raw")),
    ),
    EdgeKind.CENTRE: EdgeMark(
        "#8a6d00",
        "#f2d24b",
        (9.0, 2.0, 2.0, 2.0, 2.0, 2.0),
        1.8,
        "8",
        str(QT_TRANSLATE_NOOP("Edge", "Centre")),
        str(QT_TRANSLATE_NOOP("Edge", "Fold line of a half pattern: the piece goes on beyond it.")),
        str(QT_TRANSLATE_NOOP("DraftAction", "Edge: centre")),
    ),
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
