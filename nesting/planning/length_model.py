"""How long a lay will be before it is nested: affine in its sets, fitted to nested lays.

The number of pairs in a lay changes its length non-linearly (M'Hallah & Bouziri 2016, ITOR 23,
from the abstract: a length must not be assumed), so this only steers the search for lays; every
lay of a plan is nested afterwards, and what nesting says is fed back here.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

FIRST_YIELD = 0.78
"""Yield assumed of a long lay until one has been nested: what backing pieces of a hundred and more
reach in our own benchmarks (docs/benchmarks.md); only the first guess depends on it."""

FIRST_START_MM = 40.0
"""Ragged ends assumed until a lay has been nested, a fraction of a piece's length."""


WORTH_SHARE = 0.5
"""A lay of less than this share of the best yield seen tells how little time its search had, not how much
cloth its pieces take: one such lay made a set of 0.4 m look 6 m long."""

PRIOR_WEIGHT = 0.3
"""Weight of the first guess of the start against a nested lay's 1."""


@dataclass(frozen=True)
class LengthModel:
    """``start_mm + sum(sets * area_mm2) / (usable_width_mm * packing)``.

    ``area_mm2`` is the net area of one set of each size. ``seen`` are nested lays: (net area in
    mm2, length in mm).
    """

    usable_width_mm: float
    area_mm2: dict[str, float]
    seen: tuple[tuple[float, float], ...] = field(default=())

    def with_lay(self, net_area_mm2: float, length_mm: float) -> LengthModel:
        """Return the model after a lay of that area was nested to that length."""
        return LengthModel(self.usable_width_mm, self.area_mm2, (*self.seen, (net_area_mm2, length_mm)))

    @property
    def start_and_packing(self) -> tuple[float, float]:
        """The fitted start in mm and packing (0..1].

        Least squares on what was nested, the start drawn towards the first guess with a small
        weight, so that a single lay or several of one size cannot tilt the line.
        """
        if not self.seen:
            return FIRST_START_MM, FIRST_YIELD
        bare_mm = np.array([area / self.usable_width_mm for area, _ in self.seen])
        long_mm = np.array([length for _, length in self.seen])
        tells = bare_mm / long_mm >= WORTH_SHARE * (bare_mm / long_mm).max()
        bare_mm, long_mm = bare_mm[tells], long_mm[tells]
        rows = np.vstack([np.column_stack([np.ones_like(bare_mm), bare_mm]), [PRIOR_WEIGHT, 0.0]])
        right = np.append(long_mm, PRIOR_WEIGHT * FIRST_START_MM)
        start, slope = np.linalg.lstsq(rows, right, rcond=None)[0]
        if start < 0.0 or slope < 1.0:
            start, slope = 0.0, max(1.0, float((long_mm / bare_mm).mean()))
        return float(start), float(1.0 / slope)

    @property
    def start_mm(self) -> float:
        """Length that a lay takes besides its sets."""
        return self.start_and_packing[0]

    def per_set_mm(self) -> dict[str, float]:
        """Length that one set of each size adds."""
        packing = self.start_and_packing[1]
        return {size: area / (self.usable_width_mm * packing) for size, area in self.area_mm2.items()}

    def bare_mm(self) -> dict[str, float]:
        """Length per set if cloth were used up entirely: no lay can be shorter."""
        return {size: area / self.usable_width_mm for size, area in self.area_mm2.items()}
