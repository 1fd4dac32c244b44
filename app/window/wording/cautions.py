"""The cautions of a form or dialog, from the one table (``app.cautions``), in the language of the window."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel

from app.cautions import cautions
from app.window.wording.words import paper_language


def told_cautions(use: str) -> str:
    """Return the cautions of a paper, command or dialog, a paragraph each."""
    return "\n".join(cautions(use, paper_language()))


def caution_label(use: str) -> QLabel:
    """Return them as a label for a form or dialog."""
    label = QLabel(told_cautions(use))
    label.setWordWrap(True)
    label.setProperty("role", "soft")
    return label
