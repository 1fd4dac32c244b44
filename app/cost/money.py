"""Money put on metres that are counted: every sum exact, whichever way the table is added up.

Metres are taken to the nearest 0.001 mm, money is decimal. A cloth's total is rounded once, to the
cent; what its sizes and its losses cost is that total shared out, so that the cents add up.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from typing import Any

from nesting.planning.consumption import CENT, PER_PAIR, money


def shared_out(total: Decimal, weights: Sequence[float], step: Decimal = CENT) -> list[Decimal]:
    """Return ``total`` (a multiple of ``step``) in shares, multiples of ``step`` that add up to it.

    Each is less than a step from its exact share; largest remainders are rounded up. Weights that
    are all zero share equally.
    """
    parts = [Decimal(repr(max(0.0, float(weight)))) for weight in weights]
    whole = sum(parts, Decimal(0))
    if not whole:
        parts, whole = [Decimal(1)] * len(parts), Decimal(len(parts))
    exact = [total * part / whole / step for part in parts]
    shares = [each.to_integral_value(ROUND_FLOOR) for each in exact]
    left = int(total / step - sum(shares, Decimal(0)))
    for at in sorted(range(len(parts)), key=lambda k: shares[k] - exact[k])[:left]:
        shares[at] += 1
    return [(share * step).quantize(step) for share in shares]


def with_money(counted: Mapping[str, Any]) -> dict[str, Any]:
    """Return a cost object with every figure of money worked out again from the prices in it.

    Prices stand in ``cloths``, ``widths`` and ``by_cloth``. A pair's and the order's money is None
    where a cloth has no price or the cloths are priced in different currencies.
    """
    order: Mapping[str, int] = counted["order"]
    cloths = [_cloth(cloth, order) for cloth in counted["cloths"]]
    prices = [_price(cloth) for cloth in cloths]
    priced = None not in prices and len({cloth["currency"] for cloth in cloths}) == 1
    exact = {
        size: sum(
            (money(row["metres"], price) for cloth, price in zip(cloths, prices, strict=True)
             if price is not None for row in cloth["per_pair"] if row["size"] == size),
            Decimal(0),
        )
        for size in order
    }  # fmt: skip
    whole = sum((exact[size] * count for size, count in order.items()), Decimal(0))
    lines = {
        size: sum((_amount(row["order_cost"]) for cloth in cloths for row in cloth["per_pair"]
                   if row["size"] == size), Decimal(0))
        for size in order
    }  # fmt: skip
    own = prices[0]
    return {
        **counted,
        "currency": cloths[0]["currency"],
        "cloths": cloths,
        "per_pair": [
            {
                **row,
                "cost": _text(exact[row["size"]], PER_PAIR) if priced else None,
                "order_cost": str(lines[row["size"]]) if priced else None,
            }
            for row in counted["per_pair"]
        ],
        "average": {
            **counted["average"],
            "cost": _text(whole / sum(order.values()), PER_PAIR) if priced else None,
        },
        "total": {**counted["total"], "cost": str(sum(lines.values(), Decimal(0))) if priced else None},
        "widths": [_row(row) for row in counted["widths"]],
        **({"by_cloth": [_row(row) for row in counted["by_cloth"]]} if "by_cloth" in counted else {}),
        **({"sensitivity": _sensitivity(counted["sensitivity"], own)} if "sensitivity" in counted else {}),
    }


def _cloth(cloth: Mapping[str, Any], order: Mapping[str, int]) -> dict[str, Any]:
    """A cloth's money: by pair, by size of the order, by where the cloth goes."""
    price = _price(cloth)
    rows, account = cloth["per_pair"], cloth["account"]
    metres = sum((Decimal(f"{row['metres']:.6f}") * order[row["size"]] for row in rows), Decimal(0))
    total = None if price is None else (metres * price).quantize(CENT, ROUND_HALF_UP)
    by_size: list[Decimal | None] = [None] * len(rows)
    by_part: list[Decimal | None] = [None] * len(account)
    if total is not None:
        by_size = list(shared_out(total, [row["metres"] * order[row["size"]] for row in rows]))
        by_part = list(shared_out(total, [part["share"] for part in account]))
    return {
        **cloth,
        "cost": None if total is None else str(total),
        "per_pair": [
            {
                **row,
                "cost": None if price is None else _text(money(row["metres"], price), PER_PAIR),
                "order_cost": None if cost is None else str(cost),
            }
            for row, cost in zip(rows, by_size, strict=True)
        ],
        "account": [
            {**part, "cost": None if cost is None else str(cost)}
            for part, cost in zip(account, by_part, strict=True)
        ],
    }


def _row(row: Mapping[str, Any], price: Decimal | None = None) -> dict[str, Any]:
    """A line with metres a pair, its cost from its own price or the one given."""
    price = _price(row) if price is None else price
    cost = None if price is None else _text(money(row["metres_per_pair"], price), PER_PAIR)
    return {**row, "cost_per_pair": cost}


def _sensitivity(tables: Mapping[str, Any], price: Decimal | None) -> dict[str, Any]:
    return {
        name: [_row(row, price) for row in table] if isinstance(table, list) else table
        for name, table in tables.items()
    }


def _price(row: Mapping[str, Any]) -> Decimal | None:
    price = row.get("price_per_m")
    return None if price is None else Decimal(price)


def _amount(text: str | None) -> Decimal:
    return Decimal(0) if text is None else Decimal(text)


def _text(amount: Decimal, step: Decimal) -> str:
    return str(amount.quantize(step, rounding=ROUND_HALF_UP))
