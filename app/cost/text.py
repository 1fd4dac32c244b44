"""The cost object in words, as ``cost`` prints it: in metres or yards."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from app.lay.longer import longer_text, no_change
from app.measures import METRIC, Measures, counted
from geometry.said import joined, percent, said

PARTS = {
    "pieces": "in the pieces",
    "between_pieces": "between pieces",
    "ends_of_plies": "ends of plies",
    "selvedge": "selvedges",
    "ends_of_rolls": "ends of rolls",
    "splices": "splices",
    "rejects": "rejects",
}
"""What the parts of a cloth's account are called."""


def cost_text(cost: Mapping[str, Any], measures: Measures = METRIC) -> str:
    """Return all tables of a cost object, one below the other, then what they rest on."""
    lines = [
        f"{cost['style']}, fabric of a pair ({measures.length_unit}, {measures.area_unit}, "
        f"{cost['currency']})"
    ]
    lines += in_columns(*size_table(cost, measures))
    lines.append("yield = pieces / (usable width x lay length); utilisation = pieces / all cloth paid for:")
    for cloth in cost["cloths"]:
        lines.append(
            f"{cloth['name']}: yield of the lay {percent(cloth['yield'])}"
            f"{longer_text(cloth['longer_search'])}; utilisation of the cloth paid for "
            f"{percent(cloth['utilisation'])}"
        )
    for heads, rows in account_tables(cost, measures):
        lines += in_columns(heads, rows)
    total = cost["total"]
    metres = ", ".join(f"{cloth} {measures.length_text(m, 2)}" for cloth, m in total["metres"].items())
    money = "" if total["cost"] is None else f", {total['cost']} {cost['currency']}"
    lines.append(f"the whole order of {counted(total['pairs'], 'pair')}: {metres}{money}")
    if len(cost["widths"]) > 1:
        lines += ["by roll width:", *in_columns(*width_table(cost, measures))]
    if cost.get("by_cloth"):
        lines += ["by cloth:", *in_columns(*cloth_table(cost, measures))]
    for title, heads, rows in sensitivity_tables(cost, measures):
        lines += [f"{title}:", *in_columns(heads, rows)]
    lines += [quick_line(quick, measures) for quick in cost["quick"]]
    lines += [f"assumed: {line}" for line in assumption_lines(cost, measures)]
    lines.append(cost["verdict"])
    return "\n".join(lines)


def size_table(cost: Mapping[str, Any], measures: Measures) -> tuple[list[str], list[list[str]]]:
    """Return the figures by size, the average last: area in the pieces, quick, in the lay, bought."""
    area, length = measures.area_unit, measures.length_unit
    heads = [
        "size",
        "pairs",
        said("net {0}", area),
        said("quick {0}", area),
        said("lay {0}", area),
        said("gross {0}", area),
        length,
    ]
    heads += ["cost", "cost of the order"]
    average = {**cost["average"], "size": "average", "order_cost": cost["total"]["cost"]}
    pairs = {**cost["order"], "average": cost["total"]["pairs"]}
    rows = [
        [
            row["size"],
            str(pairs[row["size"]]),
            *(f"{measures.area(row[key]):.4f}" for key in ("net_m2", "quick_m2", "lay_m2", "gross_m2")),
            f"{measures.length(row['metres']):.4f}",
            row["cost"] or "-",
            row["order_cost"] or "-",
        ]
        for row in (*cost["per_pair"], average)
    ]
    return heads, rows


def account_tables(cost: Mapping[str, Any], measures: Measures) -> list[tuple[list[str], list[list[str]]]]:
    """Return for each cloth where the cloth bought for the order goes; areas and money add up."""
    tables = []
    for cloth in cost["cloths"]:
        rows = [
            [
                PARTS[part["part"]],
                percent(part["share"], 2),
                f"{measures.area(part['m2']):.4f}",
                part["cost"] or "-",
            ]
            for part in cloth["account"]
        ]
        whole = sum(Decimal(str(part["m2"])) for part in cloth["account"])
        rows.append(["total", percent(1.0, 2), f"{measures.area(float(whole)):.4f}", cloth["cost"] or "-"])
        tables.append(([cloth["id"], "share", measures.area_unit, "cost"], rows))
    return tables


def width_table(cost: Mapping[str, Any], measures: Measures) -> tuple[list[str], list[list[str]]]:
    """Return the roll widths beside each other."""
    unit = measures.width_unit
    heads = [
        said("width {0}", unit),
        said("usable {0}", unit),
        "yield",
        "utilisation",
        said("{0}/pair", measures.length_unit),
    ]
    heads += [said("{0}/pair", measures.area_unit), said("price/{0}", measures.length_unit), "cost/pair"]
    return heads, [
        [f"{round(measures.width(row['width_mm']), 2):g}", *_compared(row, measures)]
        for row in cost["widths"]
    ]


def cloth_table(cost: Mapping[str, Any], measures: Measures) -> tuple[list[str], list[list[str]]]:
    """Return the cloths beside each other, with the verdict of the hold."""
    heads, _ = width_table({"widths": []}, measures)
    return ["cloth", *heads, "", "hold"], [
        [
            row["name"],
            f"{round(measures.width(row['width_mm']), 2):g}",
            *_compared(row, measures),
            row["currency"],
            row["hold"],
        ]
        for row in cost["by_cloth"]
    ]


