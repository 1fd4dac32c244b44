"""Lattices and sections found before, kept in a folder: one file each, so that many processes may use it.

What is read is judged again on the true outlines before use; a file that is damaged or does not hold is
removed and searched for again. A file appears whole or not at all. Bounded: those used longest ago go first.
"""

from __future__ import annotations

import contextlib
import json
import os
import tempfile
import threading
import time
from pathlib import Path
from typing import Any

from nesting.system.files import replace

VERSION = 2
"""Raised when what is kept could be misread, or is searched for otherwise."""

MOST_FILES = 5000
"""Files kept: a style has some dozens a gap. About 1 kB a lattice, 10 kB a section."""

TIDY_EVERY = 50
"""After this many new files the oldest beyond the bound are removed."""

PART_S = 3600.0
"""A draft this old was left by a process that was killed."""


class KeptFiles:
    """What was found, in a folder; where the folder cannot be written nothing is kept and nothing fails."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._new = 0
        self._lock = threading.Lock()

    def find(self, key: str) -> Any:
        """Return what was kept under a key, None when nothing was or it cannot be read."""
        path = self.folder / f"{key}.json"
        try:
            found = json.loads(path.read_text(encoding="ascii"))
        except FileNotFoundError:
            return None
        except (OSError, ValueError):
            self.forget(key)
            return None
        with contextlib.suppress(OSError):
            os.utime(path)
        return found

    def keep(self, key: str, found: Any) -> None:
        """Keep what was found (lists, texts and figures) under a key."""
        text = json.dumps(found)
        with contextlib.suppress(OSError):
            self.folder.mkdir(parents=True, exist_ok=True)
            handle, draft = tempfile.mkstemp(dir=self.folder, suffix=".part")
            with os.fdopen(handle, "w", encoding="ascii") as file:
                file.write(text)
            replace(Path(draft), self.folder / f"{key}.json")
            with self._lock:
                self._new += 1
                due = self._new % TIDY_EVERY == 0
            if due:
                self._tidy()

    def forget(self, key: str) -> None:
        """Remove what is kept under a key."""
        with contextlib.suppress(OSError):
            (self.folder / f"{key}.json").unlink()

    def _tidy(self) -> None:
        used = []
        for path in self.folder.iterdir():
            with contextlib.suppress(OSError):
                used.append((path.stat().st_mtime, path))
        oldest_first = sorted(used)
        for _, path in oldest_first[: max(0, len(used) - MOST_FILES)]:
            with contextlib.suppress(OSError):
                path.unlink()
        for when, path in oldest_first:
            if path.suffix == ".part" and when < time.time() - PART_S:
                with contextlib.suppress(OSError):
                    path.unlink()


_used: list[KeptFiles] = []


def use(folder: str | os.PathLike[str] | None) -> None:
    """Keep in this folder from now on, in this process; None: look at nothing and keep nothing."""
    _used[:] = [] if folder is None else [KeptFiles(Path(folder))]


def folder_in_use() -> str | None:
    """Return the folder in use, for another process to use it too."""
    return str(_used[0].folder) if _used else None


def in_use() -> KeptFiles | None:
    """Return what is in use, None where nothing is kept."""
    return _used[0] if _used else None
