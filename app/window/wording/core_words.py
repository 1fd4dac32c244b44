"""Texts of the core in the language of the window.

Geometry, nesting and app write English and know no Qt; a text with figures keeps its words apart from them
(``geometry.said``). Here the words are said in the window's language, clause by clause as papers say them
(``app.words.clauses``). The words are listed in ``phrases`` or known of papers; others stay as they
are. Beside inches lengths are told in inches and metres of cloth in yards.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, QLocale

from app.window.widgets.figures import localised, localised_value
from app.window.widgets.lengths import Lengths, Unit
from app.window.wording.phrases import PHRASES
from app.words.clauses import clauses_of, told_by
from app.words.inches import in_inches
from app.words.language import LANGUAGES, catalogue
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
    """Words of the core by the window's translation, words of papers (pictures, reasons) by that of papers."""
    if words in PHRASES:
        return QCoreApplication.translate("Core", words)
    of_papers = catalogue(LANGUAGES[1]).get(words)
    return of_papers if of_papers is None or QLocale().name()[:2] == LANGUAGES[1] else words


def _measured(words: str, values: Sequence[str]) -> tuple[str, list[str]]:
    """Words and figures as a screen shows them: degrees and squares by their signs, lengths in the unit shown."""
    words = localised(_DEGREES.sub("°", words)).replace(" mm2", " mm²")
    return in_inches(words, values) if _shown[0].unit is Unit.INCH else (words, list(values))
