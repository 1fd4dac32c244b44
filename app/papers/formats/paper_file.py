"""Every paper appears whole or not at all; a folder that refuses is named in one line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from app.atomic import whole_file
from app.errors import UsageError
from geometry.said import said


def write_paper(path: Path, write: Callable[[Path], None]) -> Path:
    """Let ``write`` fill a file that then takes its place; raises UsageError where it cannot."""
    try:
        with whole_file(path) as draft:
            write(draft)
    except OSError as error:
        raise UsageError(
            said("cannot be written ({0})", error.strerror or error),
            file=str(path),
            remedy="choose another folder, or close the program that holds the file",
        ) from error
    return path


def write_text(path: Path, text: str) -> Path:
    """Write text, UTF-8, line ends as given."""
    return write_paper(path, lambda draft: _fill(draft, text))


def _fill(path: Path, text: str) -> None:
    path.write_bytes(text.encode("utf-8"))
