"""Reinforcement sheet: one page per style, every piece with its backing, for the bench."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from app.cautions import cautions
from app.papers.boards import Pair
from app.papers.formats.drawing import Drawing, Page
from app.papers.formats.lettering import extent_mm, fitted, wrapped
from app.papers.formats.pdf import write_pdf
from app.papers.lay_facts import tight_words
from app.papers.layout import pens
from app.papers.layout.sheets import MARGIN_MM, FilledSheet, set_out
from app.papers.pictures.board_cards import cloth_name
from app.papers.pictures.overlay import draw_overlay
from app.papers.shown import Reinforced
from app.style.model import ClothData, PressSetting, Style
from app.style.pieces import draft_rules
from app.words import listed, say
from geometry.edge_kinds import EdgeKind
from geometry.findings import Severity
from geometry.paper import PAPER_MM
from geometry.piece import BackingPiece, UpperPiece
from geometry.said import percent

SCALES = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20)

_SIDE_MM = 104.0
_HEAD_MM = 20.0
_GAP_MM = 7.0


@dataclass(frozen=True, eq=False)
class _Picture:
    """One piece on the sheet."""

    drawing: Drawing
    width_mm: float
    height_mm: float


def write(shown: Reinforced, out_dir: Path) -> list[Path]:
    """Write reinforcement-sheet.pdf (A3, lying) and return its path."""
    path = out_dir / "reinforcement-sheet.pdf"
    return [write_pdf(pages(shown), path, title=say("{0}: reinforcement sheet", shown.style.name))]


def pages(shown: Reinforced) -> list[Page]:
    """Return the one sheet: all pieces at one scale, the largest at which they fit together."""
    style, pairs = shown.style, shown.pairs
    high, wide = PAPER_MM["A3"]
    left, low = MARGIN_MM, MARGIN_MM + 4.0
    room = (wide - 2 * MARGIN_MM - _SIDE_MM - 8.0, high - low - MARGIN_MM - _HEAD_MM)
    ratio, pictures, spread = _fitted(style, pairs, room)
    drawing = Drawing()
    for number, x, y in spread.places:
        # set out from the lower left; read from the upper left
        picture = pictures[number]
        drawing.place(picture.drawing, left + x, low + room[1] - y - picture.height_mm)
    _draw_head(drawing, style, pairs, wide, high, ratio)
    side = wide - MARGIN_MM - _SIDE_MM
    drawing.line([(side - 4.0, low), (side - 4.0, low + room[1])], pens.HAIR, "frame")
    _draw_side(drawing, style, pairs, side, low + room[1])
    return [Page(wide, high, drawing)]


def _fitted(
    style: Style, pairs: Sequence[Pair], room: tuple[float, float]
) -> tuple[float, list[_Picture], FilledSheet]:
    for ratio in SCALES:
        pictures = [_picture(style, upper, backing, 1.0 / ratio) for upper, backing in pairs]
        sizes = [(p.width_mm, p.height_mm) for p in pictures]
        if all(w <= room[0] and h <= room[1] for w, h in sizes):
            order = sorted(range(len(sizes)), key=lambda i: -sizes[i][1])
            spreads = set_out([sizes[i] for i in order], *room, gap_mm=_GAP_MM)
            if len(spreads) == 1 or ratio == SCALES[-1]:
                places = tuple((order[i], x, y) for i, x, y in spreads[0].places)
                return ratio, pictures, FilledSheet(places, spreads[0].used_mm, None)
    raise AssertionError("no scale is small enough")


def _picture(style: Style, upper: UpperPiece, backing: BackingPiece | None, scale: float) -> _Picture:
    art = Drawing()
    draw_overlay(art, upper, backing, [], scale=scale)
    x0, y0, _, _ = extent_mm(art)
    drawing = Drawing()
    lines = _caption(style, upper, backing)
    foot = pens.LABEL * 1.3 + pens.TINY * 1.35 * (len(lines) - 1) + 1.0
    drawing.place(art, -x0, foot - y0)
    drawing.text(0.0, foot - pens.LABEL * 1.2, lines[0], pens.LABEL, bold=True, colour=pens.INK)
    for number, line in enumerate(lines[1:]):
        y = foot - pens.LABEL * 1.3 - pens.TINY * 1.35 * (number + 0.75)
        drawing.text(0.0, y, line, pens.TINY, colour=pens.INK)
    _, _, right, top = extent_mm(drawing)
    return _Picture(drawing, right, top)


def _caption(style: Style, upper: UpperPiece, backing: BackingPiece | None) -> list[str]:
    try:
        count = style.piece(upper.name).per_shoe
        layers = len(style.piece(upper.name).layers)
    except KeyError:
        count = layers = 1
    if backing is None:
        return [upper.name, "no backing"]
    layer = say("layer {0} of {1}, ", backing.layer + 1, layers) if layers > 1 else ""
    made = say("{0}{1}, {2} L + {3} R per pair", layer, cloth_name(style, backing), count, count)
    if not backing.outlines:
        return [upper.name, say("{0}: NO BACKING IS LEFT", made)]
    share = backing.area_mm2 / upper.outline.area_mm2
    return [
        upper.name,
        made,
        say("{0} cm², {1} of the upper piece", f"{backing.area_mm2 / 100:.1f}", percent(share, 0)),
    ]


def _draw_head(
    drawing: Drawing, style: Style, pairs: Sequence[Pair], wide: float, high: float, ratio: float
) -> None:
    left, right, top = MARGIN_MM, wide - MARGIN_MM, high - MARGIN_MM
    y = top - pens.TITLE * 0.8
    title = fitted(say("Reinforcement sheet · {0}", style.name), pens.TITLE, right - left - 90.0, bold=True)
    drawing.text(left, y, title, pens.TITLE, bold=True, colour=pens.INK)
    shown = dict.fromkeys(say("size {0}, {1}", upper.size, upper.hand) for upper, _ in pairs)
    about = say("{0} · scale 1:{1}", listed(" / ")(shown), f"{ratio:g}")
    drawing.text(right, y, about, pens.BODY, anchor="right", colour=pens.INK)
    how = (
        "Seen from the upper's face, glue side of the backing towards you. Figures beside an edge: mm from "
        "the upper's cut edge to the backing. The arrow is the pull axis: the tight direction lies along it."
    )
    drawing.text(left, y - 5.6, how, pens.TINY, colour=pens.INK)
    drawing.line([(left, top - _HEAD_MM + 5.0), (right, top - _HEAD_MM + 5.0)], pens.RULE, "frame")


def _draw_side(drawing: Drawing, style: Style, pairs: Sequence[Pair], x: float, top: float) -> None:
    """Draw the column: edges, cloths with their press settings, cautions, what was checked."""
    y = _heading(drawing, x, top, "Edges, and why the backing stops there")
    kinds = {edge.kind for upper, _ in pairs for ring in upper.edging.edges for edge in ring}
    rules = draft_rules(style).edge_rules
    for kind in (kind for kind in EdgeKind if kind in kinds):
        y -= pens.SMALL * 1.3
        drawing.line([(x, y + 0.9), (x + 21.0, y + 0.9)], pens.EDGE[kind], "frame")
        drawing.text(x + 24.0, y, kind.value, pens.SMALL, bold=True, colour=pens.INK)
        lines = wrapped(rules[kind].reason, pens.TINY, _SIDE_MM - 44.0)
        for number, line in enumerate(lines):
            y -= pens.TINY * 1.25 if number else 0.0
            drawing.text(x + 44.0, y, line, pens.TINY, colour=pens.INK)
    ids = dict.fromkeys(
        layer.cloth or style.cloths[0].id for piece in style.pieces for layer in piece.layers if style.cloths
    )
    for cloth in (style.cloth(each) for each in ids):
        y = _heading(drawing, x, y - 5.0, cloth.name)
        for label, value in _cloth_lines(cloth):
            y = _entry(drawing, x, y, label, value)
    y = _heading(drawing, x, y - 5.0, "Cautions")
    for text in cautions("reinforcement sheet"):
        y = _paragraph(drawing, x, y - 0.6, text)
    y = _heading(drawing, x, y - 5.0, "Checks and assumptions")
    found = [
        str(f)
        for _, backing in pairs
        for f in (backing.findings if backing else ())
        if f.severity is not Severity.NOTE
    ]
    more = say(" And {0} more.", len(found) - 4) if found[4:] else ""
    told = (
        say("Drafting found: {0}.{1}", listed("; ")(found[:4]), more)
        if found
        else "Drafting gave no warning."
    )
    made = say(
        "Curves within {0} mm, knife radius {1} mm, ",
        f"{style.rules.chord_mm:g}",
        f"{style.rules.knife_radius_mm:g}",
    )
    _paragraph(drawing, x, y - 0.6, say("{0}setbacks constant over all sizes. {1}", made, told))


def _cloth_lines(cloth: ClothData) -> list[tuple[str, str]]:
    made = listed(", ")(
        part
        for part in (
            cloth.fibre,
            cloth.weave,
            say("{0} g/m²", f"{cloth.mass_g_per_m2:g}") if cloth.mass_g_per_m2 else "",
            say("{0} mm thick", f"{cloth.thickness_mm:g}") if cloth.thickness_mm else "",
        )
        if part
    )
    return [
        ("cloth", made or "not described"),
        ("glue", say("{0}, on the {1} of the cloth", cloth.glue or "not described", cloth.coated_side)),
        ("roll", say("{0} mm wide, {1} mm usable", f"{cloth.width_mm:g}", f"{cloth.usable_width_mm:g}")),
        ("tight direction", say("{0} ({1})", tight_words(cloth.tight_direction_deg), cloth.how_known)),
        ("press setting", press_words(cloth.press)),
    ]


def press_words(press: PressSetting) -> str:
    """Return a press setting with its source, or where to take it from."""
    parts = [
        say("{0} {1}", f"{value:g}", unit)
        for value, unit in ((press.temperature_c, "°C"), (press.seconds, "s"), (press.pressure_mpa, "MPa"))
        if value is not None
    ]
    if not parts:
        return "not stated: take it from the supplier's sheet"
    return say(
        "{0} (source: {1})", listed(", ")(parts), press.source or "not stated, check the supplier sheet"
    )


def _heading(drawing: Drawing, x: float, y: float, text: str) -> float:
    y -= pens.LABEL
    text = fitted(text, pens.LABEL, _SIDE_MM, bold=True)
    drawing.text(x, y, text, pens.LABEL, bold=True, colour=pens.TEAL)
    return y - 1.2


def _entry(drawing: Drawing, x: float, y: float, label: str, value: str) -> float:
    drawing.text(x, y - pens.SMALL * 1.3, label, pens.SMALL, colour=pens.GREY)
    for line in wrapped(value, pens.SMALL, _SIDE_MM - 24.0):
        y -= pens.SMALL * 1.3
        drawing.text(x + 24.0, y, line, pens.SMALL, colour=pens.INK)
    return y


def _paragraph(drawing: Drawing, x: float, y: float, text: str) -> float:
    for line in wrapped(text, pens.SMALL, _SIDE_MM):
        y -= pens.SMALL * 1.3
        drawing.text(x, y, line, pens.SMALL, colour=pens.INK)
    return y
