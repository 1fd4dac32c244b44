"""Lattices cut to the width of the roll: bands that repeat along it without a seam.

A band is a strip between the roll's edges that closes on itself after one period. It starts as a
lattice turned by a small shear until one of its vectors runs along the roll, with as many rows
as the width takes (or one more, pressed together); then everything is squeezed at once.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from geometry.outline import ring_area_mm2
from nesting.lattice import Lattice
from nesting.stop import Never, Stop
from nesting.tighten import Arrangement, Contacts, shortfall, tighten
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]

MOST_TILT = 0.3
"""A lattice vector steeper than this is not bent level: other vectors of the lattice are."""


@dataclass(frozen=True, eq=False)
class Band:
    """Pieces between the roll's edges, repeating every ``period_mm``: ``pose`` (n,) into
    ``rings_mm`` (about their box centres), ``at_mm`` (n, 2)."""

    rings_mm: tuple[Array, ...]
    pose: NDArray[np.int64]
    at_mm: Array
    period_mm: float
    width_mm: float
    density: float


def levelled(
    contacts: Contacts, lattice: Lattice, *, longest_mm: float, most: int = 6, stop: Stop | None = None
) -> list[Arrangement]:
    """Return lattices near ``lattice`` whose first vector runs along x, densest first."""
    stop = stop or Never()
    u, v = np.asarray(lattice.u_mm), np.asarray(lattice.v_mm)
    shortest = 0.3 * min(float(np.ptp(r[:, 0])) for r in lattice.rings_mm)
    ways = []
    for m, n in itertools.product(range(-4, 5), repeat=2):
        if np.gcd(m, n) != 1:
            continue
        w = m * u + n * v
        if w[0] < shortest or w[0] > longest_mm or abs(w[1]) > MOST_TILT * w[0]:
            continue
        # complement (p, q) with m q - n p = 1
        p, q = next((p, q) for p in range(-5, 6) for q in range(-5, 6) if m * q - n * p == 1)
        ways.append((abs(w[1]) / w[0] + w[0] / longest_mm * 0.1, w, p * u + q * v))
    ways.sort(key=lambda way: way[0])
    found = []
    n_poses = len(lattice.rings_mm)
    for _, w, z in ways[:most]:
        if stop() and found:
            break
        tilt = w[1] / w[0]
        shear = np.array([[1.0, -tilt], [0.0, 1.0]])  # row vectors: y -= tilt x
        z2 = z @ shear
        z2 = z2 - np.round(z2[0] / w[0]) * np.array([w[0], 0.0])
        if z2[1] < 0:
            z2 = -z2
        at = lattice.at_mm @ shear
        at = at - at[0]
        start = Arrangement(np.arange(n_poses), at, np.array([[w[0], 0.0], z2]))
        done = tighten(contacts, start, lattice.gap_mm + SPARE_MM, trust_mm=0.03 * w[0], steps=25, least_gain=1e-5)
        if done is None or done.basis_mm[1, 1] <= 1.0:
            continue
        if shortfall(contacts, done, lattice.gap_mm) > SPARE_MM / 2:
            continue
        if all(abs(done.measure - f.measure) > 1e-4 * f.measure for f in found):
            found.append(done)
    found.sort(key=lambda a: a.measure)
    return found


def cut_to_width(
    contacts: Contacts,
    level: Arrangement,
    gap_mm: float,
    across_mm: tuple[float, float],
    *,
    most: int = 4,
    least_squeeze: float = 0.95,
    stop: Stop | None = None,
) -> list[Arrangement]:
    """Return cylinders cut from a level lattice between two edges, densest first.

    Every phase of the lattice across the width is tried, as it is and pressed together across
    by up to ``1 - least_squeeze``; the most promising ``most`` are squeezed on the true outlines.
    """
    stop = stop or Never()
    period, row = float(level.basis_mm[0, 0]), level.basis_mm[1]
    low, high = across_mm
    poses = level.pose
    area = np.array([abs(ring_area_mm2(contacts.rings[p])) for p in poses])
    bottom, top = contacts.low[poses, 1], contacts.high[poses, 1]
    trials: dict[tuple[tuple[int, int], ...], tuple[float, float, float]] = {}
    for f in np.arange(1.0, least_squeeze - 1e-9, -0.005):
        pitch = row[1] * f
        for phase in np.arange(0.0, 1.0, 1 / 48):
            base = low + phase * pitch + f * level.at_mm[:, 1]
            first = np.ceil((low - bottom - base) / pitch - 1e-9).astype(int)
            last = np.floor((high - top - base) / pitch + 1e-9).astype(int)
            count = np.maximum(0, last - first + 1)
            if not count.any():
                continue
            key = tuple(zip((first - first.min()).tolist(), count.tolist(), strict=True))
            estimate = float((area * count).sum()) * f
            if key not in trials or estimate > trials[key][0] + 1e-9:
                trials[key] = (estimate, f, phase)
    found = []
    for _, f, phase in sorted(trials.values(), key=lambda t: -t[0])[:most]:
        if stop() and found:
            break
        pitch = row[1] * f
        pose, at = [], []
        for k, p in enumerate(poses):
            base = low + phase * pitch + f * level.at_mm[k, 1]
            first = int(np.ceil((low - bottom[k] - base) / pitch - 1e-9))
            last = int(np.floor((high - top[k] - base) / pitch + 1e-9))
            for r in range(first, last + 1):
                pose.append(int(p))
                at.append((level.at_mm[k, 0] + r * row[0], base + r * pitch))
        xy = np.array(at)
        xy[:, 0] %= period
        start = Arrangement(
            np.array(pose), xy, np.array([[period, 0.0]]), across_mm=across_mm
        )
        done = tighten(contacts, start, gap_mm + SPARE_MM, trust_mm=0.04 * period, steps=30, least_gain=1e-5)
        if done is not None and shortfall(contacts, done, gap_mm) < SPARE_MM / 2:
            found.append(done)
    found.sort(key=lambda a: -cylinder_area(contacts, a) / a.measure)
    return found


def cylinder_area(contacts: Contacts, a: Arrangement) -> float:
    """Net area of the pieces of an arrangement."""
    return float(sum(abs(ring_area_mm2(contacts.rings[p])) for p in a.pose))


def bands(
    lattice: Lattice,
    across_mm: tuple[float, float],
    width_mm: float,
    *,
    longest_mm: float | None = None,
    levels: int = 4,
    each: int = 4,
    stop: Stop | None = None,
) -> list[Band]:
    """Return bands made of ``lattice`` between ``across_mm`` on a roll ``width_mm`` wide, densest first."""
    contacts = Contacts(lattice.rings_mm)
    size = float(max(np.ptp(r[:, 0]) for r in lattice.rings_mm))
    found: list[Band] = []
    for level in levelled(contacts, lattice, longest_mm=longest_mm or 3.2 * size, most=levels, stop=stop):
        for a in cut_to_width(contacts, level, lattice.gap_mm, across_mm, most=each, stop=stop):
            net = cylinder_area(contacts, a)
            found.append(
                Band(lattice.rings_mm, a.pose, a.at_mm, a.measure, width_mm, net / (width_mm * a.measure))
            )
    found.sort(key=lambda b: -b.density)
    return found
