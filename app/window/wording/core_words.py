"""Texts of the core in the language of the window.

Geometry and app write English and know no Qt; their findings and errors are clauses joined by "; ",
with figures filled in. Here each clause is found again among ``core_phrases`` and said in the
window's language, with the same figures. What is not among them stays as it is.
"""

from __future__ import annotations

import re
from functools import lru_cache

from PySide6.QtCore import QCoreApplication

from app.window.wording.core_phrases import PHRASES
from app.window.wording.drawn_phrases import DRAWN_PHRASES
from geometry.findings import Finding

SHORT = 14
"""A phrase with fewer letters than this takes figures only, or it would fit anything."""
_GAP = re.compile(r"\{\d\}")


def told_finding(finding: Finding) -> str:
    """Return a finding as its text, in the language of the window."""
    return told_text(str(finding))


def told_text(text: str) -> str:
    """Return a text of the core in the language of the window."""
    return "; ".join(_clause(clause) for clause in text.split("; "))


def _clause(clause: str) -> str:
    said = _phrase(clause)
    if said is not None:
        return said
    place, colon, rest = clause.partition(": ")
    return f"{_phrase(place) or place}: {_clause(rest)}" if colon else clause


def _phrase(clause: str) -> str | None:
    if clause in _exact():
        return QCoreApplication.translate("Core", clause)
    for pattern, phrase in _patterns():
        found = pattern.fullmatch(clause)
        if found:
            gaps = (QCoreApplication.translate("Core", g) if g in _exact() else g for g in found.groups())
            return QCoreApplication.translate("Core", phrase).format(*gaps)
    return None


@lru_cache
def _exact() -> frozenset[str]:
    return frozenset(phrase for phrase in (*PHRASES, *DRAWN_PHRASES) if not _GAP.search(phrase))


@lru_cache
def _patterns() -> tuple[tuple[re.Pattern[str], str], ...]:
    """Phrases with gaps as patterns, those with the most words of their own first."""
    gapped = sorted(
        (p for p in (*PHRASES, *DRAWN_PHRASES) if _GAP.search(p)), key=lambda p: -len(_GAP.sub("", p))
    )
    return tuple((re.compile(_pattern(phrase)), phrase) for phrase in gapped)


def _pattern(phrase: str) -> str:
    gap = r"(.+?)" if len(_GAP.sub("", phrase)) >= SHORT else r"([-+\d.,%]+)"
    return gap.join(re.escape(part) for part in _GAP.split(phrase))
