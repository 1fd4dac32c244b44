"""Lengths as people read and type them: mm or inch on the screen, mm everywhere inside."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.measures import METRIC, YARD, Measures
from geometry.inch import MM_PER_INCH, MM_PER_YARD
from geometry.said import percent

MM2_PER_CM2 = 100.0
"""Exact."""


class Unit(StrEnum):
    """Unit of display."""

    MM = "mm"
    INCH = "in"


@dataclass
class Lengths:
    """How lengths are shown and read; ``decimal_point`` is '.' or ','."""

    unit: Unit = Unit.MM
    decimal_point: str = "."

    def number(self, value_mm: float, digits: int = 1) -> str:
        """Return a length without its unit; inches get a digit or two more."""
        if self.unit is Unit.INCH:
            text = f"{value_mm / MM_PER_INCH:.{digits + 2}f}"
        else:
            text = f"{value_mm:.{digits}f}"
        if float(text) == 0.0:
            text = text.lstrip("-")
        return text.replace(".", self.decimal_point)

    def text(self, value_mm: float, digits: int = 1) -> str:
        """Return a length with its unit."""
        return f"{self.number(value_mm, digits)} {self.unit.value}"

    def short(self, value_mm: float, digits: int = 1) -> str:
        """Return a length without its unit and without zeros at its end, as it would be typed."""
        text = self.number(value_mm, digits)
        point = self.decimal_point
        return text.rstrip("0").rstrip(point) if point in text else text

    def roll_text(self, length_mm: float) -> str:
        """Return a length of roll: metres, or yards where lengths are shown in inches."""
        unit, mm = ("yd", MM_PER_YARD) if self.unit is Unit.INCH else ("m", 1000.0)
        return f"{length_mm / mm:.3f} {unit}".replace(".", self.decimal_point)

    @property
    def measures(self) -> Measures:
        """How cloth is told beside these lengths: in metres, or in yards beside inches."""
        return YARD if self.unit is Unit.INCH else METRIC

    def area(self, mm2: float, digits: int = 1) -> str:
        """Return an area of a piece without its unit; square inches get a digit more."""
        inch = self.unit is Unit.INCH
        return self.decimal(mm2 / MM_PER_INCH**2 if inch else mm2 / MM2_PER_CM2, digits + inch)

    @property
    def area_unit(self) -> str:
        """The unit of ``area``."""
        return "in²" if self.unit is Unit.INCH else "cm²"

    def decimal(self, value: float, digits: int = 1) -> str:
        """Return a plain figure (degrees, say) with the decimal point of the language."""
        return f"{value:.{digits}f}".replace(".", self.decimal_point)

    def percent(self, share: float) -> str:
        """Return a share as a percentage."""
        return percent(share).replace(".", self.decimal_point)

    def read_mm(self, text: str) -> float | None:
        """Return the mm of a typed length: '12.5', '12,5', '0.5 in', '1/4"', '12 mm'; else None.

        Without a unit the unit of display is meant.
        """
        words = text.strip().lower().replace(",", ".")
        unit = self.unit
        for ending, meant in (("mm", Unit.MM), ("in", Unit.INCH), ('"', Unit.INCH)):
            if words.endswith(ending):
                words, unit = words[: -len(ending)].strip(), meant
                break
        value = read_number(words)
        if value is None:
            return None
        return value * MM_PER_INCH if unit is Unit.INCH else value


def read_number(text: str) -> float | None:
    """Return a number typed with point or comma, or as a fraction ('3/8', '1 1/4'); else None."""
    words = text.strip().replace(",", ".").split()
    try:
        total = 0.0
        for word in words:
            top, slash, bottom = word.partition("/")
            total += float(top) / float(bottom) if slash else float(top)
    except (ValueError, ZeroDivisionError):
        return None
    finite = total == total and abs(total) != float("inf")
    return total if words and finite and len(words) <= 2 else None
