"""What the draft desk's helpers may use of it."""

from __future__ import annotations

from app.style.model import PieceData
from app.tools.board import Board, BoardEdge, EdgeName
from app.tools.select import SelectTool
from app.window.desks.board_desk import BoardDesk
from app.window.desks.draft.board_scene import BoardScene
from app.window.desks.draft.inspector import Inspector


class DraftBench(BoardDesk):
    """The board with its selection; ``DraftDesk`` is the one that does it."""

    scene_of: BoardScene
    inspector: Inspector
    selecting: SelectTool

    @property
    def on_base(self) -> bool:
        """Whether the base size is shown: edges and axes are marked on it."""
        raise NotImplementedError

    @property
    def board(self) -> Board:
        """The board as it is shown."""
        raise NotImplementedError

    @property
    def piece_data(self) -> PieceData | None:
        """The selected piece."""
        raise NotImplementedError

    @property
    def edges_selected(self) -> list[BoardEdge]:
        """The selected edges."""
        raise NotImplementedError

    def select(self, piece: str, names: frozenset[EdgeName] = frozenset()) -> None:
        """Select a piece and edges of it."""
        raise NotImplementedError

    def pick_piece(self, name: str) -> None:
        """Select a piece, and bring it into view."""
        raise NotImplementedError

    def end_line(self) -> bool:
        """End the line being drawn; returns whether one was."""
        raise NotImplementedError

    def edit(self, step: str, change, *args: object, merge: str = "") -> bool:
        """Commit ``change(style, *args)`` as a step; returns whether the style changed."""
        raise NotImplementedError
