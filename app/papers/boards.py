"""Boards: card patterns at full size, of each upper and its backing, apart and overlaid."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

import shapely
from shapely.geometry.base import BaseGeometry

from app.cautions import cautions
from app.errors import UsageError
from app.papers.formats.drawing import Box, Circle, Drawing, Line, Page, Text
from app.papers.formats.dxf import write_dxf
from app.papers.formats.hpgl import write_hpgl
from app.papers.formats.lettering import text_box
from app.papers.formats.pdf import write_pdf
from app.papers.layout.frame import STRIP_MM, draw_strip
from app.papers.layout.marks import CHECK_BAND_MM, draw_check_lengths, draw_check_square
from app.papers.layout.room import free_box
from app.papers.layout.sheets import MARGIN_MM, SMALLEST_FIRST, FilledSheet, SheetSize, set_out, sheet_of
from app.papers.layout.tiles import OVERLAP_MM, draw_map, draw_tile, grid_of, window_of
from app.papers.pictures.board_cards import BoardCard, cards_of
from app.papers.shown import Drafted
from app.style.halves import refuse_halves
from app.style.model import Style
from app.words import listed, say
from geometry.findings import Severity
from geometry.piece import BackingPiece, UpperPiece
from geometry.said import said

Pair = tuple[UpperPiece, BackingPiece | None]

SQUARE_MM = 100.0
_GAP_MM = 6.0
_SPARE_MM = SQUARE_MM + 2.0 + _GAP_MM
_ROLL_LIMIT_MM = 5000.0
_DXF_ROW_MM = 4000.0  # cards are set out in rows of about this length in the drawing file


def write(shown: Drafted, out_dir: Path) -> list[Path]:
    """Write boards.pdf, boards.dxf and boards.plt into ``out_dir`` and return their paths.

    Raises UsageError when the sheet is unknown, a board does not fit it, or a piece is half a pattern.
    """
    if not shown.pairs:
        raise UsageError("no piece to make boards of", remedy="choose sizes that the style has")
    sheets = pages(shown)
    cards = _cards(shown.style, shown.pairs)
    paths = [write_pdf(sheets, out_dir / "boards.pdf", title=say("{0}: boards", shown.style.name))]
    paths.append(write_dxf(_drawn_out(cards), out_dir / "boards.dxf"))
    square = Drawing()
    draw_check_square(square, 5.0, 5.0)
    frames: list[tuple[Drawing, Box]] = [(square, (0.0, 0.0, SQUARE_MM + 10.0, SQUARE_MM + 10.0))]
    frames += [(card.drawing, (0.0, 0.0, card.width_mm, card.height_mm)) for card in cards]
    paths.append(write_hpgl(frames, out_dir / "boards.plt"))
    return paths


def pages(shown: Drafted) -> list[Page]:
    """Return the sheets of boards.pdf; errors as ``write``."""
    style, pairs = shown.style, shown.pairs
    refuse_halves(style)
    return board_pages(style, _cards(style, pairs), _findings(pairs), sheet=shown.sheet, tiled=shown.tiled)


def board_pages(
    style: Style, cards: Sequence[BoardCard], findings: Findings, *, sheet: str = "", tiled: bool = False
) -> list[Page]:
    """Return the sheets: a new one for every size and hand, each with the 100 mm square.

    Where a board fills its sheet the square is not laid across it: the sheet has two lengths of
    100 mm beside the lines, and a sheet of its own with the square comes first.
    """
    sheets = _sheets(cards, sheet, tiled)
    plans: list[_Sheet] = []
    for (size, hand), some in groupby(cards, key=lambda card: (card.size, card.hand)):
        plans += _set_out(list(some), sheets, size, hand, tiled)
    drawn = [_drawn(plan) for plan in plans]
    if not all(with_square for _, with_square, _ in drawn):
        plans.insert(0, _square_sheet(plans[0]))
        drawn.insert(0, _drawn(plans[0]))
    sheets_drawn: list[Page] = []
    for number, (plan, (drawing, with_square, map_room)) in enumerate(zip(plans, drawn, strict=True)):
        draw_strip(
            drawing,
            plan.width_mm,
            title=style.name,
            subtitle=plan.subtitle,
            number=say("sheet {0} of {1}", number + 1, len(plans)),
            notes=_notes(style, plan, findings, with_square),
            caution=say("Caution. {0}", listed(" ")(cautions("boards"))),
            kinds={kind for card, _, _ in plan.cards for kind in card.kinds},
            right_mm=map_room,
        )
        sheets_drawn.append(Page(plan.width_mm, plan.height_mm, drawing))
    return sheets_drawn


Findings = dict[tuple[str, str, str], list[str]]
"""What drafting found wrong, by piece, size and hand."""


@dataclass(frozen=True, eq=False)
class _Sheet:
    """A sheet to be drawn: its size, its cards, or one tile of one card."""

    width_mm: float
    height_mm: float
    subtitle: str
    cards: tuple[tuple[BoardCard, float, float], ...]
    square_mm: tuple[float, float] | None = None
    tile: int | None = None


def _cards(style: Style, pairs: Sequence[Pair]) -> list[BoardCard]:
    layers: dict[tuple[str, str, str], tuple[UpperPiece, list[BackingPiece]]] = {}
    for upper, backing in pairs:
        _, backings = layers.setdefault((upper.name, upper.size, upper.hand), (upper, []))
        if backing is not None:
            backings.append(backing)
    order = list(dict.fromkeys((size, hand) for _, size, hand in layers))
    entries = sorted(layers.values(), key=lambda e: order.index((e[0].size, e[0].hand)))
    return [card for upper, backings in entries for card in cards_of(style, upper, backings)]


def _findings(pairs: Sequence[Pair]) -> Findings:
    findings: Findings = {}
    for upper, backing in pairs:
        for finding in backing.findings if backing else ():
            if finding.severity is not Severity.NOTE:
                findings.setdefault((upper.name, upper.size, upper.hand), []).append(str(finding))
    return findings


def _sheets(cards: Sequence[BoardCard], sheet: str, tiled: bool) -> list[SheetSize]:
    """Return the sheets that may be used, checked against the largest card."""
    if tiled:
        sheets = sheet_of(sheet or "A4")
        if sheets[0].roll:
            raise UsageError(
                said("tiles are printed on sheets, not on '{0}'", sheet),
                remedy="leave out --tiled, or name a sheet",
            )
        return sheets
    if not sheet:
        for name in SMALLEST_FIRST:
            if all(any(_fits(c, s, spare_mm=_SPARE_MM) for s in sheet_of(name)) for c in cards):
                return sheet_of(name)
        largest = max(cards, key=lambda c: max(c.width_mm, c.height_mm))
        raise UsageError(
            said("{0} size {1} is larger than A0", largest.name, largest.size),
            remedy="use --sheet roll:1200 or --tiled",
        )
    sheets = sheet_of(sheet, roll_length_mm=_ROLL_LIMIT_MM)
    for card in cards:
        if not any(_fits(card, s) for s in sheets):
            raise UsageError(
                said(
                    "{0} size {1} needs {2} x {3} mm and does not fit {4}",
                    card.name,
                    card.size,
                    f"{card.width_mm:.0f}",
                    f"{card.height_mm:.0f}",
                    sheets[0].name,
                ),
                remedy="use a larger sheet, or --tiled",
            )
    return sheets


def _fits(card: BoardCard, sheet: SheetSize, *, spare_mm: float = 0.0) -> bool:
    """Whether a sheet holds a card, with a square of ``spare_mm`` beside or below it."""
    wide, high = window_of(sheet.width_mm, sheet.height_mm, STRIP_MM)
    if card.width_mm > wide or card.height_mm > high:
        return False
    return card.width_mm + spare_mm <= wide or card.height_mm + spare_mm <= high


def _set_out(
    cards: list[BoardCard], sheets: list[SheetSize], size: str, hand: str, tiled: bool
) -> list[_Sheet]:
    """Set the cards of one size and hand out on the way round that takes fewest sheets."""
    whole = [c for c in cards if any(_fits(c, s) for s in sheets)]
    plans = min(
        (_packed(whole, s, size, hand) for s in sheets if all(_fits(c, s) for c in whole)),
        key=len,
        default=None,
    )
    if plans is None:  # some fit upright only, some lying only
        plans = []
        for s in sheets:
            here = [c for c in whole if _fits(c, s)]
            whole = [c for c in whole if not _fits(c, s)]
            plans += _packed(here, s, size, hand)
    if tiled:
        for card in cards:
            if not any(_fits(card, s) for s in sheets):
                plans += _tiled(card, sheets)
    return plans


def _packed(cards: list[BoardCard], sheet: SheetSize, size: str, hand: str) -> list[_Sheet]:
    if not cards:
        return []
    wide, high = window_of(sheet.width_mm, sheet.height_mm, STRIP_MM)
    cards = sorted(cards, key=lambda c: -c.height_mm)
    spreads: list[FilledSheet] = set_out(
        [(c.width_mm, c.height_mm) for c in cards],
        wide,
        high,
        gap_mm=_GAP_MM,
        keep_mm=(SQUARE_MM + 2, SQUARE_MM + 2),
    )
    out = []
    for spread in spreads:
        height = sheet.height_mm
        if sheet.roll:
            height = spread.used_mm + STRIP_MM + 2 * MARGIN_MM
        low = MARGIN_MM + STRIP_MM
        places = tuple((cards[i], MARGIN_MM + x, low + y) for i, x, y in spread.places)
        square = None
        if spread.kept_mm is not None:
            square = (MARGIN_MM + spread.kept_mm[0] + 1.0, low + spread.kept_mm[1] + 1.0)
        out.append(
            _Sheet(
                sheet.width_mm,
                height,
                say("Boards · size {0} · {1} · {2}", size, hand, sheet.name),
                places,
                square,
            )
        )
    return out


def _tiled(card: BoardCard, sheets: list[SheetSize]) -> list[_Sheet]:
    """Return the tiles of one card, the paper the way round that takes fewest."""

    def tiles(sheet: SheetSize) -> int:
        return len(
            grid_of(card.width_mm, card.height_mm, window_of(sheet.width_mm, sheet.height_mm, STRIP_MM)).tiles
        )

    sheet = min(sheets, key=tiles)
    about = say("{0} · size {1} · {2} · {3}", card.name, card.size, card.hand, sheet.name)
    names = [
        tile.name
        for tile in grid_of(
            card.width_mm, card.height_mm, window_of(sheet.width_mm, sheet.height_mm, STRIP_MM)
        ).tiles
    ]
    return [
        _Sheet(
            sheet.width_mm,
            sheet.height_mm,
            say("Tile {0} of {1} · {2}", name, names[-1], about),
            ((card, 0.0, 0.0),),
            None,
            number,
        )
        for number, name in enumerate(names)
    ]


def _square_sheet(like: _Sheet) -> _Sheet:
    """Return a sheet for the square alone, on the same paper."""
    high = max(like.height_mm, SQUARE_MM + STRIP_MM + 2 * MARGIN_MM)
    place = (like.width_mm - SQUARE_MM) / 2.0, (high + STRIP_MM - SQUARE_MM) / 2.0
    return _Sheet(like.width_mm, high, "Check square · measure it before the boards", (), place)


def _drawn(plan: _Sheet) -> tuple[Drawing, bool, float]:
    """Return a sheet's drawing but for its strip, whether it has the square, and the room of the map."""
    drawing = Drawing()
    map_room = 0.0
    low = MARGIN_MM + STRIP_MM
    window = (MARGIN_MM, low, plan.width_mm - MARGIN_MM, plan.height_mm - MARGIN_MM)
    if plan.tile is not None:
        card = plan.cards[0][0]
        grid = grid_of(card.width_mm, card.height_mm, window_of(plan.width_mm, plan.height_mm, STRIP_MM))
        tile = grid.tiles[plan.tile]
        draw_tile(drawing, card, grid, tile, (MARGIN_MM, low))
        map_room = 38.0
        right = plan.width_mm - MARGIN_MM
        draw_map(drawing, card, grid, tile, (right - 36.0, MARGIN_MM - 3.0, right, low - 5.0))
    else:
        for card, x, y in plan.cards:
            drawing.place(card.drawing, x, y)
    if plan.square_mm is not None:
        draw_check_square(drawing, *plan.square_mm)
        return drawing, True, map_room
    lines = list(_lines(drawing, window))
    room = _inset(window, 0.2)
    square, clear = free_box(SQUARE_MM, SQUARE_MM, _inset(window, 0.5), lines)
    if clear:
        draw_check_square(drawing, *square)
    else:
        across, _ = free_box(SQUARE_MM, CHECK_BAND_MM, room, lines)
        up, _ = free_box(CHECK_BAND_MM, SQUARE_MM, room, lines)
        draw_check_lengths(drawing, across, up)
    return drawing, clear, map_room


