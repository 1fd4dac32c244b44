"""Lay plan at full size: to be plotted and laid on the cloth, split into pages a viewer can open."""

from __future__ import annotations

import math
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from app.cautions import cautions
from app.measures import counted
from app.papers.formats.drawing import Drawing, Page
from app.papers.formats.lettering import wrapped
from app.papers.formats.pdf import PAGE_LIMIT_MM, write_pdf
from app.papers.lay_facts import assumptions, lay_title, require_verified, spread_words, verdict_line
from app.papers.layout import pens
from app.papers.layout.marks import draw_check_square
from app.papers.layout.sheets import MARGIN_MM
from app.papers.pictures.lays import LayArt, backings_of, lay_art
from app.papers.shown import Laid
from app.style.model import Style
from app.words import say
from geometry.said import percent
from nesting.verify.fault import Verdict

LEADER_MM = 122.0
"""Paper before the lay begins: check square, name and figures."""

_LEADER_HIGH_MM = 210.0

OVERLAP_MM = 20.0
"""What two neighbouring pages show both; crosses stand on its middle line."""


def pages(shown: Laid) -> list[Page]:
    """Return the sheets of lay-1to1.pdf; raises UnverifiedError when the verdict is not ok."""
    document, style = shown.document, shown.style
    require_verified(shown.verdict, str(document.get("name") or "lay"))
    return full_size_pages(document, shown.verdict, lay_art(document, backings=backings_of(style)), style)


def write(shown: Laid, out_dir: Path) -> list[Path]:
    """Write lay-1to1.pdf and return its path; raises as ``pages``."""
    name = lay_title(shown.document, shown.style) or "lay"
    return [write_pdf(pages(shown), out_dir / "lay-1to1.pdf", title=say("Lay {0}, full size", name))]


def full_size_pages(
    document: Mapping[str, Any], verdict: Verdict, art: LayArt, style: Style | None
) -> list[Page]:
    """Return pages no longer than PAGE_LIMIT_MM, each with the leader and its check square."""
    room = PAGE_LIMIT_MM - LEADER_MM - 2 * MARGIN_MM
    step = room - OVERLAP_MM
    count = 1 if art.length_mm <= room else math.ceil((art.length_mm - OVERLAP_MM) / step)
    high = max(art.width_mm, _LEADER_HIGH_MM) + 2 * MARGIN_MM
    pages = []
    for number in range(count):
        start = number * step
        end = min(start + room, art.length_mm)
        drawing = Drawing()
        left = MARGIN_MM + LEADER_MM
        window = (left - 0.3, MARGIN_MM - 0.3, left + end - start + 0.3, MARGIN_MM + art.width_mm + 0.3)
        drawing.place(art.drawing(start_mm=start, end_mm=end), left - start, MARGIN_MM, clip_mm=window)
        for middle in (start + OVERLAP_MM / 2, end - OVERLAP_MM / 2):
            if middle - OVERLAP_MM / 2 > 0.0 or middle + OVERLAP_MM / 2 < art.length_mm:
                joined = (number > 0 and middle < start + OVERLAP_MM) or (
                    number < count - 1 and middle > end - OVERLAP_MM
                )
                if joined:
                    _draw_join(drawing, left - start + middle, art.width_mm)
        _draw_leader(drawing, document, verdict, style, (number, count), (start, end))
        pages.append(Page(left + end - start + MARGIN_MM, high, drawing))
    return pages


def _draw_join(drawing: Drawing, x: float, width_mm: float) -> None:
    """A dashed line across the roll with crosses that both pages show."""
    drawing.line([(x, MARGIN_MM), (x, MARGIN_MM + width_mm)], pens.SPLIT, "frame")
    for y in (MARGIN_MM + 15.0, MARGIN_MM + width_mm / 2, MARGIN_MM + width_mm - 15.0):
        drawing.line([(x - 8.0, y), (x + 8.0, y)], pens.THIN, "frame")
        drawing.circle(x, y, 4.0, pens.THIN, "frame")


def _draw_leader(
    drawing: Drawing,
    document: Mapping[str, Any],
    verdict: Verdict,
    style: Style | None,
    page: tuple[int, int],
    stretch_mm: tuple[float, float],
) -> None:
    draw_check_square(drawing, MARGIN_MM + 4.0, MARGIN_MM + 4.0)
    x, y, room = MARGIN_MM + 4.0, MARGIN_MM + _LEADER_HIGH_MM, LEADER_MM - 20.0
    for line in wrapped(lay_title(document, style) or "Lay", pens.TITLE, room, bold=True)[:2]:
        y -= pens.TITLE
        drawing.text(x, y, line, pens.TITLE, bold=True, colour=pens.INK)
    lines = [
        say(
            "page {0} of {1}: {2} to {3} m of {4} m",
            page[0] + 1,
            page[1],
            f"{stretch_mm[0] / 1000:.3f}",
            f"{stretch_mm[1] / 1000:.3f}",
            f"{document['length_mm'] / 1000:.3f}",
        ),
        say(
            "yield {0}, {1}, usable width {2} mm",
            percent(document["yield"]),
            counted(len(document["placements"]), "piece"),
            f"{document['roll']['usable_width_mm']:g}",
        ),
        say("{0}. Full size: print at 100 %.", spread_words(document.get("mode"))),
        *assumptions(document, style.rules if style else None),
        verdict_line(verdict),
        *(say("Caution. {0}", text) for text in cautions("lay")),
    ]
    y -= 2.0
    for text in [part for line in lines for part in wrapped(line, pens.BODY, room)][:34]:
        y -= pens.BODY * 1.3
        drawing.text(x, y, text, pens.BODY, colour=pens.INK)
