"""The words of papers in another language: English text in, the text of the paper's language out; no Qt.

``in_language`` is entered once per paper (``app.papers.registry``), so that no two of its pages can differ.
"""

from app.words.language import (
    LANGUAGES,
    in_language,
    language_asked,
    lettered,
    listed,
    papers_in,
    say,
    sentence,
    told,
)

__all__ = [
    "LANGUAGES",
    "in_language",
    "language_asked",
    "lettered",
    "listed",
    "papers_in",
    "say",
    "sentence",
    "told",
]
