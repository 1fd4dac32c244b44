"""Lines as a pen draws them: lettering in single strokes, dashes as separate lines."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import cycle

import numpy as np
from HersheyFonts import HersheyFonts

from app.papers.formats.drawing import Points, Text
from app.papers.formats.lettering import CAP_HEIGHT, plain, width_mm
from geometry.outline import rotation


def letter_strokes(text: Text) -> list[Points]:
    """Return the strokes of one line of lettering, in mm, where it stands.

    Never wider than the same line on paper, so that it keeps to the room that was found for it.
    """
    strokes, advance = _strokes(plain(text.text))
    high = text.size_mm * CAP_HEIGHT
    paper = width_mm(text.text, text.size_mm, bold=text.bold)
    narrow = min(1.0, paper / (advance * high)) if advance else 1.0
    start = {"left": 0.0, "middle": -advance / 2.0, "right": -advance}[text.anchor]
    matrix = rotation(text.angle_deg) * (high * narrow, high)
    here = np.array([text.x_mm, text.y_mm])
    return [(points + (start, 0.0)) @ matrix.T + here for points in strokes]


def dashed(points: Points, dash_mm: tuple[float, ...], *, closed: bool) -> Iterator[Points]:
    """Yield the dashes of a polyline; without a pattern the polyline itself (closed if asked)."""
    if closed:
        points = np.concatenate([points, points[:1]])
    if not dash_mm:
        yield points
        return
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    here, down = 0.0, True
    for length in cycle(dash_mm):
        there = min(here + length, along[-1])
        if down and there > here:
            inner = points[(along > here) & (along < there)]
            ends = np.column_stack([np.interp([here, there], along, points[:, k]) for k in (0, 1)])
            yield np.concatenate([ends[:1], inner, ends[1:]])
        here, down = there, not down
        if here >= along[-1]:
            return


@cache
def _strokes(text: str) -> tuple[tuple[Points, ...], float]:
    """Strokes of ``text`` with capitals one unit high on the baseline, and how far they reach."""
    font, base, unit = _font()
    strokes = [np.array(s, dtype=np.float64) for s in font.strokes_for_text(text)]
    strokes = [(s - (0.0, base)) * unit for s in strokes if len(s) > 1]
    return tuple(strokes), max((float(s[:, 0].max()) for s in strokes), default=0.0)


@cache
def _font() -> tuple[HersheyFonts, float, float]:
    font = HersheyFonts()
    font.load_default_font("futural")
    font.normalize_rendering(100.0)
    tall = np.concatenate([np.array(s) for s in font.strokes_for_text("H")])[:, 1]
    return font, float(tall.min()), 1.0 / float(tall.max() - tall.min())
