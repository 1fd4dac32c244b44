"""Rows of one die on a roll of finite width, as a press cutter lays them.

A lattice is cut by the roll's edges at every phase, as found and bent level (its steps along the
roll then never drift towards an edge), and lattices made to measure (``fitted``) are pressed
between the edges; the shortest cuts are squeezed on the true outlines.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from geometry.outline import Outline
from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.errors import ProblemError
from nesting.lattice.bands import cut_to_width, levelled
from nesting.lattice.cuts import cuts, least_mm, pressed, repeated
from nesting.lattice.densest import Lattice, searched, straight
from nesting.lattice.fixed_count import fitted
from nesting.rows.tilt import best_lean_deg
from nesting.stop import Never, Share, Stop
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]

SQUEEZED = 8
"""Cuts that are squeezed, of those counted: the shortest before is not always the shortest after."""

MOST_SQUEEZED = 400
"""Pieces up to which whole strips are squeezed: the linear programs' time grows faster than they do."""

BENDING, FITTING = 0.4, 0.4
"""Shares of the time left that lattices are bent level in, and then made to measure in."""

NOTHING_MM = 0.5
"""A strip this close to the least there can be is not improved further."""


@dataclass(frozen=True, eq=False)
class RowsLayout:
    """A die's layout on a strip: what a press cutter sets his stops by.

    ``step_mm`` is the lattice vector that runs most nearly along the roll, ``row_mm`` the one to the
    next row across; ``twin_mm`` where the half turn lies from the piece (None without one). ``at_mm``
    (n, 2) are the places of the box centres, ``turned`` (n,) which of them hold the half turn.
    ``lattice_density`` is that of the unbounded plane (best found), ``density`` of this strip.
    ``lean_deg``: by how much every piece is turned, of what was granted. ``least_mm``: a length that no
    strip of them undercuts (area grown by half the gap).
    """

    step_mm: tuple[float, float]
    row_mm: tuple[float, float]
    twin_mm: tuple[float, float] | None
    at_mm: Array
    turned: NDArray[np.bool_]
    length_mm: float
    lattice_density: float
    density: float
    least_mm: float
    lean_deg: float = 0.0


def best_rows(
    outline: Outline,
    width_mm: float,
    gap_mm: float,
    count: int,
    *,
    edge_margin_mm: float = 0.0,
    one_way: bool = False,
    turn_tolerance_deg: float = 0.0,
    seed: int = 0,
    stop: Stop | None = None,
) -> RowsLayout:
    """Return the shortest strip found for ``count`` pieces as they lie, two-way unless ``one_way``.

    ``width_mm`` is the usable width. Within ``turn_tolerance_deg`` all pieces may lean by one angle
    where that is shorter. Raises ProblemError when the piece is wider than the roll.
    """
    stop = stop or Never()
    across = (edge_margin_mm, width_mm - edge_margin_mm)
    plain = _rows(outline, width_mm, gap_mm, count, across, one_way, 0.0, seed, stop)
    if not turn_tolerance_deg or stop():
        return _whole(plain)
    lattices = searched(_poses(outline, one_way), gap_mm, seed=seed, stop=stop)
    lean = best_lean_deg(lattices, count, across, turn_tolerance_deg, stop=stop)
    leaning = _rows(outline, width_mm, gap_mm, count, across, one_way, lean, seed, stop) if lean else None
    return _whole(min((r for r in (plain, leaning) if r), key=lambda r: r.length_mm, default=None))


def _whole(rows: RowsLayout | None) -> RowsLayout:
    if rows is None:
        raise ProblemError("the piece is wider than the roll", remedy="take a wider roll or turn the piece")
    return rows


def _poses(outline: Outline, one_way: bool) -> list[Array]:
    ring = np.asarray(outline.ring_mm)
    return [ring] if one_way else [ring, -ring]


def _rows(
    outline: Outline,
    width_mm: float,
    gap_mm: float,
    count: int,
    across: tuple[float, float],
    one_way: bool,
    lean_deg: float,
    seed: int,
    stop: Stop,
) -> RowsLayout | None:
    """The rows of pieces that lean by an angle, None when they are wider than the roll."""
    rings = _poses(outline.turned(lean_deg), one_way)
    if np.ptp(rings[0][:, 1]) > across[1] - across[0]:
        return None
    lattices = searched(rings, gap_mm, seed=seed, stop=stop)
    lattices += straight(rings, gap_mm, seed=seed, stop=stop)
    if not lattices:
        raise ProblemError("no lattice was found in the time", remedy="allow more time")
    contacts, found, lattice = best_strip(lattices, count, across, seed=seed, stop=stop)
    u, v = lattice.u_mm, lattice.v_mm
    step, row = sorted((u, v), key=lambda w: abs(w[1]) / (abs(w[0]) + 1e-12))
    step = step if step[0] >= 0 else -step
    row = row if row[1] >= 0 else -row
    twin = lattice.at_mm[1] - lattice.at_mm[0] if len(lattice.at_mm) > 1 else None
    return RowsLayout(
        step_mm=(float(step[0]), float(step[1])),
        row_mm=(float(row[0]), float(row[1])),
        twin_mm=None if twin is None else (float(twin[0]), float(twin[1])),
        at_mm=found.at_mm,
        turned=found.pose == 1,
        length_mm=found.measure,
        lattice_density=max(found_one.density for found_one in lattices),
        density=count * outline.area_mm2 / (width_mm * found.measure),
        least_mm=least_mm(contacts, count, across, gap_mm),
        lean_deg=lean_deg,
    )


def best_strip(
    lattices: list[Lattice],
    count: int,
    across_mm: tuple[float, float],
    *,
    seed: int = 0,
    rough: bool = False,
    stop: Stop | None = None,
) -> tuple[Contacts, Arrangement, Lattice]:
    """Return the shortest strip of ``count`` pieces cut from any of the lattices, and that lattice.

    ``rough``: cut from them as they are, at once. Raises ProblemError when none fits into the width.
    """
    stop = stop or Never()
    contacts = Contacts(lattices[0].rings_mm)
    gap = lattices[0].gap_mm
    tries: list[tuple[Arrangement, Lattice]] = []
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
                tries.append((repeated(contacts, band, count), way))
        for way in ways:
            tries += [(a, way) for a in cuts(way, contacts.low, contacts.high, count, across_mm, most=2)]
        if stop():
            break
    if not tries:
        raise ProblemError("the piece is wider than the roll", remedy="take a wider roll or turn the piece")
    tries.sort(key=lambda t: t[0].measure)
    best, of = tries[0]
    if (
        rough
        or count > MOST_SQUEEZED
        or best.measure <= least_mm(contacts, count, across_mm, gap) + NOTHING_MM
    ):
        return contacts, best, of
    searching = Share(stop, FITTING * stop.left_s) if timed else stop
    for way in fitted(lattices[0].rings_mm, count, across_mm, gap, seed=seed, stop=searching):
        tries += [(a, way) for a in pressed(way, contacts, count, across_mm)]
    tries.sort(key=lambda t: t[0].measure)
    trust = 0.03 * float((contacts.high - contacts.low).max())
    for start, way in tries[:SQUEEZED]:
        if stop():
            break
        done = tighten(contacts, start, gap + SPARE_MM, trust_mm=trust, steps=12, least_gain=1e-5, stop=stop)
        if done is None or shortfall(contacts, done, gap) > SPARE_MM / 2:
            continue
        if done.measure < best.measure:
            best, of = done, way
    return contacts, best, of
