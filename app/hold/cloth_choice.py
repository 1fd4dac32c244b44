"""Other cloths and weights for the same limits, with what they cost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.hold.chain import ChainHold
from app.hold.verdicts import PieceHold, StyleHold, style_hold
from app.style.model import ClothData, Style
from app.style.pieces import piece_backings


@dataclass(frozen=True)
class TriedCloth:
    """A cloth tried in place of the style's: its holds and its bare cost.

    ``cost_per_pair`` is net: cloth in the pieces, without waste, end loss or rejects; None without
    a price. ``worst`` is the piece or chain with the largest share of its limit, None without limits.
    """

    cloth: ClothData
    hold: StyleHold
    net_m2_per_pair: float
    cost_per_pair: float | None
    worst: PieceHold | ChainHold | None

    @property
    def holds(self) -> bool | None:
        """True when every limit is kept, False when one is broken, else None."""
        verdicts = [each.hold.holds for each in _limited(self.hold)]
        if not verdicts:
            return None
        return False if False in verdicts else None if None in verdicts else True


def compare(style: Style, cloths: Sequence[ClothData]) -> tuple[TriedCloth, ...]:
    """Try each cloth in place of the style's first cloth, for the same limits."""
    first = style.cloths[0]
    net = _net_m2_per_pair(style, first)
    found = []
    for cloth in cloths:
        hold = style_hold(in_place_of_first(style, cloth))
        worst = max(_limited(hold), key=lambda p: p.hold.high_mm / (p.hold.limit_mm or 1.0), default=None)
        price = (
            None if cloth.price_per_m is None else float(cloth.price_per_m) / (cloth.usable_width_mm / 1000)
        )
        cost = None if price is None else price * net
        found.append(TriedCloth(cloth, hold, net, cost, worst))
    return tuple(found)


def in_place_of_first(style: Style, cloth: ClothData) -> Style:
    """Return the style with another cloth in place of its first: layers that name it find the other."""
    placed = cloth.model_copy(update={"id": style.cloths[0].id})
    return style.model_copy(update={"cloths": (placed, *style.cloths[1:])})


def _limited(held: StyleHold) -> list[PieceHold | ChainHold]:
    return [each for each in held.judged if each.hold.limit_mm is not None]


def _net_m2_per_pair(style: Style, cloth: ClothData) -> float:
    """Area of the backing of a pair cut from a cloth, in the base size."""
    total = 0.0
    for piece in style.pieces:
        backings = piece_backings(style, piece.name, style.size_run.base, piece.hand) if piece.layers else ()
        for backing, layer in zip(backings, piece.layers, strict=True):
            if (layer.cloth or style.cloths[0].id) == cloth.id:
                total += 2 * piece.per_shoe * backing.area_mm2
    return total / 1e6
