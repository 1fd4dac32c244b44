"""What the plane model answers for an upper: one value per case, figures as ranges."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from geometry.stretch.field.mesh import FieldMesh, Rim
from geometry.stretch.field.peel import LayerEdge, PeelPlace

Array = NDArray[np.float64]
Case = Literal["alone", "backed", "turned"]
CASES: tuple[Case, ...] = ("alone", "backed", "turned")

PEAK_SHARE = 0.99
"""The largest strain is that of this share of the area: at corners of a plane model it has no limit."""

Range = tuple[float, float]


@dataclass(frozen=True)
class Motion:
    """How far throat, toe end and side edges move along the pull, mm; None where there is none drawn."""

    throat_mm: float | None
    vamp_mm: float
    side_mm: float | None


@dataclass(frozen=True)
class Strains:
    """Strains over the area, as shares of length (0.02 = 2 %).

    ``median_strain`` and ``peak_strain``: largest principal strain, the peak of PEAK_SHARE of the area;
    ``along_strain`` and ``across_strain``: along and across the pull, medians.
    """

    median_strain: float
    peak_strain: float
    along_strain: float
    across_strain: float


@dataclass(frozen=True, eq=False)
class FieldCase:
    """What one case gives: each figure a range (shear blocked or stiff end, to shear free and soft end).

    ``throat_mm`` None: no line from heel to throat is drawn; ``side_mm`` None: no side lasting edge.
    ``moved_mm`` (n, 2) and ``strain`` (m, 3) are those of the best estimates, shear free, and so are
    ``best``, ``large`` (large strain) and ``wrinkled`` (tension field: no direction can be pushed, the
    lower bound of what the sheets bear); the last two None where not asked, or, with ``unsettled`` naming
    them, where the method does not settle. ``compressed_share`` of the area is pushed.
    """

    case: Case
    throat_mm: Range | None
    vamp_mm: Range
    side_mm: Range | None
    best: Motion
    strains: Strains
    compressed_share: float
    moved_mm: Array
    strain: Array
    edges: tuple[LayerEdge, ...]
    peel: tuple[PeelPlace, ...]
    large: Motion | None = None
    wrinkled: Motion | None = None
    unsettled: tuple[str, ...] = ()


@dataclass(frozen=True, eq=False)
class Field:
    """An upper's mesh and its cases; ``zones`` (m,) number the triangles by the sheets that cover them.

    ``throat_change_share`` is the share by which the throat (without one the toe end) moved when the elements
    were halved the last time; None when nothing was compared.
    """

    mesh: FieldMesh
    rim: Rim
    zones: NDArray[np.int64]
    cases: tuple[FieldCase, ...]
    size_mm: float
    throat_change_share: float | None = None

    def case(self, name: Case) -> FieldCase:
        """Return a case by its name."""
        return next(each for each in self.cases if each.case == name)


def strains_over(strain: Array, areas_mm2: Array) -> Strains:
    """Return the strains over an area from (m, 3) strains of its triangles."""
    median, peak = _weighted(largest_strain(strain), areas_mm2, (0.5, PEAK_SHARE))
    (along,) = _weighted(strain[:, 0], areas_mm2, (0.5,))
    (across,) = _weighted(strain[:, 1], areas_mm2, (0.5,))
    return Strains(median, peak, along, across)


def largest_strain(strain: Array) -> Array:
    """Return (m,) largest principal strains of (m, 3) strains."""
    ex, ey, g = strain.T
    return np.asarray((ex + ey) / 2.0 + np.hypot((ex - ey) / 2.0, g / 2.0))


def span_of(values: Sequence[float | None]) -> Range | None:
    """Return the least and the largest of the values that are known; None where none is."""
    known = [value for value in values if value is not None]
    return (min(known), max(known)) if known else None


def _weighted(values: Array, weights: Array, shares: Sequence[float]) -> tuple[float, ...]:
    order = np.argsort(values)
    reached = np.cumsum(weights[order]) / weights.sum()
    places = [min(int(np.searchsorted(reached, share)), len(order) - 1) for share in shares]
    return tuple(float(values[order][place]) for place in places)
