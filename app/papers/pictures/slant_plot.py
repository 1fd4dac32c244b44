"""What a slant of the backing costs: give of a hold line against the angle off its place."""

from __future__ import annotations

import numpy as np

from app.hold.chain import ChainHold
from app.hold.verdicts import PieceHold, span
from app.papers.formats.drawing import Anchor, Drawing, Pen
from app.papers.layout import pens
from geometry.inch import MM_PER_INCH
from geometry.said import said

_LINE = Pen(0.45, colour=pens.TEAL)
_HERE = Pen(1.4, colour=pens.INK)
_LIMIT = Pen(0.35, (3.0, 1.2), pens.INK)
_GRANTED = Pen(0.25, colour=pens.INK)
STEPS = (0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 1e9)
ANGLES = np.array([0, 2, 4, 6, 8, 10, 12.5, 15, 20, 25, 30, 37.5, 45, 52.5, 60, 70, 80, 90])


def draw_slant(
    drawing: Drawing,
    piece: PieceHold | ChainHold,
    x_mm: float,
    y_mm: float,
    width_mm: float,
    height_mm: float,
    *,
    turned_deg: float = 0.0,
    inches: bool = False,
) -> None:
    """Draw the range of a piece or chain against 0 to 90 degrees, its limit, and the turn that keeps it.

    (x, y) is the lower left corner of the plot without its lettering. ``turned_deg`` is marked where
    it is not zero. ``inches``: the scale counts inches.
    """
    holds = [piece.turned(float(angle)) for angle in ANGLES]
    top = max(*(h.high_mm for h in holds), piece.hold.upper_mm, piece.hold.limit_mm or 0.0) * 1.08

    def at(angle: float, mm: float) -> tuple[float, float]:
        return x_mm + width_mm * angle / 90.0, y_mm + height_mm * mm / top

    low = [at(a, h.low_mm) for a, h in zip(ANGLES, holds, strict=True)]
    high = [at(a, h.high_mm) for a, h in zip(ANGLES, holds, strict=True)]
    drawing.fill([[*low, *reversed(high)]], pens.PALE)
    drawing.line(low, _LINE, "plot")
    drawing.line(high, _LINE, "plot")
    drawing.line([at(0, 0), at(90, 0)], pens.RULE, "plot")
    drawing.line([at(0, 0), at(0, top)], pens.RULE, "plot")
    unit = MM_PER_INCH if inches else 1.0
    step = next(s for s in STEPS if top / unit / s <= 8)
    for k in range(int(top / unit / step) + 1):
        tx, ty = at(0, k * step * unit)
        drawing.line([(tx - 1.0, ty), (tx, ty)], pens.HAIR, "plot")
        drawing.text(tx - 1.5, ty - 0.8, f"{k * step:g}", pens.TINY, anchor="right", colour=pens.INK)
    for angle in (0, 15, 30, 45, 60, 75, 90):
        tx, ty = at(angle, 0)
        drawing.line([(tx, ty), (tx, ty - 1.0)], pens.HAIR, "plot")
        drawing.text(tx, ty - 3.6, f"{angle}", pens.TINY, anchor="middle", colour=pens.INK)
    tx, ty = at(90, piece.hold.upper_mm)
    drawing.line([at(0, piece.hold.upper_mm), (tx, ty)], pens.HAIR, "plot")
    drawing.text(tx, ty + 0.7, "upper alone", pens.TINY, anchor="right", colour=pens.GREY)
    if piece.hold.limit_mm is not None:
        drawing.line([at(0, piece.hold.limit_mm), at(90, piece.hold.limit_mm)], _LIMIT, "plot")
        limit = piece.hold.limit_mm

        def clear(k: int) -> float:
            """How far the band keeps from the limit's lettering at an angle."""
            return min(abs(h - limit + 0.04 * top) for h in (holds[k].low_mm, holds[k].high_mm))

        places: tuple[tuple[int, Anchor], ...] = ((len(ANGLES) - 1, "right"), (12, "middle"), (0, "left"))
        k, anchor = max(places, key=lambda place: clear(place[0]))
        tx, ty = at(float(ANGLES[k]), limit)
        drawing.text(
            tx + (1.0 if anchor == "left" else 0.0),
            ty - 3.0,
            said("limit {0} mm", f"{limit:.1f}"),
            pens.TINY,
            anchor=anchor,
            colour=pens.INK,
        )
    if piece.granted_deg is not None:
        tx, ty = at(piece.granted_deg, 0)
        drawing.line([(tx, ty), at(piece.granted_deg, piece.hold.limit_mm or top)], _GRANTED, "plot")
        tilt = said("permitted tilt {0}°", f"{piece.granted_deg:g}")
        drawing.text(tx + 0.8, ty + 1.0, tilt, pens.TINY, colour=pens.INK)
    if turned_deg:
        hold = piece.turned(turned_deg)
        drawing.line([at(turned_deg, hold.low_mm), at(turned_deg, hold.high_mm)], _HERE, "plot")
        words = said("{0}°: {1} mm", f"{turned_deg:g}", span(hold))
        drawing.text(x_mm + width_mm, y_mm + height_mm + 1.5, words, pens.SMALL, anchor="right", bold=True)
    called = piece.called
    title = (
        said("{0}: inches over the hold line", called)
        if inches
        else said("{0}: mm over the hold line", called)
    )
    drawing.text(x_mm, y_mm + height_mm + 1.5, title, pens.SMALL, bold=True)
    drawing.text(
        x_mm + width_mm,
        y_mm - 8.4,
        "degrees off its place on the roll",
        pens.TINY,
        anchor="right",
        colour=pens.INK,
    )
