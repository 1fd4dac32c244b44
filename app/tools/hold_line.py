"""The hold tool: draw, move and remove the line heel to throat over which a piece's give is judged.

Drag from heel to throat, or click twice; drag an end or the line itself to move it. Ends snap to
break points first, then to the outline. Control lays the line along the pull axis, Alt is free.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely.ops import nearest_points

from app.style import edits
from app.style.edits import SHORTEST_LINE_MM, EditError
from app.style.model import HoldLine, Style
from app.tools.board import Board, BoardPiece
from app.tools.outcome import Commit, Dropped, Outcome, Preview, Refused, Select
from app.tools.pointer import Pointer
from app.tools.select import CLICK_PX, HANDLE_PX

Place = tuple[float, float]
BREAK_PX = 9.0
OUTLINE_PX = 7.0
LINE_PX = 6.0


@dataclass
class HoldTool:
    """``piece`` is the piece the line is drawn on; a press on another piece goes on with that one."""

    piece: str = ""
    _style: Style | None = field(default=None, repr=False)
    _board: Board = field(default_factory=Board, repr=False)
    _from: Pointer | None = None
    _grip: str = ""  # 'draw' a new line; 'from', 'to' or 'line' of the one that is there
    _start: Place = (0.0, 0.0)
    _waiting: bool = False  # a first click set the start, the second is awaited

    def press(self, style: Style, board: Board, at: Pointer) -> list[Outcome]:
        """Take hold of the line of a piece, or begin a new one."""
        self._style, self._board, self._from = style, board, at
        if self._waiting and board.piece(self.piece) is not None:
            return []
        self._waiting = False
        self._grip, name = self._held(at)
        if not self._grip:
            hit = board.piece_at(at.xy_mm) or _beside(board, at)
            if hit is None:
                self._from = None
                return [Refused("press on a piece: its hold line runs from heel to throat")]
            self._grip, name = "draw", hit.name
            self._start = self._snap(hit, at)
        if name == self.piece:
            return []
        self.piece = name
        return [Select(name)]

    def move(self, at: Pointer) -> list[Outcome]:
        """Show the line as it would be."""
        shown = self._board.piece(self.piece)
        if shown is None or self._style is None or not (self._waiting or self._far(at)):
            return []
        ends = self._ends(shown, at)
        if math.dist(*ends) < SHORTEST_LINE_MM:
            return []
        return [Preview(edits.set_hold_line(self._style, self.piece, *ends))]

    def release(self, at: Pointer) -> list[Outcome]:
        """A drag ends the line; a click leaves it open for a second one."""
        shown, far = self._board.piece(self.piece), self._far(at)
        if self._from is None or shown is None or self._style is None:
            return []
        if not far and not self._waiting:
            if self._grip == "draw":
                self._from, self._waiting = None, True
                return []
            return self.cancel()
        ends = self._ends(shown, at)
        step = "hold line" if self._grip == "draw" else "move hold line"
        try:
            made = edits.set_hold_line(self._style, self.piece, *ends)
        except EditError as error:
            return [*self.cancel(), Refused(str(error))]
        self.abandon()
        return [Commit(step, made)]

    def cancel(self) -> list[Outcome]:
        """Give the gesture up."""
        self.abandon()
        return [Dropped()]

    def abandon(self) -> None:
        """End a running gesture without an answer."""
        self._from, self._grip, self._waiting = None, "", False

    def cursor(self, board: Board, at: Pointer) -> str:
        """Return what a press here would take hold of: 'from', 'to', 'line', 'piece' or ''."""
        if self._from is None:
            self._board = board
        return self._held(at)[0] or ("piece" if board.piece_at(at.xy_mm) else "")

    # -- how ------------------------------------------------------------------------------------
    def _far(self, at: Pointer) -> bool:
        start = self._from
        return start is not None and math.dist(at.xy_mm, start.xy_mm) > at.reach_mm(CLICK_PX)

    def _held(self, at: Pointer) -> tuple[str, str]:
        """What of a line lies under the pointer, of which piece: the selected piece's own first."""
        pieces = sorted(self._board.pieces, key=lambda shown: shown.name != self.piece)
        for shown in pieces:
            if shown.hold_line is None:
                continue
            a, b = (shown.to_board(end) for end in shown.hold_line)
            for grip, end in (("from", a), ("to", b)):
                if math.dist(end, at.xy_mm) <= at.reach_mm(HANDLE_PX):
                    return grip, shown.name
        for shown in pieces:
            if shown.hold_line is not None and shown.name == self.piece:
                a, b = (shown.to_board(end) for end in shown.hold_line)
                if shapely.LineString([a, b]).distance(shapely.Point(at.xy_mm)) <= at.reach_mm(LINE_PX):
                    return "line", shown.name
        return "", ""

    def _ends(self, shown: BoardPiece, at: Pointer) -> tuple[Place, Place]:
        if self._grip == "draw":
            return self._start, self._snap(shown, at, self._start)
        line = self._line()
        if self._grip == "from":
            return self._snap(shown, at, line.to_mm), line.to_mm
        if self._grip == "to":
            return line.from_mm, self._snap(shown, at, line.from_mm)
        assert self._from is not None
        (x0, y0), (x1, y1) = shown.to_piece(self._from.xy_mm), shown.to_piece(at.xy_mm)
        dx, dy = x1 - x0, y1 - y0
        (ax, ay), (bx, by) = line.from_mm, line.to_mm
        return (ax + dx, ay + dy), (bx + dx, by + dy)

    def _line(self) -> HoldLine:
        assert self._style is not None
        line = self._style.piece(self.piece).hold_line
        assert line is not None
        return line

    def _snap(self, shown: BoardPiece, at: Pointer, other: Place | None = None) -> Place:
        """The piece point meant by the pointer, where the other end stands already."""
        here = shown.to_piece(at.xy_mm)
        if at.alt:
            return here
        if at.control and other is not None:
            angle = math.radians(shown.upper.pull_axis.axis_deg)
            along = np.array([math.cos(angle), math.sin(angle)])
            reach = float(np.dot(np.subtract(here, other), along))
            return float(other[0] + reach * along[0]), float(other[1] + reach * along[1])
        breaks = [tuple(map(float, edge.points_mm[0])) for edge in shown.edges]
        nearest = min(breaks, key=lambda p: math.dist(p, here), default=None)
        if nearest is not None and math.dist(nearest, here) <= at.reach_mm(BREAK_PX):
            return nearest[0], nearest[1]
        foot = nearest_points(shown.outline.polygon.boundary, shapely.Point(here))[0]
        return (foot.x, foot.y) if math.dist((foot.x, foot.y), here) <= at.reach_mm(OUTLINE_PX) else here


def _beside(board: Board, at: Pointer) -> BoardPiece | None:
    """The piece that a press just beside its outline means: lines begin at the rim."""
    for shown in board.pieces:
        if shown.outline.polygon.distance(shapely.Point(shown.to_piece(at.xy_mm))) <= at.reach_mm(BREAK_PX):
            return shown
    return None
