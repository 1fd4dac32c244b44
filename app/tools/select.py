"""The selecting tool: click an edge or piece, sweep over edges, drag a break point or the axis.

What the gesture is depends on what it starts on; a press that stays within a few pixels is a
click. Holding control snaps the axis to whole steps of AXIS_STEP_DEG.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from app.style import edits
from app.style.model import Style
from app.tools.board import Board, BoardPiece, EdgeName, nearest_vertex
from app.tools.outcome import Commit, Dropped, Outcome, Preview, Refused, Select, Sweep
from app.tools.pointer import Pointer
from geometry.errors import EdgeError

REACH_PX = 9.0
HANDLE_PX = 10.0
CLICK_PX = 4.0
AXIS_STEP_DEG = 5.0


@dataclass
class SelectTool:
    """State of the gesture. ``piece`` and ``edges`` are what is selected now."""

    piece: str = ""
    edges: frozenset[EdgeName] = frozenset()
    _style: Style | None = field(default=None, repr=False)
    _board: Board = field(default_factory=Board, repr=False)
    _from: Pointer | None = None
    _grip: str = ""
    _break: EdgeName = (0, 0)
    _made: Style | None = None

    def press(self, style: Style, board: Board, at: Pointer) -> list[Outcome]:
        """Begin a gesture on ``board``, which shows ``style``."""
        self._style, self._board, self._from, self._made = style, board, at, None
        reach = at.reach_mm(HANDLE_PX)
        if self.piece and board.axis_end_near(at.xy_mm, reach, self.piece):
            self._grip = "axis"
        elif self.piece and (found := board.break_near(at.xy_mm, at.reach_mm(REACH_PX), self.piece)):
            self._grip, self._break = "break", found[1]
        else:
            self._grip = "pick"
        return []

    def move(self, at: Pointer) -> list[Outcome]:
        """Go on with the gesture."""
        start = self._from
        if start is None or self._style is None:
            return []
        far = math.hypot(at.x_mm - start.x_mm, at.y_mm - start.y_mm) > at.reach_mm(CLICK_PX)
        if self._grip == "pick" and far:
            self._grip = "sweep"
        if self._grip == "sweep":
            return [Sweep(_box(start, at))]
        shown = self._board.piece(self.piece)
        if shown is None or (not far and self._made is None):
            return []
        if self._grip == "axis":
            self._made = edits.set_axis(self._style, self.piece, axis_towards_deg(shown, at))
            return [Preview(self._made)]
        return self._drag_break(shown, at)

    def release(self, at: Pointer) -> list[Outcome]:
        """End the gesture."""
        start, grip, self._from, self._grip = self._from, self._grip, None, ""
        made, self._made = self._made, None
        if start is None:
            return []
        if grip == "sweep":
            return [Sweep(None), *self._swept(_box(start, at), add=at.shift)]
        if made is not None:
            return [Commit("turn axis" if grip == "axis" else "move break", made)]
        if grip == "break":
            return self._select(self.piece, frozenset({self._break}), add=at.shift)
        if grip == "axis":
            return []
        return self._click(at)

    def cancel(self) -> list[Outcome]:
        """Give the gesture up; without one, let go of the selection edge by edge, then the piece."""
        running, self._from, self._grip, self._made = self._from is not None, None, "", None
        if running:
            return [Sweep(None), Dropped()]
        if self.edges:
            return self._select(self.piece, frozenset())
        return self._select("", frozenset())

    def abandon(self) -> None:
        """End a running gesture without an answer; the selection stays."""
        self._from, self._grip, self._made = None, "", None

    def cursor(self, board: Board, at: Pointer) -> str:
        """Return what a press here would take hold of: 'axis', 'break', 'edge', 'piece' or ''."""
        if self.piece and board.axis_end_near(at.xy_mm, at.reach_mm(HANDLE_PX), self.piece):
            return "axis"
        if self.piece and board.break_near(at.xy_mm, at.reach_mm(REACH_PX), self.piece):
            return "break"
        if board.edge_near(at.xy_mm, at.reach_mm(REACH_PX), self.piece):
            return "edge"
        return "piece" if board.piece_at(at.xy_mm) else ""

    def _click(self, at: Pointer) -> list[Outcome]:
        hit = self._board.edge_near(at.xy_mm, at.reach_mm(REACH_PX), self.piece)
        if hit is not None:
            return self._select(hit[0].name, frozenset({hit[1].name}), add=at.shift)
        piece = self._board.piece_at(at.xy_mm)
        return self._select(piece.name if piece else "", frozenset())

    def _swept(self, box: tuple[float, float, float, float], *, add: bool) -> list[Outcome]:
        """Edges of the selected piece that the box touches; else of the piece it touches most."""
        names = [self.piece] if self.piece else []
        names += [piece.name for piece in self._board.pieces if piece.name != self.piece]
        found = {name: self._board.edges_touching(box, name) for name in names}
        best = max(names, key=lambda name: len(found[name]), default="")
        piece = self.piece if self.piece and found[self.piece] else best
        if not piece or not found[piece]:
            return self._select("", frozenset())
        return self._select(piece, frozenset(found[piece]), add=add)

    def _select(self, piece: str, names: frozenset[EdgeName], *, add: bool = False) -> list[Outcome]:
        if add and piece == self.piece:
            names = self.edges ^ names if len(names) == 1 else self.edges | names
        self.piece, self.edges = piece, names
        return [Select(piece, names)]

    def _drag_break(self, shown: BoardPiece, at: Pointer) -> list[Outcome]:
        assert self._style is not None
        ring, start = self._break
        vertex = nearest_vertex(shown, ring, at.xy_mm)
        if vertex == start:
            self._made = self._style
            return [Preview(self._style)]
        try:
            self._made = edits.move_break(self._style, self.piece, ring, start, vertex)
        except EdgeError as error:
            return [Refused(str(error))]
        return [Preview(self._made)]


def axis_towards_deg(shown: BoardPiece, at: Pointer) -> float:
    """Return the pull axis that points from the middle of a piece to the pointer.

    Snapped to AXIS_STEP_DEG with control, else to a tenth of a degree.
    """
    x, y = shown.to_piece(at.xy_mm)
    cx, cy = shown.middle_mm
    angle = math.degrees(math.atan2(y - cy, x - cx))
    step = AXIS_STEP_DEG if at.control else 0.1
    return round(round(angle / step) * step, 6)


def _box(a: Pointer, b: Pointer) -> tuple[float, float, float, float]:
    return min(a.x_mm, b.x_mm), min(a.y_mm, b.y_mm), max(a.x_mm, b.x_mm), max(a.y_mm, b.y_mm)
