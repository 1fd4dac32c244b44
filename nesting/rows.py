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
from shapely.geometry import Polygon

from geometry.outline import Outline
from nesting.bands import cut_to_width, levelled
from nesting.errors import ProblemError
from nesting.fitted import fitted
from nesting.lattice import Lattice, searched, straight
from nesting.stop import Never, Share, Stop
from nesting.tighten import Arrangement, Contacts, shortfall, tighten
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]

SQUEEZED = 8
"""Cuts that are squeezed, of those counted: the shortest before is not always the shortest after."""

MOST_SQUEEZED = 400
"""Pieces up to which whole strips are squeezed: the linear programs' time grows faster than they do."""

FITTING = 0.3
"""Share of the time left that lattices made to measure are searched for."""

NOTHING_MM = 0.5
"""A strip this close to the least there can be is not improved further."""

PRESSED = (0.2, 0.5, 1.0)
"""Shares of a row by which a lattice is cut wider than the roll, and then pressed between its edges."""


@dataclass(frozen=True, eq=False)
class RowsLayout:
    """A die's layout on a strip: what a press cutter sets his stops by.

    ``step_mm`` is the lattice vector that runs most nearly along the roll, ``row_mm`` the one to the
    next row across; ``twin_mm`` where the half turn lies from the piece (None without one). ``at_mm`` (n, 2) are
    the places of the box centres, ``turned`` (n,) which of them hold the half turn.
    ``lattice_density`` is that of the unbounded plane (best found), ``density`` of this strip.
    """

    step_mm: tuple[float, float]
    row_mm: tuple[float, float]
    twin_mm: tuple[float, float] | None
    at_mm: Array
    turned: NDArray[np.bool_]
    length_mm: float
    lattice_density: float
    density: float


def best_rows(
    outline: Outline,
    width_mm: float,
    gap_mm: float,
    count: int,
    *,
    edge_margin_mm: float = 0.0,
    one_way: bool = False,
    seed: int = 0,
    stop: Stop | None = None,
) -> RowsLayout:
    """Return the shortest strip found for ``count`` pieces as they lie, two-way unless ``one_way``.

    ``width_mm`` is the usable width. Raises ProblemError when the piece is wider than the roll.
    """
    ring = np.asarray(outline.ring_mm)
    rings = [ring] if one_way else [ring, -ring]
    across = (edge_margin_mm, width_mm - edge_margin_mm)
    if np.ptp(ring[:, 1]) > across[1] - across[0]:
        raise ProblemError("the piece is wider than the roll", remedy="take a wider roll or turn the piece")
    lattices = searched(rings, gap_mm, seed=seed, stop=stop)
    lattices += straight(rings, gap_mm, seed=seed, stop=stop)
    if not lattices:
        raise ProblemError("no lattice was found in the time", remedy="allow more time")
    _, found, lattice = best_strip(lattices, count, across, seed=seed, stop=stop)
    u, v = lattice.u_mm, lattice.v_mm
    step, row = sorted((u, v), key=lambda w: abs(w[1]) / (abs(w[0]) + 1e-12))
    step = step if step[0] >= 0 else -step
    row = row if row[1] >= 0 else -row
    return RowsLayout(
        (float(step[0]), float(step[1])),
        (float(row[0]), float(row[1])),
        None if len(lattice.at_mm) == 1 else tuple(float(c) for c in lattice.at_mm[1] - lattice.at_mm[0]),  # type: ignore[arg-type]
        found.at_mm,
        found.pose == 1,
        found.measure,
        max(found_one.density for found_one in lattices),
        count * outline.area_mm2 / (width_mm * found.measure),
    )


def best_strip(
    lattices: list[Lattice],
    count: int,
    across_mm: tuple[float, float],
    *,
    seed: int = 0,
    stop: Stop | None = None,
) -> tuple[Contacts, Arrangement, Lattice]:
    """Return the shortest strip of ``count`` pieces cut from any of the lattices, and that lattice."""
    stop = stop or Never()
    contacts = Contacts(lattices[0].rings_mm)
    gap = lattices[0].gap_mm
    tries: list[tuple[Arrangement, Lattice]] = []
    for lattice in lattices:
        ways = [lattice]
        size = float(max(np.ptp(r[:, 0]) for r in lattice.rings_mm))
        for level in levelled(contacts, lattice, longest_mm=3.2 * size, most=3, stop=stop):
            density = lattice.density * lattice.cell_mm2 / level.measure
            u, v = level.basis_mm
            way = Lattice(lattice.rings_mm, level.at_mm, u, v, lattice.gap_mm, density)
            ways.append(way)
            for band in cut_to_width(contacts, level, lattice.gap_mm, across_mm, most=2, stop=stop):
                tries.append((repeated(contacts, band, count), way))
        for way in ways:
            tries += [(a, way) for a in cuts(way, contacts.low, contacts.high, count, across_mm, most=2)]
        if stop():
            break
    if not tries:
        raise ProblemError("the piece is wider than the roll", remedy="take a wider roll or turn the piece")
    tries.sort(key=lambda t: t[0].measure)
    best, of = tries[0]
    if count > MOST_SQUEEZED or best.measure <= least_mm(contacts, count, across_mm, gap) + NOTHING_MM:
        return contacts, best, of
    searching = Share(stop, FITTING * stop.left_s) if math.isfinite(stop.left_s) else stop
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


