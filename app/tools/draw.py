"""The drawing tool: click a line over a piece for a cut, region, split, change by hand, slit or mark; or the
place of a notch or hole; or the two ends of a stretch to smooth.

A click sets a point (it snaps, see ``snaps``); a double click or ``finish`` ends the line. A cut then asks
for the side that stays: one more click. ``typed`` sets the next point by length and angle. A line that
begins beside all pieces belongs to the one that it comes to cross, the selected one before others.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Literal

import shapely

from app.style.drafting import draw, where
from app.style.edits import EditError
from app.style.model import Style
from app.style.saved.drawn import DetailData, HoleDrawn, MarkDrawn, NotchDrawn, On, PlaceData, SlitDrawn
from app.tools.board import Board, BoardPiece
from app.tools.outcome import Commit, Dropped, Outcome, Refused, Select, Sketch
from app.tools.pointer import Pointer
from app.tools.snaps import LINE_PX, Snap, snapped
from geometry.defaults import NOTCH_DEPTH_MM
from geometry.errors import DeskError

Mode = Literal["cut", "region", "split", "change", "smooth", "notch", "drill", "slit", "mark"]
FEWEST = {"region": 3, "notch": 1, "drill": 1}
"""Points that a mode needs where it is not two."""

MOST = {"notch": 1, "drill": 1, "smooth": 2}
"""Points after which a mode is done by itself."""

ON: dict[Mode, On] = {"notch": "both", "drill": "both", "slit": "backing", "mark": "upper"}
"""What is drawn on where nothing else is chosen."""


@dataclass
class DrawTool:
    """``layer`` is drawn on (-1 makes a new one of ``cloth``); ``overlap_mm`` of a split, ``rounded_mm`` of a
    region, ``depth_mm`` of a notch, ``diameter_mm`` of a hole (0: a point to drill), ``smooth`` of any line,
    ``outside`` keeps a region free, ``names`` of the parts left and right of a split ('' = a letter that is
    free), ``on`` what a notch, hole, slit or mark is drawn (``ON``)."""

    piece: str = ""
    mode: Mode = "cut"
    layer: int = 0
    cloth: str = ""
    overlap_mm: float = 0.0
    rounded_mm: float = 0.0
    depth_mm: float = NOTCH_DEPTH_MM.value
    diameter_mm: float = 0.0
    smooth: bool = False
    outside: bool = False
    names: tuple[str, str] = ("", "")
    on: On | Literal[""] = ""
    _style: Style | None = field(default=None, repr=False)
    _shown: BoardPiece | None = field(default=None, repr=False)
    _snaps: list[Snap] = field(default_factory=list, repr=False)
    _board: Board = field(default_factory=Board, repr=False)
    _beside: bool = False
    _ended: bool = False
    _down: bool = False

    @property
    def points_mm(self) -> list[tuple[float, float]]:
        """The points set so far, in the piece's frame."""
        return [snap.xy_mm for snap in self._snaps]

    def press(self, style: Style, board: Board, at: Pointer) -> list[Outcome]:
        """A button goes down; the point is set when it comes up."""
        self._style, self._board = style, board
        self._down = True
        if self._snaps:
            return self._find_piece(at.xy_mm)
        near = board.edge_near(at.xy_mm, at.reach_mm(LINE_PX), self.piece)
        hit = near[0] if near else board.piece_at(at.xy_mm)
        self._beside = hit is None and MOST.get(self.mode) != 1
        if hit is None:
            hit = board.piece(self.piece) or (board.pieces[0] if self._beside and board.pieces else None)
        if hit is None:
            self._down = False
            return [Refused("begin on a piece")]
        self._shown = hit
        return [] if self._beside else self._take(hit)

    def move(self, at: Pointer) -> list[Outcome]:
        """Show the line to the pointer."""
        if self._shown is None or not self._snaps:
            return []
        if self._ended:
            return [self._sketch([])]
        return [self._sketch([snapped(self._shown, at, self.points_mm)])]

    def release(self, at: Pointer) -> list[Outcome]:
        """Set a point, or say which side stays."""
        if not self._down or self._shown is None or self._style is None:
            return []
        self._down = False
        if self._ended:
            return self._commit(side=self._shown.to_piece(at.xy_mm))
        snap = snapped(self._shown, at, self.points_mm)
        closes = self.mode == "region" and snap.what == "start"
        if closes or (self._snaps and math.dist(snap.xy_mm, self._snaps[-1].xy_mm) < 1e-6):
            return self.finish() if closes or at.double else []
        self._snaps.append(snap)
        count = len(self._snaps)
        if count == MOST.get(self.mode) or (at.double and count >= FEWEST.get(self.mode, 2)):
            return self.finish()
        return [self._sketch([])]

    def typed(self, length_mm: float, angle_deg: float) -> list[Outcome]:
        """Set the next point so far from the last one, at an angle from the piece's x axis."""
        if not self._snaps or self._ended:
            return [Refused("click where the line begins")]
        (x, y), angle = self._snaps[-1].xy_mm, math.radians(angle_deg)
        self._snaps.append(Snap((x + length_mm * math.cos(angle), y + length_mm * math.sin(angle))))
        return [self._sketch([])]

    def finish(self) -> list[Outcome]:
        """End the line: a cut asks for its side, all else is done."""
        if len(self._snaps) < FEWEST.get(self.mode, 2):
            return [Refused("the line needs more points")]
        found = self._find_piece()
        if self._beside and self._shown is not None and self._shown.name != self.piece:
            return [Refused("the line crosses no piece")]
        if self.mode == "cut" and not self._ended:
            self._ended = True
            return [*found, self._sketch([])]
        return [*found, *self._commit()]

    def cancel(self) -> list[Outcome]:
        """Give the line up."""
        self.abandon()
        return [Sketch(()), Dropped()]

    def abandon(self) -> None:
        """Let go of the line without an answer."""
        self._snaps, self._ended, self._down, self._shown = [], False, False, None
        self._beside = False

    # -- how --------------------------------------------------------------------------------------
    def _take(self, hit: BoardPiece) -> list[Outcome]:
        """Draw on a piece."""
        self._shown = hit
        if hit.name == self.piece:
            return []
        self.piece = hit.name
        return [Select(hit.name)]

    def _find_piece(self, *more: tuple[float, float]) -> list[Outcome]:
        """Give a line that began beside all pieces to the one that it crosses, as soon as it crosses one."""
        shown = self._shown
        if not self._beside or shown is None:
            return []
        points = [*(shown.to_board(xy) for xy in self.points_mm), *more]
        line = shapely.LineString(points) if len(points) > 1 else shapely.Point(points[0])
        inside = {
            piece.name: line.intersection(
                shapely.Polygon([piece.to_board((x, y)) for x, y in piece.outline.rings_mm[0]])
            ).length
            for piece in self._board.pieces
        }
        crossed = [piece for piece in self._board.pieces if inside[piece.name] > 0.0]
        if not crossed:
            return []
        hit = max(crossed, key=lambda piece: (piece.name == self.piece, inside[piece.name]))
        self._beside = False
        self._snaps = (
            [replace(snap, xy_mm=hit.to_piece(shown.to_board(snap.xy_mm)), edge=None) for snap in self._snaps]
            if hit is not shown
            else self._snaps
        )
        return self._take(hit)

    def _commit(self, side: tuple[float, float] | None = None) -> list[Outcome]:
        assert self._style is not None
        try:
            style = self._drawn(self._style, side)
        except DeskError as error:
            if self.mode in MOST:
                self.abandon()
            return [Refused(str(error))]
        self.abandon()
        return [Sketch(()), Commit(f"draw {self.mode}", style)]

    def _drawn(self, style: Style, side: tuple[float, float] | None) -> Style:
        piece, layer = self.piece, self.layer
        if self.mode in ON:
            return draw.add_detail(style, piece, self._detail(style, self.on or ON[self.mode]))
        if self.mode == "smooth":
            return draw.smooth_stretch(style, piece, max(layer, 0), self.points_mm[0], self.points_mm[1])
        if self.mode == "change":
            return draw.change_through(style, piece, max(layer, 0), self.points_mm, smooth=self.smooth)
        if layer < 0:
            style = draw.add_layer(style, piece, self.cloth)
            layer = len(style.piece(piece).layers) - 1
        places = [self._place(style, snap) for snap in self._snaps]
        if self.mode == "region":
            area = where.course(places, smooth=self.smooth, closed=True, rounded_mm=self.rounded_mm)
            return draw.add_region(style, piece, layer, area, inside=not self.outside)
        line = where.course(places, smooth=self.smooth)
        if self.mode == "split":
            return draw.add_split(style, piece, layer, line, names=self.names, overlap_mm=self.overlap_mm)
        if side is None:
            raise EditError("click the side that stays", remedy="click it")
        return draw.add_cut(style, piece, layer, line, where.in_frame(side))

    def _detail(self, style: Style, on: On) -> DetailData:
        """The notch, hole, slit or mark that was drawn."""
        if self.mode == "notch":
            spot = where.beside_outline(style, self.piece, self._snaps[0].xy_mm, self._snaps[0].edge)
            at = spot.model_copy(update={"inward_mm": 0.0, "aside_mm": 0.0})
            return where.valid(NotchDrawn, self.piece, what="notch", at=at, on=on, depth_mm=self.depth_mm)
        places = [self._place(style, snap) for snap in self._snaps]
        if self.mode == "drill":
            hole = {"what": "drill", "at": places[0], "on": on, "diameter_mm": self.diameter_mm}
            return where.valid(HoleDrawn, self.piece, **hole)
        line = where.course(places, smooth=self.smooth)
        if self.mode == "slit":
            return SlitDrawn(what="slit", line=line, on=on)
        return MarkDrawn(what="mark", line=line, on=on)

    def _place(self, style: Style, snap: Snap) -> PlaceData:
        """A point on an edge is kept by the edge, any other rides in the open."""
        if snap.edge is None:
            return where.in_frame(snap.xy_mm)
        return where.beside_outline(style, self.piece, snap.xy_mm, snap.edge)

    def _sketch(self, more: list[Snap]) -> Sketch:
        assert self._shown is not None
        snaps = [*self._snaps, *more]
        points = tuple(self._shown.to_board(snap.xy_mm) for snap in snaps)
        last = (snaps[-2].xy_mm, snaps[-1].xy_mm) if len(snaps) > 1 else None
        return Sketch(points, self.mode == "region", self._ended, snaps[-1].what, last)
