"""The hands on the cutting table: pick pieces, sweep over them, drag them; clashes show meanwhile."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from app.tools.lay_table import Clash, LayTable
from app.tools.pointer import Pointer
from nesting.lay import Placement

CLICK_PX = 4.0


@dataclass(frozen=True)
class Picked:
    """These pieces are selected now."""

    indices: frozenset[int]


@dataclass(frozen=True)
class Dragging:
    """Show the selected pieces moved by this much, and what they come too close to there."""

    dx_mm: float
    dy_mm: float
    clashes: tuple[Clash, ...]


@dataclass(frozen=True)
class PiecesMoved:
    """The drag is done: these are the placements now."""

    placements: tuple[Placement, ...]


@dataclass(frozen=True)
class SweepBox:
    """Show the box being swept, or none."""

    box_mm: tuple[float, float, float, float] | None


@dataclass(frozen=True)
class PutDown:
    """The drag was given up: show the pieces where they lay."""


Answer = Picked | Dragging | PiecesMoved | SweepBox | PutDown


@dataclass
class LayHands:
    """State of the gesture; ``chosen`` are the selected placements. Pinned pieces do not move."""

    chosen: frozenset[int] = frozenset()
    _table: LayTable | None = field(default=None, repr=False)
    _from: Pointer | None = None
    _grip: str = ""
    _by: tuple[float, float] = (0.0, 0.0)

    def press(self, table: LayTable, at: Pointer) -> list[Answer]:
        """Begin: on a piece, take it (and all selected with it); elsewhere, sweep."""
        self._table, self._from, self._by = table, at, (0.0, 0.0)
        hit = table.at(at.xy_mm)
        if hit < 0:
            self._grip = "sweep"
            return []
        self._grip = "drag"
        if hit in self.chosen and not at.shift:
            return []
        self.chosen = self.chosen ^ {hit} if at.shift else frozenset({hit})
        return [Picked(self.chosen)]

    def move(self, at: Pointer) -> list[Answer]:
        """Go on: the pieces follow the pointer (with control, along one direction only)."""
        start, table = self._from, self._table
        if start is None or table is None:
            return []
        dx, dy = at.x_mm - start.x_mm, at.y_mm - start.y_mm
        if math.hypot(dx, dy) <= at.reach_mm(CLICK_PX) and self._by == (0.0, 0.0):
            return []
        if self._grip == "sweep":
            self._by = (dx, dy)
            return [SweepBox(_box(start, at))]
        if at.control:
            dx, dy = (dx, 0.0) if abs(dx) >= abs(dy) else (0.0, dy)
        self._by = (dx, dy)
        loose = self.loose(table)
        return [Dragging(dx, dy, tuple(table.clashes(loose, dx, dy)))] if loose else []

    def release(self, at: Pointer) -> list[Answer]:
        """End: the pieces lie where they were let go, or the swept ones are selected."""
        start, table, grip, by = self._from, self._table, self._grip, self._by
        self._from, self._grip, self._by = None, "", (0.0, 0.0)
        if start is None or table is None:
            return []
        if grip == "sweep":
            found = frozenset(table.in_box(_box(start, at))) if by != (0.0, 0.0) else frozenset()
            self.chosen = self.chosen | found if at.shift else found
            return [SweepBox(None), Picked(self.chosen)]
        if by == (0.0, 0.0):
            return []
        loose = self.loose(table)
        return [PiecesMoved(table.moved(loose, *by))] if loose else [PutDown()]

    def cancel(self) -> list[Answer]:
        """Give the drag up; without one, select nothing."""
        running, self._from, self._grip, self._by = self._from is not None, None, "", (0.0, 0.0)
        if running:
            return [SweepBox(None), PutDown()]
        self.chosen = frozenset()
        return [Picked(self.chosen)]

    @property
    def busy(self) -> bool:
        """Whether a gesture is under way."""
        return self._from is not None

    def loose(self, table: LayTable) -> list[int]:
        """Return the selected pieces that are not pinned."""
        return [i for i in sorted(self.chosen) if not table.placements[i].pinned]


def _box(a: Pointer, b: Pointer) -> tuple[float, float, float, float]:
    return min(a.x_mm, b.x_mm), min(a.y_mm, b.y_mm), max(a.x_mm, b.x_mm), max(a.y_mm, b.y_mm)
