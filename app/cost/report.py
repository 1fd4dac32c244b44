"""The object of ``cost --json``: a pair by size, the order, the cloths, widths, and what is assumed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from app.cost.money import shared_out, with_money
from app.cost.per_pair import ClothCost, NestedWidth
from app.cost.quick_estimate import QuickEstimate, quick_estimate
from app.cost.text import lay_line
from app.measures import METRIC
from app.style.model import Style
from geometry.said import joined, said
from nesting.expected import longer_search

AREA_STEP = Decimal("0.0001")
"""Areas of an account are told to a square centimetre, and add up so."""


def cost_object(
    style: Style, order: Mapping[str, int], costs: Sequence[ClothCost], widths: Sequence[NestedWidth]
) -> dict[str, Any]:
    """Return the object of ``cost --json``: per size, weighted average, by width, and what was assumed.

    ``costs`` has one entry per cloth of the style; ``widths`` are those of the first of them.
    """
    estimates = [
        quick_estimate(style, order, cost.cloth, cost.nested.width.usable_width_mm) for cost in costs
    ]
    exact = {size: _pair(size, costs, estimates) for size in order}
    cloths = [_cloth(cost, order) for cost in costs]
    ordered = sum(order.values())
    paid = sum(cost.nested.consumption.gross_m2 * _share(order, cost) for cost in costs)
    net = sum(cost.nested.consumption.net_mm2 / 1e6 * _share(order, cost) for cost in costs)
    return with_money(
        {
            "style": style.name,
            "order": dict(order),
            "per_pair": [{"size": size, **_rounded(pair)} for size, pair in exact.items()],
            # of the exact figures: of rounded ones it could differ from the width's in the last place
            "average": _rounded(
                {
                    key: sum(pair[key] * order[size] for size, pair in exact.items()) / ordered
                    for key in ("net_m2", "quick_m2", "lay_m2", "gross_m2", "metres")
                }
            ),
            "total": {
                "pairs": ordered,
                "metres": {
                    cost.cloth.id: round(sum(cost.metres[size] * count for size, count in order.items()), 3)
                    for cost in costs
                },
            },
            "widths": [width_row(nested, costs[0], order) for nested in widths],
            "yield": round(costs[0].nested.consumption.lay_yield, 6),
            "longer_search": longer_search_of(costs[0].nested),
            "utilisation": round(net / paid, 6),
            "quick": [_quick(cost, each, order) for cost, each in zip(costs, estimates, strict=True)],
            "cloths": cloths,
            "assumptions": _assumptions(style, cloths),
            "verdict": _verdict(costs),
        }
    )


def _assumptions(style: Style, cloths: Sequence[Mapping[str, Any]]) -> list[str]:
    """What the figures rest on, a line each."""
    rules = style.rules
    return [
        said(
            "gap {0} mm, edge margin {1} mm, end margin {2} mm",
            f"{rules.gap_mm:g}",
            f"{rules.edge_margin_mm:g}",
            f"{rules.end_margin_mm:g}",
        ),
        said(
            "{0} mm lost at each end of a ply, {1} % ends of rolls, {2} % splices, {3} % rejects",
            f"{rules.end_loss_mm:g}",
            f"{rules.roll_end_percent:g}",
            f"{rules.splice_percent:g}",
            f"{rules.reject_percent:g}",
        ),
        "a lay's cloth is shared among its sizes by the net area of their pieces; "
        "averages are weighted by the order",
        "another roll width costs in proportion to the width unless its price is given",
        "the quick estimate lays each piece in its own closest rows, without margins and ends",
        *(lay_line(cloth, METRIC) for cloth in cloths),
    ]


def width_row(nested: NestedWidth, cost: ClothCost, order: Mapping[str, int]) -> dict[str, Any]:
    """Return a lay's figures as a line of a comparison, without its money."""
    metres = ClothCost(cost.cloth, nested, cost.net_m2).average_m(order)
    price = nested.width.price_per_m
    return {
        "width_mm": round(nested.width.width_mm, 3),
        "usable_width_mm": round(nested.width.usable_width_mm, 3),
        "yield": round(nested.consumption.lay_yield, 6),
        "utilisation": round(nested.consumption.utilisation, 6),
        "metres_per_pair": round(metres, 6),
        "m2_per_pair": round(metres * nested.width.width_mm / 1000.0, 6),
        "price_per_m": None if price is None else str(price),
        "lay_length_mm": round(nested.lay.length_mm, 3),
        "longer_search": longer_search_of(nested),
        "pairs": dict(nested.pairs),
    }


