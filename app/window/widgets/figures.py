"""Figures as the language of the window writes them."""

from __future__ import annotations

from PySide6.QtCore import QLocale

from app.words.figures import figure_with_comma, with_comma


def localised(text: str) -> str:
    """Return a text with every figure in it as the language writes it."""
    return with_comma(text) if QLocale().decimalPoint() == "," else text


def localised_value(value: str) -> str:
    """Return what fills a gap of a text: figures as the language writes them, a name as it is."""
    return figure_with_comma(value) if QLocale().decimalPoint() == "," else value
