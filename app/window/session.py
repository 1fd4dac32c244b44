"""The open style as the desks see it: the document, its findings, and how lengths are shown."""

from __future__ import annotations

from collections import deque
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from app.style.document import Document
from app.style.model import Style
from app.style.recovery import RecoveryCopy
from app.window.settings import Settings
from app.window.widgets.lengths import Lengths
from app.window.wording.core_words import tell_lengths_as
from geometry.findings import Finding

MOST_SAID = 40
"""Messages kept to be read again."""


class Session(QObject):
    """What all desks share.

    Signals: ``opened`` another document (or none) is open; ``changed`` the shown value, the
    history or the saved mark changed; ``lengths_changed`` mm or inch. ``said`` are the last messages.
    """

    opened = Signal()
    changed = Signal()
    lengths_changed = Signal()

    def __init__(self, settings: Settings, recovery_folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.settings = settings
        self.lengths = Lengths(settings.unit)
        tell_lengths_as(self.lengths)
        self.document: Document | None = None
        self.import_findings: tuple[Finding, ...] = ()
        self.recovery = RecoveryCopy(recovery_folder)
        self.said: deque[str] = deque(maxlen=MOST_SAID)
        self._kept: Style | None = None

    @property
    def style(self) -> Style | None:
        """The shown style, or None when nothing is open."""
        return None if self.document is None else self.document.shown

    @property
    def dragging(self) -> bool:
        """Whether what is shown is the preview of a gesture that still runs."""
        return self.document is not None and self.document.shown is not self.document.style

    def open(self, document: Document | None, findings: tuple[Finding, ...] = ()) -> None:
        """Make ``document`` the one all desks show."""
        self.document = document
        self.import_findings = findings
        if document is not None:
            document.watch(self._document_changed)
        self._keep_copy()
        self.opened.emit()
        self.changed.emit()

    def apply(self, label: str, style: Style, *, merge: str = "") -> bool:
        """Commit an edit of the open style; returns whether it changed anything."""
        return self.document is not None and self.document.apply(label, style, merge=merge)

    def close(self) -> None:
        """Let go of the document and of the recovery copy."""
        self.document = None
        self.recovery.close()

    def _document_changed(self) -> None:
        self._keep_copy()
        self.changed.emit()

    def _keep_copy(self) -> None:
        """Before the screen shows a committed step, a copy of it stands on disk."""
        document = self.document
        if document is None or not document.dirty:
            if self._kept is not None:
                self.recovery.clear()
                self._kept = None
        elif document.style is not self._kept:
            self.recovery.write(document.style, document.path)
            self._kept = document.style