def longer_search_of(nested: NestedWidth) -> dict[str, float] | None:
    """Return what a longer search is likely to add to the yield of a nested lay; None: nothing known."""
    longer = longer_search(nested.lay, len(nested.lay.placements))
    return None if longer is None else longer.to_json()


def _verdict(costs: Sequence[ClothCost]) -> str:
    """What the verification looked at, of every cloth's lay."""
    if len({cost.nested.checked for cost in costs}) == 1:
        return said("every lay verified: {0}", costs[0].nested.checked)
    each = joined(*(said("{0}: {1}", c.cloth.name, c.nested.checked) for c in costs))
    return said("every lay verified: {0}", each)


def _share(order: Mapping[str, int], cost: ClothCost) -> float:
    """How many times the lay nested for costing the order takes."""
    return cost.average_m(order) * sum(order.values()) / cost.nested.consumption.metres


def _pair(size: str, costs: Sequence[ClothCost], estimates: Sequence[QuickEstimate]) -> dict[str, float]:
    return {
        "net_m2": sum(cost.net_m2[size] for cost in costs),
        "quick_m2": sum(each.m2_by_size[size] for each in estimates),
        "lay_m2": sum(cost.lay_m2[size] for cost in costs),
        "gross_m2": sum(cost.gross_m2[size] for cost in costs),
        "metres": sum(cost.metres[size] for cost in costs),
    }


def _rounded(figures: Mapping[str, float]) -> dict[str, float]:
    return {key: round(value, 6) for key, value in figures.items()}


def _cloth(cost: ClothCost, order: Mapping[str, int]) -> dict[str, Any]:
    consumption = cost.nested.consumption
    return {
        "id": cost.cloth.id,
        "name": cost.cloth.name,
        "width_mm": cost.nested.width.width_mm,
        "usable_width_mm": cost.nested.width.usable_width_mm,
        "price_per_m": None if cost.cloth.price_per_m is None else str(cost.cloth.price_per_m),
        "currency": cost.cloth.currency,
        "yield": round(consumption.lay_yield, 6),
        "longer_search": longer_search_of(cost.nested),
        "utilisation": round(consumption.utilisation, 6),
        "shares": {name: round(share, 6) for name, share in consumption.shares().items()},
        "account": _account(cost, order),
        "lay_length_mm": round(cost.nested.lay.length_mm, 3),
        "pairs": dict(cost.nested.pairs),
        "per_pair": [
            {
                "size": size,
                "net_m2": round(cost.net_m2[size], 6),
                "gross_m2": round(cost.gross_m2[size], 6),
                "metres": round(metres, 6),
            }
            for size, metres in cost.metres.items()
        ],
    }


def _account(cost: ClothCost, order: Mapping[str, int]) -> list[dict[str, Any]]:
    """Where the order's cloth goes; the areas add up to the cloth bought, to the last digit."""
    shares = cost.nested.consumption.shares()
    gross = cost.average_m(order) * sum(order.values()) * cost.nested.width.width_mm / 1000.0
    areas = shared_out(Decimal(repr(gross)).quantize(AREA_STEP), list(shares.values()), AREA_STEP)
    return [
        {"part": part, "share": share, "m2": float(area)}
        for (part, share), area in zip(shares.items(), areas, strict=True)
    ]


def _quick(cost: ClothCost, estimate: QuickEstimate, order: Mapping[str, int]) -> dict[str, Any]:
    """The estimate without a lay, and what the nested lay takes of it."""
    nested_m2 = sum(cost.lay_m2[size] * count for size, count in order.items()) / sum(order.values())
    return {
        "cloth": cost.cloth.id,
        "density": {piece: round(density, 4) for piece, density in estimate.density.items()},
        "m2_per_pair": round(estimate.m2_per_pair, 6),
        "metres_per_pair": round(estimate.metres_per_pair, 6),
        "lay_m2_per_pair": round(nested_m2, 6),
        "nested_over_estimate": round(nested_m2 / estimate.m2_per_pair, 4),
        "per_size": [{"size": size, "m2": round(m2, 6)} for size, m2 in estimate.m2_by_size.items()],
    }
