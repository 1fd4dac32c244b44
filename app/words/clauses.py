"""A text said in another language, clause by clause: the one way for window and papers.

A text with figures keeps its words apart from them (``geometry.said``). The words are looked up whole, else
each clause (what stands between two semicolons) by itself, with its gaps numbered from 0, else what stands
on both sides of its colon; the same figures are filled in. What is not known stays as it is.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from geometry.said import parts_of

Lookup = Callable[[str], str | None]
"""Words -> the same in the other language, None where they are not known."""

_GAP = re.compile(r"\{(\d+)\}")


def told_by(text: str, lookup: Lookup, figure: Callable[[str], str]) -> str:
    """Return a text in the language of ``lookup``, what fills its gaps as ``figure`` writes it."""
    words, values = parts_of(text)
    told = [figure(told_by(v, lookup, figure) if isinstance(v, str) else str(v)) for v in values]
    whole = lookup(words)
    if whole is not None:
        return whole.format(*told) if told else whole
    return "; ".join(_clause(clause, told, lookup) for clause in words.split("; "))


def clauses_of(words: str) -> list[str]:
    """Return the clauses of a text's words as they are listed: each with its gaps numbered from 0."""
    return [_numbered(clause)[0] for clause in words.split("; ")]


def _clause(clause: str, values: list[str], lookup: Lookup) -> str:
    own, gaps = _numbered(clause)
    said = lookup(own)
    if said is None and ": " in own:
        place, rest = clause.split(": ", 1)
        return f"{_clause(place, values, lookup)}: {_clause(rest, values, lookup)}"
    if not gaps or not values:
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
