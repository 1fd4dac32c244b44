"""A text said in another language, clause by clause: the one way for window and papers.

A text with figures keeps its words apart from them (``geometry.said``). The words are looked up whole, else
each clause (what stands between two semicolons) by itself, with its gaps numbered from 0, else what stands
on both sides of its colon; the same figures are filled in. What is not known stays as it is.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from app.words.inches import Measure
from geometry.said import parts_of

Lookup = Callable[[str], str | None]
"""Words -> the same in the other language, None where they are not known."""

_GAP = re.compile(r"\{(\d+)\}")


def told_by(text: str, lookup: Lookup, figure: Callable[[str], str], measure: Measure | None = None) -> str:
    """Return a text in the language of ``lookup``, what fills its gaps as ``figure`` writes it.

    ``measure`` tells words and figures in another unit before the figures are filled in.
    """
    words, values = parts_of(text)
    told = [told_by(v, lookup, figure, measure) if isinstance(v, str) else str(v) for v in values]

    def filled(said: str, some: list[str]) -> str:
        if measure is not None:
            said, some = measure(said, some)
        return said.format(*map(figure, some)) if some else said

    whole = lookup(words)
    if whole is not None:
        return filled(whole, told)
    return "; ".join(_clause(clause, told, lookup, filled) for clause in words.split("; "))


def clauses_of(words: str) -> list[str]:
    """Return the clauses of a text's words as they are listed: each with its gaps numbered from 0."""
    return [_numbered(clause)[0] for clause in words.split("; ")]


def _clause(clause: str, values: list[str], lookup: Lookup, filled: Callable[[str, list[str]], str]) -> str:
    own, gaps = _numbered(clause)
    said = lookup(own)
    if said is None and ": " in own:
        place, rest = clause.split(": ", 1)
        return f"{_clause(place, values, lookup, filled)}: {_clause(rest, values, lookup, filled)}"
    if said is None and not values:
        return own
    return filled(own if said is None else said, [values[k] for k in gaps] if values else [])


def _numbered(clause: str) -> tuple[str, list[int]]:
    """Return a clause with its gaps numbered from 0, and what their numbers were."""
    gaps: list[int] = []

    def number(gap: re.Match[str]) -> str:
        k = int(gap[1])
        if k not in gaps:
            gaps.append(k)
        return f"{{{gaps.index(k)}}}"

    return _GAP.sub(number, clause), gaps
