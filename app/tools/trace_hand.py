"""The hand on traced cards: draw an outline to where the card's edge is seen; click two points to check.

Places are mm of the sheet. Alt moves the one point taken, else the outline beside it follows.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace

from app.tools.outcome import Refused, Span
from app.tools.pointer import Pointer
from geometry.errors import OutlineError
from geometry.piece import DrawnPiece
from geometry.trace.correct import REACH_MM, drawn_to, outline_near

GRIP_PX = 9.0
CLICK_PX = 3.0


@dataclass(frozen=True)
class Cards:
    """Show these cards; ``done``: the correction is made, and becomes a step."""

    cards: tuple[DrawnPiece, ...]
    done: bool = False


Answer = Cards | Span | Refused


@dataclass
class TraceHand:
    """``checking``: clicks set the two ends of a length instead of taking hold of an outline."""

    checking: bool = False
    _cards: tuple[DrawnPiece, ...] = field(default=(), repr=False)
    _from: tuple[float, float] | None = None
    _card: int = 0
    _bent: tuple[DrawnPiece, ...] | None = field(default=None, repr=False)
    _ends: list[tuple[float, float]] = field(default_factory=list)

    def press(self, cards: tuple[DrawnPiece, ...], at: Pointer) -> list[Answer]:
        """Take hold of the outline under the pointer, or set an end of the length to check."""
        self._cards, self._from, self._bent = cards, None, None
        if self.checking:
            if len(self._ends) == 2:
                self._ends = []
            self._ends.append(self._on(at))
            return [self._span(self._ends[-1])]
        found = self._nearest(at)
        if found is not None:
            self._card, self._from = found[0], found[1]
        return []

    def move(self, at: Pointer) -> list[Answer]:
        """Show the outline as it would be, or the length to the pointer."""
        if self.checking:
            return [self._span(self._on(at))] if len(self._ends) == 1 else []
        if self._from is None or math.dist(self._from, at.xy_mm) < at.reach_mm(CLICK_PX):
            return []
        try:
            card = drawn_to(self._cards[self._card], self._from, at.xy_mm, 0.0 if at.alt else REACH_MM)
        except OutlineError as error:
            return [Refused(str(error))]
        self._bent = (*self._cards[: self._card], card, *self._cards[self._card + 1 :])
        return [Cards(self._bent)]

    def release(self, at: Pointer) -> list[Answer]:
        """The correction stays as it was last shown."""
        bent, self._from, self._bent = self._bent, None, None
        return [] if bent is None else [Cards(bent, done=True)]

    def abandon(self) -> list[Answer]:
        """Give up a correction, or the length to check."""
        held, self._from, self._bent, self._ends = self._from, None, None, []
        return [Span(None, None), *([Cards(self._cards)] if held is not None else [])]

    @property
    def length_mm(self) -> float | None:
        """The length between the two points that were clicked."""
        return math.dist(*self._ends) if len(self._ends) == 2 else None

    # -- how ------------------------------------------------------------------------------------
    def _nearest(self, at: Pointer) -> tuple[int, tuple[float, float]] | None:
        found = [(outline_near(card, at.xy_mm), number) for number, card in enumerate(self._cards)]
        if not found:
            return None
        (x, y, away), number = min(found, key=lambda f: f[0][2])
        return (number, (x, y)) if away <= at.reach_mm(GRIP_PX) else None

    def _on(self, at: Pointer) -> tuple[float, float]:
        """The corner, else the place of an outline meant by the pointer; with Alt the pointer's own."""
        if at.alt:
            return at.xy_mm
        found = self._nearest(at)
        if found is None:
            return at.xy_mm
        rings = self._cards[found[0]].outline.rings_mm
        vertices = [(float(x), float(y)) for ring in rings for x, y in ring]
        nearest = min(vertices, key=lambda v: math.dist(v, at.xy_mm))
        return nearest if math.dist(nearest, at.xy_mm) <= at.reach_mm(GRIP_PX) else found[1]

    def _span(self, to_mm: tuple[float, float]) -> Span:
        return Span(self._ends[0], to_mm)


def renamed(cards: tuple[DrawnPiece, ...], number: int, name: str) -> tuple[DrawnPiece, ...]:
    """Return the cards with one called ``name``."""
    return tuple(replace(card, name=name) if k == number else card for k, card in enumerate(cards))
