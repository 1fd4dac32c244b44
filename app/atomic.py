"""Files appear whole or not at all: written beside their place, then moved onto it."""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

from nesting.system.files import long_path, replace, settle


@contextlib.contextmanager
def whole_file(path: str | Path) -> Iterator[Path]:
    """Give a path to write to; when the block ends well, that file takes the place of ``path``.

    The permissions of a file that is replaced are kept, a symbolic link is followed. When the
    block or the move fails, ``path`` is as it was and nothing is left over. Raises OSError.
    """
    target = long_path(Path(os.path.realpath(path)))
    if target.is_dir():
        raise IsADirectoryError(f"{path} is a folder")
    target.parent.mkdir(parents=True, exist_ok=True)
    draft = target.with_name(f".{target.stem[:40]}.{os.getpid()}.tmp{target.suffix}")
    try:
        yield draft
        settle(draft, target)
    finally:
        draft.unlink(missing_ok=True)


def write_whole(path: str | Path, content: str | bytes) -> None:
    """Write a file whole; text goes out as UTF-8 with plain line feeds. Raises OSError."""
    data = content.encode("utf-8") if isinstance(content, str) else content
    with whole_file(path) as draft:
        draft.write_bytes(data)


@contextlib.contextmanager
def whole_folder(folder: str | Path) -> Iterator[Path]:
    """Give an empty folder to write to; when the block ends well, its files go into ``folder``.

    Files of the same names are replaced, others stay. When the block fails, ``folder`` is as it
    was. Raises OSError.
    """
    target = Path(folder)
    target.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix=f".{target.name}.", suffix=".tmp", dir=target.parent) as name:
        try:
            yield Path(name)
        except Exception as error:  # who reads of it knows the folder asked for, not the draft
            file = getattr(error, "file", "")
            if isinstance(file, str) and file.startswith(name):
                error.file = str(target) + file.removeprefix(name)  # type: ignore[attr-defined]
            raise
        target.mkdir(exist_ok=True)
        for path in sorted(Path(name).rglob("*")):
            place = target / path.relative_to(name)
            if path.is_dir():
                place.mkdir(exist_ok=True)
            else:
                replace(path, place)
