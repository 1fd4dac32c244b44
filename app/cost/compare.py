"""Roll widths compared for costing: one result per width, its money following the price at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from app.cost.cloths import HoldVerdict
from app.cost.money import with_money
from app.cost.per_pair import Width, roll_width
from app.hold.verdicts import hold_depends_on
from app.style.model import ClothData, Style
from nesting.planning.consumption import PER_PAIR, money

COMMON_WIDTHS_MM = (1200.0, 1400.0, 1500.0, 1066.8, 1117.6)
"""1.20, 1.40 and 1.50 m, 42 and 44 inch: the widths that backing cloth is sold in (common
practice, no source; the inches are exact)."""


@dataclass(frozen=True)
class ComparedWidth:
    """A width nested and counted: ``cost`` is the object of the cost command for it alone."""

    width: Width
    cost: Mapping[str, Any]

    @property
    def row(self) -> Mapping[str, Any]:
        """The width's figures: yield, utilisation, metres and m2 per pair."""
        return self.cost["widths"][0]

    @property
    def shares(self) -> Mapping[str, float]:
        """Where the cloth paid for goes; adds up to 1."""
        return self.cost["cloths"][0]["shares"]

    @property
    def cost_per_pair(self) -> Decimal | None:
        """Cost of an average pair at the width's price."""
        return self._money(self.row["metres_per_pair"])

    def cost_of(self, size: Mapping[str, Any]) -> Decimal | None:
        """Cost of a pair of one size, given its entry of ``per_pair``."""
        return self._money(size["metres"])

    def priced(self, price_per_m: Decimal | None) -> ComparedWidth:
        """Return the same figures at another price."""
        return replace(self, width=replace(self.width, price_per_m=price_per_m))

    def paper(self) -> dict[str, Any]:
        """Return the cost object with this price in every figure, as the paper takes it."""
        told = None if self.width.price_per_m is None else str(self.width.price_per_m)
        first, *others = self.cost["cloths"]
        return with_money(
            {
                **self.cost,
                "cloths": [{**first, "price_per_m": told}, *others],
                "widths": [{**self.row, "price_per_m": told}],
            }
        )

    def _money(self, metres: float) -> Decimal | None:
        price = self.width.price_per_m
        return None if price is None else money(metres, price).quantize(PER_PAIR, ROUND_HALF_UP)


def style_on_width(style: Style, cloth_id: str, width: Width) -> Style:
    """Return the style with one cloth lying in another roll width."""
    cloths = tuple(
        cloth.model_copy(
            update={
                "width_mm": width.width_mm,
                "usable_width_mm": width.usable_width_mm,
                "price_per_m": width.price_per_m,
                "flaws": (),
            }
        )
        if cloth.id == cloth_id
        else cloth
        for cloth in style.cloths
    )
    return style.model_copy(update={"cloths": cloths})


def priced(style: Style, prices: Mapping[str, Decimal | None]) -> Style:
    """Return the style with other prices of a metre for some of its cloths, by id."""
    cloths = tuple(
        cloth.model_copy(update={"price_per_m": prices[cloth.id]}) if cloth.id in prices else cloth
        for cloth in style.cloths
    )
    return style.model_copy(update={"cloths": cloths}) if prices else style


def widths_to_compare(cloth: ClothData) -> tuple[Width, ...]:
    """Return the cloth's own width first, then the common ones, narrowest first."""
    own = Width(cloth.width_mm, cloth.usable_width_mm, cloth.price_per_m)
    others = sorted(w for w in COMMON_WIDTHS_MM if abs(w - cloth.width_mm) > 0.05)
    selvedge = cloth.width_mm - cloth.usable_width_mm
    return (own, *(roll_width(cloth, width) for width in others if width > selvedge + 100.0))


def cloth_row(cloth: ClothData, compared: ComparedWidth, verdict: HoldVerdict) -> dict[str, Any]:
    """Return a cloth counted on its own width as a line of ``by_cloth``."""
    return {
        "cloth": cloth.id,
        "name": cloth.name,
        "currency": cloth.currency,
        "own_width": True,
        **compared.paper()["widths"][0],
        "holds": verdict.holds,
        "hold": str(verdict),
        "hold_piece": verdict.piece,
        "hold_why": verdict.why,
    }


def merged(
    results: Mapping[float, ComparedWidth],
    own_mm: float,
    by_cloth: Sequence[Mapping[str, Any]] = (),
    sensitivity: Mapping[str, Any] | None = None,
) -> dict[str, Any]:
    """Return one cost object: the own width's figures with all widths beside, for the paper.

    ``by_cloth`` and ``sensitivity`` are put beside them where there are any.
    """
    first = results.get(own_mm) or next(iter(results.values()))
    paper = first.paper()
    paper["widths"] = [results[width].paper()["widths"][0] for width in sorted(results)]
    if by_cloth:
        paper["by_cloth"] = list(by_cloth)
    if sensitivity is not None:
        paper["sensitivity"] = sensitivity
    return with_money(paper)


def cost_depends_on(style: Style) -> tuple[object, ...]:
    """Return what of a style its costing depends on: not its notes, nor the lays kept with it."""
    return (*hold_depends_on(style), style.order)
