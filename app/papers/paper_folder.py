"""The folder that papers go into: all of them or none; a folder that refuses is named in one line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from app.atomic import whole_folder
from app.errors import UsageError
from geometry.said import said


def write_folder(out: Path, fill: Callable[[Path], Sequence[Path]]) -> list[Path]:
    """Let ``fill`` write files into an empty folder, then put them all into ``out``; returns their new paths.

    Raises UsageError where that cannot be; ``out`` is then as it was.
    """
    try:
        with whole_folder(out) as draft:
            return [out / path.relative_to(draft) for path in fill(draft)]
    except OSError as error:
        raise UsageError(
            said("cannot be written ({0})", error.strerror or error),
            file=str(out),
            remedy="choose another folder",
        ) from None
