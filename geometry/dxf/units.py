"""Which unit a drawing is in, and how sure that is.

The file's own text comes first, then the header; a reader library's default is not an answer. What
is missing, contradictory or implausible is asked, with the size every choice would give.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from geometry import tolerances
from geometry.findings import Finding, Severity
from geometry.inch import MM_PER_INCH, MM_PER_YARD
from geometry.said import said

MM_PER: dict[str, float] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH}
"""The units that can be asked for; 1 in = 25.4 mm exactly."""

# $INSUNITS as in the open DXF reference; (name shown, mm). Only those a pattern can be drawn in.
_INSUNITS: dict[int, tuple[str, float]] = {
    1: ("in", MM_PER_INCH),
    2: ("ft", 304.8),
    4: ("mm", 1.0),
    5: ("cm", 10.0),
    6: ("m", 1000.0),
    8: ("microinch", 25.4e-6),
    9: ("mil", 0.0254),
    10: ("yd", MM_PER_YARD),
    12: ("nm", 1e-6),
    13: ("micron", 1e-3),
    14: ("dm", 100.0),
    21: ("ft", 304.8006096),
    22: ("in", 25.4000508),
}

_TEXT_UNIT = re.compile(r"^\s*UNITS?\s*[:=]\s*(\w+)", re.IGNORECASE)
_WORDS = {
    "metric": "mm",
    "mm": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "cm": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "centimetre": "cm",
    "centimetres": "cm",
    "m": "m",
    "english": "in",
    "imperial": "in",
    "inch": "in",
    "inches": "in",
    "in": "in",
}


@dataclass(frozen=True)
class UnitChoice:
    """A unit and the overall size, in mm, that the drawing would have in it."""

    unit: str
    width_mm: float
    height_mm: float


@dataclass(frozen=True)
class Stated:
    """What the file says: ``unit`` is empty where it says nothing usable."""

    unit: str
    mm: float
    source: str
    doubt: str = ""


def stated_unit(texts: Iterable[str], insunits: str | None, measurement: str | None) -> Stated:
    """Return what the file itself says about its unit."""
    header = _of_header(insunits, measurement)
    for text in texts:
        found = _TEXT_UNIT.match(text)
        if found and found.group(1).lower() in _WORDS:
            unit = _WORDS[found.group(1).lower()]
            doubt = ""
            if header.unit and header.unit != unit:
                doubt = f'the text says "{found.group(0).strip()}", the header says {header.unit}'
            return Stated(unit, MM_PER[unit], "text", doubt)
    return header


def _of_header(insunits: str | None, measurement: str | None) -> Stated:
    try:
        code = int(float(insunits)) if insunits else None
    except (ValueError, OverflowError):
        code = None
    if code is None:
        return Stated("", 0.0, "guess", "the file names no unit")
    if code == 0:
        return Stated("", 0.0, "guess", "the file says that it has no unit")
    if code not in _INSUNITS:
        return Stated("", 0.0, "guess", f"the file names a unit no pattern is drawn in ($INSUNITS {code})")
    unit, mm = _INSUNITS[code]
    doubt = ""
    if code == 6:
        doubt = "the file says metre, which many programs write without being asked"
    elif measurement in ("0", "1"):
        metric = measurement == "1"
        if metric != (unit not in ("in", "ft", "yd", "mil", "microinch")):
            says = "metric" if metric else "inch"
            doubt = f"the header contradicts itself: unit {unit}, but {says} measurement"
    return Stated(unit, mm, "header", doubt)


def plausible(largest_side_mm: float) -> bool:
    """Tell whether the largest piece can be one of a shoe upper."""
    low, high = tolerances.PLAUSIBLE_PIECE_MM
    return low <= largest_side_mm <= high


def settle(stated: Stated, largest_side: float, measurement: str | None) -> tuple[str, float, str, str]:
    """Return (unit, mm per unit, where from, what to ask - empty for nothing).

    ``largest_side`` is the longest side of the largest piece in drawing units. A stated unit is
    kept, even if it must be asked about; except the metre that would make a piece of many metres
    where millimetres make one of shoe size.
    """
    if stated.unit:
        size = largest_side * stated.mm
        if stated.unit == "m" and size > 5.0 * tolerances.PLAUSIBLE_PIECE_MM[1] and plausible(largest_side):
            return "mm", 1.0, "guess", stated.doubt
        doubt = stated.doubt
        if not doubt and largest_side > 0.0 and not plausible(size):
            doubt = f"the largest piece would be {size:.4g} mm long"
        return stated.unit, stated.mm, stated.source, doubt
    order = ("in", "mm", "cm", "m") if measurement == "0" else ("mm", "cm", "in", "m")
    for unit in order:
        if plausible(largest_side * MM_PER[unit]):
            return unit, MM_PER[unit], "guess", stated.doubt
    return "mm", 1.0, "guess", stated.doubt


def question(unit: str, doubt: str, choices: Iterable[UnitChoice]) -> Finding:
    """Return the finding that asks for the unit, with the size in mm of every choice."""
    sizes = ", ".join(f"{c.unit}: {c.width_mm:.4g} x {c.height_mm:.4g} mm" for c in choices)
    return Finding(
        code="UNIT",
        severity=Severity.QUESTION,
        message=said("{0}; the whole drawing would be {1}", doubt, sizes),
        done=said("read as {0}", unit),
        advice="state which unit is right (--unit)",
    )