def _notes(style: Style, plan: _Sheet, findings: Findings, with_square: bool) -> list[str]:
    if not plan.cards:
        return [
            "Some boards fill their sheets. Measure the square on this one, and on each of those both",
            "lengths of 100 mm. More than 0.5 mm off: do not use, print at 100 %.",
        ]
    keys = dict.fromkeys((card.name, card.size, card.hand) for card, _, _ in plan.cards)
    found = [text for key in keys for text in findings.get(key, ())]
    if plan.tile is None:
        notes = ["Full size, mm. Drawn from the upper's face: the glue side of the backing faces you."]
    else:
        notes = [
            say(
                "Full size, mm. Tiles overlap {0} mm: trim one of two neighbours at the dashed line, "
                "lay cross on cross, stick.",
                f"{OVERLAP_MM:g}",
            )
        ]
    radius = style.rules.knife_radius_mm
    notes.append(
        say(
            "Setbacks are measured from the upper's cut edge. Curves true within {0} mm",
            f"{style.rules.chord_mm:g}",
        )
        + (say(", backing corners rounded {0} mm.", f"{radius:g}") if radius else ".")
    )
    if not with_square:
        notes[0] += " Check both lengths of 100 mm."
    more = say(" (and {0} more)", len(found) - 1) if found[1:] else ""
    notes.append(say("Drafting check: {0}{1}", found[0], more) if found else "Drafting check: no warning.")
    return notes


