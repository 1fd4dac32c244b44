"""Where the throat was found against where line and field had put it: the nearer to the slant, the better."""

from __future__ import annotations

import math

from app.papers.formats.drawing import Drawing, Pen
from app.papers.layout import pens
from app.workshop.two_predictions import PredictionComparison
from geometry.inch import MM_PER_INCH

_MARK_MM = 1.1
_LINE = Pen(0.3, colour=pens.INK)
_FIELD = Pen(0.3, colour=pens.TEAL)
_SLANT = Pen(0.25, (2.0, 1.2), pens.INK)
STEPS = (0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 1e9)


def draw_comparison(
    drawing: Drawing,
    found: PredictionComparison,
    x_mm: float,
    y_mm: float,
    side_mm: float,
    *,
    inches: bool = False,
) -> None:
    """Draw every trial twice: a ring by the line, a full square by the field; read with or without colour.

    (x, y) is the lower left corner of the plot without its lettering; predicted runs right, measured up.
    ``inches``: the scales count inches.
    """
    most = max(max(r.measured_mm, r.line_mm, r.field_mm) for r in found.readings)
    unit = MM_PER_INCH if inches else 1.0
    step = unit * next(s for s in STEPS if most / unit / s <= 6.0)
    top = step * max(1, math.ceil(most * 1.02 / step))

    def at(predicted: float, measured: float) -> tuple[float, float]:
        return x_mm + side_mm * predicted / top, y_mm + side_mm * measured / top

    drawing.line([at(0, 0), at(top, top)], _SLANT, "plot")
    drawing.line([at(0, top), at(0, 0), at(top, 0)], pens.RULE, "plot")
    for k in range(round(top / step) + 1):
        tx, ty = at(k * step, 0.0)
        drawing.line([(tx, ty), (tx, ty - 1.0)], pens.HAIR, "plot")
        drawing.text(tx, ty - 3.6, f"{k * step / unit:g}", pens.TINY, anchor="middle", colour=pens.INK)
        tx, ty = at(0.0, k * step)
        drawing.line([(tx - 1.0, ty), (tx, ty)], pens.HAIR, "plot")
        drawing.text(tx - 1.6, ty - 0.8, f"{k * step / unit:g}", pens.TINY, anchor="right", colour=pens.INK)
    for reading in found.readings:
        ends = [at(reading.line_mm, reading.measured_mm), at(reading.field_mm, reading.measured_mm)]
        drawing.line(ends, pens.HAIR, "plot")  # one trial
    for reading in found.readings:
        _ring(drawing, at(reading.line_mm, reading.measured_mm))
        _square(drawing, at(reading.field_mm, reading.measured_mm))
    high = y_mm + side_mm + 3.0
    _ring(drawing, (x_mm + 1.5, high + 0.8))
    drawing.text(x_mm + 4.0, high, "line", pens.TINY, colour=pens.INK)
    _square(drawing, (x_mm + 15.5, high + 0.8))
    drawing.text(x_mm + 18.0, high, "field", pens.TINY, colour=pens.INK)
    drawing.text(
        x_mm + side_mm,
        y_mm - 7.6,
        "predicted, in" if inches else "predicted, mm",
        pens.TINY,
        anchor="right",
        colour=pens.INK,
    )
    drawing.text(
        x_mm - 6.0, high + 4.2, "measured, in" if inches else "measured, mm", pens.TINY, colour=pens.INK
    )


def _ring(drawing: Drawing, at: tuple[float, float]) -> None:
    drawing.circle(at[0], at[1], _MARK_MM, _LINE, "plot")


def _square(drawing: Drawing, at: tuple[float, float]) -> None:
    x, y = at
    reach = 0.8 * _MARK_MM
    drawing.fill_box((x - reach, y - reach, x + reach, y + reach), pens.TEAL)
    drawing.box((x - reach, y - reach, x + reach, y + reach), _FIELD, "plot")
