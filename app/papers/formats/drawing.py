"""A drawing in mm, y up, that knows no file format: what every paper is made of.

A paper draws once; ``pdf``, ``dxf``, ``hpgl`` and ``svg`` render the same drawing. Every mark
carries a layer, so that a machine can take the cut lines and leave the lettering.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from app.words import lettered

Points = NDArray[np.float64]
Colour = tuple[float, float, float]
Anchor = Literal["left", "middle", "right"]
Box = tuple[float, float, float, float]
"""(min x, min y, max x, max y) in mm."""


@dataclass(frozen=True)
class Pen:
    """How a line looks on paper: its width, its dashes (on, off, on, ...) and its colour."""

    width_mm: float
    dash_mm: tuple[float, ...] = ()
    colour: Colour = (0.0, 0.0, 0.0)


@dataclass(frozen=True, eq=False)
class Line:
    """A polyline; ``points_mm`` is (n, 2)."""

    points_mm: Points
    pen: Pen
    layer: str
    closed: bool = False


@dataclass(frozen=True, eq=False)
class Fill:
    """A filled area bounded by rings (even-odd), without a line; paper only."""

    rings_mm: tuple[Points, ...]
    colour: Colour


@dataclass(frozen=True)
class Circle:
    """A circle, drawn not filled."""

    x_mm: float
    y_mm: float
    radius_mm: float
    pen: Pen
    layer: str


@dataclass(frozen=True)
class Text:
    """One line of lettering; (x, y) is on the baseline, ``size_mm`` the font size (em)."""

    x_mm: float
    y_mm: float
    text: str
    size_mm: float
    layer: str
    anchor: Anchor = "left"
    angle_deg: float = 0.0
    bold: bool = False
    colour: Colour = (0.0, 0.0, 0.0)


@dataclass(frozen=True, eq=False)
class Place:
    """Another drawing, scaled, with its origin at (x, y); ``clip_mm`` is a window on the page.

    A drawing placed many times is stored once where the format can share it.
    """

    drawing: Drawing
    x_mm: float = 0.0
    y_mm: float = 0.0
    scale: float = 1.0
    clip_mm: Box | None = None


Mark = Line | Fill | Circle | Text | Place


@dataclass
class Drawing:
    """Marks in the order they are drawn."""

    marks: list[Mark] = field(default_factory=list)

    def line(self, points: ArrayLike, pen: Pen, layer: str, *, closed: bool = False) -> None:
        """Draw a polyline."""
        self.marks.append(Line(np.asarray(points, dtype=np.float64), pen, layer, closed))

    def box(self, box: Box, pen: Pen, layer: str) -> None:
        """Draw a rectangle."""
        x0, y0, x1, y1 = box
        self.line([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], pen, layer, closed=True)

    def fill(self, rings: Sequence[ArrayLike], colour: Colour) -> None:
        """Fill the area between rings."""
        self.marks.append(Fill(tuple(np.asarray(r, dtype=np.float64) for r in rings), colour))

    def fill_box(self, box: Box, colour: Colour) -> None:
        """Fill a rectangle."""
        x0, y0, x1, y1 = box
        self.fill([[(x0, y0), (x1, y0), (x1, y1), (x0, y1)]], colour)

    def circle(self, x_mm: float, y_mm: float, radius_mm: float, pen: Pen, layer: str) -> None:
        """Draw a circle."""
        self.marks.append(Circle(x_mm, y_mm, radius_mm, pen, layer))

    def text(
        self,
        x_mm: float,
        y_mm: float,
        text: str,
        size_mm: float,
        layer: str = "text",
        *,
        anchor: Anchor = "left",
        angle_deg: float = 0.0,
        bold: bool = False,
        colour: Colour = (0.0, 0.0, 0.0),
    ) -> None:
        """Letter one line, in the language of the paper."""
        self.marks.append(Text(x_mm, y_mm, lettered(text), size_mm, layer, anchor, angle_deg, bold, colour))

    def place(
        self,
        drawing: Drawing,
        x_mm: float = 0.0,
        y_mm: float = 0.0,
        *,
        scale: float = 1.0,
        clip_mm: Box | None = None,
    ) -> None:
        """Put another drawing on this one."""
        self.marks.append(Place(drawing, x_mm, y_mm, scale, clip_mm))

    def walk(self, x_mm: float = 0.0, y_mm: float = 0.0, scale: float = 1.0) -> Iterator[Mark]:
        """Yield every mark, placed drawings dissolved into theirs (windows are not cut out)."""
        here = np.array([x_mm, y_mm])
        for mark in self.marks:
            if isinstance(mark, Place):
                yield from mark.drawing.walk(
                    x_mm + mark.x_mm * scale, y_mm + mark.y_mm * scale, scale * mark.scale
                )
            elif isinstance(mark, Line):
                yield Line(mark.points_mm * scale + here, mark.pen, mark.layer, mark.closed)
            elif isinstance(mark, Fill):
                yield Fill(tuple(ring * scale + here for ring in mark.rings_mm), mark.colour)
            elif isinstance(mark, Circle):
                x, y = mark.x_mm * scale + x_mm, mark.y_mm * scale + y_mm
                yield Circle(x, y, mark.radius_mm * scale, mark.pen, mark.layer)
            else:
                yield Text(
                    mark.x_mm * scale + x_mm,
                    mark.y_mm * scale + y_mm,
                    mark.text,
                    mark.size_mm * scale,
                    mark.layer,
                    mark.anchor,
                    mark.angle_deg,
                    mark.bold,
                    mark.colour,
                )

    def bounds_mm(self) -> Box:
        """Return the extent of lines, fills and circles (lettering not counted); zeros if none."""
        low, high = np.full(2, np.inf), np.full(2, -np.inf)
        for mark in self.walk():
            if isinstance(mark, Line):
                spans = [mark.points_mm]
            elif isinstance(mark, Fill):
                spans = list(mark.rings_mm)
            elif isinstance(mark, Circle):
                r = mark.radius_mm
                spans = [np.array([(mark.x_mm - r, mark.y_mm - r), (mark.x_mm + r, mark.y_mm + r)])]
            else:
                continue
            for points in spans:
                low = np.minimum(low, points.min(axis=0))
                high = np.maximum(high, points.max(axis=0))
        if not np.isfinite(low).all():
            return 0.0, 0.0, 0.0, 0.0
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])


@dataclass(frozen=True, eq=False)
class Page:
    """A sheet of paper: (0, 0) is its lower left corner."""

    width_mm: float
    height_mm: float
    drawing: Drawing
