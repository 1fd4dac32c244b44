"""Fabric per pair and its cost: a lay is nested for each cloth and width, never assumed.

The lay nested holds the order's sizes in the order's proportions, as many pairs as fill about
``SPREAD_MM`` of roll (the whole order when it is smaller). Its cloth is shared among the sizes by
the net area of their pieces, and averages are weighted by the order.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal

from app.errors import UnverifiedError, UsageError
from app.lay.job import LayJob, judged, problem_of, shapes
from app.style.model import ClothData, Style
from app.style.pieces import HANDS, used_cloths
from geometry.said import said
from nesting.lay import Lay
from nesting.planning.consumption import PER_PAIR, Consumption
from nesting.problem import LayProblem

SPREAD_MM = 6000.0
"""Length of the lay nested for costing: 4 to 7 m are the best to spread by hand (I. Vilumsone-Nemes,
Industrial Cutting of Textile Materials, p. 50)."""

FIRST_YIELD = 0.75
"""Roughly what a lay of backing pieces gives once it is nested (docs/benchmarks.md); it only says how many
pairs the lay for costing holds, and never stands in a figure."""

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

    def on(self, width: Width) -> NestedWidth:
        """Return the same lay on a roll of as much usable width, its own selvedges and price counted."""
        return replace(self, width=width, consumption=replace(self.consumption, width_mm=width.width_mm))


@dataclass(frozen=True)
class ClothCost:
    """What a pair of each size takes of one cloth."""

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
    def lay_m2(self) -> dict[str, float]:
        """Area of the lay a pair of each size takes: nothing lost around it is counted."""
        share = self.nested.consumption.lay_yield
        return {size: net / share for size, net in self.net_m2.items()}

    def average_m(self, order: Mapping[str, int]) -> float:
        """Metres of roll a pair takes, averaged over an order."""
        return sum(self.metres[size] * count for size, count in order.items()) / sum(order.values())


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

    ``pieces`` is how many pieces a pair has.
    """
    ordered = sum(order.values())
    average = sum(net_m2[size] * count for size, count in order.items()) / ordered
    room = SPREAD_MM * width_mm * FIRST_YIELD / 1e6 / average
    wanted = max(1, min(ordered, int(room), max(1, MOST_PIECES // max(1, pieces))))
    return in_proportion(order, wanted)


def in_proportion(order: Mapping[str, int], wanted: int) -> dict[str, int]:
    """Return ``wanted`` pairs in the proportions of an order, by largest remainders."""
    ordered = sum(order.values())
    exact = {size: count * wanted / ordered for size, count in order.items()}
    pairs = {size: int(share) for size, share in exact.items()}
    by_remainder = sorted(exact, key=lambda size: pairs[size] - exact[size])
    for size in by_remainder[: wanted - sum(pairs.values())]:
        pairs[size] += 1
    return {size: count for size, count in pairs.items() if count}


def pairs_in_lay(
    style: Style, cloth_id: str, order: Mapping[str, int], usable_width_mm: float
) -> dict[str, int]:
    """Return the pairs of the lay nested for costing an order on a cloth of a usable width."""
    net = net_m2_per_pair(style, list(order), cloth_id)
    pieces = sum(shape.per_shoe for shape in shapes(style, [style.size_run.base], HANDS, cloth_id))
    return lay_pairs(order, net, usable_width_mm, pieces)


def nest_width(
    style: Style,
    cloth: ClothData,
    order: Mapping[str, int],
    width: Width,
    solver: Solver,
    pairs: dict[str, int] | None = None,
    *,
    gap_mm: float | None = None,
) -> NestedWidth:
    """Nest the lay for costing; raises UnverifiedError when it does not verify.

    ``pairs`` None chooses them for this width; to compare widths, lay the same pairs on each.
    ``gap_mm`` None takes the style's.
    """
    if pairs is None:
        pairs = pairs_in_lay(style, cloth.id, order, width.usable_width_mm)
    job = LayJob(style, pairs, cloth.id, width_mm=width.usable_width_mm, gap_mm=gap_mm, with_flaws=False)
    problem = problem_of(job)
    lay = solver(problem, f"{cloth.name} {width.width_mm:g} mm")
    verdict = judged(problem, lay)
    if not verdict.ok:
        raise UnverifiedError(
            said("the lay on {0} mm does not verify: {1}", f"{width.width_mm:g}", verdict.faults[0].message),
            remedy="try another --seed and report it",
        )
    return NestedWidth(
        width, pairs, consumption_of(style, problem, lay, width, pairs), lay, problem, verdict.checked
    )


def consumption_of(
    style: Style, problem: LayProblem, lay: Lay, width: Width, pairs: Mapping[str, int]
) -> Consumption:
    """Return what a lay takes with all that the house rules say is lost around it."""
    rules = style.rules
    return Consumption(
        net_mm2=problem.net_area_mm2,
        lay_length_mm=lay.length_mm,
        usable_width_mm=width.usable_width_mm,
        width_mm=width.width_mm,
        pairs=sum(pairs.values()),
        end_loss_mm=rules.end_loss_mm,
        roll_end_percent=rules.roll_end_percent,
        splice_percent=rules.splice_percent,
        reject_percent=rules.reject_percent,
    )


def cloth_width(cloth: ClothData) -> Width:
    """Return the width of a cloth as its card says."""
    return Width(cloth.width_mm, cloth.usable_width_mm, cloth.price_per_m)


def roll_width(cloth: ClothData, width_mm: float, price_per_m: Decimal | None = None) -> Width:
    """Return another roll width of a cloth: its selvedges stay as wide as they are.

    Without a price of its own a metre costs in proportion to the width (the same per m2), since
    the same price for a wider metre would make every wide roll look cheap. Its own width is the cloth's
    own, to the digit.
    """
    if width_mm == cloth.width_mm:
        own = cloth_width(cloth)
        return own if price_per_m is None else replace(own, price_per_m=price_per_m)
    usable = width_mm - (cloth.width_mm - cloth.usable_width_mm)
    if usable <= 0:
        raise UsageError(
            said("a roll of {0} mm has no usable width left", f"{width_mm:g}"),
            remedy="give the whole width of the roll",
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


def used(style: Style, cloth_id: str = "") -> tuple[ClothData, ...]:
    """Return the cloths to be costed: all that are used, or the one asked for."""
    ids = used_cloths(style)
    if not cloth_id:
        if not ids:
            raise UsageError(
                said("no piece of {0} is backed", style.name), remedy="give a piece a backing layer"
            )
        return tuple(style.cloth(each) for each in ids)
    if cloth_id not in ids:
        raise UsageError(
            said("nothing of {0} is cut from {1}", style.name, cloth_id),
            remedy=said("its cloths are {0}", ", ".join(ids)),
        )
    return (style.cloth(cloth_id),)
