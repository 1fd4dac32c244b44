"""Which sizes the board shows: one that was never derived is prepared beside the window first."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QCoreApplication, QObject

from app.errors import AppError
from app.style.model import Style
from app.style.pieces import piece_backings, upper_piece
from app.window.running.beside import WorkBeside
from geometry.errors import GeometryError

translate = QCoreApplication.translate


class SizeOnBoard(QObject):
    """Derives the pieces of a size in a thread, so that a style of sixty pieces holds no key up.

    ``show`` is called when the wanted sizes can be drawn at once, ``say`` with a line for the foot of
    the window. The base size is what is marked and edited: it is always at hand. ``shown`` is the size
    on the board, which ``drawn`` settles.
    """

    def __init__(self, parent: QObject, show: Callable[[], None], say: Callable[[str], None]) -> None:
        super().__init__(parent)
        self._show = show
        self._say = say
        self._of: Style | None = None
        self._ready: set[str] = set()
        self._wanted: tuple[Style, frozenset[str]] | None = None
        self._working: tuple[Style, frozenset[str]] | None = None
        self._drawn = ("", "")
        self.shown = ""
        self._beside: WorkBeside[None] = WorkBeside(self)

    @property
    def waiting(self) -> bool:
        """Whether a size is being prepared."""
        return self._wanted is not None

    def drawn(self, style: Style, shown: str, over: str) -> tuple[str, str]:
        """Return the size to draw and the one to lay over it ('' = none) for those chosen.

        What was drawn before stays until a size that is wanted can be.
        """
        if not self.waiting:
            self._drawn = shown, over
        size, other = (each if each in style.size_run.sizes else "" for each in self._drawn)
        self.shown = size or style.size_run.base
        return self.shown, other

    def want(self, style: Style, sizes: Sequence[str]) -> None:
        """Show ``sizes`` ('' = none) of a style, at once or when they are derived."""
        if self._of is not style:
            self._of, self._ready = style, {"", style.size_run.base}
        missing = frozenset(sizes) - self._ready
        self._wanted = (style, missing) if missing else None
        if not missing:
            self._show()
        elif not self._beside.busy:
            named = ", ".join(size for size in style.size_run.sizes if size in missing)
            self._say(translate("Draft", "Size {0} is being derived ...").format(named))
            self._working = style, missing
            self._beside.begin("size", lambda: _derive(style, missing), self._taken, self._failed)

    def _taken(self, nothing: None) -> None:
        assert self._working is not None
        style, sizes = self._working
        self._working = None
        if self._of is style:
            self._ready |= sizes
        if self._wanted is not None:
            wanted, missing = self._wanted
            self._say("")
            self.want(wanted, list(missing))

    def _failed(self) -> None:
        self._taken(None)


def _derive(style: Style, sizes: frozenset[str]) -> None:
    """Fill the memory of ``app.style.pieces``; what cannot be derived is said where it is drawn."""
    for piece in style.pieces:
        for size in sizes:
            try:
                upper_piece(style, piece.name, size, piece.hand)
                piece_backings(style, piece.name, size, piece.hand)
            except (AppError, GeometryError):
                return
