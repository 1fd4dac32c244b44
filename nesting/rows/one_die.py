"""Rows of one die on a roll of finite width, as a press cutter lays them.

A lattice is cut by the roll's edges at every phase, as found and bent level (its steps along the
roll then never drift towards an edge), and lattices made to measure (``fixed_count``) are pressed
between the edges; the shortest cuts are squeezed on the true outlines.
"""

from __future__ import annotations

import math

import numpy as np

from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.errors import ProblemError
from nesting.lattice.bands import cut_to_width, levelled
from nesting.lattice.cuts import cuts, least_mm, pressed, repeated
from nesting.lattice.densest import Lattice
from nesting.lattice.fixed_count import fitted
from nesting.stop import Never, Share, Stop
from nesting.tolerances import SPARE_MM

SQUEEZED = 8
"""Cuts that are squeezed, of those counted: the shortest before is not always the shortest after."""

MOST_SQUEEZED = 400
"""Pieces up to which whole strips are squeezed: the linear programs' time grows faster than they do."""

BENDING, FITTING = 0.4, 0.4
"""Shares of the time left that lattices are bent level in, and then made to measure in."""

NOTHING_MM = 0.5
"""A strip this close to the least there can be is not improved further."""


def best_strip(
    lattices: list[Lattice],
    count: int,
    across_mm: tuple[float, float],
    *,
    seed: int = 0,
    rough: bool = False,
    stop: Stop | None = None,
) -> Arrangement:
    """Return the shortest strip of ``count`` pieces cut from any of the lattices.

    ``rough``: cut from them as they are, at once. Raises ProblemError when none fits into the width.
    """
    stop = stop or Never()
    contacts = Contacts(lattices[0].rings_mm)
    gap = lattices[0].gap_mm
    tries: list[Arrangement] = []
    timed = math.isfinite(stop.left_s)
    bending = Share(stop, BENDING * stop.left_s) if timed else stop
    for lattice in lattices:
        ways = [lattice]
        size = float(max(np.ptp(r[:, 0]) for r in lattice.rings_mm))
        bent = (
            []
            if rough or (tries and bending())
            else levelled(contacts, lattice, longest_mm=3.2 * size, most=3, stop=bending)
        )
        for level in bent:
            density = lattice.density * lattice.cell_mm2 / level.measure
            u, v = level.basis_mm
            way = Lattice(lattice.rings_mm, level.at_mm, u, v, lattice.gap_mm, density)
            ways.append(way)
            for band in cut_to_width(contacts, level, lattice.gap_mm, across_mm, most=2, stop=bending):
                tries.append(repeated(contacts, band, count))
        for way in ways:
            tries += cuts(way, contacts.low, contacts.high, count, across_mm, most=2)
        if stop():
            break
    if not tries:
        raise ProblemError("the piece is wider than the roll", remedy="take a wider roll or turn the piece")
    tries.sort(key=lambda t: t.measure)
    best = tries[0]
    if (
        rough
        or count > MOST_SQUEEZED
        or best.measure <= least_mm(contacts, count, across_mm, gap) + NOTHING_MM
    ):
        return best
    searching = Share(stop, FITTING * stop.left_s) if timed else stop
    for way in fitted(lattices[0].rings_mm, count, across_mm, gap, seed=seed, stop=searching):
        tries += pressed(way, contacts, count, across_mm)
    tries.sort(key=lambda t: t.measure)
    trust = 0.03 * float((contacts.high - contacts.low).max())
    for start in tries[:SQUEEZED]:
        if stop():
            break
        done = tighten(contacts, start, gap + SPARE_MM, trust_mm=trust, steps=12, least_gain=1e-5, stop=stop)
        if done is None or shortfall(contacts, done, gap) > SPARE_MM / 2:
            continue
        if done.measure < best.measure:
            best = done
    return best
