"""Writing a file whole or not at all: beside it under another name, flushed, then renamed."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path

from app.errors import UsageError


def write_whole(path: Path, write: Callable[[Path], None]) -> Path:
    """Let ``write`` fill a temporary file in the folder of ``path``, then put it in place.

    Whatever stood at ``path`` stays untouched until the new file is complete. Raises UsageError
    when the folder cannot be written to.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=f".{path.stem}-", suffix=path.suffix, dir=path.parent)
    except OSError as error:
        raise _refused(path, error) from error
    os.close(handle)
    draft = Path(name)
    try:
        write(draft)
        with draft.open("rb+") as file:
            os.fsync(file.fileno())
        draft.chmod(0o666 & ~_umask())
        draft.replace(path)
    except OSError as error:
        raise _refused(path, error) from error
    finally:
        draft.unlink(missing_ok=True)
    return path


def write_text(path: Path, text: str) -> Path:
    """Write UTF-8 text whole."""
    return write_whole(path, lambda draft: _fill(draft, text))


def _fill(path: Path, text: str) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        file.write(text)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _refused(path: Path, error: OSError) -> UsageError:
    return UsageError(
        f"cannot be written ({error.strerror or error})",
        file=str(path),
        remedy="choose another folder, or close the program that holds the file",
    )
