"""Cloth told in metres or in yards; inside everything stays metric.

1 yd = 0.9144 m, 1 in = 25.4 mm and 1 ft2 = 0.09290304 m2 exactly (the international yard of 1959).
Lengths of cloth and its prices go by the metre or the yard, areas by m2 or ft2, widths by mm or inch.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from geometry.inch import MM_PER_INCH
from geometry.said import said
from nesting.planning.consumption import CENT

M_PER_YARD = Decimal("0.9144")
M2_PER_FT2 = 0.09290304  # exact

PRICE_STEP = Decimal("0.0001")

MM_OF = {
    "": 1.0,
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": MM_PER_INCH,
    '"': MM_PER_INCH,
    "inch": MM_PER_INCH,
}
"""The units a width may be typed in."""

KEPT_STEP = Decimal("0.000001")
"""A price typed for a yard is kept for a metre to this step."""


@dataclass(frozen=True)
class Measures:
    """One way of telling lengths, areas and widths; ``area_sign`` is the unit with a raised 2."""

    name: str
    length_unit: str
    length_word: str
    area_unit: str
    area_sign: str
    width_unit: str
    length_unit_m: Decimal
    area_unit_m2: float
    width_unit_mm: float

    def length(self, metres: float) -> float:
        """Return metres of cloth in this unit."""
        return metres / float(self.length_unit_m)

    def length_text(self, metres: float, digits: int = 4) -> str:
        """Return a length of cloth with its unit."""
        return f"{self.length(metres):.{digits}f} {self.length_unit}"

    def area(self, m2: float) -> float:
        """Return square metres in this unit."""
        return m2 / self.area_unit_m2

    def area_text(self, m2: float, digits: int = 4) -> str:
        """Return an area with its unit."""
        return f"{self.area(m2):.{digits}f} {self.area_sign}"

    def width(self, mm: float) -> float:
        """Return a width of roll in this unit."""
        return mm / self.width_unit_mm

    def width_text(self, mm: float) -> str:
        """Return a width of roll with its unit: whole mm, or inches to a hundredth."""
        return f"{round(self.width(mm), 2):g} {self.width_unit}"

    def price(self, per_metre: Decimal) -> Decimal:
        """Return a price of a metre as that of this unit, exact."""
        return per_metre * self.length_unit_m

    def price_per_metre(self, price: Decimal) -> Decimal:
        """Return a price typed for this unit as that of a metre: told again, it is the price typed."""
        per_metre = price / self.length_unit_m
        return price if per_metre == price else per_metre.quantize(KEPT_STEP, ROUND_HALF_UP)

    def price_text(self, per_metre: Decimal) -> str:
        """Return a price of a metre as that of this unit: in cents, to a hundredth of one at most."""
        price = self.price(per_metre)
        if price != per_metre:
            return str(price.quantize(PRICE_STEP, ROUND_HALF_UP))
        return str(price.quantize(CENT) if price == price.quantize(CENT) else price)


METRIC = Measures("metric", "m", "metre", "m2", "m²", "mm", Decimal(1), 1.0, 1.0)
YARD = Measures("yard", "yd", "yard", "ft2", "ft²", "in", M_PER_YARD, M2_PER_FT2, MM_PER_INCH)

MEASURES: Mapping[str, Measures] = {"metric": METRIC, "yard": YARD}


def typed_mm(text: str) -> float:
    """Return a width typed in mm or with its unit (44in, 1.4 m); raises ValueError when it is not one."""
    match = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|m|in|inch|\")?\s*", text)
    if match is None:
        raise ValueError(text)
    return float(match[1].replace(",", ".")) * MM_OF[match[2] or ""]


def counted(number: int, word: str) -> str:
    """Return a count with its word, in the plural where there are more or none: 1 ply, 2 plies, 0 faults."""
    if number == 1:
        return said(f"1 {word}")
    many = word[:-1] + "ies" if word == "ply" else word + "s"
    return said("{0} " + many, number)
