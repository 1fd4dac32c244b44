"""Texts of the core in the language of the window.

Geometry, nesting and app write English and know no Qt; a text with figures keeps its words apart from them
(``geometry.said``). Here the words are said in the window's language, clause by clause as papers say them
(``app.words.clauses``). The words are listed in ``phrases``; what is not among them stays as it is.
"""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.window.widgets.figures import localised_value
from app.window.wording.phrases import PHRASES
from app.words.clauses import clauses_of, told_by
from geometry.findings import Finding

__all__ = ["clauses_of", "told_finding", "told_text"]


def told_finding(finding: Finding) -> str:
    """Return a finding as its text, in the language of the window."""
    return told_text(str(finding))


def told_text(text: str) -> str:
    """Return a text of the core in the language of the window."""
    return told_by(text, _lookup, localised_value)


def _lookup(words: str) -> str | None:
    return QCoreApplication.translate("Core", words) if words in PHRASES else None
