"""The break tool: click an outline to end an edge there, click a break point to remove it."""

from __future__ import annotations

from dataclasses import dataclass, field

from app.style import edits
from app.style.model import Style
from app.tools.board import Board, nearest_vertex
from app.tools.outcome import Commit, Dropped, Outcome, Refused, Select
from app.tools.pointer import Pointer
from app.tools.select import REACH_PX, SelectTool
from geometry.errors import EdgeError


@dataclass
class BreakTool:
    """Breaks are moved by dragging, as with the selecting tool; a plain click adds or removes."""

    piece: str = ""
    _drag: SelectTool = field(default_factory=SelectTool)
    _style: Style | None = field(default=None, repr=False)
    _board: Board = field(default_factory=Board, repr=False)

    def press(self, style: Style, board: Board, at: Pointer) -> list[Outcome]:
        """Begin a gesture."""
        self._style, self._board = style, board
        hit = board.edge_near(at.xy_mm, at.reach_mm(REACH_PX), self.piece)
        if hit is not None:
            self.piece = hit[0].name
        self._drag = SelectTool(self.piece)
        if self.piece and board.break_near(at.xy_mm, at.reach_mm(REACH_PX), self.piece):
            return self._drag.press(style, board, at)
        return []

    def move(self, at: Pointer) -> list[Outcome]:
        """Go on: a break point taken hold of moves."""
        return [o for o in self._drag.move(at) if not isinstance(o, Select)]

    def release(self, at: Pointer) -> list[Outcome]:
        """End the gesture: the moved break stays, or the click adds or removes one."""
        moved = [o for o in self._drag.release(at) if isinstance(o, Commit)]
        style, self._style = self._style, None
        if moved or style is None:
            return list(moved)
        reach = at.reach_mm(REACH_PX)
        try:
            found = self._board.break_near(at.xy_mm, reach, self.piece)
            if found is not None:
                ring, start = found[1]
                return [Commit("remove break", edits.remove_break(style, self.piece, ring, start))]
            hit = self._board.edge_near(at.xy_mm, reach, self.piece)
            if hit is None:
                return []
            piece, edge = hit
            vertex = nearest_vertex(piece, edge.name[0], at.xy_mm)
            made = edits.add_break(style, piece.name, edge.name[0], vertex)
        except EdgeError as error:
            return [Refused(str(error))]
        return [Commit("add break", made)]

    def cancel(self) -> list[Outcome]:
        """Give the gesture up."""
        self._style = None
        self._drag = SelectTool(self.piece)
        return [Dropped()]
