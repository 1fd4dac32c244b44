"""Lay plan to scale: the whole lay on one or few sheets, with ruler, figures and counts."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from app.cautions import cautions
from app.papers.formats.drawing import Anchor, Drawing, Page
from app.papers.formats.lettering import fitted, wrapped
from app.papers.lay_facts import (
    MODE_WORDS,
    assumptions,
    cloth_line,
    codes_of,
    count_text,
    counts_of,
    lay_title,
    likely_line,
    size_order,
    spread_words,
    tight_words,
    verdict_line,
)
from app.papers.layout import pens
from app.papers.layout.marks import draw_axis
from app.papers.layout.sheets import MARGIN_MM
from app.papers.layout.tables import Column, draw_table, fitting_columns, row_height_mm
from app.papers.pictures.lays import BackingsOf, LayArt, lay_art
from app.style.model import Style
from app.words import listed, say
from geometry.paper import PAPER_MM
from geometry.said import percent
from nesting.verify.fault import Verdict

SCALES = (1, 2, 2.5, 4, 5, 7.5, 10, 12.5, 15)
"""Scales, one to this; a lay too long for the last one continues on more sheets."""

_HEAD_MM = 32.0
_FOOT_MM = 31.0
_RULER_MM = 9.0
_ROW_GAP_MM = 4.0


def overview_pages(
    document: Mapping[str, Any], verdict: Verdict, style: Style | None, backings: BackingsOf | None
) -> list[Page]:
    """Return A4 sheets where the lay is legible on one, else A3, lying."""
    length, width = document["length_mm"], document["roll"]["usable_width_mm"]
    codes = codes_of(counts_of(document))
    paper = "A4" if length <= 1500.0 and width <= 1000.0 else "A3"
    high, wide = PAPER_MM[paper]
    room = (wide - 2 * MARGIN_MM, high - 2 * MARGIN_MM - _HEAD_MM - _FOOT_MM)
    ratio, rows = _fit(length, width, room)
    art = lay_art(document, scale=1.0 / ratio, backings=backings, codes=codes)
    a_row = room[0] * ratio
    a_page = rows * a_row
    pages: list[Drawing] = []
    for number in range(max(1, math.ceil(length / a_page - 1e-9))):
        drawing = Drawing()
        y = high - MARGIN_MM - _HEAD_MM
        for row in range(rows):
            start = number * a_page + row * a_row
            if start >= length - 1e-6:
                break
            y -= art.width_mm
            _draw_row(drawing, art, start, min(start + a_row, length), ratio, y)
            y -= _RULER_MM + _ROW_GAP_MM
        pages.append(drawing)
    rows_high = row_height_mm(pens.SMALL)
    _, cells, columns = _table(document, codes)
    beside = room[0] - art.length_mm - 10.0
    top = high - MARGIN_MM - _HEAD_MM
    if rows_high * (len(cells) + 1) <= y - MARGIN_MM - _FOOT_MM:
        draw_table(pages[-1], MARGIN_MM, y, columns(room[0]), cells)
    elif len(pages) == 1 and beside >= 130.0 and rows_high * (len(cells) + 1) <= room[1]:
        draw_table(pages[-1], MARGIN_MM + art.length_mm + 10.0, top, columns(beside), cells)
    else:
        a_sheet = int(room[1] / rows_high) - 1
        for at in range(0, len(cells), a_sheet):
            drawing = Drawing()
            draw_table(drawing, MARGIN_MM, top, columns(room[0]), cells[at : at + a_sheet])
            pages.append(drawing)
    for number, drawing in enumerate(pages):
        sheet = say("sheet {0} of {1}", number + 1, len(pages))
        _draw_head(drawing, document, style, wide, high, ratio, sheet, first=number == 0)
        _draw_foot(drawing, document, verdict, style, wide)
    return [Page(wide, high, drawing) for drawing in pages]


def _fit(length: float, width: float, room: tuple[float, float]) -> tuple[float, int]:
    """Return the largest scale at which the lay fits one sheet in rows, or the last of SCALES."""
    for ratio in SCALES:
        rows = int(room[1] // (width / ratio + _RULER_MM + _ROW_GAP_MM))
        if rows and length / ratio <= rows * room[0]:
            return ratio, rows
    ratio = SCALES[-1]
    while width / ratio + _RULER_MM + _ROW_GAP_MM > room[1]:
        ratio *= 2
    return ratio, int(room[1] // (width / ratio + _RULER_MM + _ROW_GAP_MM))


def _draw_row(drawing: Drawing, art: LayArt, start: float, end: float, ratio: float, y: float) -> None:
    """Draw the stretch of roll from ``start`` to ``end`` (mm of cloth) with its ruler below."""
    a, b = start / ratio, end / ratio
    left = MARGIN_MM
    pad = 0.3
    drawing.fill_box((left, y, left + b - a, y + art.width_mm), pens.MIST)
    window = (left - pad, y - pad, left + b - a + pad, y + art.width_mm + pad)
    drawing.place(art.drawing(start_mm=a, end_mm=b), left - a, y, clip_mm=window)
    step = 100.0 if ratio <= 12.5 else 500.0
    named = step if end - start < 1000.0 and step < 500.0 else 500.0 if ratio <= 7.5 else 1000.0
    drawing.line([(left, y - 1.2), (left + b - a, y - 1.2)], pens.THIN, "frame")
    for number in range(math.ceil(start / step - 1e-9), math.floor(end / step + 1e-9) + 1):
        at = number * step
        x = left + at / ratio - a
        long = math.isclose(at % named, 0.0, abs_tol=1e-6) or math.isclose(at % named, named, abs_tol=1e-6)
        drawing.line([(x, y - 1.2), (x, y - (3.2 if long else 2.2))], pens.THIN, "frame")
        if long:
            anchor: Anchor = "left" if x < left + 3.0 else "right" if x > left + b - a - 6.0 else "middle"
            drawing.text(
                x, y - 6.0, say("{0} m", f"{at / 1000:g}"), pens.TINY, anchor=anchor, colour=pens.INK
            )


FOUND_BY = {
    "spyrrow and squeezing": "general solver and compaction",
    "orders": "placing in other orders",
    "squeezed": "compaction",
}
"""Names of ways in a lay's file that say nothing at the bench -> what they do."""


