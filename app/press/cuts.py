"""What a die cuts, as data and in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from geometry.said import joined, said


@dataclass(frozen=True)
class Cuts:
    """What a die cuts: a piece, its size, its hand, and how many the order needs."""

    piece: str
    size: str
    hand: str
    needed: int


def cuts_words(cuts: Sequence[Mapping[str, Any]]) -> str:
    """Return what a die cuts in a few words."""
    pieces = " / ".join(dict.fromkeys(str(cut["piece"]) for cut in cuts))
    sizes = "/".join(dict.fromkeys(str(cut["size"]) for cut in cuts))
    hands = [hand for hand in ("left", "right") if any(cut["hand"] == hand for cut in cuts)]
    return said("{0} {1} {2}", pieces, sizes, joined(*hands, by=" and "))
