"""Picture of a die's rows: the roll's width from left to right, its length downwards, figures beside it."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from app.papers import pens
from app.papers.drawing import Drawing
from app.papers.piece_art import draw_axis_inside, room_in
from app.press_job import PressDie
from geometry.outline import Outline
from nesting.lay_document import document_of

SCALES = (1, 2, 2.5, 4, 5, 6, 7, 7.5, 8, 9, 10, 12.5, 15, 20)
HIGHEST_MM = 88.0
"""A picture is at most this high; of a longer strip the beginning is shown, its rows repeat."""

SIDE_MM, TOP_MM = 15.0, 6.5
"""Room for the dimensions at the left and above."""

CUT = replace(pens.CUT, width_mm=0.18)


def rows_picture(die: PressDie, room_mm: float) -> tuple[Drawing, float, float, float]:
    """Return the picture, its height, the scale (one to so much) and the mm of cloth it shows."""
    document = document_of(die.document)
    width, length = document.roll.usable_width_mm, document.length_mm
    ratio = next(
        (s for s in SCALES if width / s <= room_mm - SIDE_MM), math.ceil(width / (room_mm - SIDE_MM))
    )
    shown = min(length, (HIGHEST_MM - TOP_MM) * ratio)
    high = shown / ratio
    cloth = Drawing()
    cloth.fill_box((0.0, 0.0, width / ratio, high), pens.MIST)
    shapes: dict[bool, Drawing] = {}
    turned = die.rows.turned[np.lexsort((die.rows.corners_mm[:, 1], die.rows.corners_mm[:, 0]))]
    order = sorted(document.placements, key=lambda at: tuple(at.ring.min(axis=0).round(3)))
    for at, half in zip(order, turned.tolist(), strict=True):
        x, y = at.ring.min(axis=0)
        if half not in shapes:
            shapes[half] = _shape([at.ring - (x, y), *(hole - (x, y) for hole in at.holes)], half, ratio)
            room = room_in(Outline.make(_on_paper(at.ring - (x, y), ratio)).polygon, (), 0.3)
            draw_axis_inside(shapes[half], room, (at.pull_axis_deg or 0.0) - 90.0, label="")
        if x < shown:
            cloth.place(shapes[half], y / ratio, high - x / ratio)
    cloth.box((0.0, high - length / ratio, width / ratio, high), pens.ROLL, "roll-edge")
    drawing = Drawing()
    pad = 0.4
    window = (SIDE_MM - pad, -pad, SIDE_MM + width / ratio + pad, high + pad)
    drawing.place(cloth, SIDE_MM, 0.0, clip_mm=window)
    _dimensions(drawing, die, ratio, high, shown)
    return drawing, high + TOP_MM, ratio, shown


def _on_paper(ring: NDArray[np.float64], ratio: float) -> NDArray[np.float64]:
    """Cloth to paper: across to the right, along downwards (a quarter turn, not a mirror image)."""
    return np.column_stack([ring[:, 1], -ring[:, 0]]) / ratio


def _shape(rings: list[NDArray[np.float64]], half: bool, ratio: float) -> Drawing:
    drawing = Drawing()
    paper = [_on_paper(ring, ratio) for ring in rings]
    drawing.fill(paper, pens.PALE if half else pens.WHITE)
    for ring in paper:
        drawing.line(ring, CUT, "cut", closed=True)
    return drawing


def _dimensions(drawing: Drawing, die: PressDie, ratio: float, high: float, shown: float) -> None:
    """Letter the first row's place, the step and the pitch beside the roll, from true places."""
    rows, along = die.rows, die.rows.runs == "along"
    first = rows.rows[0]
    same = [row for row in rows.rows if row.turned == first.turned]
    marks: list[tuple[bool, float, float, str]] = []  # downwards, from, to (mm of cloth), words
    start = first.x_mm if along else first.y_mm
    if first.places > 1:
        marks.append((along, start, start + rows.step_mm, f"step {rows.step_mm:.1f}"))
    if len(same) > 1:
        a, b = ((row.y_mm if along else row.x_mm) for row in same[:2])
        marks.append((not along, a, b, f"pitch {rows.pitch_mm:.1f}"))
    for down, a, b, words in marks:
        if down and b > shown:
            continue
        _dimension(drawing, down, a / ratio, b / ratio, high, words)
    drawing.circle(SIDE_MM + first.y_mm / ratio, high - first.x_mm / ratio, 0.9, pens.RULE, "frame")


def _dimension(drawing: Drawing, down: bool, a: float, b: float, high: float, words: str) -> None:
    """A line with ticks between two stops, left of the roll or above it."""
    if down:
        x = SIDE_MM - 2.5
        drawing.line([(x, high - a), (x, high - b)], pens.DIMENSION, "frame")
        for y in (high - a, high - b):
            drawing.line([(x - 1.0, y), (x + 2.0, y)], pens.DIMENSION, "frame")
        y = high - (a + b) / 2.0
        drawing.text(x - 1.2, y, words, pens.TINY, anchor="middle", angle_deg=90.0, colour=pens.INK)
        return
    y = high + 2.0
    drawing.line([(SIDE_MM + a, y), (SIDE_MM + b, y)], pens.DIMENSION, "frame")
    for x in (SIDE_MM + a, SIDE_MM + b):
        drawing.line([(x, y - 1.6), (x, y + 1.0)], pens.DIMENSION, "frame")
    drawing.text(SIDE_MM + (a + b) / 2.0, y + 1.0, words, pens.TINY, anchor="middle", colour=pens.INK)
