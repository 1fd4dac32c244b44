"""Families of dies: one shape in its sizes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon

from nesting.dies.die import Die

ALIKE = 0.05
"""Shapes stretched to a unit box that stay this close are sizes of one family."""


@dataclass(frozen=True, eq=False)
class Family:
    """Indices of dies, smallest first: one shape in its sizes."""

    dies: tuple[int, ...]


def families_of(dies: tuple[Die, ...]) -> tuple[Family, ...]:
    """Return the families, largest piece first."""
    unit = [Polygon(d.rings_mm[0] / np.ptp(d.rings_mm[0], axis=0)) for d in dies]
    order = sorted(range(len(dies)), key=lambda k: -dies[k].area_mm2)
    found: list[list[int]] = []
    for k in order:
        for family in found:
            first = family[0]
            if (
                len(dies[k].rings_mm) == len(dies[first].rings_mm)
                and dies[first].area_mm2 < 2.5 * dies[k].area_mm2
                and shapely.hausdorff_distance(unit[k].exterior, unit[first].exterior) < ALIKE
            ):
                family.append(k)
                break
        else:
            found.append([k])
    return tuple(Family(tuple(reversed(f))) for f in found)


def at_rank(dies: tuple[Die, ...], family: Family, rank: float) -> int:
    """Return the die that holds place ``rank`` (0..1) of the family's demand, in order of size."""
    total = sum(dies[k].demand for k in family.dies)
    seen = 0
    for k in family.dies:
        seen += dies[k].demand
        if seen >= rank * total:
            return k
    return family.dies[-1]
