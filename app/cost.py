"""Fabric per pair and its cost: a lay is nested for each cloth and width, never assumed.

The lay nested holds the order's sizes in the order's proportions, as many pairs as fill about
``SPREAD_MM`` of roll (the whole order when it is smaller). Its cloth is shared among the sizes by
the net area of their pieces, and averages are weighted by the order.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from app.errors import UnverifiedError, UsageError
from app.lay_job import LayJob, judged, problem_of, shapes
from app.quick_estimate import quick_estimate
from app.style.model import ClothData, Style
from app.style.pieces import HANDS, used_cloths
from nesting.consumption import CENT, PER_PAIR, Consumption, money
from nesting.lay import Lay
from nesting.problem import LayProblem

SPREAD_MM = 6000.0
"""Length of the lay nested for costing: handbooks of spreading call 4-7 m the best for hand work."""

FIRST_YIELD = 0.75
"""What a lay of backing pieces gives at least once it is nested; only sizes the lay for costing."""

MOST_PIECES = 400
"""A lay for costing holds no more: beyond, the yield of a lay hardly moves, the time does."""

Solver = Callable[[LayProblem, str], Lay]


@dataclass(frozen=True)
class Width:
    """A roll width to compare: the whole width, what of it can be used, what a metre costs."""

    width_mm: float
    usable_width_mm: float
    price_per_m: Decimal | None = None


@dataclass(frozen=True)
class NestedWidth:
    """A lay nested for costing on one cloth and width."""

    width: Width
    pairs: dict[str, int]
    consumption: Consumption
    lay: Lay
    problem: LayProblem
    checked: str


@dataclass(frozen=True)
class ClothCost:
    """What a pair of each size takes of one cloth; money None when no price is known."""

    cloth: ClothData
    nested: NestedWidth
    net_m2: dict[str, float]

    @property
    def metres(self) -> dict[str, float]:
        """Metres of roll a pair of each size takes."""
        return {size: self.nested.consumption.metres_of(net * 1e6) for size, net in self.net_m2.items()}

    @property
    def gross_m2(self) -> dict[str, float]:
        """Area of roll a pair of each size takes."""
        return {size: m * self.nested.width.width_mm / 1000.0 for size, m in self.metres.items()}

    @property
    def costs(self) -> dict[str, Decimal] | None:
        """Cost of a pair of each size."""
        price = self.cloth.price_per_m
        return None if price is None else {size: money(m, price) for size, m in self.metres.items()}


def net_m2_per_pair(style: Style, sizes: Sequence[str], cloth_id: str) -> dict[str, float]:
    """Return the net area of the backing pieces of a pair, by size."""
    totals = dict.fromkeys(sizes, 0.0)
    for shape in shapes(style, sizes, HANDS, cloth_id):
        totals[shape.size] += shape.outline.area_mm2 * shape.per_shoe / 1e6
    return totals


def lay_pairs(
    order: Mapping[str, int], net_m2: Mapping[str, float], width_mm: float, pieces: int
) -> dict[str, int]:
    """Return the pairs of the lay nested for costing, in the proportions of the order.

    ``pieces`` is how many pieces a pair has. Largest remainders decide which sizes are rounded up.
    """
    ordered = sum(order.values())
    average = sum(net_m2[size] * count for size, count in order.items()) / ordered
    room = SPREAD_MM * width_mm * FIRST_YIELD / 1e6 / average
    wanted = max(1, min(ordered, int(room), max(1, MOST_PIECES // max(1, pieces))))
    exact = {size: count * wanted / ordered for size, count in order.items()}
    pairs = {size: int(share) for size, share in exact.items()}
    by_remainder = sorted(exact, key=lambda size: pairs[size] - exact[size])
    for size in by_remainder[: wanted - sum(pairs.values())]:
        pairs[size] += 1
    return {size: count for size, count in pairs.items() if count}


def nest_width(
    style: Style,
    cloth: ClothData,
    order: Mapping[str, int],
    width: Width,
    solver: Solver,
    pairs: dict[str, int] | None = None,
) -> NestedWidth:
    """Nest the lay for costing; raises UnverifiedError when it does not verify.

    ``pairs`` None chooses them for this width; to compare widths, lay the same pairs on each.
    """
    if pairs is None:
        net = net_m2_per_pair(style, list(order), cloth.id)
        pieces = sum(shape.per_shoe for shape in shapes(style, [style.size_run.base], HANDS, cloth.id))
        pairs = lay_pairs(order, net, width.usable_width_mm, pieces)
    job = LayJob(style, pairs, cloth.id, width_mm=width.usable_width_mm, with_flaws=False)
    problem = problem_of(job)
    lay = solver(problem, f"{cloth.name} {width.width_mm:g} mm")
    verdict = judged(problem, lay)
    if not verdict.ok:
        raise UnverifiedError(
            f"the lay on {width.width_mm:g} mm does not verify: {verdict.faults[0].message}",
            remedy="try another --seed and report it",
        )
    rules = style.rules
    consumption = Consumption(
        net_mm2=problem.net_area_mm2,
        lay_length_mm=lay.length_mm,
        usable_width_mm=width.usable_width_mm,
        width_mm=width.width_mm,
        pairs=sum(pairs.values()),
        end_loss_mm=rules.end_loss_mm,
        roll_end_percent=rules.roll_end_percent,
        reject_percent=rules.reject_percent,
    )
    return NestedWidth(width, pairs, consumption, lay, problem, verdict.checked)


def cloth_width(cloth: ClothData) -> Width:
    """Return the width of a cloth as its card says."""
    return Width(cloth.width_mm, cloth.usable_width_mm, cloth.price_per_m)


def roll_width(cloth: ClothData, width_mm: float, price_per_m: Decimal | None = None) -> Width:
    """Return another roll width of a cloth: its selvedges stay as wide as they are.

    Without a price of its own a metre costs in proportion to the width (the same per m2), since
    the same price for a wider metre would make every wide roll look cheap.
    """
    usable = width_mm - (cloth.width_mm - cloth.usable_width_mm)
    if usable <= 0:
        raise UsageError(
            f"a roll of {width_mm:g} mm has no usable width left", remedy="give the whole width of the roll"
        )
    if price_per_m is None and cloth.price_per_m is not None:
        share = Decimal(f"{width_mm:.3f}") / Decimal(f"{cloth.width_mm:.3f}")
        price_per_m = (cloth.price_per_m * share).quantize(PER_PAIR, rounding=ROUND_HALF_UP)
    return Width(width_mm, usable, price_per_m)


def compare_widths(
    style: Style, order: Mapping[str, int], cost: ClothCost, widths: Sequence[Width], solver: Solver
) -> list[NestedWidth]:
    """Nest the lay of a cloth on other roll widths, the same pairs on each; its own is not nested again."""
    own = cost.nested
    found = []
    for width in widths:
        if (width.width_mm, width.usable_width_mm) == (own.width.width_mm, own.width.usable_width_mm):
            found.append(replace(own, width=width))
        else:
            found.append(nest_width(style, cost.cloth, order, width, solver, own.pairs))
    return found


def cost_object(
    style: Style, order: Mapping[str, int], costs: Sequence[ClothCost], widths: Sequence[NestedWidth]
) -> dict[str, Any]:
    """Return the object of ``cost --json``: per size, weighted average, by width, and what was assumed.

    ``costs`` has one entry a cloth of the style; ``widths`` are those of the first of them.
    """
    currency = costs[0].cloth.currency
    priced = all(cost.costs is not None for cost in costs) and len({c.cloth.currency for c in costs}) == 1
    per_pair = [_pair(size, costs, priced) for size in order]
    ordered = sum(order.values())
    total = _total(order, costs) if priced else None
    paid = sum(cost.nested.consumption.gross_m2 * _share(order, cost) for cost in costs)
    net = sum(cost.nested.consumption.net_mm2 / 1e6 * _share(order, cost) for cost in costs)
    return {
        "style": style.name,
        "order": dict(order),
        "per_pair": per_pair,
        "average": {
            key: round(sum(pair[key] * order[pair["size"]] for pair in per_pair) / ordered, 6)
            for key in ("net_m2", "gross_m2", "metres")
        }
        | {"cost": None if total is None else _money(total / ordered, PER_PAIR)},
        "total": {
            "pairs": ordered,
            "metres": {
                cost.cloth.id: round(sum(cost.metres[size] * count for size, count in order.items()), 3)
                for cost in costs
            },
            "cost": None if total is None else _money(total, CENT),
        },
        "widths": [_width(nested, costs[0], order) for nested in widths],
        "currency": currency,
        "yield": round(costs[0].nested.consumption.lay_yield, 6),
        "utilisation": round(net / paid, 6),
        "quick": [_quick(style, cost) for cost in costs],
        "cloths": [_cloth(cost) for cost in costs],
        "assumptions": assumptions(style, costs),
        "verdict": f"every lay verified: {costs[0].nested.checked}",
    }


def assumptions(style: Style, costs: Sequence[ClothCost]) -> list[str]:
    """Return what the figures rest on, a line each."""
    rules = style.rules
    lines = [
        f"gap {rules.gap_mm:g} mm, edge margin {rules.edge_margin_mm:g} mm, "
        f"end margin {rules.end_margin_mm:g} mm",
        f"{rules.end_loss_mm:g} mm lost at each end of a ply, {rules.roll_end_percent:g} % ends of rolls, "
        f"{rules.reject_percent:g} % rejects",
        "a lay's cloth is shared among its sizes by the net area of their pieces; "
        "averages are weighted by the order",
        "another roll width costs in proportion to the width unless its price is given",
    ]
    for cost in costs:
        nested = cost.nested
        pairs = ", ".join(f"{size}: {count}" for size, count in nested.pairs.items())
        price = (
            "no price"
            if cost.cloth.price_per_m is None
            else f"{cost.cloth.price_per_m} {cost.cloth.currency} a metre"
        )
        lines.append(
            f"{cost.cloth.name}: lay of {sum(nested.pairs.values())} pairs ({pairs}), "
            f"{nested.lay.length_mm / 1000:.3f} m on {nested.width.usable_width_mm:g} mm usable of "
            f"{nested.width.width_mm:g} mm; {price}"
        )
    return lines


def used(style: Style, cloth_id: str = "") -> tuple[ClothData, ...]:
    """Return the cloths to be costed: all that are used, or the one asked for."""
    ids = used_cloths(style)
    if not cloth_id:
        if not ids:
            raise UsageError(f"no piece of {style.name} is backed", remedy="give a piece a backing layer")
        return tuple(style.cloth(each) for each in ids)
    if cloth_id not in ids:
        raise UsageError(
            f"nothing of {style.name} is cut from {cloth_id}", remedy=f"its cloths are {', '.join(ids)}"
        )
    return (style.cloth(cloth_id),)


def _share(order: Mapping[str, int], cost: ClothCost) -> float:
    """How many times the lay nested for costing the order takes."""
    metres = sum(cost.metres[size] * count for size, count in order.items())
    return metres / cost.nested.consumption.metres


def _pair(size: str, costs: Sequence[ClothCost], priced: bool) -> dict[str, Any]:
    sums = [cost.costs[size] for cost in costs if cost.costs is not None]
    return {
        "size": size,
        "net_m2": round(sum(cost.net_m2[size] for cost in costs), 6),
        "gross_m2": round(sum(cost.gross_m2[size] for cost in costs), 6),
        "metres": round(sum(cost.metres[size] for cost in costs), 6),
        "cost": _money(sum(sums, Decimal(0)), PER_PAIR) if priced else None,
    }


def _total(order: Mapping[str, int], costs: Sequence[ClothCost]) -> Decimal:
    total = Decimal(0)
    for cost in costs:
        for size, count in order.items():
            total += (cost.costs or {}).get(size, Decimal(0)) * count
    return total


def _width(nested: NestedWidth, cost: ClothCost, order: Mapping[str, int]) -> dict[str, Any]:
    here = ClothCost(cost.cloth, nested, cost.net_m2)
    ordered = sum(order.values())
    metres = sum(here.metres[size] * count for size, count in order.items()) / ordered
    price = nested.width.price_per_m
    return {
        "width_mm": round(nested.width.width_mm, 3),
        "usable_width_mm": round(nested.width.usable_width_mm, 3),
        "yield": round(nested.consumption.lay_yield, 6),
        "utilisation": round(nested.consumption.utilisation, 6),
        "metres_per_pair": round(metres, 6),
        "m2_per_pair": round(metres * nested.width.width_mm / 1000.0, 6),
        "price_per_m": None if price is None else str(price),
        "cost_per_pair": None if price is None else _money(money(metres, price), PER_PAIR),
        "lay_length_mm": round(nested.lay.length_mm, 3),
        "pairs": dict(nested.pairs),
    }


def _cloth(cost: ClothCost) -> dict[str, Any]:
    consumption = cost.nested.consumption
    costs = cost.costs
    return {
        "id": cost.cloth.id,
        "name": cost.cloth.name,
        "width_mm": cost.nested.width.width_mm,
        "usable_width_mm": cost.nested.width.usable_width_mm,
        "price_per_m": None if cost.cloth.price_per_m is None else str(cost.cloth.price_per_m),
        "yield": round(consumption.lay_yield, 6),
        "utilisation": round(consumption.utilisation, 6),
        "shares": {name: round(share, 6) for name, share in consumption.shares().items()},
        "lay_length_mm": round(cost.nested.lay.length_mm, 3),
        "pairs": dict(cost.nested.pairs),
        "per_pair": [
            {
                "size": size,
                "net_m2": round(cost.net_m2[size], 6),
                "gross_m2": round(cost.gross_m2[size], 6),
                "metres": round(metres, 6),
                "cost": None if costs is None else _money(costs[size], PER_PAIR),
            }
            for size, metres in cost.metres.items()
        ],
    }


def _quick(style: Style, cost: ClothCost) -> dict[str, Any]:
    """The estimate without a lay, and how the nested lay of the same pairs compares."""
    nested = cost.nested
    estimate = quick_estimate(style, nested.pairs, cost.cloth, nested.width.usable_width_mm)
    pairs = sum(nested.pairs.values())
    return {
        "cloth": cost.cloth.id,
        "density": {piece: round(density, 4) for piece, density in estimate.density.items()},
        "m2_per_pair": round(estimate.m2_per_pair, 6),
        "metres_per_pair": round(estimate.metres_per_pair, 6),
        "nested_over_estimate": round(
            estimate.nested_share(nested.lay.length_mm, nested.width.usable_width_mm, pairs), 4
        ),
    }


def _money(amount: Decimal, step: Decimal) -> str:
    return str(amount.quantize(step, rounding=ROUND_HALF_UP))
