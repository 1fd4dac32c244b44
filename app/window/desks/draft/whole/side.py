"""The pages beside the board: the selected piece, the sizes, the measures."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

from app.style.model import Style
from app.style.pieces import piece_backings, upper_piece
from app.window.desks.cloth.pages import Pages
from app.window.desks.draft.interface import DraftBench
from app.window.desks.draft.whole.measures_page import MeasuresPage
from app.window.desks.draft.whole.sizes_page import SizesPage
from geometry.errors import GeometryError
from geometry.outline import Outline
from geometry.piece import BackingPiece

NAMES = ("piece", "sizes", "measures")


class DraftSide(Pages):
    """Only the page in front is kept up to date."""

    def __init__(self, desk: DraftBench, inspector: QWidget) -> None:
        super().__init__()
        self._desk = desk
        self.sizes = SizesPage(desk)
        self.measures = MeasuresPage(desk)
        first = desk.actions_made["draft.page_piece"]
        first.blockSignals(True)  # the desk has no side yet that could turn to a page
        first.setChecked(True)
        first.blockSignals(False)
        for name, page in zip(NAMES, (inspector, self.sizes, self.measures), strict=True):
            self.action(desk.actions_made[f"draft.page_{name}"])
            self.add(name, _scrolled(page))

    def show_style(self, style: Style, size: str) -> None:
        """Show the open style on the page in front."""
        if self.page == "sizes":
            self.sizes.show_style(style, self._desk.selecting.piece)
        elif self.page == "measures":
            self.measures.show_style(style, size, self._desk.selecting.piece)

    def relook(self) -> None:
        """The unit of display changed."""
        self.sizes.relook()
        self.measures.relook()

    def laid_over(
        self, style: Style, piece: str, size: str, over: str
    ) -> tuple[Outline, tuple[BackingPiece, ...]] | None:
        """Return what is drawn over a piece to compare: another version, or another size; None = nothing."""
        other = self.measures.other
        over = over or (self.measures.over_size if self.measures.over_size != size else "")
        if other is not None:
            if all(p.name != piece for p in other.pieces):
                return None
            style, over = other, size
        if not over:
            return None
        hand = style.piece(piece).hand
        try:
            return upper_piece(style, piece, over, hand).outline, piece_backings(style, piece, over, hand)
        except GeometryError:
            return None


def _scrolled(page: QWidget) -> QScrollArea:
    scroll = QScrollArea()
    scroll.setWidget(page)
    scroll.setWidgetResizable(True)
    scroll.setFrameShape(QFrame.Shape.NoFrame)
    scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    return scroll
