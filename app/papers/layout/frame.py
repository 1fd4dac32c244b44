"""What stands on every sheet: the strip with the title, the assumptions and the signs used."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from app.papers.formats.drawing import Drawing
from app.papers.formats.lettering import fitted, width_mm, wrapped
from app.papers.layout import pens
from app.papers.layout.sheets import MARGIN_MM
from geometry.edge_kinds import EdgeKind

STRIP_MM = 29.0
"""Height of the strip at the foot of a sheet: three notes, and a caution of three lines on A4."""


def draw_strip(
    drawing: Drawing,
    page_width_mm: float,
    *,
    title: str,
    subtitle: str,
    number: str,
    notes: Sequence[str] = (),
    caution: str = "",
    kinds: Collection[EdgeKind] = (),
    right_mm: float = 0.0,
) -> None:
    """Draw the strip: title left, the edge kinds in use beside it, notes below, then the caution, whole.

    ``right_mm`` keeps that much of the right end free (for an assembling map).
    """
    left, right, top = MARGIN_MM, page_width_mm - MARGIN_MM - right_mm, MARGIN_MM + STRIP_MM - 3.0
    drawing.line([(left, top), (page_width_mm - MARGIN_MM, top)], pens.RULE, "frame")
    room = right - left
    number_wide = width_mm(number, pens.BODY) + 4.0
    legend = _legend_columns(kinds)
    legend_wide = 36.0 * len(legend)
    if room - legend_wide - number_wide < 60.0:
        legend, legend_wide = [], 0.0
    words = room - legend_wide - number_wide
    y = top - pens.HEADING
    drawing.text(
        left, y, fitted(title, pens.HEADING, words, bold=True), pens.HEADING, bold=True, colour=pens.INK
    )
    y -= pens.BODY * 1.3
    drawing.text(left, y, fitted(subtitle, pens.BODY, words), pens.BODY, colour=pens.INK)
    y -= 0.6
    for note in notes[:3]:
        y -= pens.TINY * 1.25
        drawing.text(left, y, fitted(note, pens.TINY, words + number_wide), pens.TINY, colour=pens.INK)
    for line in wrapped(caution, pens.TINY, room):
        y -= pens.TINY * 1.2
        drawing.text(left, y, line, pens.TINY, colour=pens.INK)
    drawing.text(
        left + words + number_wide, top - pens.HEADING, number, pens.BODY, anchor="right", colour=pens.INK
    )
    if legend:
        draw_legend(
            drawing,
            left + words + number_wide + 4.0,
            top,
            [k for c in legend for k in c],
            columns=len(legend),
        )


def draw_legend(
    drawing: Drawing, x_mm: float, top_mm: float, kinds: Sequence[EdgeKind], *, columns: int
) -> float:
    """Draw edge kinds with their dashes, column by column; return the y of the foot."""
    rows = -(-len(kinds) // columns) if kinds else 0
    for number, kind in enumerate(kinds):
        x = x_mm + 36.0 * (number // rows)
        y = top_mm - 4.0 - 3.9 * (number % rows)
        drawing.line([(x, y + 0.8), (x + 17.0, y + 0.8)], pens.EDGE[kind], "frame")
        drawing.text(x + 19.0, y, kind.value, pens.TINY, colour=pens.INK)
    return top_mm - 4.0 - 3.9 * max(rows - 1, 0) - 1.0


def _legend_columns(kinds: Collection[EdgeKind]) -> list[list[EdgeKind]]:
    order = [kind for kind in EdgeKind if kind in kinds]
    return [order[at : at + 4] for at in range(0, len(order), 4)]
