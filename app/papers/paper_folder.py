"""The folder that papers go into: all of them or none; a folder that refuses is named in one line."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from pathlib import Path

from app.atomic import whole_folder
from app.errors import UsageError
from geometry.said import said


def check_folder(out: Path) -> None:
    """Raise UsageError when a folder cannot be made there: before the work, not after it."""
    for path in (out, *out.parents):
        if path.exists():
            if not path.is_dir():
                raise UsageError("is a file, not a folder", file=str(path), remedy="choose another -o")
            if not os.access(path, os.W_OK):
                raise UsageError("may not be written to", file=str(path), remedy="choose another -o")
            return


def write_folder(out: Path, fill: Callable[[Path], Sequence[Path]]) -> list[Path]:
    """Let ``fill`` write files into an empty folder, then put them all into ``out``; returns their new paths.

    Raises UsageError where that cannot be; ``out`` is then as it was.
    """
    check_folder(out)
    try:
        with whole_folder(out) as draft:
            return [out / path.relative_to(draft) for path in fill(draft)]
    except OSError as error:
        raise UsageError(
            said("cannot be written ({0})", error.strerror or error),
            file=str(out),
            remedy="choose another folder",
        ) from None
