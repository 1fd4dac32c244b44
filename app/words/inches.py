"""Lengths of a text of the core told in inches: its words and figures, before they are put together.

What is a length is known from the words alone: a gap or a figure before ' mm', ' mm2' or ' m'. A name that
fills another gap ('Band 12 mm') is never touched, nor is a force per mm, nor what names mm without a figure
(a column of a file, a unit to type). Metres are lengths of cloth and become yards. 1 in = 25.4 mm and
1 yd = 0.9144 m exactly.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from geometry.inch import MM_PER_INCH, MM_PER_YARD

Measure = Callable[[str, Sequence[str]], tuple[str, list[str]]]
"""Words and what fills their gaps -> the same in another unit."""

_ONE = r"(?:\{\d+\}|(?<![\w.{])\d+(?:\.\d+)?)"
_LENGTH = re.compile(
    rf"({_ONE})(?:( ?[-–x×] ?| -> | (?:to|of|and|a|di|e|su) )({_ONE}))? (mm2|mm²|mm|m)(?![\w/²])"
)
_NUMBER = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?")
_FIGURES = re.compile(r"[-+±]?\d[\d.,]*(?:(?: ?[-–/x] ?|, )[\d.,]+)*")

_UNITS = {
    "mm": ("in", 1 / MM_PER_INCH, 2),
    "mm2": ("in²", 1 / MM_PER_INCH**2, 3),
    "mm²": ("in²", 1 / MM_PER_INCH**2, 3),
    "m": ("yd", 1000.0 / MM_PER_YARD, 0),
}
"""Unit -> the other, how many of it one is, how many decimals more keep as much as was told."""


def in_inches(words: str, values: Sequence[str]) -> tuple[str, list[str]]:
    """Return words and figures with every length in inches, areas in square inches, metres in yards."""
    told = list(values)

    def converted(found: re.Match[str]) -> str:
        sides = [side for side in (found[1], found[3]) if side]
        texts = [values[int(side[1:-1])] if side[0] == "{" else side for side in sides]
        unit, times, more = _UNITS[found[4]]
        if not all(_FIGURES.fullmatch(text) for text in texts):
            return found[0]
        digits = more + min(_decimals(text) for text in texts)
        new = []
        for side, text in zip(sides, texts, strict=True):
            text = _NUMBER.sub(lambda number: _told(number[0], times, digits), text)
            if side[0] == "{":
                told.append(text)
                text = f"{{{len(told) - 1}}}"
            new.append(text)
        return f"{(found[2] or '').join(new)} {unit}"

    return _LENGTH.sub(converted, words), told


def _decimals(text: str) -> int:
    return min(len(number.partition(".")[2]) for number in _NUMBER.findall(text))


def _told(number: str, times: float, digits: int) -> str:
    """A figure in the other unit; one too small for the digits keeps one that counts."""
    value = float(number.replace(",", "")) * times
    text = f"{value:,.{digits}f}" if "," in number else f"{value:.{digits}f}"
    return text if float(text.replace(",", "")) or not value else f"{value:.6f}"
