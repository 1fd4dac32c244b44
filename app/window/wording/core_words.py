"""Texts of the core in the language of the window.

Geometry, nesting and app write English and know no Qt; a text with figures keeps its words apart from them
(``geometry.said``). Here the words are said in the window's language, clause by clause, and the same
figures are filled in. The words are listed in ``phrases``; what is not among them stays as it is.
"""

from __future__ import annotations

import re

from PySide6.QtCore import QCoreApplication

from app.window.widgets.figures import localised
from app.window.wording.phrases import PHRASES
from geometry.findings import Finding
from geometry.said import parts_of

_FIGURES = re.compile(r"[-+±]?\d[\d.,]*(?:(?: ?[-–/x] ?|, )[\d.,]+)*(?: ?%)?")
"""A value that is nothing but figures: one, a range, or a row of them."""

_GAP = re.compile(r"\{(\d)\}")


def told_finding(finding: Finding) -> str:
    """Return a finding as its text, in the language of the window."""
    return told_text(str(finding))


def told_text(text: str) -> str:
    """Return a text of the core in the language of the window."""
    words, values = parts_of(text)
    told = [_value(value) for value in values]
    return "; ".join(_clause(clause, told) for clause in words.split("; "))


def _value(value: object) -> str:
    """A figure as the language writes it; a text told in the language; a name as it is."""
    text = str(value)
    if _FIGURES.fullmatch(text):
        return localised(text)
    return told_text(value) if isinstance(value, str) else text


def clauses_of(words: str) -> list[str]:
    """Return the clauses of a text's words as they are listed: each with its gaps numbered from 0."""
    return [_numbered(clause)[0] for clause in words.split("; ")]


def _clause(clause: str, values: list[str]) -> str:
    own, gaps = _numbered(clause)
    said = QCoreApplication.translate("Core", own) if own in PHRASES else None
    if said is None and ": " in own:
        place, rest = clause.split(": ", 1)
        return f"{_clause(place, values)}: {_clause(rest, values)}"
    if not gaps:
        return own if said is None else said
    return (own if said is None else said).format(*(values[k] for k in gaps))


def _numbered(clause: str) -> tuple[str, list[int]]:
    """Return a clause with its gaps numbered from 0, and what their numbers were."""
    gaps: list[int] = []

    def number(gap: re.Match[str]) -> str:
        k = int(gap[1])
        if k not in gaps:
            gaps.append(k)
        return f"{{{gaps.index(k)}}}"

    return _GAP.sub(number, clause), gaps
