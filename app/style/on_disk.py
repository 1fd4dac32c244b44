"""What a style file held when it was read or written, so that somebody else's work is noticed."""

from __future__ import annotations

import hashlib
from pathlib import Path


def fingerprint(path: Path | None) -> str:
    """Return the SHA-256 of a file's bytes; '' where there is no file, or none that can be read."""
    if path is None:
        return ""
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def changed_since(path: Path | None, known: str) -> bool:
    """Whether a file holds something else than it did; one that is gone holds nothing to be lost."""
    now = fingerprint(path)
    return bool(now) and now != known
