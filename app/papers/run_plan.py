"""Run plan: every lay of a run with its picture, its plies and pairs; rolls, cloth and cost."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

from app.cautions import cautions
from app.measures import METRIC, Measures, counted
from app.papers.formats.drawing import Drawing, Page
from app.papers.formats.pdf import write_pdf
from app.papers.formats.spreadsheet import TableSheet, write_csv, write_xlsx
from app.papers.lay_facts import MODE_WORDS, codes_of, require_verified, verdict_line
from app.papers.layout import pens
from app.papers.layout.flow import Flow
from app.papers.pictures.lays import lay_art
from app.papers.run_lays import splice_words
from app.papers.shown import PlannedRun
from app.plan.job import ClothPlan
from app.words import listed, say, sentence
from geometry.paper import PAPER_MM
from geometry.said import percent
from nesting.planning.consumption import YIELD_MEANS

PICTURE_MM = 62.0
"""A lay's picture is at most this high, so that three stand on a sheet."""

SLOT_MM = 62.0
"""A short lay takes at least this much of a sheet's width, for the words over it."""


def write(shown: PlannedRun, out_dir: Path) -> list[Path]:
    """Write run-plan.pdf, .csv and .xlsx; raises UnverifiedError when a lay is not verified."""
    for plan in shown.plans:
        for lay_name in plan.names:
            require_verified(plan.verdicts[lay_name], say("lay {0}", lay_name))
    sheets = plan_sheets(shown.payload, shown.measures)
    return [
        write_pdf(pages(shown), out_dir / "run-plan.pdf", title=say("Run plan {0}", shown.name)),
        write_csv(sheets, out_dir / "run-plan.csv"),
        write_xlsx(sheets, out_dir / "run-plan.xlsx"),
    ]


def plan_sheets(payload: Mapping[str, Any], measures: Measures = METRIC) -> list[TableSheet]:
    """Return the plan as tables: lays, sets, pairs, cloth, cost, rolls."""
    cost = payload["cost"]
    long, unit = measures.length, measures.length_unit
    lays = [
        (
            lay["cloth"], lay["name"], lay["plies"], MODE_WORDS[lay["mode"]], long(lay["length_mm"] / 1000.0),
            lay["yield"], long(lay["metres"]), sum(lay["pairs"].values()),
        )
        for lay in payload["lays"]
    ]  # fmt: skip
    sets = [
        (lay["cloth"], lay["name"], size, n, lay["pairs"][size])
        for lay in payload["lays"]
        for size, n in lay["sets"].items()
    ]
    pairs = [
        (size, ordered, payload["pairs_to_cut"][size], payload["pairs_cut"][size])
        for size, ordered in payload["pairs_ordered"].items()
    ]
    cloth = [
        (cloth, long(metres), long(payload["lower_bound_m"][cloth]), payload["utilisation"][cloth])
        for cloth, metres in payload["cloth_m"].items()
    ]
    rolls = [
        (cloth, use["roll"], use["lot"], long(use["from_m"]), lay, n, long(use["left_m"]))
        for cloth, told in payload["rolls"].items()
        for use in told["uses"]
        for lay, n in use["plies"].items()
    ]
    sheets = [
        TableSheet(
            "Lays",
            (
                "cloth",
                "lay",
                "plies",
                "spread",
                say("length {0}", unit),
                "yield",
                say("cloth {0}", unit),
                "pairs",
            ),
            lays,
        ),
        TableSheet("Sets", ("cloth", "lay", "size", "sets", "pairs"), sets),
        TableSheet("Pairs", ("size", "ordered", "to cut", "cut"), pairs),
        TableSheet(
            "Cloth", ("cloth", say("cloth {0}", unit), say("lower bound {0}", unit), "utilisation"), cloth
        ),
        TableSheet(
            "Cost",
            ("item", "amount", "currency"),
            [
                (item, Decimal(cost[key]), cost["currency"])
                for item, key in (
                    ("whole run", "total"),
                    ("per pair", "per_pair"),
                    ("of which cloth", "cloth"),
                )
            ]
            if cost["priced"]
            else [("no price is known", "", "")],
        ),
    ]
    if rolls:
        sheets.append(
            TableSheet(
                "Rolls",
                ("cloth", "roll", "lot", say("from {0}", unit), "lay", "plies", say("left on it {0}", unit)),
                rolls,
            )
        )
    return sheets


