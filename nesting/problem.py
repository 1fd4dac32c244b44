"""The question put to an engine: these items on this roll, under these limits."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from nesting.items import Item
from nesting.lay import Placement
from nesting.roll import Roll


@dataclass(frozen=True)
class LayProblem:
    """Lay every item ``demand`` times on as little length of the roll as possible.

    ``gap_mm`` between pieces; ``edge_margin_mm`` from both edges of the usable width;
    ``end_margin_mm`` from both ends of the lay; ``pinned`` pieces lie where they are and count
    towards the demand; ``use_holes`` lets small pieces lie in holes of large ones.
    """

    roll: Roll
    items: tuple[Item, ...]
    gap_mm: float = 0.0
    edge_margin_mm: float = 0.0
    end_margin_mm: float = 0.0
    pinned: tuple[Placement, ...] = ()
    use_holes: bool = True
    name: str = ""

    def item(self, item_id: str) -> Item:
        """Return the item of that id; raises KeyError."""
        return self.by_id[item_id]

    @cached_property
    def by_id(self) -> dict[str, Item]:
        """The items by their ids."""
        return {item.id: item for item in self.items}

    @property
    def pieces(self) -> int:
        """How many pieces are asked for."""
        return sum(item.demand for item in self.items)

    def length_of_mm(self, placements: Iterable[Placement]) -> float:
        """Return the length of roll that placements take: the furthest vertex and the end margin."""
        reach: dict[tuple[str, float], float] = {}
        furthest = None
        for at in placements:
            key = (at.item_id, at.turn_deg)
            if key not in reach:
                reach[key] = self.by_id[at.item_id].outline.turned(at.turn_deg).bbox_mm[2]
            right = at.x_mm + reach[key]
            furthest = right if furthest is None else max(furthest, right)
        return 0.0 if furthest is None else furthest + self.end_margin_mm

    @property
    def net_area_mm2(self) -> float:
        """Area of all pieces asked for."""
        return sum(item.outline.area_mm2 * item.demand for item in self.items)
