"""The flaw tool on the roll: drag a box over a flaw to mark it, click a marked flaw to select it."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import shapely

from app.style import edits
from app.style.model import FlawData, Style
from app.tools.outcome import Commit, Dropped, Outcome, Sweep
from app.tools.pointer import Pointer

CLICK_PX = 4.0
LEAST_MM = 1.0
REACH_PX = 6.0


@dataclass
class FlawTool:
    """``cloth`` is the cloth whose roll is shown; ``chosen`` the index of the selected flaw or -1."""

    cloth: str = ""
    chosen: int = -1
    _style: Style | None = field(default=None, repr=False)
    _from: Pointer | None = None

    def press(self, style: Style, at: Pointer) -> list[Outcome]:
        """Begin a gesture."""
        self._style, self._from = style, at
        return []

    def move(self, at: Pointer) -> list[Outcome]:
        """Sweep the box."""
        if self._from is None or not self._far(at):
            return []
        return [Sweep(self._box(at))]

    def release(self, at: Pointer) -> list[Outcome]:
        """Mark the flaw, or select the one under a click."""
        start, style = self._from, self._style
        if start is None or style is None:
            return []
        far, box = self._far(at), self._box(at)
        self._from = None
        if not far:
            self.chosen = flaw_at(style.cloth(self.cloth).flaws, at)
            return []
        x0, y0, x1, y1 = box
        cloth = style.cloth(self.cloth)
        y0, y1 = max(y0, 0.0), min(y1, cloth.usable_width_mm)
        x0 = max(x0, 0.0)
        if x1 - x0 < LEAST_MM or y1 - y0 < LEAST_MM:
            return [Sweep(None), Dropped()]
        ring = tuple((round(x, 1), round(y, 1)) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
        self.chosen = len(cloth.flaws)
        return [Sweep(None), Commit("flaw", edits.add_flaw(style, self.cloth, FlawData(ring_mm=ring)))]

    def cancel(self) -> list[Outcome]:
        """Give the gesture up; without one, let go of the selected flaw."""
        if self._from is None:
            self.chosen = -1
        self._from = None
        return [Sweep(None), Dropped()]

    def _far(self, at: Pointer) -> bool:
        start = self._from
        return start is not None and math.hypot(at.x_mm - start.x_mm, at.y_mm - start.y_mm) > at.reach_mm(
            CLICK_PX
        )

    def _box(self, at: Pointer) -> tuple[float, float, float, float]:
        start = self._from or at
        return (
            min(start.x_mm, at.x_mm),
            min(start.y_mm, at.y_mm),
            max(start.x_mm, at.x_mm),
            max(start.y_mm, at.y_mm),
        )


def flaw_at(flaws: tuple[FlawData, ...], at: Pointer) -> int:
    """Return the index of the flaw under the pointer, -1 if there is none."""
    point = shapely.Point(at.xy_mm)
    for index in range(len(flaws) - 1, -1, -1):
        if shapely.Polygon(flaws[index].ring_mm).distance(point) <= at.reach_mm(REACH_PX):
            return index
    return -1
