"""Texts of the core in the language of the window.

Geometry, nesting and app write English and know no Qt; a text with figures keeps its words apart from them
(``geometry.said``). Here the words are said in the window's language, clause by clause as papers say them
(``app.words.clauses``). The words are listed in ``phrases``; what is not among them stays as it is. Beside inches its lengths are told in
inches and its metres of cloth in yards.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from app.window.widgets.figures import localised_value
from app.window.widgets.lengths import Lengths, Unit
from app.window.wording.phrases import PHRASES
from app.words.clauses import clauses_of, told_by
from app.words.inches import in_inches
from geometry.findings import Finding

__all__ = ["clauses_of", "tell_lengths_as", "told_finding", "told_text"]

_DEGREES = re.compile(r"(?<=[\d}]) deg\b")
_shown = [Lengths()]
"""How lengths are shown, for all texts as the locale is: those of the session made last."""


def tell_lengths_as(lengths: Lengths) -> None:
    """Tell lengths from now on as ``lengths`` shows them, whatever its unit is at the time."""
    _shown[0] = lengths


def told_finding(finding: Finding) -> str:
    """Return a finding as its text, in the language of the window."""
    return told_text(str(finding))


def told_text(text: str) -> str:
    """Return a text of the core in the language and the unit of the window."""
    return told_by(text, _lookup, localised_value, _measured)


def _lookup(words: str) -> str | None:
    return QCoreApplication.translate("Core", words) if words in PHRASES else None


def _measured(words: str, values: Sequence[str]) -> tuple[str, list[str]]:
    """Words and figures as a screen shows them: degrees and squares by their signs, lengths in the unit shown."""
    words = _DEGREES.sub("°", words).replace(" mm2", " mm²")
    return in_inches(words, values) if _shown[0].unit is Unit.INCH else (words, list(values))