def _lines(drawing: Drawing, window: Box) -> Iterable[BaseGeometry]:
    """Everything drawn in a window, as shapes that the check square should not cross."""
    for mark in drawing.walk():
        if isinstance(mark, Line):
            points = mark.points_mm.tolist()
            shape: BaseGeometry = shapely.LineString(points + points[:1] if mark.closed else points)
        elif isinstance(mark, Circle):
            shape = shapely.Point(mark.x_mm, mark.y_mm).buffer(mark.radius_mm).boundary
        elif isinstance(mark, Text):
            shape = shapely.box(*text_box(mark))
        else:
            continue
        yield shapely.clip_by_rect(shape, *window)


def _inset(box: Box, by_mm: float) -> Box:
    return box[0] + by_mm, box[1] + by_mm, box[2] - by_mm, box[3] - by_mm


def _drawn_out(cards: Sequence[BoardCard]) -> Drawing:
    """Return the check square and all cards, a new row for every size and hand, for the drawing file."""
    drawing = Drawing()
    draw_check_square(drawing, -SQUARE_MM - 30.0, -SQUARE_MM)
    y = 0.0
    for _, group in groupby(cards, key=lambda card: (card.size, card.hand)):
        row: list[BoardCard] = []
        x = 0.0
        for card in group:
            if row and x + card.width_mm > _DXF_ROW_MM:
                y -= max(c.height_mm for c in row) + 20.0
                row, x = [], 0.0
            drawing.place(card.drawing, x, y - card.height_mm)
            x += card.width_mm + 20.0
            row.append(card)
        y -= max(c.height_mm for c in row) + 40.0
    return drawing
