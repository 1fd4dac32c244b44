"""Figures as the language of the window writes them: 2.5 in English, 2,5 in Italian.

The core writes figures with a point (``1,234.5``). They are turned where they are shown, never before: what
is handed to commands and files keeps the point.
"""

from __future__ import annotations

import re

from PySide6.QtCore import QLocale

_FIGURE = re.compile(r"(?<![\w.,])\d+(?:,\d{3})*(?:\.\d+)?(?![\d]|[.,]\d)")
_SWAPPED = str.maketrans(".,", ",.")


def localised(text: str) -> str:
    """Return a text with every figure in it as the language writes it; dates and version numbers stay."""
    if QLocale().decimalPoint() != ",":
        return text
    return _FIGURE.sub(lambda found: found[0].translate(_SWAPPED), text)
