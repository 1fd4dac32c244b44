"""The measuring tool: drag, or click twice, between any two points; ends snap to drawn vertices."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from app.style.model import Style
from app.tools.board import Board
from app.tools.outcome import Outcome, Span
from app.tools.pointer import Pointer

SNAP_PX = 8.0
CLICK_PX = 4.0


@dataclass
class MeasureTool:
    """The measured line stays until the next press or ``cancel``. Alt measures freely."""

    _points: list[tuple[float, float]] = field(default_factory=list, repr=False)
    _from: tuple[float, float] | None = None
    _from_snapped: bool = False
    _open: bool = False
    _pressed: Pointer | None = None

    def press(self, style: Style, board: Board, at: Pointer) -> list[Outcome]:
        """Set the first end, or with a first click done, the second."""
        self._points = board.snap_points()
        self._pressed = at
        if self._open:
            return []
        self._from, self._from_snapped = self._snap(at)
        return [Span(self._from, self._from, (self._from_snapped, self._from_snapped))]

    def move(self, at: Pointer) -> list[Outcome]:
        """Stretch the line to the pointer."""
        if self._from is None or (self._pressed is None and not self._open):
            return []
        to, snapped = self._snap(at)
        return [Span(self._from, to, (self._from_snapped, snapped))]

    def release(self, at: Pointer) -> list[Outcome]:
        """A drag ends the line; a click leaves it open for a second click."""
        start, self._pressed = self._pressed, None
        if start is None or self._from is None:
            return []
        to, snapped = self._snap(at)
        dragged = math.hypot(at.x_mm - start.x_mm, at.y_mm - start.y_mm) > at.reach_mm(CLICK_PX)
        self._open = not dragged and not self._open
        return [Span(self._from, to, (self._from_snapped, snapped))]

    def cancel(self) -> list[Outcome]:
        """Take the line away."""
        self._from, self._open, self._pressed = None, False, None
        return [Span(None, None)]

    def _snap(self, at: Pointer) -> tuple[tuple[float, float], bool]:
        if at.alt or not self._points:
            return at.xy_mm, False
        nearest = min(self._points, key=lambda p: (p[0] - at.x_mm) ** 2 + (p[1] - at.y_mm) ** 2)
        away = math.hypot(nearest[0] - at.x_mm, nearest[1] - at.y_mm)
        return (nearest, True) if away <= at.reach_mm(SNAP_PX) else (at.xy_mm, False)
