"""A remnant of any outline as a roll: what of its box is not cloth counts as flaws."""

from __future__ import annotations

import numpy as np
from shapely.geometry import Polygon, box

from geometry.outline import Outline
from nesting.errors import ProblemError
from nesting.roll import Flaw, Roll

SPECK_MM2 = 1e-6
"""Slivers of this area and less between a remnant and its box are rounding, not missing cloth."""


def remnant_roll(outline: Outline, tight_direction_deg: float, margin_mm: float = 0.0) -> Roll:
    """Return the roll that a remnant is: its box, with the rest of the box and its holes as flaws.

    ``outline`` lies as the cloth lay on its roll: x along it. The lay may not be longer than the
    remnant. The flaws reach ``margin_mm`` into the cloth, so that slanted edges and holes keep the
    margin which the roll's edges and ends keep by themselves. Raises ProblemError when the
    outline crosses itself.
    """
    if not outline.polygon.is_valid:
        raise ProblemError("the remnant's outline crosses itself", remedy="draw it again")
    x0, y0, x1, y1 = outline.bbox_mm
    cloth = outline.moved(-x0, -y0).polygon
    whole = box(0.0, 0.0, x1 - x0, y1 - y0)
    rest = whole.difference(Polygon(cloth.exterior))
    parts = [*getattr(rest, "geoms", [rest]), *(Polygon(hole) for hole in cloth.interiors)]
    grown = [
        part.buffer(margin_mm, join_style="mitre").intersection(whole) if margin_mm else part
        for part in parts
        if isinstance(part, Polygon) and part.area > SPECK_MM2
    ]
    flaws = tuple(
        Flaw(np.asarray(part.exterior.coords)[:-1], "not cloth")
        for flaw in grown
        for part in getattr(flaw, "geoms", [flaw])
        if isinstance(part, Polygon)
    )
    return Roll(
        usable_width_mm=y1 - y0,
        tight_direction_deg=tight_direction_deg,
        length_mm=x1 - x0,
        flaws=flaws,
    )