def least_mm(contacts: Contacts, count: int, across_mm: tuple[float, float], gap_mm: float) -> float:
    """Return a length that no strip undercuts: area grown by half the gap, over the width."""
    grown = min(Polygon(r).buffer(gap_mm / 2.0, quad_segs=4).area for r in contacts.rings)
    return count * grown / (across_mm[1] - across_mm[0] + gap_mm) - gap_mm


def pressed(
    lattice: Lattice, contacts: Contacts, count: int, across_mm: tuple[float, float]
) -> list[Arrangement]:
    """Return strips cut from a lattice for a somewhat wider roll and pressed between the edges.

    Their pieces overlap a little, until they are squeezed. ``lattice`` holds the first pose or all.
    """
    low, high = contacts.low, contacts.high
    tall = float((high - low)[:, 1].max())
    width = across_mm[1] - across_mm[0]
    row = lattice.cell_mm2 / len(lattice.rings_mm) / float((high - low)[:, 0].max())
    found = []
    for share in (0.0, *PRESSED):
        wider = (across_mm[0], across_mm[1] + share * row)
        for a in cuts(lattice, low, high, count, wider, most=1, phases=16):
            at = a.at_mm.copy()
            bottom = across_mm[0] + tall / 2.0
            at[:, 1] = bottom + (at[:, 1] - bottom) * (width - tall) / (width + share * row - tall)
            found.append(Arrangement(a.pose, at, across_mm=across_mm, along_mm=a.along_mm))
    return found


def repeated(contacts: Contacts, band: Arrangement, count: int) -> Arrangement:
    """Return the shortest strip of ``count`` pieces out of a band that repeats."""
    period = float(band.basis_mm[0, 0])
    times = count // len(band.pose) + 3
    pose = np.tile(band.pose, times)
    at = np.concatenate([band.at_mm + (k * period, 0.0) for k in range(times)])
    left, right = at[:, 0] + contacts.low[pose, 0], at[:, 0] + contacts.high[pose, 0]
    best, use = np.inf, np.arange(0)
    for start in np.unique(np.round(left[left < period], 6)):
        chosen = np.flatnonzero(left >= start - 1e-6)
        chosen = chosen[np.argsort(right[chosen], kind="stable")[:count]]
        reach = float(right[chosen].max() - left[chosen].min())
        if len(chosen) == count and reach < best:
            best, use = reach, chosen
    xy = at[use] - (left[use].min(), 0.0)
    return Arrangement(pose[use], xy, across_mm=band.across_mm, along_mm=(0.0, best))


def cuts(
    lattice: Lattice,
    low: Array,
    high: Array,
    count: int,
    across_mm: tuple[float, float],
    *,
    most: int = 6,
    phases: int = 24,
    overhang_mm: float = 0.0,
) -> list[Arrangement]:
    """Return strips of ``count`` pieces cut from a lattice by the roll's edges, shortest first.

    ``low`` and ``high`` (poses, 2) are the boxes of the lattice's rings. Every phase of the lattice
    along and across is tried; the ``most`` shortest of different make-up are kept. With an
    overhang, pieces that reach that far beyond an edge are kept and pushed in (they then overlap).
    """
    u, v = np.asarray(lattice.u_mm), np.asarray(lattice.v_mm)
    a0, a1 = across_mm
    width = a1 - a0
    cell = lattice.cell_mm2 / len(lattice.rings_mm)
    length = 1.6 * count * cell / width + 3.0 * float((high - low)[:, 0].max())
    # all copies that may meet the field
    corners = np.array([[x, y] for x in (-length * 0.3, length * 1.1) for y in (-width * 0.3, width * 1.3)])
    basis = np.array([u, v])
    ij = corners @ np.linalg.inv(basis)
    i = np.arange(int(ij[:, 0].min()) - 1, int(ij[:, 0].max()) + 2)
    j = np.arange(int(ij[:, 1].min()) - 1, int(ij[:, 1].max()) + 2)
    grid = np.stack(np.meshgrid(i, j, indexing="ij"), axis=-1).reshape(-1, 2) @ basis
    pose = np.repeat(np.arange(len(lattice.rings_mm)), len(grid))
    at = np.concatenate([grid + t for t in lattice.at_mm])
    found: dict[tuple[float, ...], tuple[float, float, Array, NDArray[np.int64]]] = {}
    for fi in np.arange(phases) / phases:
        for fj in np.arange(phases) / phases:
            p = at + fi * u + fj * v + (0.0, a0)
            fits = (p[:, 1] + low[pose, 1] >= a0 - overhang_mm) & (
                p[:, 1] + high[pose, 1] <= a1 + overhang_mm
            )
            left = p[:, 0] + low[pose, 0]
            fits &= left >= 0.0
            chosen = np.flatnonzero(fits)
            if len(chosen) < count:
                continue
            right = p[chosen, 0] + high[pose[chosen], 0]
            part = np.argpartition(right, count - 1)[:count]
            use = chosen[part]
            begin = float(left[use].min())
            reach = float(right[part].max()) - begin
            key = (round(reach, 1),)
            if key not in found or reach < found[key][0]:
                found[key] = (reach, begin, p[use], pose[use])
    best = sorted(found.values(), key=lambda f: f[0])[:most]
    done = []
    for reach, begin, p, q in best:
        xy = p - (begin, 0.0)
        if overhang_mm:
            xy[:, 1] = np.clip(xy[:, 1], a0 - low[q, 1], a1 - high[q, 1])
        done.append(Arrangement(q.astype(np.int64), xy, across_mm=across_mm, along_mm=(0.0, reach)))
    return done
