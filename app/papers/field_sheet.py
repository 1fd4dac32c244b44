"""Field sheet: the upper alone, backed, and with the cloth turned, side by side as three lasted uppers.

Below them each figure beside the line's, where the backing is prone to peel, and the cloth turned step by
step; other cloths follow on sheets of their own.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from app.cautions import cautions
from app.hold.field import Pulled
from app.hold.two_models import TwoModels, why
from app.papers.formats.drawing import Anchor, Drawing, Page
from app.papers.formats.lettering import wrapped
from app.papers.formats.pdf import write_pdf
from app.papers.layout import pens
from app.papers.layout.sheets import MARGIN_MM
from app.papers.layout.tables import draw_table, fitting_columns
from app.papers.pictures.strain_map import StrainMap, draw_legend, steps_over
from app.papers.shown import PulledOver
from app.style.model import Style
from app.words import listed, say
from geometry.paper import PAPER_MM
from geometry.stretch.field.answers import FieldCase, Range

TITLES = {"alone": "upper alone", "backed": "backed as drafted", "turned": "backed, cloth turned by 90 deg"}
LIMITS = (
    "A flat model: no last, no friction, no relaxation; sheets glued together without slip. The heel end is "
    "held, the toe lasting edge pulled along the pull axis. Each range runs from shear blocked, with the "
    "stiffest values that the strips allow, to shear free, with the softest. The strip test and the lasting "
    "trial decide."
)
PEEL_WORDS = (
    "Peel-prone places, as numbered: force that the glue carries per mm of the backing's edge there; shear "
    "is the part along the edge. The peel test of the bond tells whether it holds."
)
COLUMNS = 3
GAP_MM = 8.0
PICTURE_MM = 118.0
LEFT_ROOM_MM = 250.0


def write(shown: PulledOver, out_dir: Path) -> list[Path]:
    """Write field-sheet.pdf (A3, lying) and return its path."""
    title = say("{0}: the pull over the upper", shown.style.name)
    return [write_pdf(pages(shown), out_dir / "field-sheet.pdf", title=title)]


def pages(shown: PulledOver) -> list[Page]:
    """Return the sheet of the three cases, and of the other cloths three to a sheet."""
    style, pulled, told = shown.style, shown.pulled, shown.models
    cases = [(TITLES[case.case], case, told.line_mm.get(case.case)) for case in pulled.field.cases]
    others = [
        (
            say("backed with {0}", each.cloth.name),
            each.case,
            told.line_mm.get(f"cloth {each.cloth.id}"),
        )
        for each in pulled.cloths
    ]
    bounds = steps_over([case for _, case, _ in (*cases, *others)])
    sheets = [_sheet(style, pulled, told, cases, bounds, first=True)]
    for at in range(0, len(others), COLUMNS):
        sheets.append(_sheet(style, pulled, told, others[at : at + COLUMNS], bounds, first=False))
    return sheets


_Shown = tuple[str, FieldCase, Range | None]


def _sheet(
    style: Style,
    pulled: Pulled,
    told: TwoModels,
    cases: Sequence[_Shown],
    bounds: tuple[float, ...],
    *,
    first: bool,
) -> Page:
    high, wide = PAPER_MM["A3"]
    drawing = Drawing()
    y = high - MARGIN_MM - pens.TITLE
    title = say("{0}: the pull over the upper", style.name) + ("" if first else ", other cloths")
    drawing.text(MARGIN_MM, y, title, pens.TITLE, bold=True, colour=pens.INK)
    y -= pens.LABEL * 1.7
    drawing.text(MARGIN_MM, y, _head(pulled), pens.LABEL, colour=pens.INK)
    foot = _pictures(drawing, pulled, cases, bounds, y - 10.0, wide)
    heads, rows = _figures(cases)
    anchors: list[Anchor] = ["left", *["right"] * (len(heads) - 1)]  # type: ignore[list-item]
    columns = fitting_columns(heads, rows, anchors, LEFT_ROOM_MM)
    low = draw_table(drawing, MARGIN_MM, foot, columns, rows) - 7.0
    _peel(drawing, pulled, cases, MARGIN_MM + LEFT_ROOM_MM + 10.0, foot, wide)
    low = _words(drawing, why(told), low, LEFT_ROOM_MM)
    if first and pulled.sweep:
        turns = listed("; ")(say("{0} deg: {1}", f"{turn:g}", _mm(span)) for turn, span in pulled.sweep)
        low = _words(
            drawing, say("Movement of the throat with the cloth turned: {0}.", turns), low - 2.0, LEFT_ROOM_MM
        )
    if any(case.large or case.wrinkled or case.unsettled for _, case, _ in cases):
        low = _words(drawing, _second_level(cases), low - 2.0, LEFT_ROOM_MM)
    low = _words(drawing, LIMITS, low - 2.0, LEFT_ROOM_MM)
    drawing.text(MARGIN_MM, low - 2.0, "Cautions", pens.SMALL, bold=True, colour=pens.INK)
    low -= 2.0 + pens.SMALL * 1.35
    for text in cautions("field sheet"):
        low = _words(drawing, text, low, LEFT_ROOM_MM)
    return Page(wide, high, drawing)


def _head(pulled: Pulled) -> str:
    upper, field = pulled.question.upper, pulled.field
    pieces = listed(", ")(piece.name for piece in upper.pieces)
    change = field.throat_change_share
    settled = (
        ""
        if change is None
        else say("; halving them last moved the throat by {0} %", f"{100.0 * change:.1f}")
    )
    return say(
        "{0}; {1} N per mm of toe edge along the pull axis; {2} elements of {3} mm{4}",
        pieces,
        f"{upper.pull_n_per_mm:g}",
        len(field.mesh.triangles),
        f"{field.size_mm:g}",
        settled,
    )


def _pictures(
    drawing: Drawing,
    pulled: Pulled,
    cases: Sequence[_Shown],
    bounds: tuple[float, ...],
    top: float,
    wide: float,
) -> float:
    """Draw the maps side by side with their scale; return where the rest begins."""
    room = (wide - 2 * MARGIN_MM - (COLUMNS - 1) * GAP_MM) / COLUMNS
    x0, y0, x1, y1 = _bounds(pulled, cases)
    scale = min(room / (x1 - x0), PICTURE_MM / (y1 - y0), 1.0)
    for k, (title, case, _) in enumerate(cases):
        left = MARGIN_MM + k * (room + GAP_MM)
        picture = StrainMap(pulled.question.upper, pulled.field, case, bounds)
        drawing.text(left, top, title, pens.HEADING, bold=True, colour=pens.INK)
        drawn = picture.draw(letters_mm=pens.TINY / scale)
        drawing.place(drawn, left - x0 * scale, top - 5.0 - y1 * scale, scale=scale)
    foot = top - 5.0 - (y1 - y0) * scale - 10.0
    draw_legend(drawing, MARGIN_MM, foot, bounds)
    key = "dashed: the throat's mark; red: where it goes; fine dashes: the backing, heavy where peel-prone"
    drawing.text(
        MARGIN_MM + 105.0,
        foot + 0.8,
        say("{0}. 1 : {1}, pull to the right", key, f"{1 / scale:.2g}"),
        pens.SMALL,
        colour=pens.INK,
    )
    return foot - 8.0


def _figures(cases: Sequence[_Shown]) -> tuple[list[str], list[list[str]]]:
    heads = [
        "case",
        "throat, field",
        "throat, line",
        "toe end",
        "side edge",
        "strain, median",
        "largest",
        "along",
        "across",
        "compressed area",
    ]
    rows = [
        [
            title,
            _mm(case.throat_mm),
            _mm(line),
            _mm(case.vamp_mm),
            _mm(case.side_mm),
            say("{0} %", f"{100 * case.strains.median_strain:.1f}"),
            say("{0} %", f"{100 * case.strains.peak_strain:.0f}"),
            say("{0} %", f"{100 * case.strains.along_strain:.1f}"),
            say("{0} %", f"{100 * case.strains.across_strain:.1f}"),
            say("{0} %", f"{100 * case.compressed_share:.0f}"),
        ]
        for title, case, line in cases
    ]
    return heads, rows


def _second_level(cases: Sequence[_Shown]) -> str:
    said = []
    for title, case, _ in cases:
        parts = []
        for name, motion in (("large strain", case.large), ("tension field", case.wrinkled)):
            if motion is not None:
                moves = motion.vamp_mm if motion.throat_mm is None else motion.throat_mm
                parts.append(say("{0} {1} mm", name, f"{moves:.1f}"))
            elif name in case.unsettled:
                parts.append(say("{0} does not settle", name))
        said.append(say("{0}: {1}", title, listed(", ")(parts)))
    return say(
        "Throat at the second level, best estimates: with large strain, and as a tension field, in "
        "which no direction can be pushed (the least the sheets bear). {0}.",
        listed("; ")(said),
    )


def _peel(
    drawing: Drawing, pulled: Pulled, cases: Sequence[_Shown], x: float, top: float, wide: float
) -> None:
    heads = ["place", "piece", "layer", "at, mm", "length", "force", "shear"]
    y = top
    for title, case, _ in cases:
        if not case.peel:
            continue
        rows = []
        for number, place in enumerate(case.peel, start=1):
            at = pulled.question.in_drawing(place.at_mm)
            rows.append(
                [
                    say("({0})", number),
                    place.piece,
                    str(place.layer),
                    say("{0}, {1}", f"{at[0]:.0f}", f"{at[1]:.0f}"),
                    say("{0} mm", f"{place.length_mm:.0f}"),
                    say("{0} N/mm", f"{place.force_n_per_mm:.2f}"),
                    say("{0} N/mm", f"{place.shear_n_per_mm:.2f}"),
                ]
            )
        drawing.text(x, y - pens.SMALL, say("peel-prone: {0}", title), pens.SMALL, bold=True, colour=pens.INK)
        anchors: list[Anchor] = ["left", "left", *["right"] * 5]  # type: ignore[list-item]
        columns = fitting_columns(heads, rows, anchors, wide - MARGIN_MM - x, size_mm=pens.TINY)
        y = draw_table(drawing, x, y - pens.SMALL * 1.3, columns, rows, size_mm=pens.TINY) - 3.0
    for line in wrapped(PEEL_WORDS, pens.TINY, wide - MARGIN_MM - x):
        y -= pens.TINY * 1.35
        drawing.text(x, y, line, pens.TINY, colour=pens.INK)


def _words(drawing: Drawing, text: str, y: float, room: float) -> float:
    for line in wrapped(text, pens.SMALL, room):
        drawing.text(MARGIN_MM, y, line, pens.SMALL, colour=pens.INK)
        y -= pens.SMALL * 1.35
    return y


def _mm(span: Range | None) -> str:
    if span is None:
        return "–"
    low, high = f"{span[0]:.1f}", f"{span[1]:.1f}"
    return say("{0} mm", low) if low == high else say("{0} to {1} mm", low, high)


def _bounds(pulled: Pulled, cases: Sequence[_Shown]) -> tuple[float, float, float, float]:
    places = [
        pulled.field.mesh.points_mm,
        *(pulled.field.mesh.points_mm + case.moved_mm for _, case, _ in cases),
    ]
    low = [each.min(axis=0) for each in places]
    high = [each.max(axis=0) for each in places]
    return (
        float(min(each[0] for each in low)),
        float(min(each[1] for each in low)),
        float(max(each[0] for each in high)),
        float(max(each[1] for each in high)),
    )
