"""Fabric per pair for a spreadsheet: figures as numbers, money as decimals, a sheet per table."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from app.cost.text import PARTS, assumption_lines
from app.measures import METRIC, Measures
from app.papers.formats.spreadsheet import Cell, TableSheet
from app.words import say

AREAS = ("net_m2", "quick_m2", "lay_m2", "gross_m2")


def fabric_sheets(cost: Mapping[str, Any], measures: Measures = METRIC) -> list[TableSheet]:
    """Return the figures of a cost object as tables."""
    currency = cost["currency"]
    area, length = measures.area_unit, measures.length_unit
    order = cost["order"]
    average = {**cost["average"], "order_cost": cost["total"]["cost"]}
    rows = [_pair(row["size"], order[row["size"]], row, measures) for row in cost["per_pair"]]
    rows.append(_pair("average of the order", cost["total"]["pairs"], average, measures))
    heads = [
        "size",
        "pairs",
        say("net {0}", area),
        say("quick {0}", area),
        say("lay {0}", area),
        say("gross {0}", area),
        length,
    ]
    sheets = [
        TableSheet(
            "Per pair", [*heads, say("cost {0}", currency), say("cost of the order {0}", currency)], rows
        )
    ]
    sheets.append(_account(cost, measures))
    compared = [
        say("width {0}", measures.width_unit),
        say("usable {0}", measures.width_unit),
        "yield",
        "utilisation",
    ]
    compared += [
        say("{0} per pair", length),
        say("{0} per pair", area),
        say("price per {0}", measures.length_word),
        "cost per pair",
    ]
    widths = [(*_compared(row, measures), currency) for row in cost["widths"]]
    sheets.append(TableSheet("Widths", [*compared, "currency"], widths))
    if cost.get("by_cloth"):
        cloths = [
            (row["name"], *_compared(row, measures), row["currency"], row["hold"]) for row in cost["by_cloth"]
        ]
        sheets.append(TableSheet("Cloths", ["cloth", *compared, "currency", "hold"], cloths))
    if cost.get("sensitivity"):
        sheets.append(_sensitivity(cost["sensitivity"], currency, measures))
    sheets.append(_quick(cost, measures))
    notes: list[Sequence[Cell]] = [
        ("yield (pieces / (usable width x lay length))", cost["yield"]),
        ("utilisation (pieces / all cloth paid for)", cost["utilisation"]),
        *(("assumed", line) for line in assumption_lines(cost, measures)),
        ("verdict", cost["verdict"]),
    ]
    return [*sheets, TableSheet("Notes", ("item", "value"), notes)]


def _pair(size: str, pairs: int, row: Mapping[str, Any], measures: Measures) -> Sequence[Cell]:
    areas = [_figure(measures.area(row[key])) for key in AREAS]
    length = _figure(measures.length(row["metres"]))
    return (size, pairs, *areas, length, _money(row["cost"]), _money(row["order_cost"]))


def _account(cost: Mapping[str, Any], measures: Measures) -> TableSheet:
    rows: list[Sequence[Cell]] = [
        (cloth["name"], PARTS[part["part"]], part["share"], _figure(measures.area(part["m2"])),
         _money(part["cost"]), cloth["currency"])
        for cloth in cost["cloths"] for part in cloth["account"]
    ]  # fmt: skip
    heads = ("cloth", "part", "share", measures.area_unit, "cost", "currency")
    return TableSheet("Where it goes", heads, rows)


def _compared(row: Mapping[str, Any], measures: Measures) -> Sequence[Cell]:
    price = _money(row["price_per_m"])
    return (
        round(measures.width(row["width_mm"]), 3),
        round(measures.width(row["usable_width_mm"]), 3),
        row["yield"],
        row["utilisation"],
        _figure(measures.length(row["metres_per_pair"])),
        _figure(measures.area(row["m2_per_pair"])),
        None if price is None else Decimal(measures.price_text(price)),
        _money(row["cost_per_pair"]),
    )


def _sensitivity(told: Mapping[str, Any], currency: str, measures: Measures) -> TableSheet:
    rows: list[Sequence[Cell]] = []
    for key, varied, named in (
        ("gap", "gap_mm", "gap mm"),
        ("end_loss", "end_loss_mm", "loss at each end mm"),
        ("plies", "plies", "plies"),
        ("order", "pairs", "pairs ordered"),
    ):
        rows += [
            (
                named, row[varied], "yes" if row["own"] else "", row.get("pairs_in_lay"),
                _figure(measures.length(row["lay_length_mm"] / 1000)), row["yield"], row["utilisation"],
                _figure(measures.length(row["metres_per_pair"])), _figure(measures.area(row["m2_per_pair"])),
                _money(row["cost_per_pair"]),
            )
            for row in told[key]
        ]  # fmt: skip
    length, area = measures.length_unit, measures.area_unit
    heads = (
        "varied",
        "value",
        "as costed",
        "pairs in the lay",
        say("lay {0}", length),
        "yield",
        "utilisation",
        say("{0} per pair", length),
        say("{0} per pair", area),
        say("cost per pair {0}", currency),
    )
    return TableSheet("Sensitivity", heads, rows)


def _quick(cost: Mapping[str, Any], measures: Measures) -> TableSheet:
    """How dense each piece's own rows are, and how the nested lay compares with them."""
    area = measures.area_unit
    rows: list[Sequence[Cell]] = []
    for quick in cost["quick"]:
        figures = (
            _figure(measures.area(quick["m2_per_pair"])),
            _figure(measures.area(quick["lay_m2_per_pair"])),
        )
        rows.append((quick["cloth"], "all pieces", None, *figures, quick["nested_over_estimate"]))
        rows += [
            (quick["cloth"], piece, density, None, None, None) for piece, density in quick["density"].items()
        ]
    heads = (
        "cloth",
        "piece",
        "density of its rows",
        say("quick {0} per pair", area),
        say("nested {0} per pair", area),
        "nested / quick",
    )
    return TableSheet("Quick estimate", heads, rows)


def _money(text: str | None) -> Decimal | None:
    return None if text is None else Decimal(text)


def _figure(value: float) -> float:
    return round(value, 6)
