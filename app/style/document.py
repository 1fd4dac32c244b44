"""The open style and its history: immutable values, one named step an edit. Knows no screen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from app.style.model import Style
from app.style.on_disk import changed_since, fingerprint
from app.style.whole.twins import follow


@dataclass(frozen=True)
class Step:
    """One edit that can be taken back: the values before and after, and its name.

    ``merge`` groups strokes of one gesture (typing a number, holding an arrow key): a step that
    follows at once with the same non-empty ``merge`` joins this one.
    """

    label: str
    before: Style
    after: Style
    merge: str = ""


class Document:
    """The style being worked on.

    ``style`` is the committed value, ``shown`` the same or, during a gesture, its preview.
    Watchers are called after every change of either, of the path, or of the saved mark.
    ``source`` is the file it was read from, which an unnamed copy of a sample must not write to.
    """

    def __init__(
        self, style: Style, path: Path | None = None, *, unsaved: bool = False, source: Path | None = None
    ) -> None:
        self._style = style
        self._preview: Style | None = None
        self._saved: Style | None = None if unsaved else style
        self._done: list[Step] = []
        self._undone: list[Step] = []
        self._sealed = True
        self._watchers: list[Callable[[], None]] = []
        self.path = path
        self.source = source or path
        self._on_disk = fingerprint(path)

    @property
    def style(self) -> Style:
        """The committed value."""
        return self._style

    @property
    def shown(self) -> Style:
        """What the screen shows: the preview of a running gesture, or the committed value."""
        return self._style if self._preview is None else self._preview

    @property
    def dirty(self) -> bool:
        """Whether the committed value differs from the one last saved."""
        return self._style is not self._saved and self._style != self._saved

    @property
    def overtaken(self) -> bool:
        """Whether somebody else has written the file since it was read or saved here."""
        return changed_since(self.path, self._on_disk)

    def let_overtake(self) -> None:
        """Take note of the file as it stands now: what it holds was seen and decided upon."""
        self._on_disk = fingerprint(self.path)

    @property
    def undo_label(self) -> str:
        """Name of the step that undo takes back; '' if there is none."""
        return self._done[-1].label if self._done else ""

    @property
    def redo_label(self) -> str:
        """Name of the step that redo does again; '' if there is none."""
        return self._undone[-1].label if self._undone else ""

    @property
    def labels(self) -> tuple[str, ...]:
        """Names of the steps done, oldest first."""
        return tuple(step.label for step in self._done)

    def watch(self, watcher: Callable[[], None]) -> None:
        """Call ``watcher`` after every change."""
        self._watchers.append(watcher)

    def apply(self, label: str, after: Style, *, merge: str = "") -> bool:
        """Commit ``after`` as one step; an edit that changes nothing leaves no step.

        Returns whether anything changed. A running preview ends. A linked twin follows its piece.
        """
        after = follow(self._style, after)
        was_preview, self._preview = self._preview is not None, None
        if after is self._style or after == self._style:
            if was_preview:
                self._tell()
            return False
        before = self._style
        last = self._done[-1] if self._done else None
        if merge and last is not None and last.merge == merge and not self._sealed:
            self._done.pop()
            before = last.before
        self._done.append(Step(label, before, after, merge))
        self._undone.clear()
        self._sealed = False
        self._style = after
        self._tell()
        return True

    def seal(self) -> None:
        """End the gesture: the next step stands alone even if it merges by name."""
        self._sealed = True

    def preview(self, style: Style | None) -> None:
        """Show ``style`` without committing it; None goes back to the committed value."""
        if style is not self._preview:
            self._preview = None if style is None else follow(self._style, style)
            self._tell()

    def undo(self) -> bool:
        """Take the last step back; returns whether there was one."""
        if not self._done:
            return False
        step = self._done.pop()
        self._undone.append(step)
        self._go_to(step.before)
        return True

    def redo(self) -> bool:
        """Do the step last taken back again; returns whether there was one."""
        if not self._undone:
            return False
        step = self._undone.pop()
        self._done.append(step)
        self._go_to(step.after)
        return True

    def mark_saved(self, path: Path, style: Style) -> None:
        """Note that ``style`` now stands in ``path``."""
        self.path = path
        self._on_disk = fingerprint(path)
        self._saved = style
        self._sealed = True
        self._tell()

    def _go_to(self, style: Style) -> None:
        self._preview = None
        self._sealed = True
        self._style = style
        self._tell()

    def _tell(self) -> None:
        for watcher in tuple(self._watchers):
            watcher()
