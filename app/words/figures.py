"""Figures as a language writes them: 2.5 in English, 2,5 in Italian.

The core writes figures with a point (``1,234.5``). They are turned where they are shown or lettered, never
before: what is handed to commands, JSON and tables of data keeps the point. To turn a text twice is to turn
it once.
"""

from __future__ import annotations

import re

_DECIMAL = re.compile(r"(?<![\w.,])(\d{1,3}(?:,\d{3})+|\d+)\.(\d+)(?!\d|[.,]\d)")
_THOUSANDS = re.compile(r"\d{1,3}(?:,\d{3})+")
_FIGURES = re.compile(r"[-+±]?\d[\d.,]*(?:(?: ?[-–/x] ?|, )[\d.,]+)*(?: ?%)?")
"""A value that is nothing but figures: one, a range, or a row of them."""

NARROW_SPACE = "\u202f"
"""Between thousands, as in ISO 80000-1 (from memory): a point there is read as a decimal point abroad."""


def with_comma(text: str) -> str:
    """Return a text with a comma for the decimal point of every figure; dates and version numbers stay."""
    return _DECIMAL.sub(lambda found: f"{found[1].replace(',', '.')},{found[2]}", text)


def figure_with_comma(value: str) -> str:
    """Return a value of a text: as ``with_comma`` where it is figures and nothing else; a name stays."""
    if _THOUSANDS.fullmatch(value):
        return value.replace(",", NARROW_SPACE)
    return with_comma(value) if _FIGURES.fullmatch(value) else value
