"""Upper and backing overlaid, at any scale: the picture that boards and reinforcement sheet share."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shapely.geometry.base import BaseGeometry

from app.papers.formats.drawing import Drawing
from app.papers.layout import pens
from app.papers.pictures.pieces import (
    NameLine,
    draw_axis_inside,
    draw_details,
    draw_edges,
    draw_outline,
    draw_words_inside,
    reading_angles,
    room_in,
    scaled,
)
from app.papers.pictures.setbacks import draw_setbacks
from geometry.outline import Outline
from geometry.piece import BackingPiece, UpperPiece


def draw_overlay(
    drawing: Drawing,
    upper: UpperPiece,
    backing: BackingPiece | None,
    words: Sequence[NameLine],
    *,
    scale: float = 1.0,
) -> None:
    """Draw an upper with its edges by kind, its backing on it, its name and every setback."""
    outline = scaled(upper.outline, scale)
    parts = [scaled(part, scale) for part in (backing.outlines if backing else ())]
    for part in parts:
        drawing.fill(part.rings_mm, pens.PALE)
    draw_edges(drawing, outline, upper.edging, "both")
    pen = pens.BACKING if scale == 1.0 else replace(pens.BACKING, width_mm=0.4)
    for part in parts:
        draw_outline(drawing, part, pen, "both")
    taken: list[BaseGeometry] = []
    for each in (upper, backing) if backing is not None else (upper,):
        taken += draw_details(
            drawing, each.notches, each.marks, each.drill_holes, each.letterings, scale=scale
        )
    largest = max(parts, key=lambda part: part.area_mm2, default=outline)
    if backing is not None:
        size_mm = pens.SMALL if scale == 1.0 else pens.TINY
        taken += draw_setbacks(drawing, backing, scale=scale, size_mm=size_mm)
    letter(drawing, largest, upper.pull_axis.axis_deg, words, taken)


def letter(
    drawing: Drawing, outline: Outline, axis_deg: float, words: Sequence[NameLine], taken: list[BaseGeometry]
) -> None:
    """Letter a piece and draw its pull axis: the words in the middle, unless the axis needs it."""
    room = room_in(outline.polygon, taken)
    angles = reading_angles(outline, axis_deg)
    lettered, axis = Drawing(), Drawing()
    rest = draw_words_inside(lettered, room, words, angles)
    if draw_axis_inside(axis, rest, axis_deg, shortest_mm=24.0) is None:
        lettered, axis = Drawing(), Drawing()
        left = draw_axis_inside(axis, room, axis_deg)
        if left is None:  # the axis is told even where it must cross inner lines
            draw_axis_inside(axis, room_in(outline.polygon, [], 0.3), axis_deg)
        draw_words_inside(lettered, room if left is None else left, words, angles)
    drawing.marks += axis.marks + lettered.marks
