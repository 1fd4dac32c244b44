"""Fabric per pair: net, quick, nested and gross by size; where the cloth goes; widths, cloths, what if."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from app.cost.text import (
    account_tables,
    assumption_lines,
    cloth_table,
    quick_line,
    sensitivity_tables,
    size_table,
    width_table,
)
from app.measures import Measures, counted
from app.papers.fabric_tables import fabric_sheets
from app.papers.formats.drawing import Page
from app.papers.formats.pdf import write_pdf
from app.papers.formats.spreadsheet import write_csv, write_xlsx
from app.papers.lay_facts import cloth_line, likely_line, points
from app.papers.layout.flow import Flow
from app.papers.shown import Costed
from app.words import listed, say, sentence, told
from geometry.paper import PAPER_MM
from nesting.planning.consumption import YIELD_MEANS


def write(shown: Costed, out_dir: Path) -> list[Path]:
    """Write fabric-per-pair.pdf, .csv and .xlsx."""
    sheets = fabric_sheets(shown.cost, shown.measures)
    title = say("Fabric per pair {0}", shown.style.name)
    return [
        write_pdf(pages(shown), out_dir / "fabric-per-pair.pdf", title=title),
        write_csv(sheets, out_dir / "fabric-per-pair.csv"),
        write_xlsx(sheets, out_dir / "fabric-per-pair.xlsx"),
    ]


def pages(shown: Costed) -> list[Page]:
    """Return the sheets of fabric-per-pair.pdf.

    ``by_cloth`` and ``sensitivity`` of the cost are printed where present.
    """
    style, cost, cloth_id, measures = shown.style, shown.cost, shown.cloth_id, shown.measures
    wide, high = PAPER_MM["A4"]
    flow = Flow(wide, high, "Fabric per pair", style.name)
    average, currency = cost["average"], cost["currency"]
    flow.figures(
        [
            (measures.length_text(average["metres"]), "roll per pair"),
            (measures.area_text(average["gross_m2"]), "gross per pair"),
            (measures.area_text(average["net_m2"]), "net per pair"),
            (_percent(cost["yield"]), "yield of the lay"),
            (_percent(cost["utilisation"]), "utilisation"),
            (
                "no price" if average["cost"] is None else say("{0} {1}", average["cost"], currency),
                "cost per pair",
            ),
        ]
    )
    cloth = cloth_line({"cloth": {"id": cloth_id}}, style)
    about = say("Averages weighted by the order of {0}.", counted(cost["total"]["pairs"], "pair"))
    flow.paragraph(say("{0} Main cloth: {1}.", about, cloth) if cloth else about)
    flow.heading("By size")
    _set(flow, *size_table(cost, measures), currency=currency, total=True)
    flow.paragraph(
        say("{0}; utilisation: net area of the pieces / all cloth paid for.", sentence(YIELD_MEANS))
    )
    flow.paragraph(
        "Net: the pieces. Quick: each piece in its own closest rows, without margins and ends. Lay: the lay "
        "as nested. Gross: all cloth paid for. The last column adds up to the order's total, to the cent."
    )
    total = cost["total"]
    names = {cloth["id"]: cloth["name"] for cloth in cost["cloths"]}
    metres = listed("; ")(
        say("{0} of {1}", measures.length_text(m, 2), names.get(key, key))
        for key, m in total["metres"].items()
    )
    priced = "" if total["cost"] is None else say("; cost {0} {1}", total["cost"], currency)
    flow.paragraph(say("The order of {0} takes {1}{2}.", counted(total["pairs"], "pair"), metres, priced))
    _where_it_goes(flow, cost, measures)
    flow.heading("By roll width")
    _set(flow, *width_table(cost, measures), currency=currency)
    _likely(flow, cost, measures)
    if cost.get("by_cloth"):
        flow.heading("By cloth")
        _set(flow, *cloth_table(cost, measures))
        flow.paragraph(
            "Each cloth stands in place of the costed one, the same pairs laid on it; the style's other "
            "cloths stay and are not in these figures. Hold: whether every limit of the style is kept."
        )
    if cost.get("sensitivity"):
        flow.heading("Sensitivity of the cost")
        for title, heads, rows in sensitivity_tables(cost, measures):
            flow.paragraph(say("{0}:", sentence(title)), keep_mm=20.0)
            _set(flow, heads, rows, currency=currency)
    flow.heading("How accurate the quick estimate was")
    for quick in cost["quick"]:
        line = told(quick_line(quick, measures)).replace(measures.area_unit, measures.area_sign)
        flow.paragraph(say("{0}.", sentence(line)))
        pieces = listed(", ")(say("{0} {1}", piece, _percent(d)) for piece, d in quick["density"].items())
        flow.paragraph(say("Density of each piece's own rows, gap included: {0}.", pieces))
    flow.heading("Assumptions and verification")
    flow.paragraph(say("Verdict: {0}.", cost["verdict"]))
    for line in assumption_lines(cost, measures):
        flow.paragraph(say("{0}.", sentence(line)))
    return flow.pages()


def _where_it_goes(flow: Flow, cost: Mapping[str, Any], measures: Measures) -> None:
    """Show for every cloth where what is paid for goes; areas and money add up."""
    for cloth, (_, rows) in zip(cost["cloths"], account_tables(cost, measures), strict=True):
        flow.heading(say("Where the cloth goes: {0}", cloth["name"]))
        shares = [part["share"] for part in cloth["account"]] + [1.0]
        flow.bars(
            ["share", measures.area_sign, say("cost {0}", cloth["currency"])],
            [(name, share, figures) for (name, *figures), share in zip(rows, shares, strict=True)],
        )


def _likely(flow: Flow, cost: Mapping[str, Any], measures: Measures) -> None:
    """Say beside yields found in seconds what a longer search is likely to add to them."""
    likely = [row for row in cost["widths"] if likely_line(row.get("longer_search"))]
    if not likely:
        return
    each = listed("; ")(
        f"{measures.width_text(row['width_mm'])}: {points(row['longer_search'])}" for row in likely
    )
    seconds = f"{likely[0]['longer_search']['seconds']:g}"
    flow.paragraph(
        say(
            "{0} s of search are likely to add to the yield, in points: {1}. "
            "Differences that they may level out are none.",
            seconds,
            each,
        )
    )


def _set(
    flow: Flow,
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    currency: str = "",
    total: bool = False,
) -> None:
    """Set a table with raised squares in its heads and the currency at its money."""
    named = ["" if head == "cloth" else head for head in heads]
    named = [
        say("{0} {1}", head, currency) if currency and head.startswith("cost") else head for head in named
    ]
    named = [told(head).replace("m2", "m²").replace("ft2", "ft²") if "2" in head else head for head in named]
    flow.table(named, [["–" if cell == "-" else cell for cell in row] for row in rows], total=total)


def _percent(share: float) -> str:
    return say("{0} %", f"{share * 100:.1f}")
