"""Strips of a given number of pieces cut out of lattices and bands by the roll's edges."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from nesting.compaction.slp import Arrangement, Contacts
from nesting.lattice.densest import Lattice

Array = NDArray[np.float64]

TOUCHING_MM = 1e-9
"""A piece this far over an edge lies on it: what rounding may do."""

PRESSED = (0.2, 0.5, 1.0)
"""Shares of a row by which a lattice is cut wider than the roll, and then pressed between its edges."""


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
    for move in _moves(lattice, low, phases):
        p = at + move + (0.0, a0)
        fits = (p[:, 1] + low[pose, 1] >= a0 - TOUCHING_MM - overhang_mm) & (
            p[:, 1] + high[pose, 1] <= a1 + TOUCHING_MM + overhang_mm
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
    done: list[Arrangement] = []
    for reach, begin, p, q in best:
        xy = p - (begin, 0.0)
        if overhang_mm:
            xy[:, 1] = np.clip(xy[:, 1], a0 - low[q, 1], a1 - high[q, 1])
        done.append(Arrangement(q.astype(np.int64), xy, across_mm=across_mm, along_mm=(0.0, reach)))
    return done


def _moves(lattice: Lattice, low: Array, phases: int) -> Array:
    """Moves (n, 2) of a lattice that are tried: a grid over its cell, and those that bring a pose to
    lie exactly on the lower edge, because rows may just fit into the width."""
    u, v = np.asarray(lattice.u_mm), np.asarray(lattice.v_mm)
    share = np.arange(phases) / phases
    grid = share[:, None, None] * u + share[None, :, None] * v
    steep, flat = (u, v) if abs(u[1]) > abs(v[1]) else (v, u)
    lowest = lattice.at_mm[:, 1] + low[: len(lattice.at_mm), 1]
    up = -(lowest[None, :] + share[:, None] * flat[1]) / steep[1]
    on_edge = share[:, None, None] * flat + (up % 1.0)[:, :, None] * steep
    return np.concatenate([grid.reshape(-1, 2), on_edge.reshape(-1, 2)])
