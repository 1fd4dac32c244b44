"""Cut ticket: what is cut from which roll, in which lays, and what was really cut."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from app.papers import pens
from app.papers.drawing import Drawing, Page
from app.papers.lay_facts import (
    assumptions,
    codes_of,
    count_text,
    lay_title,
    require_verified,
    tight_words,
    verdict_line,
)
from app.papers.lettering import fitted, wrapped
from app.papers.pdf import write_pdf
from app.papers.reinforcement_sheet import CAUTIONS, press_words
from app.papers.sheets import ISO_216_MM, MARGIN_MM
from app.papers.spreadsheet import Sheet, write_csv, write_xlsx
from app.papers.tables import draw_table, fitting_columns, row_height_mm
from app.papers.ticket_figures import CutTicket, TicketLay, sections_of

__all__ = ["CutTicket", "TicketLay", "write"]

_MODES = {"face-up": "face up", "face-to-face": "face to face"}

CHECKS = (
    "plot true: 100 mm square within 0.5 mm",
    "tight direction found by pulling the cloth",
    "glue side up at spreading",
    "first piece laid on its board",
    "size and hand marked on every bundle",
    "bond peeled on a pressed trial piece",
)


def write(ticket: CutTicket, out_dir: Path) -> list[Path]:
    """Write cut-ticket.pdf, .csv and .xlsx; raises UnverifiedError when any lay is not verified."""
    out_dir = Path(out_dir)
    for lay in ticket.lays:
        require_verified(lay.verdict, f"lay {lay.name}")
    sheets = ticket_sheets(ticket)
    return [
        write_pdf(ticket_pages(ticket), out_dir / "cut-ticket.pdf", title=f"Cut ticket {ticket.style.name}"),
        write_csv(sheets, out_dir / "cut-ticket.csv"),
        write_xlsx(sheets, out_dir / "cut-ticket.xlsx"),
    ]


def ticket_sheets(ticket: CutTicket) -> list[Sheet]:
    """Return the ticket as tables: facts, pairs by size, lays, pieces."""
    cloth = ticket.cloth
    facts = [
        *_job(ticket),
        *_cloth(ticket),
        ("checks", "; ".join(CHECKS)),
        *((f"lay {lay.name} verdict", verdict_line(lay.verdict)) for lay in ticket.lays),
        *((f"lay {lay.name} assumed", "; ".join(_assumed(ticket, lay))) for lay in ticket.lays),
    ]
    cut = ticket.pairs_cut
    sizes = [
        (
            size,
            ticket.pairs.get(size, 0),
            cut[size],
            cut[size] - ticket.pairs.get(size, 0),
            cut[size],
            cut[size],
        )
        for size in ticket.sizes
    ]
    lays = []
    for lay in ticket.lays:
        use = ticket.consumption(lay)
        lays.append(
            (
                lay.name,
                sections_of(lay.document),
                round(lay.length_mm / 1000, 4),
                lay.document["roll"]["usable_width_mm"],
                lay.plies,
                _MODES[lay.mode],
                len(lay.document["placements"]),
                round(use.lay_yield, 6),
                round(use.utilisation, 6),
                round(use.metres * lay.plies, 4),
                round(use.gross_m2 * lay.plies, 4),
                round(use.net_mm2 * lay.plies / 1e6, 4),
            )
        )
    pieces = [
        (piece, size, left, right)
        for piece, row in ticket.pieces.items()
        for size, (left, right, _) in row.items()
    ]
    return [
        Sheet("Ticket", ("item", "value"), facts),
        Sheet("Pairs", ("size", "ordered", "cut", "over or short", "left", "right"), sizes),
        Sheet(
            "Lays",
            (
                "lay", "pairs", "length m", "usable width mm", "plies", "spread", "pieces", "yield",
                "utilisation", f"metres of {cloth.id}", "gross m2", "net m2",
            ),
            lays,
        ),
        Sheet("Pieces", ("piece", "size", "left", "right"), pieces),
    ]  # fmt: skip


def ticket_pages(ticket: CutTicket) -> list[Page]:
    """Return the ticket on A4 sheets, upright."""
    wide, high = ISO_216_MM["A4"]
    flow = _Flow(wide, high, ticket)
    flow.fields(_job(ticket), columns=3)
    flow.heading("Cloth")
    flow.fields(_cloth(ticket), columns=2)
    cut, sizes = ticket.pairs_cut, ticket.sizes
    flow.heading("Pairs and shoes")
    rows = [
        ["pairs ordered", *(str(ticket.pairs.get(s, 0)) for s in sizes), str(sum(ticket.pairs.values()))],
        ["pairs cut", *(str(cut[s]) for s in sizes), str(sum(cut.values()))],
        ["over (+), short (-)", *(_signed(cut[s] - ticket.pairs.get(s, 0)) for s in sizes)]
        + [_signed(sum(cut.values()) - sum(ticket.pairs.values()))],
        ["left / right shoes", *(f"{cut[s]} / {cut[s]}" for s in sizes), f"{sum(cut.values())} each"],
    ]
    flow.table(["size", *sizes, "in all"], rows)
    flow.heading("Lays")
    flow.table(*_lay_table(ticket))
    flow.paragraph(_totals(ticket))
    flow.heading("Pieces out of all plies")
    codes = codes_of(sorted(ticket.pieces))
    body = [
        [codes[piece], piece, *(count_text(row.get(s, (0, 0, 0))) for s in sizes)]
        for piece, row in sorted(ticket.pieces.items())
    ]
    flow.table(["", "piece", *sizes], body)
    flow.heading("Check, then sign")
    flow.boxes(CHECKS)
    flow.table(
        ["really cut", *sizes, "in all"],
        [["pairs", *[""] * (len(sizes) + 1)], ["short / over, why", *[""] * (len(sizes) + 1)]],
        size_mm=pens.BODY,
    )
    flow.fields([("metres used", ""), ("cut by", ""), ("date and sign", "")], columns=3)
    flow.heading("Assumed and verified")
    for lay in ticket.lays:
        flow.paragraph(
            f"Lay {lay.name}: {verdict_line(lay.verdict)}. Assumed: {'; '.join(_assumed(ticket, lay))}."
        )
    for note in ticket.notes:
        flow.paragraph(note)
    flow.heading("Take care")
    for caution in CAUTIONS[:3]:
        flow.paragraph(caution)
    return flow.pages()


def _job(ticket: CutTicket) -> list[tuple[str, str]]:
    return [
        ("order", ticket.order),
        ("style", ticket.style.name),
        ("date", ticket.date),
        ("last", ticket.last),
        ("colour", ticket.colour),
        ("drawing", ticket.style.drawing),
    ]


def _cloth(ticket: CutTicket) -> list[tuple[str, str]]:
    cloth = ticket.cloth
    return [
        ("cloth", f"{cloth.name} ({cloth.id})"),
        ("coating", f"{cloth.glue or 'not described'}, on the {cloth.coated_side}"),
        ("lot", cloth.lot),
        ("roll no.", ticket.roll_number),
        ("width", f"{cloth.width_mm:g} mm, usable {cloth.usable_width_mm:g} mm"),
        ("measured", ""),
        ("tight direction", f"{tight_words(cloth.tight_direction_deg)} ({cloth.how_known})"),
        ("turning", "one way only" if cloth.one_way else "half turns allowed"),
        ("spread", "glue side up: the lay is drawn that way"),
        ("press setting", press_words(cloth.press)),
    ]


def _lay_table(ticket: CutTicket) -> tuple[list[str], list[list[str]]]:
    heads = ["lay", "pairs of sizes", "length", "width", "plies", "spread", "yield", "utilisation", "cloth"]
    rows = []
    for lay in ticket.lays:
        use = ticket.consumption(lay)
        rows.append(
            [
                lay.name,
                sections_of(lay.document),
                f"{lay.length_mm / 1000:.3f} m",
                f"{lay.document['roll']['usable_width_mm']:g} mm",
                str(lay.plies),
                _MODES[lay.mode],
                f"{use.lay_yield:.1%}",
                f"{use.utilisation:.1%}",
                f"{use.metres * lay.plies:.2f} m",
            ]
        )
    return heads, rows


def _totals(ticket: CutTicket) -> str:
    uses = [(lay, ticket.consumption(lay)) for lay in ticket.lays]
    metres = sum(use.metres * lay.plies for lay, use in uses)
    gross = sum(use.gross_m2 * lay.plies for lay, use in uses)
    net = sum(use.net_mm2 * lay.plies for lay, use in uses) / 1e6
    ends = sum(2 * use.end_loss_mm * lay.plies for lay, use in uses) / 1000
    pairs = sum(ticket.pairs_cut.values())
    rules = ticket.style.rules
    per_pair = f", {metres / pairs:.4f} m a pair" if pairs else ""
    return (
        f"Expected: {metres:.2f} m of roll = {gross:.2f} m²{per_pair}; pieces {net:.2f} m², waste "
        f"{gross - net:.2f} m² ({1 - net / gross:.1%}). Counted in: {ends:.2f} m at the ends of plies "
        f"({rules.end_loss_mm:g} mm each), {rules.roll_end_percent:g} % ends of rolls, "
        f"{rules.reject_percent:g} % rejects, selvedges. Yield looks at the lay alone, utilisation at it all."
    )


def _assumed(ticket: CutTicket, lay: TicketLay) -> list[str]:
    return assumptions(lay.document, ticket.style.rules)


def _signed(number: int) -> str:
    return f"{number:+d}" if number else "0"


class _Flow:
    """Blocks set one below the other, on as many sheets as they need."""

    def __init__(self, wide: float, high: float, ticket: CutTicket) -> None:
        self.wide, self.high, self.ticket = wide, high, ticket
        self.room = wide - 2 * MARGIN_MM
        self.drawings: list[Drawing] = []
        self.y = 0.0
        self._sheet()

    def _sheet(self) -> None:
        drawing = Drawing()
        top = self.high - MARGIN_MM
        y = top - pens.TITLE * 0.8
        drawing.text(MARGIN_MM, y, "Cut ticket", pens.TITLE, bold=True, colour=pens.INK)
        name = lay_title({"name": self.ticket.order}, self.ticket.style)
        at = self.wide - MARGIN_MM
        name = fitted(name, pens.HEADING, self.room - 50.0, bold=True)
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
        label = 21.0
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
        self, heads: Sequence[str], rows: Sequence[Sequence[str]], *, size_mm: float = pens.SMALL
    ) -> None:
        """Set a table over the whole width; rows that do not fit go on to the next sheet."""
        text = {"", "piece", "size", "lay", "pairs of sizes", "spread", "really cut"}
        anchors = ["left" if head in text else "right" for head in heads]
        columns = fitting_columns(heads, rows, anchors, self.room, size_mm=size_mm, fill=True)  # type: ignore[arg-type]
        high = row_height_mm(size_mm)
        left = list(rows)
        while left:
            self._need(high * 3)
            count = max(1, min(len(left), int((self.y - MARGIN_MM - 5.0) / high) - 1))
            self.y = draw_table(self.here, MARGIN_MM, self.y, columns, left[:count], size_mm=size_mm) - 1.5
            left = left[count:]

    def paragraph(self, text: str) -> None:
        """Set a paragraph over the whole width."""
        for line in wrapped(text, pens.SMALL, self.room):
            self._need(pens.SMALL * 1.35)
            self.y -= pens.SMALL * 1.35
            self.here.text(MARGIN_MM, self.y, line, pens.SMALL, colour=pens.INK)
        self.y -= 1.0

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

    def pages(self) -> list[Page]:
        """Number the sheets and return them."""
        for number, drawing in enumerate(self.drawings):
            text = f"sheet {number + 1} of {len(self.drawings)}"
            drawing.text(self.wide - MARGIN_MM, MARGIN_MM, text, pens.TINY, anchor="right", colour=pens.GREY)
        return [Page(self.wide, self.high, drawing) for drawing in self.drawings]