def pages(shown: PlannedRun) -> list[Page]:
    """Return the plan on A4 sheets, upright."""
    payload, plans, name, measures = shown.payload, shown.plans, shown.name, shown.measures
    wide, high = PAPER_MM["A4"]
    flow = Flow(wide, high, "Run plan", name)
    cost = payload["cost"]
    ordered, cut = payload["pairs_ordered"], payload["pairs_cut"]
    figures = [
        (str(sum(ordered.values())), "pairs ordered"),
        (str(sum(cut.values())), "pairs cut"),
        (measures.length_text(sum(payload["cloth_m"].values()), 2), "of cloth, ends of plies included"),
        (str(len(payload["lays"])), "lays"),
    ]
    if cost["priced"]:
        figures.append((say("{0} {1}", cost["per_pair"], cost["currency"]), "per pair"))
    flow.figures(figures)
    flow.heading("Pairs")
    sizes = list(ordered)
    for at in range(0, len(sizes), 9):
        some = sizes[at : at + 9]
        flow.table(
            ["size", *some],
            [
                ["ordered", *(str(ordered[size]) for size in some)],
                ["cut", *(str(cut[size]) for size in some)],
                ["over", *(str(cut[size] - ordered[size]) for size in some)],
            ],
        )
    for plan in plans:
        _cloth(flow, payload, plan, measures)
    flow.heading("Assumptions")
    flow.paragraph(say("{0}.", sentence(YIELD_MEANS)))
    for text in payload["assumptions"]:
        flow.paragraph(say("{0}.", sentence(text)))
    flow.paragraph(say("{0} of the cost lies above that lower bound.", percent(payload["gap"])))
    flow.cautions(cautions("plan"))
    return flow.pages()


def _cloth(flow: Flow, payload: Mapping[str, Any], plan: ClothPlan, measures: Measures) -> None:
    told = measures.length_text
    flow.heading(say("{0}: {1}", plan.cloth.name, told(payload["cloth_m"][plan.cloth.id], 2)))
    rows = []
    by_hand = {each.name for each in plan.kept if each.locked}
    for name, lay in zip(plan.names, plan.plan.lays, strict=True):
        document = plan.documents[name]
        ply_m = (lay.length_mm + 2.0 * plan.table.end_loss_mm) / 1000.0
        sets = listed(", ")(say("{0}: {1}", size, n) for size, n in lay.sets.items())
        rows.append(
            [
                say("{0}, by hand", name) if name in by_hand else name,
                sets,
                str(lay.plies),
                told(lay.length_mm / 1000, 3),
                percent(document["yield"]),
                told(lay.plies * ply_m, 2),
            ]
        )
    flow.table(["lay", "pairs in the lay", "plies", "length", "yield", "cloth"], rows)
    rolls = payload["rolls"].get(plan.cloth.id)
    if rolls:
        flow.table(
            ["roll", "lot", "from", "plies", "left"],
            [
                [
                    use["roll"],
                    use["lot"],
                    told(use["from_m"], 2),
                    listed(", ")(say("{0} of {1}", n, lay) for lay, n in use["plies"].items()),
                    told(use["left_m"], 2),
                ]
                for use in rolls["uses"]
            ],
        )
        kept = listed(", ")(
            say("{0}: {1}", part["roll"], told(part["left_m"], 2)) for part in rolls["remnants"]
        )
        flow.paragraph(say("Worth keeping: {0}. Waste {1}.", kept or "nothing", told(rolls["waste_m"], 2)))
    for row in _rows(flow, plan):
        _pictures(flow, plan, row, measures)
    told_of = dict.fromkeys(
        say(
            "{0}. {1}.",
            listed(", ")((say("{0} {1}", code, piece) for piece, code in _codes(plan, name).items())),
            sentence(verdict_line(plan.verdicts[name])),
        )
        for name in plan.names
    )
    for words in told_of:  # one line for all lays of the same pieces
        flow.paragraph(words)
    for name in plan.names:
        for words in splice_words(plan.documents[name]):
            flow.paragraph(say("Lay {0}: {1}", name, words))


def _codes(plan: ClothPlan, name: str) -> dict[str, str]:
    return codes_of(sorted({str(at["piece"]) for at in plan.documents[name]["placements"]}))


def _scale(flow: Flow, plan: ClothPlan, name: str) -> float:
    document = plan.documents[name]
    return min(flow.room / document["length_mm"], PICTURE_MM / document["roll"]["usable_width_mm"])


def _rows(flow: Flow, plan: ClothPlan) -> list[list[str]]:
    """Return the lays in rows of pictures that fit the sheet's width."""
    rows: list[list[str]] = []
    used = flow.room + 1.0
    for name in plan.names:
        wide = max(SLOT_MM, plan.documents[name]["length_mm"] * _scale(flow, plan, name) + 6.0)
        if used + wide > flow.room + 6.0:
            rows.append([])
            used = 0.0
        rows[-1].append(name)
        used += wide
    return rows


def _pictures(flow: Flow, plan: ClothPlan, names: Sequence[str], measures: Measures) -> None:
    """Set lays beside each other, each under its own caption."""
    lays = dict(zip(plan.names, plan.plan.lays, strict=True))
    picture = Drawing()
    x = high = 0.0
    for name in names:
        document, scale = plan.documents[name], _scale(flow, plan, name)
        art = lay_art(document, scale=scale, codes=_codes(plan, name))
        picture.place(art.drawing(), x, 0.0)
        length = measures.length_text(document["length_mm"] / 1000, 3)
        words = say(
            "Lay {0}: {1}, {2}, 1 : {3}", name, counted(lays[name].plies, "ply"), length, f"{1 / scale:.0f}"
        )
        picture.text(x, art.width_mm + 1.5, words, pens.SMALL, bold=True, colour=pens.INK)
        x += max(SLOT_MM, document["length_mm"] * scale + 6.0)
        high = max(high, art.width_mm)
    flow.picture("", picture, high + pens.SMALL * 1.5)
