"""The question put to an engine: these items on this roll, under these limits."""

from __future__ import annotations

from dataclasses import dataclass

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
        for item in self.items:
            if item.id == item_id:
                return item
        raise KeyError(item_id)

    @property
    def net_area_mm2(self) -> float:
        """Area of all pieces asked for."""
        return sum(item.outline.area_mm2 * item.demand for item in self.items)
