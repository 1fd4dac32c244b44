"""A card larger than the paper, cut into overlapping tiles that are stuck together."""

from __future__ import annotations

import math
from dataclasses import dataclass

from app.papers.formats.drawing import Box, Drawing, Line
from app.papers.layout import pens
from app.papers.layout.sheets import MARGIN_MM
from app.papers.pictures.board_cards import BoardCard

OVERLAP_MM = 10.0
"""What two neighbouring tiles show both, for the glue stick."""


@dataclass(frozen=True)
class Tile:
    """A window on a card; rows count from the top (A, B, ...), columns from the left (1, 2, ...)."""

    row: int
    column: int
    window_mm: Box

    @property
    def name(self) -> str:
        """As lettered on the tile: A1, A2, B1, ..."""
        return f"{chr(65 + self.row)}{self.column + 1}"


@dataclass(frozen=True)
class Grid:
    """The tiles of a card, row by row."""

    rows: int
    columns: int
    tiles: tuple[Tile, ...]


def grid_of(width_mm: float, height_mm: float, window_mm: tuple[float, float]) -> Grid:
    """Return the tiles that cover a card, all of the same size, the card in the middle."""
    wide, high = window_mm
    columns = max(1, math.ceil((width_mm - OVERLAP_MM) / (wide - OVERLAP_MM)))
    rows = max(1, math.ceil((height_mm - OVERLAP_MM) / (high - OVERLAP_MM)))
    left = (width_mm - columns * (wide - OVERLAP_MM) - OVERLAP_MM) / 2.0
    top = (height_mm + rows * (high - OVERLAP_MM) + OVERLAP_MM) / 2.0
    tiles = []
    for row in range(rows):
        for column in range(columns):
            x = left + column * (wide - OVERLAP_MM)
            y = top - high - row * (high - OVERLAP_MM)
            tiles.append(Tile(row, column, (x, y, x + wide, y + high)))
    return Grid(rows, columns, tuple(tiles))


def draw_tile(
    drawing: Drawing, card: BoardCard, grid: Grid, tile: Tile, corner_mm: tuple[float, float]
) -> Box:
    """Draw a tile with its window's corner at ``corner_mm``; return the window on the page."""
    x0, y0, x1, y1 = tile.window_mm
    at_x, at_y = corner_mm
    window = (at_x, at_y, at_x + x1 - x0, at_y + y1 - y0)
    drawing.place(card.drawing, at_x - x0, at_y - y0, clip_mm=window)
    _draw_joins(drawing, grid, tile, window)
    return window


def _draw_joins(drawing: Drawing, grid: Grid, tile: Tile, window: Box) -> None:
    """Dashed lines to trim or stick to where a neighbour joins, and crosses both tiles show."""
    x0, y0, x1, y1 = window
    half = OVERLAP_MM / 2.0
    if tile.column > 0:
        drawing.line([(x0 + half, y0), (x0 + half, y1)], pens.SPLIT, "frame")
    if tile.column < grid.columns - 1:
        drawing.line([(x1 - half, y0), (x1 - half, y1)], pens.SPLIT, "frame")
    if tile.row > 0:
        drawing.line([(x0, y1 - half), (x1, y1 - half)], pens.SPLIT, "frame")
    if tile.row < grid.rows - 1:
        drawing.line([(x0, y0 + half), (x1, y0 + half)], pens.SPLIT, "frame")
    beside = {x0 + half: tile.column > 0, x1 - half: tile.column < grid.columns - 1}
    above = {y0 + half: tile.row < grid.rows - 1, y1 - half: tile.row > 0}
    for x, joined in beside.items():
        for y in (y for y in above if joined or above[y]):
            drawing.line([(x - 4.0, y), (x + 4.0, y)], pens.THIN, "frame")
            drawing.line([(x, y - 4.0), (x, y + 4.0)], pens.THIN, "frame")
            drawing.circle(x, y, 2.0, pens.THIN, "frame")


def draw_map(drawing: Drawing, card: BoardCard, grid: Grid, tile: Tile, box: Box) -> None:
    """Draw the assembling map into a box: the card small, its tiles, this one shaded."""
    x0, y0, x1, y1 = box
    windows = [t.window_mm for t in grid.tiles]
    low_x, low_y = min(w[0] for w in windows), min(w[1] for w in windows)
    high_x, high_y = max(w[2] for w in windows), max(w[3] for w in windows)
    scale = min((x1 - x0) / (high_x - low_x), (y1 - y0) / (high_y - low_y))
    left, low = x1 - (high_x - low_x) * scale, y0
    half = OVERLAP_MM / 2.0
    for other in grid.tiles:
        a, b, c, d = other.window_mm
        cell = (
            left + (a + half - low_x) * scale,
            low + (b + half - low_y) * scale,
            left + (c - half - low_x) * scale,
            low + (d - half - low_y) * scale,
        )
        if other == tile:
            drawing.fill_box(cell, (0.80, 0.82, 0.83))
        drawing.box(cell, pens.HAIR, "frame")
        drawing.text(
            (cell[0] + cell[2]) / 2, (cell[1] + cell[3]) / 2 - 0.8, other.name, pens.TINY,
            "frame", anchor="middle", colour=pens.INK, bold=other == tile,
        )  # fmt: skip
    outline = Drawing()
    for mark in card.drawing.walk():
        if isinstance(mark, Line) and mark.layer in ("upper", "backing", "both"):
            outline.line(mark.points_mm, pens.HAIR, mark.layer, closed=mark.closed)
    drawing.place(outline, left - low_x * scale, low - low_y * scale, scale=scale)


def window_of(page_width_mm: float, page_height_mm: float, strip_mm: float) -> tuple[float, float]:
    """Return the size of the window that a page leaves for a tile."""
    return page_width_mm - 2 * MARGIN_MM, page_height_mm - 2 * MARGIN_MM - strip_mm
