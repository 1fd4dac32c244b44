"""The trade's quick estimate of cloth: every piece in its own closest rows, before any lay exists.

A piece and its half turn (the piece alone on one-way cloth) are brought as close as they go, gap
included; the parallelogram that repeats is what one piece takes. It is the old parallelogram
method (W.W. Russ and F.L. Small, 1922, read at second hand) done by computation; edges of the roll,
ends and odd numbers come on top of it, so a short lay takes more; one that mixes pieces well may take
less.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.lay.job import shapes
from app.style.model import ClothData, Style
from nesting.lattice.densest import one_way, two_way

STARTS = 400
"""Random cells tried per piece: on shoe pieces more found nothing denser."""


@dataclass(frozen=True)
class QuickEstimate:
    """What a pair takes at the density of each piece's own rows, without losses at edges and ends.

    ``density`` by piece; ``m2_by_size`` on the usable width; ``m2_per_pair`` and
    ``metres_per_pair`` are averages over the order.
    """

    density: dict[str, float]
    m2_by_size: dict[str, float]
    m2_per_pair: float
    metres_per_pair: float


def quick_estimate(
    style: Style, order: Mapping[str, int], cloth: ClothData, usable_width_mm: float
) -> QuickEstimate:
    """Return the estimate of an order; densities are those of the base size."""
    rows = one_way if cloth.one_way else two_way
    density: dict[str, float] = {}
    for shape in shapes(style, (style.size_run.base,), ("left",), cloth.id):
        cell = rows(shape.outline, style.rules.gap_mm, starts=STARTS)
        if cell is not None:
            density[shape.piece] = cell.density
    by_size = dict.fromkeys(order, 0.0)
    for shape in shapes(style, list(order), ("left",), cloth.id):
        part = density.get(shape.piece, min(density.values(), default=1.0))
        by_size[shape.size] += 2 * shape.per_shoe * shape.outline.area_mm2 / part / 1e6
    a_pair = sum(by_size[size] * count for size, count in order.items()) / sum(order.values())
    return QuickEstimate(density, by_size, a_pair, a_pair / usable_width_mm * 1000.0)
