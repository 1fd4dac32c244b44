"""How much a pair's cloth depends on the gap, the end loss, the plies and the size of the order.

Every line rests on a lay nested for it; end loss alone is arithmetic on the lay that is there. Asked with
a solver that answers from the best lays known (``nesting.known``), no line contradicts another: a lay found
at a wider gap or for fewer pairs serves where it is the shorter.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import ceil
from typing import Any

from app.cost.per_pair import ClothCost, NestedWidth, Solver, in_proportion, nest_width
from app.cost.report import width_row
from app.style.model import Style

GAP_STEPS_MM = (-1.0, 0.0, 1.0, 2.0)
"""Gaps tried, from the style's own: knives and dies need 0 to 4 mm (common practice, no source)."""

END_LOSSES_MM = (0.0, 10.0, 20.0, 30.0, 40.0)
"""Losses at each end of a ply that are compared: both sides of the default (``nesting.defaults``)."""

SHORTER_LAYS = 4
"""Shorter lays tried beside the full one: half, a quarter, an eighth of it, and so on."""


def lays_by_gap(
    style: Style, order: Mapping[str, int], cost: ClothCost, solver: Solver
) -> dict[float, NestedWidth]:
    """Return lays by gap, narrowest first, ``cost``'s at the style's own; the widest is nested first."""
    own, nested = style.rules.gap_mm, cost.nested
    lays = {own: nested}
    for gap in sorted({max(0.0, own + step) for step in GAP_STEPS_MM} - {own}, reverse=True):
        lays[gap] = nest_width(style, cost.cloth, order, nested.width, solver, dict(nested.pairs), gap_mm=gap)
    return dict(sorted(lays.items()))


def sensitivity(
    style: Style,
    order: Mapping[str, int],
    cost: ClothCost,
    solver: Solver,
) -> dict[str, Any]:
    """Return ``sensitivity`` of the cost object, without its money: a table per quantity."""
    by_gap = lays_by_gap(style, order, cost, solver)
    by_pairs = shorter_lays(style, order, cost, solver)
    own = style.rules.gap_mm
    return {
        "cloth": cost.cloth.id,
        "width_mm": round(cost.nested.width.width_mm, 3),
        "gap": [{"gap_mm": gap, "own": gap == own, **_line(cost, lay, order)} for gap, lay in by_gap.items()],
        "end_loss": _by_end_loss(style, order, cost),
        "plies": _by_plies(order, cost, by_pairs),
        "order": _by_order(style, order, cost, by_pairs, solver),
    }


def shorter_lays(
    style: Style, order: Mapping[str, int], cost: ClothCost, solver: Solver
) -> dict[int, NestedWidth]:
    """Return lays by their number of pairs, the costed one among them, shortest first."""
    full = sum(cost.nested.pairs.values())
    counts = {ceil(full / 2**k) for k in range(1, SHORTER_LAYS)} | {1}
    lays = {full: cost.nested}
    for count in sorted(counts - {full}):
        pairs = in_proportion(order, count)
        lays[count] = nest_width(style, cost.cloth, order, cost.nested.width, solver, pairs)
    return dict(sorted(lays.items()))


def _by_end_loss(style: Style, order: Mapping[str, int], cost: ClothCost) -> list[dict[str, Any]]:
    own = style.rules.end_loss_mm
    lines = []
    for loss in sorted({*END_LOSSES_MM, own}):
        lost = replace(cost.nested, consumption=replace(cost.nested.consumption, end_loss_mm=loss))
        lines.append({"end_loss_mm": loss, "own": loss == own, **_line(cost, lost, order)})
    return lines


def _by_plies(
    order: Mapping[str, int], cost: ClothCost, by_pairs: Mapping[int, NestedWidth]
) -> list[dict[str, Any]]:
    ordered = sum(order.values())
    return [
        {
            "plies": ceil(ordered / pairs),
            "pairs_in_lay": pairs,
            "own": lay is cost.nested,
            **_line(cost, lay, order),
        }
        for pairs, lay in sorted(by_pairs.items(), reverse=True)
    ]


def _by_order(
    style: Style,
    order: Mapping[str, int],
    cost: ClothCost,
    by_pairs: Mapping[int, NestedWidth],
    solver: Solver,
) -> list[dict[str, Any]]:
    """Smaller orders are cut in one ply; one as large as the lay or larger repeats the lay."""
    ordered, full = sum(order.values()), max(by_pairs)
    orders: dict[int, NestedWidth] = {pairs: lay for pairs, lay in by_pairs.items() if pairs <= ordered}
    orders[ordered] = cost.nested
    if ordered == full:  # the whole order is in the lay: a larger one gets a longer lay
        twice = {size: 2 * count for size, count in order.items()}
        orders[2 * ordered] = nest_width(style, cost.cloth, twice, cost.nested.width, solver)
    else:
        orders[2 * ordered] = cost.nested
    return [
        {"pairs": pairs, "pairs_in_lay": sum(lay.pairs.values()), "own": pairs == ordered}
        | _line(cost, lay, order)
        for pairs, lay in sorted(orders.items())
    ]


_KEPT: Sequence[str] = (
    "yield",
    "longer_search",
    "utilisation",
    "metres_per_pair",
    "m2_per_pair",
    "lay_length_mm",
)


def _line(cost: ClothCost, nested: NestedWidth, order: Mapping[str, int]) -> dict[str, Any]:
    row = width_row(nested, cost, order)
    return {key: row[key] for key in _KEPT}
