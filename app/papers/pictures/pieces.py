"""How a piece is drawn on paper: outlines by purpose, pull axis and name where they find room.

``scale`` shrinks the shape only; lettering and pens keep their size on the paper.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from app.papers.formats.drawing import Colour, Drawing, Pen
from app.papers.formats.lettering import CAP_HEIGHT, width_mm
from app.papers.layout import pens
from app.papers.layout.marks import draw_axis, notch_lines
from app.papers.layout.room import Spot, spot_inside
from geometry.backing.edges import edge_points
from geometry.outline import Outline, rotation
from geometry.piece import DrillHole, Edging, Lettering, Mark, Notch

LEADING = 1.22
"""Line distance over font size."""


@dataclass(frozen=True)
class NameLine:
    """A line of a name block."""

    text: str
    size_mm: float
    bold: bool = False
    colour: Colour = pens.INK


def scaled(outline: Outline, scale: float) -> Outline:
    """Return the outline shrunk about the origin."""
    return Outline.make(outline.ring_mm * scale, [hole * scale for hole in outline.holes_mm])


def draw_outline(
    drawing: Drawing, outline: Outline, pen: Pen, layer: str, *, fill: Colour | None = None
) -> None:
    """Draw all rings of an outline, holes first."""
    if fill is not None:
        drawing.fill(outline.rings_mm, fill)
    for ring in (*outline.holes_mm, outline.ring_mm):
        drawing.line(ring, pen, layer, closed=True)


def draw_edges(drawing: Drawing, outline: Outline, edging: Edging, layer: str) -> None:
    """Draw an outline edge by edge, each in the dashes of its kind."""
    for r, ring in enumerate(edging.edges):
        for k, edge in enumerate(ring):
            drawing.line(edge_points(outline, edging, r, k), pens.EDGE[edge.kind], layer)


def draw_details(
    drawing: Drawing,
    notches: Sequence[Notch],
    marks: Sequence[Mark] = (),
    drill_holes: Sequence[DrillHole] = (),
    letterings: Sequence[Lettering] = (),
    *,
    scale: float = 1.0,
) -> list[BaseGeometry]:
    """Draw notches, inner lines, drill holes and words; return what lettering must keep clear of.

    A slit is cut: it goes to the notches' layer.
    """
    taken: list[BaseGeometry] = []
    clear = max(scale, 0.25)
    for notch in notches:
        for line in notch_lines(notch):
            drawing.line(line * scale, pens.NOTCH, "notch")
            taken.append(shapely.LineString(line * scale).buffer(1.0 * clear))
    for mark in marks:
        points = np.asarray(mark.points_mm) * scale
        if len(points) > 1:
            cut = mark.kind == "slit"
            pen, layer = (pens.NOTCH, "notch") if cut else (pens.MARK, "mark")
            drawing.line(points, pen, layer, closed=mark.closed)
            taken.append(shapely.LineString(points).buffer(1.2 * clear))
    for hole in drill_holes:
        x, y, r = hole.x_mm * scale, hole.y_mm * scale, max(hole.diameter_mm * scale / 2.0, 0.5)
        drawing.circle(x, y, r, pens.NOTCH, "drill")
        drawing.line([(x - 2 * r, y), (x + 2 * r, y)], pens.HAIR, "mark")
        drawing.line([(x, y - 2 * r), (x, y + 2 * r)], pens.HAIR, "mark")
        taken.append(shapely.Point(x, y).buffer(2 * r + 0.8 * clear))
    for word in letterings:
        size_mm = word.height_mm / CAP_HEIGHT * scale
        x, y = word.x_mm * scale, word.y_mm * scale
        drawing.text(x, y, word.text, size_mm, angle_deg=word.angle_deg, colour=pens.INK)
        box = np.array([(0.0, -0.25), (1.0, -0.25), (1.0, 1.0), (0.0, 1.0)])
        box = box * (width_mm(word.text, size_mm), word.height_mm * scale)
        taken.append(Polygon(box @ rotation(word.angle_deg).T + (x, y)).buffer(0.8 * clear))
    return taken


def room_in(polygon: Polygon, taken: Sequence[BaseGeometry], margin_mm: float = 1.2) -> BaseGeometry:
    """Return where lettering may stand inside a shape."""
    return polygon.buffer(-margin_mm).difference(shapely.union_all(list(taken)))


def draw_axis_inside(
    drawing: Drawing, room: BaseGeometry, axis_deg: float, *, shortest_mm: float = 4.5, label: str = "pull"
) -> BaseGeometry | None:
    """Draw the pull axis as long as fits (at most 70 mm); return the room left, None if it has none."""
    upright = _upright(axis_deg)
    for length in (70.0, 55.0, 42.0, 32.0, 24.0, 17.0, 12.0, 8.0, 6.0, 4.5):
        if length < shortest_mm:
            return None
        height = 4.4 if length > 20.0 else 2.4 if length > 8.0 else 1.6
        spot = spot_inside(room, length + min(2.0, length / 6.0), height, [upright], smallest=1.0)
        if spot is not None:
            draw_axis(drawing, spot.x_mm, spot.y_mm, upright, length, label=label if length > 20.0 else "")
            return room.difference(_block(spot, length, 3.4, low=-1.0).buffer(0.8))
    return None


def _block(spot: Spot, width: float, high: float, *, low: float) -> Polygon:
    ring = np.array([(-width / 2, low), (width / 2, low), (width / 2, high), (-width / 2, high)])
    return Polygon(ring @ rotation(spot.angle_deg).T + (spot.x_mm, spot.y_mm))


def block_size_mm(words: Sequence[NameLine]) -> tuple[float, float]:
    """Return width and height of a name block."""
    wide = max(width_mm(w.text, w.size_mm, bold=w.bold) for w in words)
    return wide, sum(w.size_mm for w in words) * LEADING - words[0].size_mm * (LEADING - CAP_HEIGHT - 0.1)


def draw_words_inside(
    drawing: Drawing,
    room: BaseGeometry,
    words: Sequence[NameLine],
    angles_deg: Sequence[float],
    *,
    smallest_mm: float = pens.TINY * 0.9,
) -> BaseGeometry:
    """Letter a block where it fits inside, smaller where it must be; return the room left.

    With no room for all, the last lines are left out, one after the other: the name stays longest.
    """
    for count in range(len(words), 0, -1):
        some = words[:count]
        wide, high = block_size_mm(some)
        floor = max(0.45, smallest_mm / max(w.size_mm for w in some))
        spot = spot_inside(room, wide + 1.0, high + 1.0, angles_deg, smallest=floor)
        if spot is not None:
            draw_words(drawing, some, spot)
            half = high * spot.scale / 2.0
            return room.difference(_block(spot, wide * spot.scale, half, low=-half).buffer(1.5))
    return room


def draw_words(drawing: Drawing, words: Sequence[NameLine], spot: Spot) -> None:
    """Letter a block centred on a spot."""
    _, high = block_size_mm(words)
    matrix = rotation(spot.angle_deg)
    y = high / 2.0 - words[0].size_mm * (CAP_HEIGHT + 0.05)
    for number, word in enumerate(words):
        if number:
            y -= word.size_mm * LEADING
        x, dy = matrix @ np.array([0.0, y * spot.scale])
        drawing.text(
            spot.x_mm + x,
            spot.y_mm + dy,
            word.text,
            word.size_mm * spot.scale,
            anchor="middle",
            angle_deg=spot.angle_deg,
            bold=word.bold,
            colour=word.colour,
        )


def reading_angles(outline: Outline, axis_deg: float) -> list[float]:
    """Return angles for lettering on a piece: level, along its longest way, along its axis."""
    box = np.asarray(outline.polygon.minimum_rotated_rectangle.exterior.coords)
    sides = np.diff(box, axis=0)[:2]
    long = sides[int(np.hypot(*sides.T).argmax())]
    longest = _upright(float(np.degrees(np.arctan2(long[1], long[0]))))
    return list(dict.fromkeys([0.0, round(longest, 3), round(_upright(axis_deg), 3)]))


def _upright(angle_deg: float) -> float:
    """The same line, read from the left or from below."""
    return 90.0 - (90.0 - angle_deg) % 180.0
