"""Tables on a drawing: a ruled head, light rules between rows, figures to the right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.formats.drawing import Anchor, Drawing
from app.papers.formats.lettering import fitted, width_mm
from app.papers.layout import pens

_PAD_MM = 1.6


@dataclass(frozen=True)
class Column:
    """A column's head, width and side of alignment."""

    head: str
    width_mm: float
    anchor: Anchor = "left"


def row_height_mm(size_mm: float) -> float:
    """Return the height of a row."""
    return size_mm * 1.75


def draw_table(
    drawing: Drawing,
    x_mm: float,
    top_mm: float,
    columns: Sequence[Column],
    rows: Sequence[Sequence[str]],
    *,
    size_mm: float = pens.SMALL,
    bold_rows: Sequence[int] = (),
) -> float:
    """Draw a table with its upper left corner at (x, top); return the y of its foot."""
    high = row_height_mm(size_mm)
    right = x_mm + sum(c.width_mm for c in columns)
    y = top_mm - high
    _row(drawing, x_mm, y, columns, [c.head for c in columns], size_mm, bold=True)
    drawing.line([(x_mm, y), (right, y)], pens.RULE, "frame")
    for number, row in enumerate(rows):
        y -= high
        if number in bold_rows:
            drawing.line([(x_mm, y + high), (right, y + high)], pens.RULE, "frame")
        _row(drawing, x_mm, y, columns, row, size_mm, bold=number in bold_rows)
        drawing.line([(x_mm, y), (right, y)], pens.HAIR, "frame")
    return y


def fitting_columns(
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    anchors: Sequence[Anchor],
    room_mm: float,
    *,
    size_mm: float = pens.SMALL,
    fill: bool = False,
) -> list[Column]:
    """Return columns as wide as their words, shrunk together where the room is narrower.

    ``fill`` shares out room left over, so that the table is as wide as the room.
    """
    needs = _needs_mm(heads, rows, size_mm)
    spare = (room_mm - sum(needs)) / len(needs)
    if fill and spare > 0.0:
        needs = [need + spare for need in needs]
    share = min(1.0, room_mm / sum(needs))
    return [Column(h, n * share, a) for h, n, a in zip(heads, needs, anchors, strict=True)]


def table_width_mm(heads: Sequence[str], rows: Sequence[Sequence[str]], size_mm: float) -> float:
    """Return how wide a table must be so that none of its words is shortened."""
    return sum(_needs_mm(heads, rows, size_mm))


def _needs_mm(heads: Sequence[str], rows: Sequence[Sequence[str]], size_mm: float) -> list[float]:
    columns = [[head, *(row[k] for row in rows)] for k, head in enumerate(heads)]
    widths = [max(width_mm(cell, size_mm, bold=True) for cell in column) for column in columns]
    return [max(wide, 4.0) + 2 * _PAD_MM for wide in widths]


def _row(
    drawing: Drawing,
    x: float,
    y: float,
    columns: Sequence[Column],
    cells: Sequence[str],
    size: float,
    *,
    bold: bool,
) -> None:
    for column, cell in zip(columns, cells, strict=True):
        text = fitted(cell, size, column.width_mm - 2 * _PAD_MM, bold=bold)
        at = {"left": _PAD_MM, "middle": column.width_mm / 2, "right": column.width_mm - _PAD_MM}
        drawing.text(
            x + at[column.anchor],
            y + size * 0.5,
            text,
            size,
            anchor=column.anchor,
            bold=bold,
            colour=pens.INK,
        )
        x += column.width_mm
