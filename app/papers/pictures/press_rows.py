"""Pictures of rows on a press: the roll's width from left to right, its length downwards."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from app.papers.formats.drawing import Drawing
from app.papers.layout import pens
from app.papers.pictures.pieces import draw_axis_inside, room_in
from app.press.job import PressDie
from app.press.stacks import PressStack
from app.words import say
from geometry.outline import Outline
from nesting.press.rows import PressRows

SCALES = (1, 2, 2.5, 4, 5, 6, 7, 7.5, 8, 9, 10, 12.5, 15, 20)
HIGHEST_MM = 88.0
"""A picture is at most this high; what is longer goes on in another, or its rows repeat."""

SIDE_MM, TOP_MM = 15.0, 6.5
"""Room for the dimensions at the left and above."""

CUT = replace(pens.CUT, width_mm=0.18)


def rows_picture(die: PressDie, room_mm: float) -> tuple[Drawing, float, float, float]:
    """Return the picture, its height, the scale (one to this much) and the mm of cloth it shows.

    Of a strip too long for it the beginning is shown.
    """
    width, length = die.strip.roll.usable_width_mm, die.rows.length_mm
    ratio = _ratio(width, room_mm)
    shown = min(length, (HIGHEST_MM - TOP_MM) * ratio)
    high = shown / ratio
    cloth = _cloth(width, length, ratio)
    shapes = _Shapes(die.rows, _axis(die), ratio)
    for (x, y), half in zip(die.rows.corners_mm, die.rows.turned.tolist(), strict=True):
        if x < shown:
            cloth.place(shapes.of(half), y / ratio, -x / ratio)
    drawing = _windowed(cloth, 0.0, high, width / ratio)
    _dimensions(drawing, die.rows, ratio, high, shown)
    return drawing, high + TOP_MM, ratio, shown


def stack_pictures(
    stack: PressStack, dies: tuple[PressDie, ...], room_mm: float
) -> list[tuple[Drawing, float, float, float, float]]:
    """Return pictures of a whole stack, each with its height, scale, and where it begins and ends (mm)."""
    width, length = dies[0].strip.roll.usable_width_mm, stack.length_mm
    ratio = _ratio(width, room_mm)
    cloth = _cloth(width, length, ratio)
    shapes = [_Shapes(die.rows, _axis(die), ratio) for die in dies]
    for block in stack.blocks:
        for (x, y), half in zip(block.corners_mm, block.turned.tolist(), strict=True):
            cloth.place(shapes[block.die].of(half), y / ratio, -x / ratio)
    for number, block in enumerate(stack.blocks, 1):
        x, y = (
            block.corners_mm.min(axis=0) + block.corners_mm.max(axis=0) + dies[block.die].rows.size_mm
        ) / 2
        words = say("{0}: {1}", number, dies[block.die].name)
        cloth.text(
            y / ratio, -x / ratio - 0.8, words, pens.TINY, anchor="middle", bold=True, colour=pens.TEAL
        )
    part = (HIGHEST_MM - TOP_MM) * ratio
    count = max(1, math.ceil(length / part - 1e-9))
    done = []
    for number in range(count):
        begin, end = length * number / count, length * (number + 1) / count
        high = (end - begin) / ratio
        done.append((_windowed(cloth, begin / ratio, high, width / ratio), high + 1.0, ratio, begin, end))
    return done


class _Shapes:
    """The two ways up of a die, its box's near corner at the origin, each drawn once."""

    def __init__(self, rows: PressRows, axis_deg: float, ratio: float) -> None:
        self.rows, self.axis_deg, self.ratio = rows, axis_deg, ratio
        self.known: dict[bool, Drawing] = {}

    def of(self, half: bool) -> Drawing:
        """Return the die as it lies, half turned or not."""
        if half not in self.known:
            ring = np.asarray(self.rows.lattice.rings_mm[int(half)])
            paper = _on_paper(ring - ring.min(axis=0), self.ratio)
            drawing = Drawing()
            drawing.fill([paper], pens.PALE if half else pens.WHITE)
            drawing.line(paper, CUT, "cut", closed=True)
            room = room_in(Outline.make(paper).polygon, (), 0.3)
            draw_axis_inside(drawing, room, self.axis_deg - 90.0, label="")
            self.known[half] = drawing
        return self.known[half]


def _ratio(width_mm: float, room_mm: float) -> float:
    least = width_mm / (room_mm - SIDE_MM)
    return next((scale for scale in SCALES if scale >= least), math.ceil(least))


def _axis(die: PressDie) -> float:
    return float(die.document["placements"][0]["pull_axis_deg"])


def _on_paper(ring: NDArray[np.float64], ratio: float) -> NDArray[np.float64]:
    """Cloth to paper: across to the right, along downwards (a quarter turn, not a mirror image)."""
    return np.column_stack([ring[:, 1], -ring[:, 0]]) / ratio


def _cloth(width_mm: float, length_mm: float, ratio: float) -> Drawing:
    """The bare cloth, its start at y = 0, going down."""
    cloth = Drawing()
    box = (0.0, -length_mm / ratio, width_mm / ratio, 0.0)
    cloth.fill_box(box, pens.MIST)
    cloth.box(box, pens.ROLL, "roll-edge")
    return cloth


def _windowed(cloth: Drawing, begin: float, high: float, wide: float) -> Drawing:
    """A stretch of the cloth ``high`` mm of paper from ``begin`` on, its foot at y = 0."""
    drawing, pad = Drawing(), 0.4
    window = (SIDE_MM - pad, -pad, SIDE_MM + wide + pad, high + pad)
    drawing.place(cloth, SIDE_MM, high + begin, clip_mm=window)
    return drawing


def _dimensions(drawing: Drawing, rows: PressRows, ratio: float, high: float, shown: float) -> None:
    """Letter the step and the pitch beside the roll, from true places; ring the first place."""
    along = rows.runs == "along"
    first = rows.rows[0]
    same = [row for row in rows.rows if row.turned == first.turned]
    marks: list[tuple[bool, float, float, str]] = []  # downwards, from, to (mm of cloth), words
    start = first.x_mm if along else first.y_mm
    if first.places > 1:
        marks.append((along, start, start + rows.step_mm, say("step {0}", f"{rows.step_mm:.1f}")))
    if len(same) > 1:
        a, b = ((row.y_mm if along else row.x_mm) for row in same[:2])
        marks.append((not along, a, b, say("pitch {0}", f"{rows.pitch_mm:.1f}")))
    for down, a, b, words in marks:
        if not down or b <= shown:
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
