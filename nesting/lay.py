"""A lay as an engine returns it, before it is verified: where each piece lies."""

from __future__ import annotations

from dataclasses import dataclass, field

from geometry.outline import Outline


@dataclass(frozen=True)
class Placement:
    """An item turned by ``turn_deg`` about its own origin, then moved by (x_mm, y_mm)."""

    item_id: str
    turn_deg: float
    x_mm: float
    y_mm: float
    pinned: bool = False

    def place(self, outline: Outline) -> Outline:
        """Return ``outline`` (the item's) as it lies on the roll."""
        return outline.turned(self.turn_deg).moved(self.x_mm, self.y_mm)


@dataclass(frozen=True)
class Bound:
    """Lower bounds on the length of any lay of a problem, in mm, each with its name."""

    values_mm: dict[str, float]

    @property
    def best_mm(self) -> float:
        """The largest of the bounds."""
        return max(self.values_mm.values(), default=0.0)


@dataclass(frozen=True)
class Lay:
    """Placements on a stretch of roll from x = 0 to ``length_mm`` (end margins included).

    ``engine`` names what made it, ``seed`` and ``budget`` how it can be made again,
    ``stopped`` why it ended ("finished", "time", "cancelled"). ``began_from`` names the kept lay that the
    search went on from, '' when it began again; ``searched_s`` is how long was searched for it in all, in
    that earlier search too (0: not known).
    """

    placements: tuple[Placement, ...]
    length_mm: float
    engine: str = ""
    seed: int = 0
    budget: str = ""
    stopped: str = ""
    seconds: float = 0.0
    bound: Bound | None = field(default=None)
    began_from: str = ""
    searched_s: float = 0.0

    @property
    def above_bound(self) -> float | None:
        """How far the length is above the best bound, as a share of it; None where none is stated."""
        best = self.bound.best_mm if self.bound is not None else 0.0
        return self.length_mm / best - 1.0 if best > 0.0 else None
