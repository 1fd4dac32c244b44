"""What is to be cut: a backing outline, its hand and size, how many, and how it may be turned."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.outline import Outline
from geometry.pull import undirected_deg


@dataclass(frozen=True)
class Item:
    """One shape to be laid ``demand`` times.

    ``turns_deg`` are the turns allowed from the outline as given (counter-clockwise);
    None allows any turn (open-format instances only). ``turn_tolerance_deg`` is granted on
    either side of each. ``pull_axis_deg`` is the axis of the outline as given, in (-90, 90].
    A mirrored piece is another item: no turn makes one hand of the other.
    """

    id: str
    outline: Outline
    demand: int
    turns_deg: tuple[float, ...] | None = (0.0, 180.0)
    pull_axis_deg: float = 0.0
    turn_tolerance_deg: float = 0.0
    piece: str = ""
    size: str = ""
    hand: str = ""


def turns_onto(
    pull_axis_deg: float, tight_direction_deg: float, *, one_way: bool = False
) -> tuple[float, ...]:
    """Return the turns in [0, 360) that bring a pull axis onto the tight direction.

    Two of them, 180 degrees apart; one (the smaller in size) when the cloth is one-way.
    """
    first = undirected_deg(tight_direction_deg - pull_axis_deg)
    if one_way:
        return (first % 360.0,)
    return (first % 360.0, (first + 180.0) % 360.0)
