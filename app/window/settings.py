"""What the program remembers between runs, in the place the system keeps such things."""

from __future__ import annotations

import tempfile
from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings, QStandardPaths

from app.window.widgets.lengths import Unit
from app.workshop.folder import who

ORGANISATION = "stayply"
APPLICATION = "stayply"
RECENT_FILES = 12


class Settings:
    """Typed access to QSettings; every value has a default and survives nonsense in the file."""

    def __init__(self) -> None:
        self._store = QSettings()

    @property
    def recent(self) -> list[Path]:
        """Style files opened or saved lately, newest first; those gone are left out."""
        value = self._store.value("files/recent", [])
        names = [value] if isinstance(value, str) else value if isinstance(value, list) else []
        return [path for path in map(Path, names) if path.exists()]

    def add_recent(self, path: Path) -> None:
        """Put ``path`` first in the recent files."""
        path = path.resolve()
        names = [str(path)] + [str(other) for other in self.recent if other != path]
        self._store.setValue("files/recent", names[:RECENT_FILES])
        self._store.setValue("files/folder", str(path.parent))

    @property
    def folder(self) -> str:
        """Folder that file dialogs open in."""
        default = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        return str(self._store.value("files/folder", default))

    @property
    def unit(self) -> Unit:
        """Unit of display."""
        return Unit.INCH if self._store.value("look/unit", "mm") == "in" else Unit.MM

    @unit.setter
    def unit(self, unit: Unit) -> None:
        self._store.setValue("look/unit", unit.value)

    @property
    def light(self) -> str:
        """'day', 'night' or 'system'."""
        value = str(self._store.value("look/light", "system"))
        return value if value in ("day", "night") else "system"

    @light.setter
    def light(self, value: str) -> None:
        self._store.setValue("look/light", value)

    @property
    def language(self) -> str:
        """'en', 'it', or '' for the system's."""
        return str(self._store.value("look/language", ""))

    @language.setter
    def language(self, value: str) -> None:
        self._store.setValue("look/language", value)

    def state(self, name: str) -> QByteArray | None:
        """A saved layout (window geometry, splitter...), or None."""
        value = self._store.value(f"place/{name}")
        return value if isinstance(value, QByteArray) and not value.isEmpty() else None

    def keep_state(self, name: str, value: QByteArray) -> None:
        """Remember a layout."""
        self._store.setValue(f"place/{name}", value)

    def flush(self) -> None:
        """Write everything out now."""
        self._store.sync()


def state_folder() -> Path:
    """Folder of this user's recovery copies and log.

    Where a home cannot be written, one of temporary files: what is edited is still kept from a crash, though
    the system may clear it when it starts again.
    """
    own = Path(QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppLocalDataLocation))
    try:
        own.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=own):
            return own
    except OSError:
        return Path(tempfile.gettempdir()) / f"{ORGANISATION}-{who() or 'user'}"