def _draw_head(
    drawing: Drawing,
    document: Mapping[str, Any],
    style: Style | None,
    wide: float,
    high: float,
    ratio: float,
    number: str,
    *,
    first: bool,
) -> None:
    left, right, top = MARGIN_MM, wide - MARGIN_MM, high - MARGIN_MM
    name = lay_title(document, style)
    y = top - pens.TITLE * 0.8
    title = fitted(
        say("Lay plan · {0}", name) if name else "Lay plan", pens.TITLE, right - left - 40.0, bold=True
    )
    drawing.text(left, y, title, pens.TITLE, bold=True, colour=pens.INK)
    drawing.text(
        right, y, say("scale 1:{0} · {1}", f"{ratio:g}", number), pens.BODY, anchor="right", colour=pens.INK
    )
    roll = document["roll"]
    figures = [
        (say("{0} m", f"{document['length_mm'] / 1000:.3f}"), "lay length"),
        (percent(document["yield"]), "yield: pieces / (usable width x lay length)" if first else "yield"),
        (say("{0} mm", f"{roll['usable_width_mm']:g}"), "usable width"),
        (f"{len(document['placements'])}", "pieces"),
        (
            f"{document.get('plies', 1)}",
            say(
                "ply, {0}" if document.get("plies", 1) == 1 else "plies, {0}",
                MODE_WORDS[document.get("mode") or "face-up"],
            ),
        ),
        (say("{0} mm", f"{document['gap_mm']:g}"), "gap"),
        (tight_words(roll.get("tight_direction_deg")), "tight direction"),
    ]
    weights = [1.1, 1.7, 1.1, 0.8, 0.8, 0.6, 1.4]
    unit = (right - left) / sum(weights)
    x, y = left, top - 20.0
    for (figure, label), weight in zip(figures, weights, strict=True):
        room = weight * unit - 2.0
        drawing.text(
            x, y, fitted(figure, pens.HEADING, room, bold=True), pens.HEADING, bold=True, colour=pens.TEAL
        )
        drawing.text(x, y - 3.6, fitted(label, pens.TINY, room), pens.TINY, colour=pens.GREY)
        x += weight * unit
    tight = roll.get("tight_direction_deg")
    if tight is not None:
        draw_axis(drawing, right - 8.0, y + 1.5, tight, 12.0)
    drawing.line([(left, y - 6.0), (right, y - 6.0)], pens.RULE, "frame")


def _draw_foot(
    drawing: Drawing, document: Mapping[str, Any], verdict: Verdict, style: Style | None, wide: float
) -> None:
    left, right, top = MARGIN_MM, wide - MARGIN_MM, MARGIN_MM + _FOOT_MM - 3.0
    drawing.line([(left, top), (right, top)], pens.RULE, "frame")
    cloth = cloth_line(document, style)
    engine = listed(", ")(FOUND_BY.get(name, name) for name in str(document.get("engine") or "").split(", "))
    made = listed(", ")(
        say("{0} {1}", word, what)
        for word, what in (("found by", engine), ("seed", document.get("seed")))
        if what
    )
    likely = likely_line(document.get("longer_search"))
    lines = [
        say("Verdict: {0}.", verdict_line(verdict)),
        say("Assumptions: {0}.", listed("; ")(assumptions(document, style.rules if style else None))),
        say("Left pieces white, right pieces tinted. {0}. ", spread_words(document.get("mode")))
        + (say("Cloth: {0}. ", cloth) if cloth else "")
        + (say("Lay {0}.", made) if made else "")
        + (f" {likely}" if likely else ""),
        *(say("Caution. {0}", text) for text in cautions("lay")),
    ]
    y = top - 0.8
    for text in [part for line in lines for part in wrapped(line, pens.TINY, right - left)][:9]:
        y -= pens.TINY * 1.2
        drawing.text(left, y, text, pens.TINY, colour=pens.INK)


def _table(document: Mapping[str, Any], codes: Mapping[str, str]) -> tuple[list[str], list[list[str]], Any]:
    """Return the counts as a table: a row per piece, a column per size."""
    counts = counts_of(document)
    sizes = size_order({size for row in counts.values() for size in row})
    heads = ["", "Piece", *(say("size {0}", size) if size else "count" for size in sizes), "total"]
    cells = []
    for piece, row in counts.items():
        left, right, none = (sum(count[k] for count in row.values()) for k in range(3))
        by_size = [count_text(row.get(size, (0, 0, 0))) for size in sizes]
        cells.append([codes[piece], piece, *by_size, count_text((left, right, none))])

    def columns(room_mm: float) -> Sequence[Column]:
        anchors = ["left", "left"] + ["right"] * (len(heads) - 2)
        return fitting_columns(heads, cells, anchors, room_mm)  # type: ignore[arg-type]

    return heads, cells, columns
