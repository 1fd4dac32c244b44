"""Files as each system keeps them: taking a place, locking, names no system refuses, long paths."""

from __future__ import annotations

import contextlib
import importlib
import os
import stat
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import IO

from nesting import system

HELD_TRIES = 40
"""So often a file that is held open is asked for again."""

HELD_WAIT_S = 0.05
"""Windows refuses to replace a file that somebody else has open for the moment (a virus scanner, a desk that
reads it): asked again for two seconds in all, long enough for a reader, short enough for a person."""

LONGEST_PLAIN = 240
"""Windows takes paths of up to 260 signs (MAX_PATH of its documentation); room is left for a draft's name."""

RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))}
"""Names of devices on Windows, whatever the ending ("Naming Files, Paths, and Namespaces", its own page)."""

FORBIDDEN = set('<>:"/\\|?*')
"""Signs that a Windows name must not hold (the same page)."""


def settle(draft: Path, target: Path, *, wait: Callable[[float], None] = time.sleep) -> None:
    """Put a finished draft in a file's place, on the disk, so that a power cut leaves the old or the new one.

    The permissions of a file that is replaced are kept. Raises OSError; the draft then stays.
    """
    draft, target = long_path(draft), long_path(target)
    with contextlib.suppress(FileNotFoundError):
        mode = stat.S_IMODE(target.stat().st_mode)
        if not system.WINDOWS or mode & stat.S_IWRITE:  # there it means read-only, which would stop the next
            os.chmod(draft, mode)
    _to_disk(draft, os.O_RDWR)
    replace(draft, target, wait=wait)
    if not system.WINDOWS:  # a folder cannot be opened there; NTFS logs the move itself
        _to_disk(target.parent, os.O_RDONLY)


def replace(draft: Path, target: Path, *, wait: Callable[[float], None] = time.sleep) -> None:
    """Move a file onto another one; on Windows again and again while somebody holds that one open."""
    for tries_left in range(HELD_TRIES if system.WINDOWS else 0, -1, -1):
        try:
            os.replace(draft, target)
            return
        except PermissionError:
            if not tries_left or target.is_dir():
                raise
            wait(HELD_WAIT_S)


def _to_disk(path: Path, flags: int) -> None:
    """Wait until what was written is on the disk."""
    handle = os.open(path, flags)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def take_lock(handle: IO[str]) -> None:
    """Lock an open file for this process until it closes it or ends; raises OSError when another has it."""
    if system.WINDOWS:
        msvcrt = importlib.import_module("msvcrt")
        msvcrt.locking(handle.fileno(), msvcrt.LK_NBLCK, 1)
    else:
        fcntl = importlib.import_module("fcntl")
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


def safe_name(name: str, otherwise: str) -> str:
    """Return a name as a file's or folder's that every system takes; ``otherwise`` where nothing is left."""
    kept = "".join("-" if sign in FORBIDDEN or not sign.isprintable() else sign for sign in name)
    kept = kept.strip(" .") or otherwise
    stem, dot, rest = kept.partition(".")
    return f"{stem}-{dot}{rest}" if stem.rstrip().lower() in RESERVED else kept


def alike(names: Iterable[str]) -> tuple[str, str] | None:
    """Return two names that are one file where case does not count (Windows, macOS), None for none."""
    seen: dict[str, str] = {}
    for name in names:
        if name.casefold() in seen:
            return seen[name.casefold()], name
        seen[name.casefold()] = name
    return None


def long_path(path: Path) -> Path:
    """Return the path in a form that Windows takes however long it is; elsewhere as it is."""
    if not system.WINDOWS:
        return path
    text = os.path.abspath(path)
    if len(text) <= LONGEST_PLAIN or text.startswith("\\\\?\\"):
        return path
    return Path("\\\\?\\UNC" + text[1:] if text.startswith("\\\\") else "\\\\?\\" + text)