def sensitivity_tables(
    cost: Mapping[str, Any], measures: Measures
) -> list[tuple[str, list[str], list[list[str]]]]:
    """Return a titled table for each quantity that was varied; ``*`` marks the style's own."""
    tables = []
    told = cost.get("sensitivity", {})
    for key, title, heads in (
        ("gap", "by gap between pieces", ["gap mm"]),
        ("end_loss", "by loss at each end of a ply", ["end loss mm"]),
        ("plies", "by number of plies for the order", ["plies", "pairs in the lay"]),
        ("order", "by quantity of the order", ["pairs ordered", "pairs in the lay"]),
    ):
        if not told.get(key):
            continue
        fields = {"gap": ["gap_mm"], "end_loss": ["end_loss_mm"], "plies": ["plies", "pairs_in_lay"]}.get(
            key, ["pairs", "pairs_in_lay"]
        )
        own = next(row for row in told[key] if row["own"])
        rows = [
            [
                *(f"{row[field]:g}" for field in fields),
                f"{measures.length(row['lay_length_mm'] / 1000):.3f}",
                percent(row["yield"]),
                percent(row["utilisation"]),
                f"{measures.length(row['metres_per_pair']):.4f}",
                f"{measures.area(row['m2_per_pair']):.4f}",
                row["cost_per_pair"] or "-",
                "as costed" if row is own else change_text(row, own),
            ]
            for row in told[key]
        ]
        heads += [
            said("lay {0}", measures.length_unit),
            "yield",
            "utilisation",
            said("{0}/pair", measures.length_unit),
        ]
        heads += [said("{0}/pair", measures.area_unit), "cost/pair", "change"]
        tables.append((title, heads, rows))
    return tables


def change_text(row: Mapping[str, Any], own: Mapping[str, Any]) -> str:
    """Return by how much a pair's cloth differs from the style's own, or that it is no difference."""
    if no_change(row, own):
        return "no difference"
    return percent(row["metres_per_pair"] / own["metres_per_pair"] - 1, sign=True)


def quick_line(quick: Mapping[str, Any], measures: Measures) -> str:
    """Return the quick estimate of a cloth in words, and how it compares with the nested lay."""
    return said(
        "quick estimate from each piece's own rows ({0}): {1} {2} per pair without ends; the nested "
        "lay takes {3} times that",
        quick["cloth"],
        f"{measures.area(quick['m2_per_pair']):.4f}",
        measures.area_unit,
        f"{quick['nested_over_estimate']:.2f}",
    )


def assumption_lines(cost: Mapping[str, Any], measures: Measures) -> list[str]:
    """Return what the figures rest on, the cloths' lays and prices as they now stand in the object."""
    now = {f"{cloth['name']}: lay of ": lay_line(cloth, measures) for cloth in cost["cloths"]}
    return [
        next((told for start, told in now.items() if line.startswith(start)), line)
        for line in cost["assumptions"]
    ]


def lay_line(cloth: Mapping[str, Any], measures: Measures) -> str:
    """Return on which lay and price a cloth's figures rest."""
    pairs = joined(*(said("{0}: {1}", size, count) for size, count in cloth["pairs"].items()), by=", ")
    price = "no price"
    if cloth["price_per_m"] is not None:
        told = measures.price_text(Decimal(cloth["price_per_m"]))
        price = said("{0} {1} per {2}", told, cloth["currency"], measures.length_word)
    return said(
        "{0}: lay of {1} ({2}), {3} on {4} usable of {5}; {6}",
        cloth["name"],
        counted(sum(cloth["pairs"].values()), "pair"),
        pairs,
        measures.length_text(cloth["lay_length_mm"] / 1000, 3),
        measures.width_text(cloth["usable_width_mm"]),
        measures.width_text(cloth["width_mm"]),
        price,
    )


def _compared(row: Mapping[str, Any], measures: Measures) -> list[str]:
    price = row["price_per_m"]
    return [
        f"{round(measures.width(row['usable_width_mm']), 2):g}",
        percent(row["yield"]),
        percent(row["utilisation"]),
        f"{measures.length(row['metres_per_pair']):.4f}",
        f"{measures.area(row['m2_per_pair']):.4f}",
        "-" if price is None else measures.price_text(Decimal(price)),
        row["cost_per_pair"] or "-",
    ]


def in_columns(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Return a table as lines, columns as wide as their words: words to the left, figures to the right."""
    lines = [list(heads), *map(list, rows)]
    wide = [max(len(line[k]) for line in lines) for k in range(len(heads))]
    words = [any(row[k][:1].isalpha() for row in rows) and not heads[k].startswith("size") for k in
             range(len(heads))]  # fmt: skip
    return [
        "  "
        + "  ".join(
            text.ljust(w) if word else text.rjust(w) for text, w, word in zip(line, wide, words, strict=True)
        ).rstrip()
        for line in lines
    ]
