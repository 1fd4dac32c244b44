"""Texts on their way to another program of ours, as JSON: their words stay apart from their figures.

A command says its texts in English. The window, which started it, says them again in its own language; of
the English alone it could not tell words from figures.
"""

from __future__ import annotations

from typing import Any

from geometry.said import Said, packed, unpacked


def texts_of(payload: Any) -> dict[str, Any]:
    """Return every text with figures in an object, packed, by its English."""
    if isinstance(payload, Said):
        return {str(payload): packed(payload)} if payload.values else {}
    parts = payload.values() if isinstance(payload, dict) else payload
    found: dict[str, Any] = {}
    if isinstance(payload, dict | list | tuple):
        for part in parts:
            found |= texts_of(part)
    return found


def with_words(payload: Any, texts: dict[str, Any]) -> Any:
    """Return an object read from JSON with the texts that it was written with; keys stay as they are."""
    if isinstance(payload, dict):
        return {key: with_words(part, texts) for key, part in payload.items()}
    if isinstance(payload, list):
        return [with_words(part, texts) for part in payload]
    return unpacked(texts[payload]) if isinstance(payload, str) and payload in texts else payload
