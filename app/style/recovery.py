"""A copy of unsaved work that outlives the program: written whole after every step.

Each running program keeps ``<name>.json`` beside ``<name>.lock``. The lock is held by the
operating system for as long as the process lives and goes with it however it ends, so a copy
whose lock can be taken has no owner any more: its program was killed.
"""

from __future__ import annotations

import json
import os
import uuid
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from pydantic import ValidationError

from app.atomic import write_whole
from app.style.model import Style
from nesting.system.files import take_lock


@dataclass(frozen=True)
class LeftBehind:
    """Unsaved work of a program that ended without saving or discarding it."""

    style: Style
    path: Path | None
    written: datetime
    copy: Path

    def discard(self) -> None:
        """Delete the copy and its lock file."""
        for file in (self.copy, self.copy.with_suffix(".lock")):
            with suppress(OSError):
                file.unlink()


class RecoveryCopy:
    """The recovery copy of one running program in ``folder``."""

    def __init__(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        name = f"{os.getpid()}-{uuid.uuid4().hex[:8]}"
        self.file = folder / f"{name}.json"
        self._lock_file = folder / f"{name}.lock"
        self._lock = self._lock_file.open("w", encoding="utf-8")
        take_lock(self._lock)
        self._lock.write(str(os.getpid()))
        self._lock.flush()

    def write(self, style: Style, path: Path | None) -> None:
        """Put the copy on disk; the former one stays until the new one is complete."""
        head = {"path": str(path) if path else "", "written": datetime.now(UTC).isoformat()}
        text = json.dumps(head)[:-1] + ', "style": ' + style.model_dump_json() + "}"
        write_whole(self.file, text)

    def clear(self) -> None:
        """Delete the copy: everything is saved, or was discarded on purpose."""
        with suppress(OSError):
            self.file.unlink()

    def close(self) -> None:
        """Delete the copy and give the lock back."""
        self.clear()
        if not self._lock.closed:
            self._lock.close()
            with suppress(OSError):
                self._lock_file.unlink()


def left_behind(folder: Path) -> list[LeftBehind]:
    """Return the copies in ``folder`` whose program no longer runs, newest first.

    A copy that cannot be read is left where it is and not reported.
    """
    found = []
    for copy in folder.glob("*.json") if folder.is_dir() else ():
        if copy.name.startswith(".") or _is_owned(copy.with_suffix(".lock")):
            continue
        try:
            data = json.loads(copy.read_text(encoding="utf-8"))
            style = Style.model_validate(data["style"])
            written = datetime.fromisoformat(data["written"])
            path = Path(data["path"]) if data["path"] else None
        except (OSError, ValueError, KeyError, TypeError, ValidationError):
            continue
        found.append(LeftBehind(style, path, written, copy))
    return sorted(found, key=lambda item: item.written, reverse=True)


def _is_owned(lock_file: Path) -> bool:
    try:
        with lock_file.open("r+", encoding="utf-8") as handle:
            take_lock(handle)
    except FileNotFoundError:
        return False
    except OSError:
        return True
    return False
