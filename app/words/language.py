"""In which language a paper is made, and its texts in that language.

English is written where a text arises. Words of papers alone stand in ``LANGUAGE.json`` beside this module
(English -> other); those that the window says too (findings, errors) come from its own file of translations,
read here without Qt, and cautions from their table, so that no text has two versions. Figures are lettered as
the language writes them, as in the window; tables of data (CSV, XLSX) keep the point.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache, partial
from pathlib import Path
from xml.etree import ElementTree

from app.cautions import wordings
from app.words.clauses import Lookup, told_by
from app.words.figures import figure_with_comma, with_comma
from geometry.said import Said

LANGUAGES = ("en", "it")
"""Languages of papers, as the window names them."""

SHARED = ("Core", "Pull")
"""Contexts of the window's translations whose texts papers show too."""

_WINDOW = Path(__file__).parents[1] / "window" / "translations"
_DEGREES = re.compile(r"(?<=\d) deg\b")
_LETTERS = re.compile(r"[^\W\d_]")
_lookup: ContextVar[tuple[str, Lookup | None]] = ContextVar("language of the paper", default=("en", None))


@contextmanager
def in_language(language: str, lookup: Lookup | None = None) -> Iterator[None]:
    """Say all texts in a language while this lasts; '' = the one that holds already.

    ``lookup`` takes the place of the language's catalogue. Raises KeyError where there is none.
    """
    if not language:
        yield
        return
    if lookup is None and language != "en":
        lookup = partial(_found, catalogue(language))
    token = _lookup.set((language, lookup))
    try:
        yield
    finally:
        _lookup.reset(token)


_asked: ContextVar[str] = ContextVar("language asked for papers", default="en")


@contextmanager
def papers_in(language: str) -> Iterator[None]:
    """Make papers in a language while this lasts, where none is named: the ``--language`` of a command.

    Only papers: what a command prints, and its JSON, stays English.
    """
    token = _asked.set(language)
    try:
        yield
    finally:
        _asked.reset(token)


def language_asked() -> str:
    """Return the language that papers are asked for in, where none is named."""
    return _asked.get()


def told(text: str) -> str:
    """Return a text in the language of the paper; one that is not known (a name) stays as it is."""
    _, lookup = _lookup.get()
    return text if lookup is None else told_by(text, lookup, figure_with_comma)


def lettered(text: str) -> str:
    """Return a text as it is lettered on a paper: told, its figures as the language writes them.

    Degrees of an angle get their sign; the command line keeps to letters that every terminal has.
    """
    language, _ = _lookup.get()
    words = told(text)
    signed = _DEGREES.sub("°", words)
    if signed == words:
        signed = words  # keeps words and figures apart: the window tells a picture of papers in its own way
    return with_comma(signed) if language == "it" else signed


def say(words: str, *values: object) -> str:
    """Return ``words`` ({0}, {1}, ... as of ``str.format``) in the language of the paper, filled in."""
    return told(Said(words, *values))


def listed(by: str) -> Callable[[Iterable[str]], str]:
    """Return ``by.join`` for texts that are each said in the language of the paper."""
    return lambda texts: told(by).join(map(told, texts))


def sentence(text: str) -> str:
    """Return a text in the language of the paper, begun with a capital."""
    text = told(text)
    return text[:1].upper() + text[1:]


@cache
def catalogue(language: str) -> dict[str, str]:
    """Return English -> other, of papers and of what they share with the window; raises KeyError."""
    if language not in LANGUAGES[1:]:
        raise KeyError(language)
    own: dict[str, str] = json.loads(Path(__file__).with_name(f"{language}.json").read_text(encoding="utf-8"))
    return {**shared(language), **wordings(language), **own}


def shared(language: str) -> dict[str, str]:
    """Return what the window's file of translations says of the texts that papers show too."""
    texts: dict[str, str] = {}
    for context in ElementTree.parse(_WINDOW / f"stayply_{language}.ts").getroot().iter("context"):
        if context.findtext("name") in SHARED:
            for message in context.iter("message"):
                source, said = message.findtext("source"), message.findtext("translation")
                if source and said:
                    texts[source] = said
    return texts


def _found(texts: dict[str, str], words: str) -> str | None:
    return texts.get(words) if _LETTERS.search(words) else None
