"""Cut ticket: what is cut from which roll, in which lays, and what was actually cut."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from app.cautions import cautions
from app.papers.formats.drawing import Page
from app.papers.formats.pdf import write_pdf
from app.papers.formats.spreadsheet import TableSheet, write_csv, write_xlsx
from app.papers.lay_facts import (
    MODE_WORDS,
    assumptions,
    codes_of,
    count_text,
    lay_title,
    require_verified,
    tight_words,
    verdict_line,
)
from app.papers.layout import pens
from app.papers.layout.flow import Flow
from app.papers.reinforcement_sheet import press_words
from app.papers.shown import Laid
from app.papers.ticket_figures import CutTicket, TicketLay, sections_of
from app.words import listed, say
from geometry.paper import PAPER_MM
from geometry.said import percent

_SPREAD = {
    "face-up": "glue side up, as the lay is drawn",
    "face-to-face": "face to face: glue up, then turned over, an even number of plies",
}

CHECKS = (
    "plot true: 100 mm square within 0.5 mm",
    "tight direction found by pulling the cloth",
    "glue side up at spreading",
    "first piece checked against its board",
    "size and hand marked on every bundle",
    "bond peeled on a pressed trial piece",
)


def pages(shown: Laid) -> list[Page]:
    """Return the sheets of cut-ticket.pdf; none where the lay has no ticket (it is of several styles)."""
    return [] if shown.ticket is None else ticket_pages(shown.ticket)


def write(shown: Laid, out_dir: Path) -> list[Path]:
    """Write cut-ticket.pdf, .csv and .xlsx where the lay has a ticket.

    Raises UnverifiedError when any lay is not verified.
    """
    ticket = shown.ticket
    if ticket is None:
        return []
    for lay in ticket.lays:
        require_verified(lay.verdict, say("lay {0}", lay.name))
    sheets = ticket_sheets(ticket)
    return [
        write_pdf(pages(shown), out_dir / "cut-ticket.pdf", title=say("Cut ticket {0}", ticket.style.name)),
        write_csv(sheets, out_dir / "cut-ticket.csv"),
        write_xlsx(sheets, out_dir / "cut-ticket.xlsx"),
    ]


def ticket_sheets(ticket: CutTicket) -> list[TableSheet]:
    """Return the ticket as tables: facts, pairs by size, lays, pieces."""
    cloth = ticket.cloth
    facts = [
        *_job(ticket),
        *_cloth(ticket),
        ("checks", listed("; ")(CHECKS)),
        *((say("lay {0} verdict", lay.name), verdict_line(lay.verdict)) for lay in ticket.lays),
        *((say("lay {0} assumptions", lay.name), listed("; ")(_assumed(ticket, lay))) for lay in ticket.lays),
    ]
    cut, shoes = ticket.pairs_cut, ticket.shoes_cut
    sizes = [
        (
            size,
            ticket.pairs.get(size, 0),
            cut[size],
            cut[size] - ticket.pairs.get(size, 0),
            *shoes[size],
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
                MODE_WORDS[lay.mode],
                len(lay.document["placements"]),
                round(use.lay_yield, 6),
                round(use.utilisation, 6),
                round(use.spread_m * lay.plies, 4),
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
        TableSheet("Ticket", ("item", "value"), facts),
        TableSheet("Pairs", ("size", "ordered", "cut", "over or short", "left", "right"), sizes),
        TableSheet(
            "Lays",
            (
                "lay", "pairs", "length m", "usable width mm", "plies", "spread", "pieces", "yield",
                "utilisation", say('spread m of {0}', cloth.id), "roll m", "gross m2", "net m2",
            ),
            lays,
        ),
        TableSheet("Pieces", ("piece", "size", "left", "right"), pieces),
    ]  # fmt: skip


def ticket_pages(ticket: CutTicket) -> list[Page]:
    """Return the ticket on A4 sheets, upright."""
    wide, high = PAPER_MM["A4"]
    flow = Flow(wide, high, "Cut ticket", lay_title({"name": ticket.order}, ticket.style))
    flow.fields(_job(ticket), columns=3)
    flow.heading("Cloth")
    flow.fields(_cloth(ticket), columns=2)
    cut, sizes, shoes = ticket.pairs_cut, ticket.sizes, ticket.shoes_cut
    flow.heading("Pairs and shoes")
    rows = [
        ["pairs ordered", *(str(ticket.pairs.get(s, 0)) for s in sizes), str(sum(ticket.pairs.values()))],
        ["pairs cut", *(str(cut[s]) for s in sizes), str(sum(cut.values()))],
        ["over (+), short (-)", *(_signed(cut[s] - ticket.pairs.get(s, 0)) for s in sizes)]
        + [_signed(sum(cut.values()) - sum(ticket.pairs.values()))],
        [
            "left / right shoes",
            *(say("{0} / {1}", left, right) for left, right in shoes.values()),
            say("{0} / {1}", sum(s[0] for s in shoes.values()), sum(s[1] for s in shoes.values())),
        ],
    ]
    flow.table(["size", *sizes, "total"], rows)
    flow.heading("Lays")
    flow.table(*_lay_table(ticket))
    flow.table(
        ["pairs in the lay", *sizes], [[say("lay {0}", lay.name), *_held(lay, sizes)] for lay in ticket.lays]
    )
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
        ["actually cut", *sizes, "total"],
        [["pairs", *[""] * (len(sizes) + 1)], ["short / over, why", *[""] * (len(sizes) + 1)]],
        size_mm=pens.BODY,
    )
    flow.fields([("metres used", ""), ("cut by", ""), ("date and sign", "")], columns=3)
    flow.heading("Assumptions and verification")
    for lay in ticket.lays:
        flow.paragraph(
            say(
                "Lay {0}: {1}. Assumptions: {2}.",
                lay.name,
                verdict_line(lay.verdict),
                listed("; ")(_assumed(ticket, lay)),
            )
        )
    for note in ticket.notes:
        flow.paragraph(note)
    flow.cautions(cautions("cut ticket"))
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
        ("cloth", say("{0} ({1})", cloth.name, cloth.id)),
        ("coating", say("{0}, on the {1} of the cloth", cloth.glue or "not described", cloth.coated_side)),
        ("lot", cloth.lot),
        ("roll no.", ticket.roll_number),
        ("width", say("{0} mm, usable {1} mm", f"{cloth.width_mm:g}", f"{cloth.usable_width_mm:g}")),
        ("measured width", ""),
        ("tight direction", say("{0} ({1})", tight_words(cloth.tight_direction_deg), cloth.how_known)),
        ("turning", "one-way only" if cloth.one_way else "half turns allowed"),
        ("spread", listed("; ")(dict.fromkeys(_SPREAD[lay.mode] for lay in ticket.lays))),
        ("press setting", press_words(cloth.press)),
    ]


def _lay_table(ticket: CutTicket) -> tuple[list[str], list[list[str]]]:
    heads = ["lay", "length", "width", "plies", "spread", "yield", "utilisation", "cloth spread"]
    rows = []
    for lay in ticket.lays:
        use = ticket.consumption(lay)
        rows.append(
            [
                lay.name,
                say("{0} m", f"{lay.length_mm / 1000:.3f}"),
                say("{0} mm", f"{lay.document['roll']['usable_width_mm']:g}"),
                str(lay.plies),
                MODE_WORDS[lay.mode],
                percent(use.lay_yield),
                percent(use.utilisation),
                say("{0} m", f"{use.spread_m * lay.plies:.2f}"),
            ]
        )
    return heads, rows


def _held(lay: TicketLay, sizes: Sequence[str]) -> list[str]:
    """The pairs of each size in one lay, as its document says; a dash where it does not say."""
    pairs = lay.document.get("pairs") or {}
    return [str(pairs.get(size, 0)) if pairs else "–" for size in sizes]


def _totals(ticket: CutTicket) -> str:
    uses = [(lay, ticket.consumption(lay)) for lay in ticket.lays]
    metres = sum(use.metres * lay.plies for lay, use in uses)
    spread = sum(use.spread_m * lay.plies for lay, use in uses)
    gross = sum(use.gross_m2 * lay.plies for lay, use in uses)
    net = sum(use.net_mm2 * lay.plies for lay, use in uses) / 1e6
    ends = sum(2 * use.end_loss_mm * lay.plies for lay, use in uses) / 1000
    pairs = sum(ticket.pairs_cut.values())
    rules = ticket.style.rules
    per_pair = say(", {0} m per pair", f"{metres / pairs:.4f}") if pairs else ""
    return say(
        "Expected: {0} m spread, {1} m of roll = {2} m²{3}; pieces {4} m², waste {5} m² ({6}). "
        "Includes {7} m at the ends of plies ({8} mm each), {9} % ends of rolls, {10} % splices, "
        "{11} % rejects, selvedges. Yield: pieces / (usable width x lay length). Utilisation: pieces "
        "/ all cloth paid for.",
        f"{spread:.2f}",
        f"{metres:.2f}",
        f"{gross:.2f}",
        per_pair,
        f"{net:.2f}",
        f"{gross - net:.2f}",
        percent(1 - net / gross),
        f"{ends:.2f}",
        f"{rules.end_loss_mm:g}",
        f"{rules.roll_end_percent:g}",
        f"{rules.splice_percent:g}",
        f"{rules.reject_percent:g}",
    )


def _assumed(ticket: CutTicket, lay: TicketLay) -> list[str]:
    return assumptions(lay.document, ticket.style.rules)


def _signed(number: int) -> str:
    return f"{number:+d}" if number else "0"
