"""Fabric per pair: net, gross, metres and cost by size, and their average over the order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from app.papers.drawing import Page
from app.papers.flow import Flow
from app.papers.lay_facts import cloth_line
from app.papers.pdf import write_pdf
from app.papers.sheets import ISO_216_MM
from app.papers.spreadsheet import Cell, Sheet, write_csv, write_xlsx
from app.style.model import Style

_SHARES = {
    "pieces": "in the pieces",
    "between_pieces": "between pieces",
    "ends_of_plies": "ends of plies",
    "selvedge": "selvedges",
    "ends_of_rolls": "ends of rolls",
    "rejects": "rejects",
}


def write(
    style: Style,
    cost: dict[str, Any],
    out_dir: Path,
    *,
    pairs: dict[str, int] | None = None,
    cloth_id: str = "",
) -> list[Path]:
    """Write fabric-per-pair.pdf, .csv and .xlsx.

    ``cost`` is the object of ``cost --json`` (per_pair, average, widths, currency); the keys
    ``yield``, ``utilisation``, ``cloths``, ``total``, ``assumptions`` (lines) and ``verdict`` (a line)
    are printed where present. ``pairs`` is the order that weights the average.
    """
    out_dir = Path(out_dir)
    sheets = fabric_sheets(cost, pairs)
    pages = fabric_pages(style, cost, pairs, cloth_id)
    return [
        write_pdf(pages, out_dir / "fabric-per-pair.pdf", title=f"Fabric per pair {style.name}"),
        write_csv(sheets, out_dir / "fabric-per-pair.csv"),
        write_xlsx(sheets, out_dir / "fabric-per-pair.xlsx"),
    ]


def fabric_pages(
    style: Style, cost: Mapping[str, Any], pairs: Mapping[str, int] | None = None, cloth_id: str = ""
) -> list[Page]:
    """Return the sheets of fabric-per-pair.pdf; arguments as ``write``."""
    return _paper(style, cost, pairs, cloth_id).pages()


def fabric_sheets(cost: Mapping[str, Any], pairs: Mapping[str, int] | None) -> list[Sheet]:
    """Return the figures as tables, numbers as numbers."""
    currency = cost.get("currency", "")
    weights = pairs or {}
    rows: list[Sequence[Cell]] = [
        (
            row["size"],
            weights.get(row["size"]),
            row["net_m2"],
            row["gross_m2"],
            row["metres"],
            _number(row.get("cost")),
        )
        for row in cost["per_pair"]
    ]
    average = cost["average"]
    in_all = sum(weights.values()) or None
    rows.append(
        (
            "average of the order",
            in_all,
            average["net_m2"],
            average["gross_m2"],
            average["metres"],
            _number(average.get("cost")),
        )
    )
    heads = ("size", "pairs", "net m2", "gross m2", "metres", f"cost {currency}".strip())
    sheets = [Sheet("Per pair", heads, rows)]
    if cost.get("widths"):
        sheets.append(
            Sheet(
                "Widths",
                (
                    "width mm",
                    "usable mm",
                    "yield",
                    "utilisation",
                    "metres a pair",
                    f"cost a pair {currency}".strip(),
                ),
                [
                    (
                        w["width_mm"],
                        w.get("usable_width_mm"),
                        w["yield"],
                        w.get("utilisation"),
                        w["metres_per_pair"],
                        _number(w.get("cost_per_pair")),
                    )
                    for w in cost["widths"]
                ],
            )
        )
    if cost.get("cloths"):
        sheets.append(
            Sheet(
                "Where it goes",
                ("cloth", *_SHARES.values()),
                [(c["name"], *(c.get("shares", {}).get(k) for k in _SHARES)) for c in cost["cloths"]],
            )
        )
    notes = [
        ("yield (the lay alone)", cost.get("yield")),
        ("utilisation (all cloth paid for)", cost.get("utilisation")),
    ]
    notes += [("assumed", line) for line in cost.get("assumptions", ())]
    notes += [("verdict", cost["verdict"])] if cost.get("verdict") else []
    sheets.append(Sheet("Notes", ("item", "value"), notes))
    return sheets


def _paper(style: Style, cost: Mapping[str, Any], pairs: Mapping[str, int] | None, cloth_id: str) -> Flow:
    wide, high = ISO_216_MM["A4"]
    flow = Flow(wide, high, "Fabric per pair", style.name)
    average, currency = cost["average"], cost.get("currency", "")
    figures = [
        (f"{average['metres']:.4f} m", "roll a pair"),
        (f"{average['gross_m2']:.4f} m²", "gross a pair"),
        (f"{average['net_m2']:.4f} m²", "net a pair"),
        (_percent(cost.get("yield")), "yield: the lay alone"),
        (_percent(cost.get("utilisation")), "utilisation: all cloth"),
        (f"{average['cost']} {currency}" if average.get("cost") is not None else "no price", "cost a pair"),
    ]
    flow.figures(figures)
    cloth = cloth_line({"cloth": {"id": cloth_id}}, style)
    about = (
        f"Averages weighted by the order of {sum(pairs.values())} pairs." if pairs else "Averages as given."
    )
    flow.paragraph(f"{about} Main cloth: {cloth}." if cloth else about)
    flow.heading("By size")
    weights = pairs or {}
    rows = [
        [
            row["size"],
            str(weights.get(row["size"], "")),
            f"{row['net_m2']:.4f}",
            f"{row['gross_m2']:.4f}",
            f"{row['metres']:.4f}",
            _money(row.get("cost")),
        ]
        for row in cost["per_pair"]
    ]
    rows.append(
        [
            "average" if pairs is None else "average of the order",
            str(sum(weights.values()) or ""),
            f"{average['net_m2']:.4f}",
            f"{average['gross_m2']:.4f}",
            f"{average['metres']:.4f}",
            _money(average.get("cost")),
        ]
    )
    flow.table(["size", "pairs", "net m²", "gross m²", "metres", f"cost {currency}"], rows, total=True)
    total = cost.get("total")
    if total:
        metres = ", ".join(f"{m:.2f} m of {name}" for name, m in total["metres"].items())
        priced = f", {total['cost']} {currency}" if total.get("cost") is not None else ""
        flow.paragraph(f"The order of {total['pairs']} pairs takes {metres}{priced}.")
    _draw_cloths(flow, cost.get("cloths", ()))
    if cost.get("widths"):
        flow.heading("By roll width")
        heads = ["width mm", "usable mm", "yield", "utilisation", "metres a pair", f"cost a pair {currency}"]
        flow.table(
            heads,
            [
                [
                    f"{w['width_mm']:g}",
                    f"{w['usable_width_mm']:g}" if w.get("usable_width_mm") else "",
                    _percent(w["yield"]),
                    _percent(w.get("utilisation")),
                    f"{w['metres_per_pair']:.4f}",
                    _money(w.get("cost_per_pair")),
                ]
                for w in cost["widths"]
            ],
        )
    flow.heading("Assumed and verified")
    if cost.get("verdict"):
        flow.paragraph(f"Verdict: {cost['verdict']}.")
    for line in cost.get("assumptions", ()):
        flow.paragraph(f"{line[:1].upper()}{line[1:]}.")
    return flow


def _draw_cloths(flow: Flow, cloths: Sequence[Mapping[str, Any]]) -> None:
    """Show for every cloth where the metres that are paid for go."""
    for cloth in cloths:
        shares = cloth.get("shares")
        if not shares:
            continue
        flow.heading(f"Where the cloth goes: {cloth['name']}")
        flow.bars([(label, float(shares.get(key, 0.0))) for key, label in _SHARES.items()])


def _percent(share: float | None) -> str:
    return "–" if share is None else f"{share * 100:.1f} %"


def _money(text: str | None) -> str:
    return "–" if text is None else text


def _number(text: str | None) -> float | None:
    return None if text is None else float(text)
