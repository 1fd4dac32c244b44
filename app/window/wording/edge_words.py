"""The words of the edge kinds as the window says them.

The kinds and their meanings stand in ``geometry.edge_kinds``; here they are listed once more for
translation, as all texts of geometry are. tests/contracts/test_edge_kinds.py finds one that is missing.
"""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication

from geometry.edge_kinds import EDGE_KINDS, EdgeKind

translate = QCoreApplication.translate

LISTED = frozenset(
    str(text)
    for text in (
        QT_TRANSLATE_NOOP("Edge", "Lasting"),
        QT_TRANSLATE_NOOP("Edge", "Pulled under the last and cemented to the insole."),
        QT_TRANSLATE_NOOP("DraftAction", "Edge: lasting"),
        QT_TRANSLATE_NOOP("Edge", "Folded"),
        QT_TRANSLATE_NOOP("Edge", "Turned over and cemented; the backing stops short of the fold."),
        QT_TRANSLATE_NOOP("DraftAction", "Edge: folded"),
        QT_TRANSLATE_NOOP("Edge", "Skived"),
        QT_TRANSLATE_NOOP("Edge", "Upper and backing are thinned together towards the edge."),
        QT_TRANSLATE_NOOP("DraftAction", "Edge: skived"),
        QT_TRANSLATE_NOOP("Edge", "Underlay"),
        QT_TRANSLATE_NOOP("Edge", "Goes under another piece; no bulk is wanted there."),
        QT_TRANSLATE_NOOP("DraftAction", "Edge: underlay"),
        QT_TRANSLATE_NOOP("Edge", "Overlay"),
        QT_TRANSLATE_NOOP("Edge", "Lies over another piece and is stitched down."),
        QT_TRANSLATE_NOOP("DraftAction", "Edge: overlay"),
        QT_TRANSLATE_NOOP("Edge", "Seam"),
        QT_TRANSLATE_NOOP("Edge", "Joined to another piece by a closed seam."),
        QT_TRANSLATE_NOOP("DraftAction", "Edge: seam"),
        QT_TRANSLATE_NOOP("Edge", "Raw"),
        QT_TRANSLATE_NOOP("Edge", "Cut and left as it is; the cloth must not show."),
        QT_TRANSLATE_NOOP("DraftAction", "Edge: raw"),
        QT_TRANSLATE_NOOP("Edge", "Centre"),
        QT_TRANSLATE_NOOP("Edge", "Fold line of a half pattern: the piece goes on beyond it."),
        QT_TRANSLATE_NOOP("DraftAction", "Edge: centre"),
    )
)
"""Every text of a kind that is translated."""


def kind_name(kind: EdgeKind) -> str:
    """Return the name of an edge kind."""
    return translate("Edge", kind.value.capitalize())


def kind_meaning(kind: EdgeKind) -> str:
    """Return what happens at an edge of a kind, for a tooltip."""
    return translate("Edge", EDGE_KINDS[kind].meaning)


def kind_action(kind: EdgeKind) -> str:
    """Return the text, of the context DraftAction, of the action that makes an edge one of a kind."""
    return f"Edge: {kind.value}"
