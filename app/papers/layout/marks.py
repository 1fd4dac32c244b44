"""The small signs that papers share: notches, pull-axis arrows, dimension lines, check square."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from app.papers.formats.drawing import Drawing
from app.papers.layout import pens
from geometry.outline import rotation
from geometry.piece import Notch

_DEFAULT_WIDTH_MM = 3.0  # of a notch that has a shape but no stated width


def notch_lines(notch: Notch) -> list[NDArray[np.float64]]:
    """Return the lines of a notch, cut from the boundary inwards."""
    deep = notch.depth_mm
    half = (notch.width_mm or _DEFAULT_WIDTH_MM) / 2.0
    shapes: dict[str, list[list[tuple[float, float]]]] = {
        "slit": [[(0, 0), (deep, 0)]],
        "v": [[(0, -half), (deep, 0), (0, half)]],
        "t": [[(0, 0), (deep, 0)], [(deep, -half), (deep, half)]],
        "castle": [[(0, -half), (deep, -half), (deep, half), (0, half)]],
        "check": [[(0, -half), (deep, half), (0, half)]],
        "u": [[(0, -half), (deep * 0.7, -half), (deep, 0), (deep * 0.7, half), (0, half)]],
    }
    matrix = rotation(notch.angle_deg)
    return [np.array(line) @ matrix.T + (notch.x_mm, notch.y_mm) for line in shapes[notch.kind]]


def draw_axis(
    drawing: Drawing, x_mm: float, y_mm: float, axis_deg: float, length_mm: float, *, label: str = ""
) -> None:
    """Draw a pull axis: a line with a head at both ends, since the axis has no direction."""
    matrix = rotation(axis_deg)
    here = np.array([x_mm, y_mm])
    half, head = length_mm / 2.0, min(4.0, length_mm / 6.0)
    drawing.line(np.array([(-half, 0), (half, 0)]) @ matrix.T + here, pens.AXIS, "axis")
    for end in (-1.0, 1.0):
        barb = [(end * (half - head), head * 0.45), (end * half, 0), (end * (half - head), -head * 0.45)]
        drawing.line(np.array(barb) @ matrix.T + here, pens.HEAD, "axis")
    if label:
        x, y = np.array([0.0, 1.1]) @ matrix.T + here
        drawing.text(x, y, label, pens.TINY, anchor="middle", angle_deg=axis_deg, colour=pens.INK)


def draw_dimension(
    drawing: Drawing, start: NDArray[np.float64], end: NDArray[np.float64], lead: NDArray[np.float64]
) -> None:
    """Draw a short distance: ticks at both ends, and a leader from ``start`` to ``lead``."""
    along = end - start
    length = float(np.hypot(*along))
    drawing.line([lead, start, end] if length else [lead, start], pens.DIMENSION, "setback")
    if length:
        tick = np.array([-along[1] + along[0], along[0] + along[1]]) / length * 0.8
        for point in (start, end):
            drawing.line([point - tick, point + tick], pens.DIMENSION, "setback")


CHECK_BAND_MM = 1.6
"""Length of the ticks that end a checking length."""


def draw_check_square(drawing: Drawing, x_mm: float, y_mm: float) -> None:
    """Draw the 100 mm square by which a print is proved true; (x, y) is its lower left corner."""
    drawing.box((x_mm, y_mm, x_mm + 100.0, y_mm + 100.0), pens.CHECK, "check")
    for at in range(10, 100, 10):
        deep = 3.0 if at == 50 else 1.6
        drawing.line([(x_mm + at, y_mm), (x_mm + at, y_mm + deep)], pens.CHECK, "check")
        drawing.line([(x_mm, y_mm + at), (x_mm + deep, y_mm + at)], pens.CHECK, "check")
    drawing.text(x_mm + 5.0, y_mm + 8.2, "Check: this square is 100.0 mm each way.", pens.TINY, "check")
    drawing.text(
        x_mm + 5.0, y_mm + 5.0, "More than 0.5 mm off: do not use, print at 100 %.", pens.TINY, "check"
    )


def draw_check_lengths(drawing: Drawing, across_mm: tuple[float, float], up_mm: tuple[float, float]) -> None:
    """Draw a length of 100 mm across and one up, between ticks, where a sheet has no room for the square.

    Each is given by its lower left corner and takes CHECK_BAND_MM beside its line.
    """
    (x, y), half = across_mm, CHECK_BAND_MM / 2.0
    drawing.line([(x, y + half), (x + 100.0, y + half)], pens.HAIR, "check")
    for at in (x, x + 100.0):
        drawing.line([(at, y), (at, y + CHECK_BAND_MM)], pens.HAIR, "check")
    (x, y) = up_mm
    drawing.line([(x + half, y), (x + half, y + 100.0)], pens.HAIR, "check")
    for at in (y, y + 100.0):
        drawing.line([(x, at), (x + CHECK_BAND_MM, at)], pens.HAIR, "check")
