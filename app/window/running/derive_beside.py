"""Pieces and backings derived in a thread, so that a style of sixty pieces holds no key up."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from PySide6.QtCore import QObject, Qt

from app.errors import AppError
from app.style.model import HouseRules, PieceData, SizeRun, Style
from app.style.pieces import piece_backings, upper_piece
from app.window.running.beside import WorkBeside
from app.window.session import Session
from geometry.errors import GeometryError
from geometry.piece import Hand

Wanted = tuple[PieceData, str]
"""A piece in a size."""


class DeriveBeside(QObject):
    """Derives what a screen wants of a style; ``app.style.pieces`` remembers it.

    Of a style that is edited only the pieces that changed are missing. ``of_drawn_hand``: the hand that
    was drawn is enough, else both are derived.
    """

    def __init__(self, parent: QObject, *, of_drawn_hand: bool = False) -> None:
        super().__init__(parent)
        self._of_drawn_hand = of_drawn_hand
        self._rules: HouseRules | None = None
        self._run: SizeRun | None = None
        self._ready: dict[tuple[int, str], PieceData] = {}
        self._asked: tuple[Style, tuple[str, ...], Callable[[], None]] | None = None
        self._beside: WorkBeside[list[Wanted]] = WorkBeside(self)

    @property
    def waiting(self) -> bool:
        """Whether something is being derived that a screen waits for."""
        return self._asked is not None

    def missing(self, style: Style, sizes: Iterable[str]) -> list[Wanted]:
        """Return what was not derived yet of the style as it stands."""
        if self._rules is not style.rules or self._run is not style.size_run:
            self._rules, self._run = style.rules, style.size_run
            self._ready.clear()
        kept = {id(piece) for piece in style.pieces}
        self._ready = {key: piece for key, piece in self._ready.items() if key[0] in kept}
        return [
            (piece, size)
            for piece in style.pieces
            for size in dict.fromkeys(sizes)
            if size in style.size_run.sizes and (id(piece), size) not in self._ready
        ]

    def want(self, style: Style, sizes: Sequence[str], then: Callable[[], None]) -> None:
        """Call ``then`` once the sizes of a style are derived; what is wanted later takes its place."""
        missing = self.missing(style, sizes)
        self._asked = (style, tuple(sizes), then) if missing else None
        if not missing:
            then()
        elif not self._beside.busy:
            hands: tuple[Hand, ...] | None = None if self._of_drawn_hand else ("left", "right")
            self._beside.begin(
                "derive", lambda: _derive(style, missing, hands), self._taken, lambda: self._taken(missing)
            )

    def derived(self, style: Style, sizes: Iterable[str]) -> None:
        """Note what the window's own thread has derived by now."""
        self._ready.update({(id(piece), size): piece for piece, size in self.missing(style, sizes)})

    def forget(self) -> None:
        """Wait for nothing any more: another style is opened."""
        self._asked = None

    def _taken(self, found: list[Wanted]) -> None:
        self._ready.update({(id(piece), size): piece for piece, size in found})
        if self._asked is not None:
            self.want(*self._asked)


def deriving_of(session: Session) -> DeriveBeside:
    """Return the one that the desks of a session share for lays; a window made again finds it ready."""
    return session.findChild(DeriveBeside, options=Qt.FindChildOption.FindDirectChildrenOnly) or DeriveBeside(
        session
    )


def _derive(style: Style, wanted: list[Wanted], hands: tuple[Hand, ...] | None) -> list[Wanted]:
    """Fill the memory; what cannot be derived is said by whoever draws it."""
    for piece, size in wanted:
        for hand in hands or (piece.hand,):
            try:
                upper_piece(style, piece.name, size, hand)
                piece_backings(style, piece.name, size, hand)
            except (AppError, GeometryError):
                break
    return wanted
