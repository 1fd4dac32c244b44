"""Lattices cut to the width of the roll: bands that repeat along it without a seam.

A band is a strip between the roll's edges that closes on itself after one period. It starts as a
lattice turned by a small shear until one of its vectors runs along the roll, with as many rows
as the width takes (or one more, pressed together); then everything is squeezed at once.
"""

from __future__ import annotations

import itertools

import numpy as np

from geometry.outline import ring_area_mm2
from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.lattice.densest import Lattice
from nesting.stop import Never, Stop
from nesting.tolerances import SPARE_MM

MOST_TILT = 0.3
"""A lattice vector steeper than this is not bent level: other vectors of the lattice are."""


BEND = 0.1
"""By this share of the period the ends of a column that is to be pressed shorter are set aside."""


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
    found: list[Arrangement] = []
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
        done = tighten(
            contacts, start, lattice.gap_mm + SPARE_MM, trust_mm=0.03 * w[0], steps=25, least_gain=1e-5
        )
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
    stop: Stop | None = None,
) -> list[Arrangement]:
    """Return cylinders cut from a level lattice between two edges, densest first.

    Every phase of the lattice across the width is tried, as it fits and hanging over the edges by
    up to a hundredth of the width, which the squeeze then presses in; the ``most`` most promising
    are squeezed on the true outlines.
    """
    stop = stop or Never()
    period, row = float(level.basis_mm[0, 0]), level.basis_mm[1]
    low, high = across_mm
    poses = level.pose
    area = np.array([abs(ring_area_mm2(contacts.rings[p])) for p in poses])
    bottom, top = contacts.low[poses, 1], contacts.high[poses, 1]
    pitch = row[1]
    trials: dict[tuple[tuple[int, int], ...], tuple[float, float, float]] = {}
    for share in (0.0, 0.002, 0.005, 0.01):
        hang = share * (high - low)
        for phase in np.arange(0.0, 1.0, 1 / 48):
            base = low + phase * pitch + level.at_mm[:, 1]
            first = np.ceil((low - hang - bottom - base) / pitch - 1e-9).astype(int)
            last = np.floor((high + hang - top - base) / pitch + 1e-9).astype(int)
            count = np.maximum(0, last - first + 1)
            if not count.any():
                continue
            key = tuple(zip((first - first.min()).tolist(), count.tolist(), strict=True))
            estimate = float((area * count).sum()) * (1.0 - 2.0 * share)
            if key not in trials or estimate > trials[key][0] + 1e-9:
                trials[key] = (estimate, hang, phase)
    found: list[Arrangement] = []
    for _, hang, phase in sorted(trials.values(), key=lambda t: -t[0])[:most]:
        if stop() and found:
            break
        pose, at = [], []
        for k, p in enumerate(poses):
            base = low + phase * pitch + level.at_mm[k, 1]
            first = int(np.ceil((low - hang - bottom[k] - base) / pitch - 1e-9))
            last = int(np.floor((high + hang - top[k] - base) / pitch + 1e-9))
            for r in range(first, last + 1):
                pose.append(int(p))
                at.append((level.at_mm[k, 0] + r * row[0], base + r * pitch))
        xy = np.array(at)
        if hang > 0.0:  # straight columns do not buckle by themselves: bend them a little
            middle = (low + high) / 2.0
            xy[:, 0] += BEND * period * np.abs(xy[:, 1] - middle) / (high - middle)
        xy[:, 0] %= period
        start = Arrangement(np.array(pose), xy, np.array([[period, 0.0]]), across_mm=across_mm)
        done = tighten(
            contacts, start, gap_mm + SPARE_MM, trust_mm=0.03 * period, steps=30, least_gain=1e-5, stop=stop
        )
        if done is not None and shortfall(contacts, done, gap_mm) < SPARE_MM / 2:
            found.append(done)
    found.sort(key=lambda a: -cylinder_area(contacts, a) / a.measure)
    return found


def cylinder_area(contacts: Contacts, a: Arrangement) -> float:
    """Net area of the pieces of an arrangement."""
    return float(sum(abs(ring_area_mm2(contacts.rings[p])) for p in a.pose))
