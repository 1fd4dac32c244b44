"""Which sizes the board shows: one that was never derived is prepared beside the window first."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QCoreApplication, QObject

from app.style.model import Style
from app.window.running.derive_beside import DeriveBeside

translate = QCoreApplication.translate


class SizeOnBoard(QObject):
    """``show`` is called when the wanted sizes can be drawn, ``say`` with a line for the foot of the window.

    The base size is what is marked and edited: it is always at hand. ``shown`` is the size on the board,
    which ``drawn`` settles.
    """

    def __init__(self, parent: QObject, show: Callable[[], None], say: Callable[[str], None]) -> None:
        super().__init__(parent)
        self._show = show
        self._say = say
        self._derive = DeriveBeside(self, of_drawn_hand=True)
        self._drawn = ("", "")
        self.shown = ""

    @property
    def waiting(self) -> bool:
        """Whether a size is being prepared."""
        return self._derive.waiting

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
        self._derive.derived(style, [style.size_run.base])
        named = [size for size in dict.fromkeys(sizes) if size]
        if self._derive.missing(style, named):
            told = ", ".join(size for size in style.size_run.sizes if size in named)
            self._say(translate("Draft", "Size {0} is being derived ...").format(told))
            self._derive.want(style, named, self._ready)
        else:
            self._derive.want(style, named, self._show)

    def _ready(self) -> None:
        self._say("")
        self._show()
