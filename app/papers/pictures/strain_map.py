"""A map of strain over the pieces: bands of one colour scale, lettered contour lines for a print in grey.

The scale runs dark blue to yellow, evenly in lightness, and keeps its order for every kind of colour vision
(in the manner of cividis: Nunez, Anderton and Renslow, PLOS ONE 2018; the steps from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from app.papers.formats.drawing import Colour, Drawing, Pen
from app.papers.layout import pens
from app.papers.pictures.strain_bands import SCALE, StrainArea, bands_of
from app.words import say
from geometry.stretch.field.answers import Field, FieldCase, largest_strain
from geometry.stretch.field.upper import FieldUpper

Array = NDArray[np.float64]

PREDICTED_COLOUR: Colour = (0.75, 0.10, 0.10)
UNDER = Pen(1.0, colour=pens.WHITE)
"""Beneath every line that must be seen on dark and light bands alike."""
CONTOUR = Pen(0.1, colour=pens.WHITE)
THROAT = Pen(0.45, (2.0, 1.2), pens.INK)
PREDICTED = Pen(0.6, colour=PREDICTED_COLOUR)
LAYER = Pen(0.25, (1.0, 0.8), pens.INK)
LAYER_UNDER = Pen(0.7, colour=pens.WHITE)
PEEL = Pen(1.3, colour=pens.INK)
PEEL_UNDER = Pen(2.2, colour=pens.WHITE)

ROOM_SIZES = 1.8
"""Two figures stand at least this many sizes of their lettering apart."""
LETTERED_MM = 15.0
"""A contour line shorter than this bears no figure."""


def steps_of(peak: float) -> tuple[float, ...]:
    """Return the bounds of the bands: round per cents from 0 to about the peak."""
    width = next(
        w for w in (0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 1.0) if w * len(SCALE) >= peak or w == 1
    )
    return tuple(width * k for k in range(len(SCALE) + 1))


def steps_over(cases: Sequence[FieldCase]) -> tuple[float, ...]:
    """Return bounds of one scale for several cases."""
    return steps_of(max(case.strains.peak_strain for case in cases))


@dataclass(frozen=True, eq=False)
class _Path:
    """A line at rest, (n, 2) mm, and where its points go."""

    points: Array
    moved: Array

    def at(self, times: float) -> Array:
        return self.points + times * self.moved


class StrainMap:
    """The map of one case, worked out once; drawn as often as wanted, deformed by any times."""

    def __init__(self, upper: FieldUpper, field: Field, case: FieldCase, bounds: tuple[float, ...]) -> None:
        mesh = field.mesh
        self.case = case
        self._mesh = mesh
        strains = largest_strain(case.strain)
        self._bands: list[tuple[Colour, list[_Path]]] = []
        self._contours: list[tuple[float, _Path]] = []
        for band in bands_of(mesh, field.zones, strains, bounds):
            self._take(band)
        rims = shapely.line_merge(shapely.multilinestrings(mesh.points_mm[field.rim.pairs]))
        self._rims = [self._path(shapely.get_coordinates(part)) for part in shapely.get_parts(rims)]
        self._layers = [
            self._path(shapely.get_coordinates(part))
            for edge in case.edges
            for part in shapely.get_parts(shapely.line_merge(shapely.multilinestrings(edge.points_mm)))
        ]
        self._peel = [
            [
                self._path(shapely.get_coordinates(part))
                for part in shapely.get_parts(shapely.line_merge(shapely.multilinestrings(place.stretch_mm)))
            ]
            for place in case.peel
        ]
        self._throat = self._throat_paths(upper)

    def draw(self, times: float = 1.0, *, letters_mm: float = pens.TINY) -> Drawing:
        """Return the map in mm, x along the pull, displacements drawn ``times`` as large as they are.

        The throat's reference is dashed, the predicted line full; edges of backing are dashed, its
        peel-prone stretches heavy and numbered as they are listed.
        """
        drawing = Drawing()
        for colour, rings in self._bands:
            drawing.fill([ring.at(times) for ring in rings], colour)
        for _, path in self._contours:
            drawing.line(path.at(times), CONTOUR, "marks")
        for pen in (LAYER_UNDER, LAYER):
            for path in self._layers:
                drawing.line(path.at(times), pen, "marks")
        for path in self._rims:
            drawing.line(path.at(times), pens.RULE, "upper")
        for pen in (PEEL_UNDER, PEEL):
            for paths in self._peel:
                for path in paths:
                    drawing.line(path.at(times), pen, "marks")
        if self._throat is not None:
            mark, predicted = self._throat
            for pen, line in ((UNDER, mark.points), (THROAT, mark.points)):
                drawing.line(line, pen, "marks")
            for pen in (UNDER, PREDICTED):
                drawing.line(predicted.at(times), pen, "marks")
        self._letter(drawing, times, letters_mm)
        return drawing

    def _letter(self, drawing: Drawing, times: float, size: float) -> None:
        """Number the peel-prone places; letter each contour once, where no other figure stands."""
        taken: list[Array] = []
        for number, paths in enumerate(self._peel, start=1):
            line = max(paths, key=_length).at(times)
            taken.append(line[len(line) // 2] + (0.0, 1.2 * size))
            _boxed(drawing, taken[-1], say("({0})", number), size, bold=True)
        for level in sorted({level for level, _ in self._contours}):
            longest = max((path for each, path in self._contours if each == level), key=_length)
            line = longest.at(times)
            at = line[len(line) // 2]
            clear = all(np.hypot(*(at - other)) > ROOM_SIZES * size for other in taken)
            if _length(longest) >= LETTERED_MM and clear:
                taken.append(at)
                _boxed(drawing, at, f"{100.0 * level:g}", size)

    def _take(self, band: StrainArea) -> None:
        rings = [self._path(ring) for ring in band.rings]
        self._bands.append((band.colour, rings))
        self._contours += [(band.low, self._path(line)) for line in band.lower_lines]

    def _path(self, points: Array) -> _Path:
        return _Path(points, self._mesh.at(self.case.moved_mm, points))

    def _throat_paths(self, upper: FieldUpper) -> tuple[_Path, _Path] | None:
        """The throat's mark across the piece, and where the model puts it."""
        if upper.throat_mm is None:
            return None
        heel, (x, y) = upper.throat_mm
        low, high = self._mesh.points_mm[:, 1].min(), self._mesh.points_mm[:, 1].max()
        across = shapely.LineString([(x, low - 1.0), (x, high + 1.0)])
        crossing = across.intersection(shapely.union_all([piece.region for piece in upper.pieces]))
        parts = [part for part in shapely.get_parts(crossing) if part.geom_type == "LineString"]
        if not parts:
            return None
        nearest = min(parts, key=lambda part: part.distance(shapely.Point(x, y)))
        mark = self._path(shapely.get_coordinates(shapely.segmentize(nearest, 2.0)))
        at_heel = self._mesh.at(self.case.moved_mm, np.array([heel]))[0] * (1.0, 0.0)
        return mark, _Path(mark.points, mark.moved - at_heel)


