"""Lattices and cells found before, kept in a folder: a file each, so that any number of processes may use it.

A search for a lattice is the same whatever lay it is for: its key is the exact outlines, the gap and how it
is searched, but not the seed. What is read is judged again on the true outlines before use; a file that is
damaged or does not hold is removed and searched for anew. A file appears whole or not at all. Bounded: those
used longest ago go first.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import tempfile
import threading
import time
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from nesting.system.files import replace

VERSION = 1
"""Raised when a kept lattice could be misread, or is searched for otherwise."""

MOST_FILES = 5000
"""Lattices kept: a style has some dozens a gap. About 1 kB each."""

TIDY_EVERY = 50
"""After so many new files the oldest beyond the bound are removed."""

PART_S = 3600.0
"""A draft this old was left by a process that was killed."""

Cell = tuple[NDArray[np.float64], NDArray[np.float64]]
"""Where each pose lies in the cell (n, 2), and the two periods (2, 2)."""


def key_of(rings: Sequence[NDArray[np.float64]], *how: object) -> str:
    """Return the key of a search for cells of these rings."""
    digest = hashlib.sha256(repr((VERSION, len(rings), how)).encode())
    for ring in rings:
        points = np.ascontiguousarray(ring, dtype=np.float64)
        digest.update(repr(points.shape).encode() + points.tobytes())
    return digest.hexdigest()[:40]


class KeptCells:
    """Cells in a folder; where the folder cannot be written nothing is kept and nothing fails."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._new = 0
        self._lock = threading.Lock()

    def find(self, key: str) -> list[Cell] | None:
        """Return the cells of a search, None when none are kept or they cannot be read."""
        path = self.folder / f"{key}.json"
        try:
            cells = [
                (
                    np.array(at, dtype=np.float64).reshape(-1, 2),
                    np.array(basis, dtype=np.float64).reshape(2, 2),
                )
                for at, basis in json.loads(path.read_text(encoding="ascii"))
            ]
        except FileNotFoundError:
            return None
        except (OSError, ValueError, TypeError):
            self.forget(key)
            return None
        with contextlib.suppress(OSError):
            os.utime(path)
        return cells

    def keep(self, key: str, cells: Sequence[Cell]) -> None:
        """Keep the cells of a search."""
        text = json.dumps([[at.tolist(), basis.tolist()] for at, basis in cells])
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


_used: list[KeptCells] = []


def use(folder: str | os.PathLike[str] | None) -> None:
    """Keep lattices in this folder from now on, in this process; None: look at none and keep none."""
    _used[:] = [] if folder is None else [KeptCells(Path(folder))]


def folder_in_use() -> str | None:
    """Return the folder where lattices are kept, for another process to use it too."""
    return str(_used[0].folder) if _used else None


def in_use() -> KeptCells | None:
    """Return where lattices are kept, None where they are not."""
    return _used[0] if _used else None
