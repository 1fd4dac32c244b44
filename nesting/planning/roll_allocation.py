"""Which roll each ply of a plan is spread from, and what is left of the rolls.

Flaws cut a roll into stretches; a ply is never spread across a flaw. Plies that make pairs
together (face to face) come from the same stretch, so that shade and lot agree within a pair;
face up every ply holds whole pairs by itself.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_matrix

from geometry.said import said
from nesting.defaults import ALLOCATION_SECONDS, REMNANT_FROM_M
from nesting.errors import PlanError


@dataclass(frozen=True)
class StockRoll:
    """A roll in stock; ``flaws_m`` are stretches (from, to) of its length to be cut out.

    ``cloth`` names what is on it, '' where there is only one cloth to ask about.
    """

    id: str
    length_m: float
    lot: str = ""
    flaws_m: tuple[tuple[float, float], ...] = ()
    cloth: str = ""


@dataclass(frozen=True)
class Spread:
    """A lay to be spread: this many plies of ``ply_m`` metres each, end loss included.

    ``step`` plies belong together (2 face to face).
    """

    lay: str
    ply_m: float
    plies: int
    step: int = 1


@dataclass(frozen=True)
class RollUse:
    """What a stretch of a roll gives: plies by lay; ``left_m`` remains."""

    roll: str
    lot: str
    from_m: float
    length_m: float
    plies: dict[str, int]
    left_m: float

    @property
    def used_m(self) -> float:
        """Metres spread from it."""
        return self.length_m - self.left_m


@dataclass(frozen=True)
class Allocation:
    """Where all plies come from; ``remnants`` are worth keeping, ``waste_m`` is not."""

    uses: tuple[RollUse, ...]
    remnants: tuple[RollUse, ...]
    waste_m: float
    flaw_m: float


def stretches(roll: StockRoll) -> list[tuple[float, float]]:
    """Return the stretches (from, length) of a roll between its flaws, in metres.

    Raises PlanError when a flaw lies outside the roll or runs backwards.
    """
    parts: list[tuple[float, float]] = []
    at = 0.0
    for start, end in sorted(roll.flaws_m):
        if not 0.0 <= start <= end <= roll.length_m:
            raise PlanError(
                said(
                    "roll {0}: flaw from {1} m to {2} m is not on its {3} m",
                    roll.id,
                    start,
                    end,
                    roll.length_m,
                ),
                remedy="measure the flaw again from the roll's start",
            )
        if start > at:
            parts.append((at, start - at))
        at = max(at, end)
    if at < roll.length_m:
        parts.append((at, roll.length_m - at))
    return parts


def allocate(
    spreads: tuple[Spread, ...],
    rolls: tuple[StockRoll, ...],
    *,
    keep_m: float = REMNANT_FROM_M.value,
    seconds: float = ALLOCATION_SECONDS.value,
) -> Allocation:
    """Return an allocation with the least waste, then the fewest stretches opened.

    Remnants of ``keep_m`` and more are worth keeping and no waste. An integer program: plies of
    each lay from each stretch; what is left is waste unless it is kept. Raises PlanError, with
    the metres missing, when the rolls do not suffice.
    """
    parts = [(roll, start, length) for roll in rolls for start, length in stretches(roll)]
    need_m = sum(s.ply_m * s.plies for s in spreads)
    have_m = sum(length for _, _, length in parts)
    longest = max((length for *_, length in parts), default=0.0)
    for spread in spreads:
        if spread.ply_m * spread.step > longest:
            raise PlanError(
                said(
                    "lay {0} takes {1} m at once, the longest stretch without a flaw is {2} m",
                    spread.lay,
                    f"{spread.ply_m * spread.step:.2f}",
                    f"{longest:.2f}",
                ),
                remedy="get a longer roll or plan shorter lays",
            )
    if need_m > have_m + 1e-9:
        raise PlanError(
            said(
                "the plan takes {0} m, the rolls hold {1} m: {2} m short",
                f"{need_m:.2f}",
                f"{have_m:.2f}",
                f"{need_m - have_m:.2f}",
            ),
            remedy="get more cloth",
        )
    counts = _solve(spreads, parts, keep_m, seconds)
    if counts is None:
        raise PlanError(
            said(
                "the rolls hold {0} m for {1} m, but cut into plies they are not enough",
                f"{have_m:.2f}",
                f"{need_m:.2f}",
            ),
            remedy="bring one more roll",
        )
    uses: list[RollUse] = []
    for part, (roll, start, length) in enumerate(parts):
        plies = {s.lay: int(counts[j, part]) * s.step for j, s in enumerate(spreads) if counts[j, part]}
        if plies:
            used = sum(s.ply_m * plies.get(s.lay, 0) for s in spreads)
            uses.append(RollUse(roll.id, roll.lot, start, length, plies, length - used))
    kept = tuple(use for use in uses if use.left_m >= keep_m - 1e-9)
    return Allocation(
        uses=tuple(uses),
        remnants=kept,
        waste_m=sum(use.left_m for use in uses if use not in kept),
        flaw_m=sum(roll.length_m - sum(length for _, length in stretches(roll)) for roll in rolls),
    )


def _solve(
    spreads: tuple[Spread, ...],
    parts: list[tuple[StockRoll, float, float]],
    keep_m: float,
    seconds: float,
) -> np.ndarray | None:
    """Return groups of plies [lay, stretch], None when there is no allocation.

    Unknowns: groups x[lay, part], used u[part], kept k[part], waste w[part] in metres.
    """
    lays, number = len(spreads), len(parts)
    x = np.arange(lays * number).reshape(lays, number)
    u, k, w = (lays * number + np.arange(3 * number)).reshape(3, number)
    size = lays * number + 3 * number
    cost = np.zeros(size)
    cost[w] = 1.0
    cost[u] = 1e-3
    upper = np.full(size, np.inf)
    upper[u] = upper[k] = 1.0
    rows = lil_matrix((lays + 3 * number, size))
    low = np.full(lays + 3 * number, -np.inf)
    high = np.full(lays + 3 * number, np.inf)
    for j, spread in enumerate(spreads):
        rows[j, x[j]] = 1.0
        low[j] = high[j] = -(-spread.plies // spread.step)
    for p, (_, _, length) in enumerate(parts):
        taken = {x[j, p]: s.ply_m * s.step for j, s in enumerate(spreads)}
        fits, keeps, wastes = lays + p, lays + number + p, lays + 2 * number + p
        for column, metres in taken.items():
            rows[fits, column] = metres
            rows[keeps, column] = metres
            rows[wastes, column] = metres
        rows[fits, u[p]] = -length  # taken <= length * used
        high[fits] = 0.0
        rows[keeps, k[p]] = keep_m  # kept only if keep_m is left: taken + keep_m k <= length
        high[keeps] = max(length, 0.0)
        rows[wastes, w[p]] = 1.0  # taken + waste + length k >= length u
        rows[wastes, k[p]] = length
        rows[wastes, u[p]] = -length
        low[wastes] = 0.0
    integral = np.ones(size)
    integral[w] = 0
    result = milp(
        cost,
        integrality=integral,
        bounds=Bounds(np.zeros(size), upper),
        constraints=LinearConstraint(rows.tocsr(), low, high),
        options={"time_limit": seconds},
    )
    if result.x is None:
        return None
    return np.round(result.x[: lays * number]).astype(int).reshape(lays, number)