def draw_legend(
    drawing: Drawing,
    x_mm: float,
    y_mm: float,
    bounds: tuple[float, ...],
    *,
    wide_mm: float = 9.0,
    letters_mm: float = pens.TINY,
) -> None:
    """Draw the scale lying, its bounds in per cent below."""
    right = x_mm + len(SCALE) * wide_mm
    for k, colour in enumerate(SCALE):
        drawing.fill_box((x_mm + k * wide_mm, y_mm, x_mm + (k + 1) * wide_mm, y_mm + 4.0), colour)
    drawing.box((x_mm, y_mm, right, y_mm + 4.0), pens.HAIR, "frame")
    for k, bound in enumerate(bounds):
        text = f"{100.0 * bound:g}"
        x, y = x_mm + k * wide_mm, y_mm - 1.4 * letters_mm
        drawing.text(x, y, text, letters_mm, anchor="middle", colour=pens.INK)
    drawing.text(right + 4.0, y_mm + 0.8, "largest strain, %", 1.2 * letters_mm, colour=pens.INK)


def _boxed(drawing: Drawing, at: Array, text: str, size: float, *, bold: bool = False) -> None:
    x, y = float(at[0]), float(at[1])
    wide = 0.33 * size * (len(text) + 0.4)
    drawing.fill_box((x - wide, y - 0.5 * size, x + wide, y + 0.55 * size), pens.WHITE)
    drawing.text(x, y - 0.33 * size, text, size, anchor="middle", bold=bold, colour=pens.INK)


def _length(path: _Path) -> float:
    return float(np.hypot(*np.diff(path.points, axis=0).T).sum())
