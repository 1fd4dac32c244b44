"""Pages set on the paper that is in the printer: as they are, shrunk, or 1:1 in tiles to be stuck."""

from __future__ import annotations

from collections.abc import Iterable

from app.papers.formats.drawing import Drawing, Page
from app.papers.layout import pens
from app.papers.layout.sheets import MARGIN_MM
from app.papers.layout.tiles import Grid, Tile, draw_map, draw_tile, grid_of, window_of
from app.papers.pictures.board_cards import BoardCard

SLACK_MM = 1.0
"""A sheet may be this much smaller than the page: PDF and printers count in whole points."""

STRIP_MM = 16.0
"""Height of the strip under a tile that says which one it is."""


def onto_sheets(
    pages: Iterable[Page], width_mm: float, height_mm: float, *, true_size: bool, title: str = ""
) -> list[Page]:
    """Return pages that each fit a sheet of the given size, upright or lying.

    A page that is larger than the sheet is shrunk to it, or, where it is drawn at ``true_size``,
    cut into overlapping tiles at 1:1.
    """
    out: list[Page] = []
    for number, page in enumerate(pages):
        sheet = _turned(page, width_mm, height_mm)
        if page.width_mm <= sheet[0] + SLACK_MM and page.height_mm <= sheet[1] + SLACK_MM:
            out.append(_placed(page, *sheet, 1.0))
        elif true_size:
            out += _tiles(page, width_mm, height_mm, f"{title}, {number + 1}" if number else title)
        else:
            out.append(_placed(page, *sheet, min(sheet[0] / page.width_mm, sheet[1] / page.height_mm)))
    return out


def shrink_share(page: Page, width_mm: float, height_mm: float) -> float:
    """Return the scale at which a page fits the sheet: 1.0 when it need not shrink."""
    wide, high = _turned(page, width_mm, height_mm)
    if page.width_mm <= wide + SLACK_MM and page.height_mm <= high + SLACK_MM:
        return 1.0
    return min(wide / page.width_mm, high / page.height_mm)


def _turned(page: Page, width_mm: float, height_mm: float) -> tuple[float, float]:
    """Return the sheet the way round that suits the page."""
    short, long = sorted((width_mm, height_mm))
    return (long, short) if page.width_mm > page.height_mm else (short, long)


def _placed(page: Page, wide: float, high: float, scale: float) -> Page:
    drawing = Drawing()
    drawing.place(
        page.drawing, (wide - page.width_mm * scale) / 2, (high - page.height_mm * scale) / 2, scale=scale
    )
    return Page(wide, high, drawing)


def _tiles(page: Page, width_mm: float, height_mm: float, title: str) -> list[Page]:
    short, long = sorted((width_mm, height_mm))
    grids = [
        (wide, high, grid_of(page.width_mm, page.height_mm, window_of(wide, high, STRIP_MM)))
        for wide, high in ((short, long), (long, short))
    ]
    wide, high, grid = min(grids, key=lambda entry: len(entry[2].tiles))
    card = BoardCard(title, "", "", page.drawing, page.width_mm, page.height_mm)
    return [_tile(card, grid, tile, wide, high) for tile in grid.tiles]


def _tile(card: BoardCard, grid: Grid, tile: Tile, wide: float, high: float) -> Page:
    drawing = Drawing()
    draw_tile(drawing, card, grid, tile, (MARGIN_MM, MARGIN_MM + STRIP_MM))
    y = MARGIN_MM + STRIP_MM - 3.0 - pens.HEADING
    drawing.text(MARGIN_MM, y, f"{card.name}: {tile.name}", pens.HEADING, bold=True, colour=pens.INK)
    drawing.text(
        MARGIN_MM,
        y - pens.BODY * 1.4,
        f"Full size. {grid.rows} rows, {grid.columns} columns; trim at the dashed line, lay cross on cross.",
        pens.SMALL,
        colour=pens.GREY,
    )
    small = min(50.0, wide / 5)
    draw_map(
        drawing, card, grid, tile, (wide - MARGIN_MM - small, MARGIN_MM, wide - MARGIN_MM, MARGIN_MM + 12.0)
    )
    return Page(wide, high, drawing)
