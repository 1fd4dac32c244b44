"""Blocks set one below the other on sheets of paper: headings, labelled values, tables, boxes."""

from __future__ import annotations

from collections.abc import Sequence

from app.papers.formats.drawing import Anchor, Drawing, Page
from app.papers.formats.lettering import fitted, width_mm, wrapped
from app.papers.layout import pens
from app.papers.layout.sheets import MARGIN_MM
from app.papers.layout.tables import draw_table, fitting_columns, row_height_mm, table_width_mm
from app.words import say

SMALLEST_MM = 2.0
"""Lettering of a table is never set smaller than this (5.7 points)."""

TEXT_HEADS = frozenset(
    ["", "piece", "size", "lay", "pairs in the lay", "actually cut", "cloth id"] + ["roll", "lot", "hold"]
)
"""Heads of columns that hold words and are set to the left; all others hold figures."""


class Flow:
    """Blocks set one below the other, on as many sheets as they need."""

    def __init__(self, wide: float, high: float, title: str, name: str) -> None:
        self.wide, self.high, self.title, self.name = wide, high, title, name
        self.room = wide - 2 * MARGIN_MM
        self.drawings: list[Drawing] = []
        self.y = 0.0
        self._sheet()

    def _sheet(self) -> None:
        drawing = Drawing()
        top = self.high - MARGIN_MM
        y = top - pens.TITLE * 0.8
        drawing.text(MARGIN_MM, y, self.title, pens.TITLE, bold=True, colour=pens.INK)
        at = self.wide - MARGIN_MM
        room = self.room - width_mm(self.title, pens.TITLE, bold=True) - 8.0
        name = fitted(self.name, pens.HEADING, room, bold=True)
        drawing.text(at, y, name, pens.HEADING, anchor="right", bold=True, colour=pens.TEAL)
        drawing.line([(MARGIN_MM, y - 3.5), (at, y - 3.5)], pens.RULE, "frame")
        self.drawings.append(drawing)
        self.y = y - 4.5

    @property
    def here(self) -> Drawing:
        return self.drawings[-1]

    def _need(self, height: float) -> None:
        if self.y - height < MARGIN_MM + 5.0:
            self._sheet()

    def heading(self, text: str) -> None:
        """Start a block; never left alone at a sheet's foot."""
        self._need(20.0)
        self.y -= pens.LABEL + 2.0
        self.here.text(MARGIN_MM, self.y, text, pens.LABEL, bold=True, colour=pens.TEAL)
        self.y -= 1.0

    def fields(self, fields: Sequence[tuple[str, str]], *, columns: int) -> None:
        """Set labelled values in columns; an empty value is a line to write on."""
        unit = self.room / columns
        label = max(21.0, *(width_mm(name, pens.SMALL) + 3.0 for name, _ in fields))
        for at in range(0, len(fields), columns):
            row = fields[at : at + columns]
            texts = [wrapped(value, pens.SMALL, unit - label - 3.0) if value else [] for _, value in row]
            height = max(1, *(len(t) for t in texts)) * pens.SMALL * 1.3 + 1.3
            self._need(height)
            for k, ((name, _), lines) in enumerate(zip(row, texts, strict=True)):
                x, y = MARGIN_MM + k * unit, self.y - pens.SMALL * 1.3
                self.here.text(x, y, name, pens.SMALL, colour=pens.GREY)
                if not lines:
                    self.here.line([(x + label, y - 0.6), (x + unit - 4.0, y - 0.6)], pens.HAIR, "frame")
                for line in lines:
                    self.here.text(x + label, y, line, pens.SMALL, colour=pens.INK)
                    y -= pens.SMALL * 1.3
            self.y -= height

    def table(
        self,
        heads: Sequence[str],
        rows: Sequence[Sequence[str]],
        *,
        size_mm: float = pens.SMALL,
        total: bool = False,
    ) -> None:
        """Set a table over the whole width, going on to the next sheet; ``total`` sets off its last row.

        What is too wide is set smaller, then in two tables one below the other; nothing is cut off
        that a figure needs.
        """
        anchors: list[Anchor] = ["left" if head in TEXT_HEADS else "right" for head in heads]
        while size_mm > SMALLEST_MM and table_width_mm(heads, rows, size_mm) > self.room:
            size_mm = max(SMALLEST_MM, size_mm * 0.93)
        fixed = next((k for k, anchor in enumerate(anchors) if anchor == "right"), len(heads))
        if table_width_mm(heads, rows, size_mm) > self.room and len(heads) - fixed > 1:
            middle = fixed + (len(heads) - fixed + 1) // 2
            for some in (range(fixed, middle), range(middle, len(heads))):
                keep = [*range(fixed), *some]
                part = [[row[k] for k in keep] for row in rows]
                self.table([heads[k] for k in keep], part, size_mm=size_mm, total=total)
            return
        columns = fitting_columns(heads, rows, anchors, self.room, size_mm=size_mm, fill=True)
        high = row_height_mm(size_mm)
        left = list(rows)
        while left:
            self._need(high * 3)
            count = max(1, min(len(left), int((self.y - MARGIN_MM - 5.0) / high) - 1))
            bold = [len(left) - 1] if total and count == len(left) else []
            self.y = draw_table(
                self.here, MARGIN_MM, self.y, columns, left[:count], size_mm=size_mm, bold_rows=bold
            )
            self.y -= 1.5
            left = left[count:]

    def paragraph(self, text: str, *, keep_mm: float = 0.0) -> None:
        """Set a paragraph over the whole width, on a sheet with ``keep_mm`` of what follows."""
        if keep_mm:
            self._need(keep_mm)
        for line in wrapped(text, pens.SMALL, self.room):
            self._need(pens.SMALL * 1.35)
            self.y -= pens.SMALL * 1.35
            self.here.text(MARGIN_MM, self.y, line, pens.SMALL, colour=pens.INK)
        self.y -= 1.0

    def cautions(self, texts: Sequence[str]) -> None:
        """Set the cautions of a paper under their heading, all of them on one sheet."""
        lines = sum(len(wrapped(text, pens.SMALL, self.room)) for text in texts)
        self._need(pens.LABEL + 3.0 + lines * pens.SMALL * 1.35 + len(texts))
        self.heading("Cautions")
        for text in texts:
            self.paragraph(text)

    def boxes(self, texts: Sequence[str]) -> None:
        """Set boxes to tick, two beside each other."""
        unit = self.room / 2
        for at in range(0, len(texts), 2):
            self._need(6.0)
            self.y -= 5.6
            for k, text in enumerate(texts[at : at + 2]):
                x = MARGIN_MM + k * unit
                self.here.box((x, self.y - 0.5, x + 3.2, self.y + 2.7), pens.THIN, "frame")
                self.here.text(x + 5.0, self.y, text, pens.SMALL, colour=pens.INK)
        self.y -= 3.0

    def figures(self, figures: Sequence[tuple[str, str]]) -> None:
        """Set large figures side by side, each with what it is below."""
        unit = self.room / len(figures)
        self._need(16.0)
        self.y -= pens.HEADING + 2.0
        for k, (figure, label) in enumerate(figures):
            x = MARGIN_MM + k * unit
            figure = fitted(figure, pens.HEADING, unit - 2.0, bold=True)
            self.here.text(x, self.y, figure, pens.HEADING, bold=True, colour=pens.TEAL)
            self.here.text(x, self.y - 3.8, fitted(label, pens.TINY, unit - 2.0), pens.TINY, colour=pens.GREY)
        self.y -= 6.0

    def bars(self, heads: Sequence[str], rows: Sequence[tuple[str, float, Sequence[str]]]) -> None:
        """Set shares of a whole as bars, figures behind each under ``heads``; the last row is the whole."""
        label, figure = 30.0, 22.0
        full = self.room - label - figure * len(heads)
        for k, head in enumerate(heads):
            at = MARGIN_MM + label + full + figure * (k + 1)
            if k == 0:
                self._need(10.0)
                self.y -= 4.6
            self.here.text(at, self.y, head, pens.SMALL, anchor="right", bold=True, colour=pens.INK)
        for number, (name, share, figures) in enumerate(rows):
            self._need(5.0)
            self.y -= 4.6
            whole = number == len(rows) - 1
            x = MARGIN_MM + label
            self.here.text(MARGIN_MM, self.y, name, pens.SMALL, bold=whole, colour=pens.INK)
            if share > 0.0 and not whole:
                self.here.fill_box((x, self.y - 0.4, x + full * share, self.y + 2.6), pens.TEAL)
            rule = [(MARGIN_MM, self.y - 1.2), (self.wide - MARGIN_MM, self.y - 1.2)]
            self.here.line(rule, pens.HAIR, "frame")
            for k, text in enumerate(figures):
                at = x + full + figure * (k + 1)
                self.here.text(at, self.y, text, pens.SMALL, anchor="right", bold=whole, colour=pens.INK)
        self.y -= 2.5

    def picture(self, caption: str, drawing: Drawing, height_mm: float) -> None:
        """Set a drawing (its origin at its lower left) under a caption, on one sheet."""
        self._need(height_mm + pens.SMALL * 1.5 + 4.0)
        self.y -= pens.SMALL * 1.5
        self.here.text(MARGIN_MM, self.y, caption, pens.SMALL, bold=True, colour=pens.INK)
        self.y -= height_mm + 1.5
        self.here.place(drawing, MARGIN_MM, self.y)
        self.y -= 1.5

    def pages(self) -> list[Page]:
        """Number the sheets and return them."""
        for number, drawing in enumerate(self.drawings):
            text = say("sheet {0} of {1}", number + 1, len(self.drawings))
            drawing.text(self.wide - MARGIN_MM, MARGIN_MM, text, pens.TINY, anchor="right", colour=pens.GREY)
        return [Page(self.wide, self.high, drawing) for drawing in self.drawings]
