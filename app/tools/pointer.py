"""Where the pointer is and what is held down: all a tool needs to know of the outside."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Pointer:
    """A place on the board in mm, the zoom, and the keys held."""

    x_mm: float
    y_mm: float
    px_per_mm: float = 1.0
    shift: bool = False
    control: bool = False
    alt: bool = False
    double: bool = False

    @property
    def xy_mm(self) -> tuple[float, float]:
        """The place as a pair."""
        return self.x_mm, self.y_mm

    def reach_mm(self, px: float) -> float:
        """Return how far ``px`` pixels are on the board."""
        return px / self.px_per_mm
