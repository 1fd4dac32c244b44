"""The tool that draws a new piece from nothing: a rectangle, or a closed shape corner by corner.

It draws in board mm. A rectangle is dragged from corner to corner or clicked twice; a shape closes with a
click on its first corner, a double click, or ``finish``. Corners snap to points that are drawn, else to half
millimetres; Alt draws freely, Ctrl in whole steps of STEP_DEG.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from typing import Literal

from app.style.model import Style
from app.style.whole.adding import free_name
from app.style.whole.drawn_shapes import add_rectangle, add_shape
from app.tools.board import Board
from app.tools.outcome import Commit, Dropped, Outcome, Refused, Select, Sketch
from app.tools.pointer import Pointer
from app.tools.snaps import POINT_PX, STEP_DEG
from geometry.errors import DeskError

Place = tuple[float, float]
CLICK_PX = 4.0
RULER_MM = 0.5


@dataclass
class ShapeTool:
    """``name`` of the piece to be (with a number where it is taken), ``backing_only``: no upper is cut."""

    mode: Literal["rectangle", "shape"] = "rectangle"
    name: str = ""
    backing_only: bool = False
    _style: Style | None = field(default=None, repr=False)
    _board: Board = field(default_factory=Board, repr=False)
    _corners: list[Place] = field(default_factory=list)
    _from: Pointer | None = None

    @property
    def points_mm(self) -> list[Place]:
        """The corners set so far, on the board."""
        return self._corners

    @property
    def piece(self) -> str:
        """What the new piece is called."""
        return " ".join(self.name.split())

    def press(self, style: Style, board: Board, at: Pointer) -> list[Outcome]:
        """A button goes down: the corner is set when it comes up, a rectangle's first one at once."""
        self._style, self._board, self._from = style, board, at
        if self.mode == "rectangle" and not self._corners:
            self._corners = [self._corner(at)[0]]
        return []

    def move(self, at: Pointer) -> list[Outcome]:
        """Show the shape to the pointer."""
        if not self._corners:
            return []
        corner, snap = self._corner(at)
        return [self._sketch(corner, snap)]

    def release(self, at: Pointer) -> list[Outcome]:
        """Set a corner."""
        start, self._from = self._from, None
        if start is None or self._style is None:
            return []
        corner, snap = self._corner(at)
        if self.mode == "rectangle":
            if math.dist(start.xy_mm, at.xy_mm) <= at.reach_mm(CLICK_PX) and corner == self._corners[0]:
                return [self._sketch(corner, snap)]  # a click set the first corner, the second is awaited
            return self._rectangle(corner[0] - self._corners[0][0], corner[1] - self._corners[0][1])
        if snap == "start" or (self._corners and corner == self._corners[-1]):
            return self.finish() if snap == "start" or at.double else []
        self._corners.append(corner)
        if at.double and len(self._corners) > 2:
            return self.finish()
        return [self._sketch(corner, snap)]

    def typed(self, first_mm: float, second: float) -> list[Outcome]:
        """Two figures were typed: sides of the rectangle (mm), or length (mm) and angle (deg) of a step."""
        if not self._corners or self._style is None:
            return [Refused("click where the piece begins")]
        if self.mode == "rectangle":
            return self._rectangle(first_mm, second)
        (x, y), angle = self._corners[-1], math.radians(second)
        corner = (x + first_mm * math.cos(angle), y + first_mm * math.sin(angle))
        self._corners.append(corner)
        return [self._sketch(corner, "")]

    def finish(self) -> list[Outcome]:
        """Close the shape."""
        if self.mode == "rectangle" or len(self._corners) < 3:
            return [Refused("the shape needs more corners")]
        corners, style, name = list(self._corners), self._style, self.piece
        assert style is not None
        return self._added(partial(_shape, style, corners, self.backing_only), name)

    def cancel(self) -> list[Outcome]:
        """Give the shape up."""
        self.abandon()
        return [Sketch(()), Dropped()]

    def abandon(self) -> None:
        """Let go of the shape without an answer."""
        self._corners, self._from = [], None

    # -- how ------------------------------------------------------------------------------------
    def _rectangle(self, wide: float, high: float) -> list[Outcome]:
        style, (x, y) = self._style, self._corners[0]
        assert style is not None
        x, y = min(x, x + wide), min(y, y + high)

        def add(free: str) -> Style:
            at = (x, y)
            return add_rectangle(style, free, abs(wide), abs(high), at_mm=at, backing_only=self.backing_only)

        return self._added(add, self.piece)

    def _added(self, add: Callable[[str], Style], wanted: str) -> list[Outcome]:
        assert self._style is not None
        name = free_name(self._style, wanted) if wanted else ""
        try:
            style = add(name)
        except DeskError as error:
            if self.mode == "rectangle":
                self._corners = self._corners[:1]
            return [Refused(str(error))]
        self.abandon()
        return [Sketch(()), Commit("add pieces", style), Select(name)]

    def _corner(self, at: Pointer) -> tuple[Place, str]:
        here = at.xy_mm
        if at.alt:
            return here, ""
        if at.control and self._corners and self.mode == "shape":
            (x, y), length = self._corners[-1], math.dist(here, self._corners[-1])
            turned = round(math.degrees(math.atan2(here[1] - y, here[0] - x)) / STEP_DEG) * STEP_DEG
            step = _ruled(length)
            way = math.radians(turned)
            return (x + step * math.cos(way), y + step * math.sin(way)), "angle"
        closable = self.mode == "shape" and len(self._corners) > 2
        if closable and math.dist(self._corners[0], here) <= at.reach_mm(POINT_PX):
            return self._corners[0], "start"
        near = min(self._board.snap_points(), key=lambda p: math.dist(p, here), default=None)
        if near is not None and math.dist(near, here) <= at.reach_mm(POINT_PX):
            return near, "point"
        return (_ruled(here[0]), _ruled(here[1])), ""

    def _sketch(self, corner: Place, snap: str) -> Sketch:
        if self.mode == "rectangle":
            (x, y), (u, v) = self._corners[0], corner
            return Sketch(((x, y), (u, y), (u, v), (x, v)), True, False, snap, ((x, y), (u, v)))
        points = (*self._corners, corner) if corner != self._corners[-1] else tuple(self._corners)
        step = (points[-2], points[-1]) if len(points) > 1 else None
        return Sketch(points, True, False, snap, step)


def _shape(style: Style, corners: list[Place], backing_only: bool, name: str) -> Style:
    return add_shape(style, name, corners, backing_only=backing_only)


def _ruled(value: float) -> float:
    return round(value / RULER_MM) * RULER_MM
