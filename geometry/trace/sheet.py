"""The sheet that cards are photographed on: square markers round its edge, each at a known place.

Markers of the open ArUco kind (Garrido-Jurado et al., Pattern Recognition 47, 2014), dictionary 5 x 5 of 100,
numbered from the lower left corner, counter-clockwise.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from geometry.errors import TraceError
from geometry.paper import paper_names, paper_of
from geometry.said import said

MARKER_MM = 14.0
"""Side of a marker: seven cells of 2 mm, at 12 megapixels over A3 ten pixels a cell."""

EDGE_MM = 8.0
"""From the sheet's edge to a marker: printers leave some 5 mm white."""

PITCH_MM = 28.0
"""About from marker to marker: cards may cover some, and enough are left."""


MOST_MARKERS = 96
"""The dictionary has a hundred; larger sheets set theirs further apart."""


@dataclass(frozen=True)
class Marker:
    """A marker by its number; ``corners_mm`` (4, 2) clockwise from its upper left, x right, y up."""

    number: int
    corners_mm: NDArray[np.float64]


@dataclass(frozen=True)
class TraceSheet:
    """A sheet of a size with its markers; cards lie inside ``field_mm`` (x0, y0, x1, y1)."""

    name: str
    width_mm: float
    height_mm: float
    markers: tuple[Marker, ...]

    @property
    def field_mm(self) -> tuple[float, float, float, float]:
        """Where cards may lie: inside the ring of markers."""
        rim = EDGE_MM + MARKER_MM + 3.0
        return rim, rim, self.width_mm - rim, self.height_mm - rim


def trace_sheet(name: str) -> TraceSheet:
    """Return a sheet by its name; raises TraceError for one that does not exist."""
    paper = paper_of(name)
    if paper is None:
        raise TraceError(said("there is no sheet {0}", name), remedy=said("take one of {0}", paper_names()))
    name, wide, high = paper.name, paper.height_mm, paper.width_mm  # it lies
    pitch = max(PITCH_MM, 2.0 * (wide + high) / MOST_MARKERS)
    across, up = (_places(length, pitch) for length in (wide, high))
    low = EDGE_MM
    places = [(x, low) for x in across]
    places += [(wide - EDGE_MM - MARKER_MM, y) for y in up[1:]]
    places += [(x, high - EDGE_MM - MARKER_MM) for x in reversed(across[:-1])]
    places += [(low, y) for y in reversed(up[1:-1])]
    return TraceSheet(name, wide, high, tuple(_marker(k, x, y) for k, (x, y) in enumerate(places)))


def _places(length_mm: float, pitch_mm: float) -> list[float]:
    """Lower ends of markers along a side, evenly, the outer ones at the ends."""
    room = length_mm - 2 * EDGE_MM - MARKER_MM
    count = max(2, round(room / pitch_mm) + 1)
    return [EDGE_MM + room * k / (count - 1) for k in range(count)]


def _marker(number: int, x: float, y: float) -> Marker:
    s = MARKER_MM
    return Marker(number, np.array([(x, y + s), (x + s, y + s), (x + s, y), (x, y)]))
