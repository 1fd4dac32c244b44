"""Extension against angle, in the round: the strips as points, the fitted sheet as a curve."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from app.papers.formats.drawing import Anchor, Drawing, Pen
from app.papers.layout import pens
from app.words import say
from geometry.said import said
from geometry.stretch.fit import StretchFit, extensions
from geometry.stretch.strips import PulledStrip, strain_at

_CURVE = Pen(0.5, colour=pens.TEAL)
_RING = Pen(0.12, (1.0, 1.0), pens.GREY)
_STRIP = Pen(0.3, colour=pens.INK)
_TIGHT = Pen(0.5, colour=pens.INK)
_OPEN = Pen(0.25, (1.2, 0.8), pens.INK)


def draw_polar(
    drawing: Drawing,
    x_mm: float,
    y_mm: float,
    radius_mm: float,
    strips: Sequence[PulledStrip],
    fit: StretchFit,
    *,
    zero: str = "along the roll",
    ninety: str = "across",
) -> None:
    """Draw a polar plot about (x, y); the distance from the middle is the extension at the pull.

    A strip stands at its angle and opposite, since it has no front; 0 lies to the right. The
    tight direction is the heavy line, dashed lines bound it where the strips leave it open.
    """
    pull = fit.pull_n_per_mm
    angles = np.arange(0.0, 361.0, 2.0)
    curve = extensions(fit.sheet, fit.tight_deg, angles, pull)
    measured = [(strip.angle_deg, strain_at(strip, pull)) for strip in strips]
    top = _round_up(100.0 * max(float(curve.max()), *(e for _, e in measured)))
    scale = radius_mm / top

    def at(angle_deg: float, percent: float) -> tuple[float, float]:
        a = np.radians(angle_deg)
        return x_mm + scale * percent * float(np.cos(a)), y_mm + scale * percent * float(np.sin(a))

    for share in (0.25, 0.5, 0.75, 1.0):
        drawing.circle(x_mm, y_mm, radius_mm * share, _RING, "plot")
        tx, ty = at(-83.0, top * share)
        drawing.text(
            tx + 0.6, ty, say("{0} %", f"{top * share:g}"), pens.TINY, anchor="left", colour=pens.GREY
        )
    for step in range(0, 180, 15):
        outer = 1.0 if step % 45 == 0 else 0.97
        inner = 0.0 if step % 45 == 0 else 0.94
        for way in (0, 180):
            drawing.line([at(step + way, top * inner), at(step + way, top * outer)], pens.HAIR, "plot")
    for at_deg, word in ((0, said("0 {0}", zero)), (90, said("90 {0}", ninety)), (45, "45"), (135, "135")):
        tx, ty = at(at_deg, top * 1.06)
        anchor: Anchor = "left" if at_deg < 80 else "middle" if at_deg < 100 else "right"
        drawing.text(tx, ty - (0 if at_deg else 0.8), word, pens.TINY, anchor=anchor, colour=pens.INK)
    drawing.line([at(a, 100 * e) for a, e in zip(angles, curve, strict=True)], _CURVE, "plot", closed=True)
    for angle, strain in measured:
        for way in (0, 180):
            px, py = at(angle + way, 100 * strain)
            drawing.circle(px, py, 0.8, _STRIP, "plot")
    if not fit.tight_told:
        return
    for way in (0, 180):
        drawing.line([at(fit.tight_deg + way, 0.0), at(fit.tight_deg + way, top)], _TIGHT, "plot")
        for end in (fit.tight_low_deg, fit.tight_high_deg):
            if end is not None and abs(end - fit.tight_deg) > 1.0:
                drawing.line([at(end + way, 0.0), at(end + way, top)], _OPEN, "plot")


def _round_up(percent: float) -> float:
    """The next round figure whose quarters are round too."""
    power = 10.0 ** np.floor(np.log10(max(percent, 1e-6)))
    steps = (1, 1.2, 1.6, 2, 2.4, 3.2, 4, 6, 8, 10, 12)
    return float(next(step * power for step in steps if step * power >= percent))
