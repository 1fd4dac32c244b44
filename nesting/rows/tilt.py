"""A granted angle used by dies as a whole: every copy leans alike, within what is allowed.

Leaning all pieces by one angle turns their lattice with them and leaves its density as it is. What
is won is the fit: a lattice that drifts towards an edge runs level, a row more goes into the width.
So the angles worth a try are those that lay a period of the lattice, or a long straight edge of the
piece, along the roll or straight across it, besides a few in between; the roll's edges decide.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from geometry.outline import rotation
from nesting.compaction.slp import Contacts
from nesting.dies.die import Die, Member
from nesting.dies.family import at_rank, families_of
from nesting.lattice.bands import levelled
from nesting.lattice.cuts import cuts
from nesting.lattice.densest import Lattice, searched
from nesting.problem import LayProblem
from nesting.stop import Stop

Array = NDArray[np.float64]

STEPS = (0.5, 1.0)
"""Shares of the granted angle that are tried to either side."""

REFINED = 2
"""Times the neighbourhood of the best angle is looked at again, each time half as wide."""

MOST_COUNTED = 60
"""Pieces of the strips that angles are compared by, at most."""

WORTH = 0.002
"""Share of length from which a lean pays: less is not told from the phases tried."""

LONG_EDGE = 0.3
"""An edge this long, as a share of the piece, is worth laying straight."""

STARTS = 600  # random cells tried: tilted rows rarely win, so fewer than for upright ones


def leaning(problem: LayProblem, dies: tuple[Die, ...], *, seed: int = 0, stop: Stop) -> tuple[Die, ...]:
    """Return the dies, each family leaning by the angle that suits the roll best; as they are where
    none is granted or none pays."""
    tolerance = {item.id: item.turn_tolerance_deg for item in problem.items}
    if not any(tolerance.values()):
        return dies
    across = (problem.edge_margin_mm, problem.roll.usable_width_mm - problem.edge_margin_mm)
    done = list(dies)
    for family in families_of(dies):
        granted = min(tolerance[m.item_id] for k in family.dies for m in dies[k].members)
        if granted <= 0.0 or stop():
            continue
        middle = dies[at_rank(dies, family, 0.5)]
        demand = sum(dies[k].demand for k in family.dies)
        rings = list(middle.rings_mm)
        lattices = searched(rings, problem.gap_mm, seed=seed, starts=STARTS, keep=6, stop=stop)
        lean = best_lean_deg(lattices, demand, across, granted, stop=stop)
        if lean:
            for k in family.dies:
                done[k] = tilted(dies[k], lean)
    return tuple(done)


def best_lean_deg(
    lattices: Sequence[Lattice], count: int, across_mm: tuple[float, float], granted_deg: float, *, stop: Stop
) -> float:
    """Return the angle, within ``granted_deg`` of 0, at which strips cut from the lattices, turned with
    their pieces, are shortest; 0 when none is shorter by ``WORTH``."""
    count = min(count, MOST_COUNTED)

    def length(lean: float) -> float:
        turned = [_turned(a, lean) for a in lattices]
        turned += [level for a in turned[:1] for level in _level(a, stop)]
        return min((_length_mm(a, count, across_mm) for a in turned), default=math.inf)

    straight = length(0.0)
    tried = {0.0: straight}
    steps = [sign * share * granted_deg for share in STEPS for sign in (1.0, -1.0)]
    for lean in [*levelling_deg(lattices, granted_deg), *steps]:
        if stop():
            break
        tried.setdefault(lean, length(lean))
    reach = STEPS[0] * granted_deg / 2.0
    for _ in range(REFINED):
        best = min(tried, key=lambda a: (tried[a], abs(a)))
        for lean in (best - reach, best + reach):
            if abs(lean) <= granted_deg and not stop():
                tried.setdefault(lean, length(lean))
        reach /= 2.0
    best = min(tried, key=lambda a: (tried[a], abs(a)))
    return best if tried[best] < straight * (1.0 - WORTH) or math.isinf(straight) else 0.0


def tilted(die: Die, lean_deg: float) -> Die:
    """Return the die with every pose turned by ``lean_deg`` more."""
    turn = rotation(lean_deg).T
    turned = [ring @ turn for ring in die.rings_mm]
    middle = [(ring.min(axis=0) + ring.max(axis=0)) / 2.0 for ring in turned]
    members = tuple(
        Member(
            m.item_id,
            m.demand,
            tuple((t + lean_deg) % 360.0 for t in m.turns_deg),
            tuple(_point(np.array(c) @ turn + b) for c, b in zip(m.centres_mm, middle, strict=True)),
        )
        for m in die.members
    )
    rings = [ring - b for ring, b in zip(turned, middle, strict=True)]
    if len(rings) == 2 and np.array_equal(die.rings_mm[1], -die.rings_mm[0]):
        rings[1] = -rings[0]  # half turns of each other, to the last digit
    return replace(die, rings_mm=tuple(rings), members=members)


def _point(xy: Array) -> tuple[float, float]:
    return float(xy[0]), float(xy[1])


def levelling_deg(lattices: Sequence[Lattice], granted_deg: float) -> list[float]:
    """Return the angles within ``granted_deg`` that bring a short period of a lattice, or a long edge of
    its first piece, along the roll or straight across it."""
    ways: list[Array] = []
    for a in lattices:
        ways += [m * a.u_mm + n * a.v_mm for m, n in ((1, 0), (0, 1), (1, 1), (1, -1))]
    for a in lattices[:1]:
        edges = np.roll(a.rings_mm[0], -1, axis=0) - a.rings_mm[0]
        length = np.hypot(*edges.T)
        ways += list(edges[length > LONG_EDGE * np.ptp(a.rings_mm[0], axis=0).max()])
    found: list[float] = []
    for x, y in ways:
        off = -((math.degrees(math.atan2(y, x)) + 45.0) % 90.0 - 45.0)
        if 0.0 < abs(off) <= granted_deg + 1e-9 and all(abs(off - f) > 1e-6 for f in found):
            found.append(max(-granted_deg, min(granted_deg, off)))
    return found


def _turned(a: Lattice, lean_deg: float) -> Lattice:
    turn = rotation(lean_deg).T
    rings = tuple(ring @ turn for ring in a.rings_mm)
    return Lattice(rings, a.at_mm @ turn, a.u_mm @ turn, a.v_mm @ turn, a.gap_mm, a.density)


def _level(a: Lattice, stop: Stop) -> list[Lattice]:
    """The lattice bent until a period runs along the roll, if it bends."""
    size = float(max(np.ptp(r[:, 0]) for r in a.rings_mm))
    bent = levelled(Contacts(a.rings_mm), a, longest_mm=3.2 * size, most=1, stop=stop)
    return [
        Lattice(
            a.rings_mm, b.at_mm, b.basis_mm[0], b.basis_mm[1], a.gap_mm, a.density * a.cell_mm2 / b.measure
        )
        for b in bent
    ]


def _length_mm(a: Lattice, count: int, across_mm: tuple[float, float]) -> float:
    """Length of the shortest strip cut from a lattice, infinite when none fits."""
    low, high = np.array([r.min(axis=0) for r in a.rings_mm]), np.array([r.max(axis=0) for r in a.rings_mm])
    if float((high - low)[:, 1].max()) > across_mm[1] - across_mm[0]:
        return math.inf
    found = cuts(a, low, high, count, across_mm, most=1, phases=12)
    return found[0].measure if found else math.inf
