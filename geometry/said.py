"""A text for the person at the desk that can still be said in another language.

Findings and errors are written in English where they arise. A text with figures in it keeps, beside the
English, its words without them (``template``) and what is filled in (``values``): whoever shows it looks the
words up in the language of the screen and fills in the same figures. A text without figures is its own
template.
"""

from __future__ import annotations

from typing import Any, SupportsFloat


class Said(str):
    """An English text that remembers its ``template`` ({0}, {1}, ... as of ``str.format``) and ``values``."""

    template: str
    values: tuple[Any, ...]

    def __new__(cls, template: str, *values: Any) -> Said:
        text = super().__new__(cls, template.format(*values))
        text.template = template
        text.values = values
        return text

    def __getnewargs__(self) -> tuple[Any, ...]:
        return (self.template, *self.values)


said = Said
"""``said("a pull of {0} N/mm", 3.5)``: the text, its words and its figures."""


def joined(*texts: str, by: str = "; ") -> str:
    """Return the texts that are not empty one behind the other, as clauses of one text, ``by`` between."""
    some = [text for text in texts if text]
    if len(some) < 2:
        return some[0] if some else ""
    return said(by.join(f"{{{k}}}" for k in range(len(some))), *some)


def packed(text: str) -> Any:
    """Return a text as JSON: its words, then its figures, each packed; a text without figures is itself."""
    words, values = parts_of(text)
    if not values:
        return str(text)
    return [words, *(packed(value) if isinstance(value, str) else str(value) for value in values)]


def unpacked(data: Any) -> str:
    """Return the text that ``packed`` made this of."""
    return str(data) if not isinstance(data, list) else said(data[0], *map(unpacked, data[1:]))


def parts_of(text: str) -> tuple[str, tuple[Any, ...]]:
    """Return the words of a text without its figures, and the figures."""
    return (text.template, text.values) if isinstance(text, Said) else (text, ())


def percent(share: SupportsFloat, decimals: int = 1, *, sign: bool = False) -> str:
    """Return a share (0.68) as a percentage, with a space before the sign: ``68.0 %``.

    The only way the program writes one, in every language (ISO 80000-1, 7.1.4: a space between figure and
    unit, the per cent sign included; the SI Brochure, 5.4.7, says the same; both from memory). ``sign``
    writes a plus too.
    """
    return f"{100.0 * float(share):{'+' if sign else ''}.{decimals}f} %"
