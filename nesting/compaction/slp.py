"""Squeeze an arrangement of pieces, periodic or not, to a local optimum on the true outlines.

Sequential linear programming: about the present offsets every near pair gets the half-planes that
keep it apart (``contact.free_space``), and one linear program moves all pieces and the periods at
once inside a small box. What it returns keeps the gap by construction, because the half-planes
cut out only free space; a start that overlaps a little is pulled apart first, at a price.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numba import njit
from numpy.typing import NDArray
from shapely import Polygon

from nesting.compaction.program import Rows, least
from nesting.contact.meeting import may_meet
from nesting.contact.touch import clearance, convolution, half_planes, ways_out, without_doubles
from nesting.stop import Stop

Array = NDArray[np.float64]

MOST_WAYS, BEYOND_MM = 30, 1e-6
"""So many ways out of an overlap are tried, each so far beyond where the two touch (of 220 overlaps the third
at the latest was free, measured on 90 to 112 pieces of three orders); ..."""

TOUCHING_MM, OVERLAPPING_MM = 1e-5, 1e-4
"""... an overlap up to the first is of rounding, and one below the second needs no way out: it is seen."""

MOST_STEPS_OUT = 10.0
"""A way out may be so many steps long (all but one of those 220 were up to 1.5)."""


class Contacts:
    """Rings of poses about their own origins, and the convolutions of pairs as they are asked for."""

    def __init__(self, rings: Sequence[Array]) -> None:
        self.rings = [without_doubles(r) for r in rings]
        self.low = np.array([r.min(axis=0) for r in self.rings])
        self.high = np.array([r.max(axis=0) for r in self.rings])
        self._segments: dict[tuple[int, int], Array] = {}

    def segments(self, a: int, b: int) -> Array:
        """Return the convolution of pose ``a`` with minus pose ``b``."""
        hit = self._segments.get((a, b))
        if hit is None:
            hit = convolution(self.rings[a], self.rings[b])
            self._segments[a, b] = hit
        return hit

    def overlap_mm(self, a: int, b: int, offset_mm: Array) -> float:
        """Return a measure of how much two poses overlap: area shared over half the perimeter of
        what is shared, 0 when they only touch."""
        if not may_meet(self.rings[a], self.rings[b], offset_mm[0], offset_mm[1]):  # so most lie
            return 0.0
        # both made here: two threads ask at once
        shared = Polygon(self.rings[a]).intersection(Polygon(self.rings[b] + offset_mm))
        return 2.0 * shared.area / shared.length if shared.area > 0.0 else 0.0

    def way_out(self, a: int, b: int, offset_mm: Array, most_mm: float) -> Array:
        """Return an offset no further off at which poses that overlap just do not, the same if none is found.

        What is nearest of the convolution may lie within the sum, or in front of an offset that lies in it.
        """
        for out in ways_out(self.segments(a, b), offset_mm[0], offset_mm[1], BEYOND_MM)[:MOST_WAYS]:
            if np.hypot(*(out - offset_mm)) > most_mm:
                break
            if self.overlap_mm(a, b, out) <= TOUCHING_MM:
                return out
        return offset_mm

    def add(self, ring: Array) -> int:
        """Add a pose and return its index."""
        ring = without_doubles(ring)
        self.rings.append(ring)
        self.low = np.vstack([self.low, ring.min(axis=0)])
        self.high = np.vstack([self.high, ring.max(axis=0)])
        return len(self.rings) - 1


@dataclass(frozen=True, eq=False)
class Arrangement:
    """Pieces on a plane, a cylinder or a strip.

    ``pose`` (n,) indexes ``Contacts.rings``; ``at_mm`` (n, 2) where their origins lie. ``basis_mm``
    (k, 2): the periods: two for a lattice, one along x for a strip that repeats, none.
    ``across_mm``: the pieces keep between these y. ``along_mm``: and between these x (no periods);
    the second is what gets squeezed. When it is infinite, all pieces are pulled towards the first.
    ``fixed`` pieces do not move, nor do components of the periods that ``stays`` (2k,) names.
    """

    pose: NDArray[np.int64]
    at_mm: Array
    basis_mm: Array = field(default_factory=lambda: np.zeros((0, 2)))
    across_mm: tuple[float, float] | None = None
    along_mm: tuple[float, float] | None = None
    fixed: NDArray[np.bool_] | None = None
    stays: NDArray[np.bool_] | None = None

    @property
    def measure(self) -> float:
        """What is minimised: area of a lattice cell, period, or end of the strip."""
        if len(self.basis_mm) == 2:
            (a, b), (c, d) = self.basis_mm
            return abs(float(a * d - b * c))
        if len(self.basis_mm) == 1:
            return float(self.basis_mm[0, 0])
        assert self.along_mm is not None
        if np.isinf(self.along_mm[1]):
            return float(self.at_mm[:, 0].mean() - self.along_mm[0])
        return self.along_mm[1]


@njit(cache=True, nogil=True)
def near_pairs(
    pose: NDArray[np.int64], at: Array, basis: Array, low: Array, high: Array, reach: float
) -> tuple[NDArray[np.int64], Array]:
    """Return (k, 4) ``i, j, m, n`` and offsets (k, 2) of piece j + m u + n v seen from piece i
    whose boxes come within ``reach``; each pair of copies once."""
    n = len(pose)
    periods = len(basis)
    room = 64
    idx = np.empty((room, 4), np.int64)
    off = np.empty((room, 2))
    k = 0
    ux, uy, vx, vy = 0.0, 0.0, 0.0, 0.0
    if periods >= 1:
        ux, uy = basis[0]
    if periods == 2:
        vx, vy = basis[1]
    det = ux * vy - uy * vx
    for i in range(n):
        for j in range(i, n):
            a, b = pose[i], pose[j]
            x0 = low[a, 0] - high[b, 0] - reach
            x1 = high[a, 0] - low[b, 0] + reach
            y0 = low[a, 1] - high[b, 1] - reach
            y1 = high[a, 1] - low[b, 1] + reach
            px, py = at[j, 0] - at[i, 0], at[j, 1] - at[i, 1]
            m0 = m1 = n0 = n1 = 0
            if periods == 1:
                m0 = int(np.ceil((x0 - px) / ux))
                m1 = int(np.floor((x1 - px) / ux))
            elif periods == 2:
                mlo, mhi, nlo, nhi = np.inf, -np.inf, np.inf, -np.inf
                for c in range(4):
                    cx = (x0 if c % 2 == 0 else x1) - px
                    cy = (y0 if c < 2 else y1) - py
                    ms = (cx * vy - cy * vx) / det
                    ns = (ux * cy - uy * cx) / det
                    mlo, mhi = min(mlo, ms), max(mhi, ms)
                    nlo, nhi = min(nlo, ns), max(nhi, ns)
                m0, m1 = int(np.ceil(mlo)), int(np.floor(mhi))
                n0, n1 = int(np.ceil(nlo)), int(np.floor(nhi))
            for m in range(m0, m1 + 1):
                for q in range(n0, n1 + 1):
                    if i == j and (m < 0 or (m == 0 and q <= 0)):
                        continue
                    ox = px + m * ux + q * vx
                    oy = py + m * uy + q * vy
                    if ox < x0 or ox > x1 or oy < y0 or oy > y1:
                        continue
                    if k == room:
                        room *= 2
                        idx2 = np.empty((room, 4), np.int64)
                        idx2[:k] = idx
                        idx = idx2
                        off2 = np.empty((room, 2))
                        off2[:k] = off
                        off = off2
                    idx[k, 0], idx[k, 1], idx[k, 2], idx[k, 3] = i, j, m, q
                    off[k, 0], off[k, 1] = ox, oy
                    k += 1
    return idx[:k].copy(), off[:k].copy()


def shortfall(contacts: Contacts, arrangement: Arrangement, gap_mm: float) -> float:
    """Return by how much the worst pair falls short of the gap (0 when all keep it).

    Every pair of copies whose boxes come within the gap is looked at, but for pairs of fixed pieces.
    """
    a = arrangement
    idx, off = near_pairs(a.pose, a.at_mm, a.basis_mm, contacts.low, contacts.high, gap_mm)
    worst = 0.0
    for (i, j, _, _), q in zip(idx, off, strict=True):
        if a.fixed is not None and a.fixed[i] and a.fixed[j]:
            continue
        first, second = int(a.pose[i]), int(a.pose[j])
        worst = max(worst, gap_mm - clearance(contacts.segments(first, second), q[0], q[1]))
        worst = max(worst, contacts.overlap_mm(first, second, q))
    return worst


def _step(
    contacts: Contacts, a: Arrangement, gap_mm: float, trust_mm: float, slack: bool
) -> tuple[Arrangement, float] | None:
    """One linear program; returns the moved arrangement and the total slack, or None."""
    n, periods = len(a.pose), len(a.basis_mm)
    spread = 2.0 + (2.0 if periods == 2 else 1.0 if periods else 0.0)
    idx, off = near_pairs(
        a.pose, a.at_mm, a.basis_mm, contacts.low, contacts.high, gap_mm + spread * trust_mm
    )
    fixed = a.fixed if a.fixed is not None else np.zeros(n, bool)
    free = ~(fixed[idx[:, 0]] & fixed[idx[:, 1]])
    idx, off = idx[free], off[free]
    nv = 2 * n + 2 * periods
    strip = a.along_mm is not None
    pulled = a.along_mm is not None and np.isinf(a.along_mm[1])
    end = nv  # column of the strip's end
    nv += 1 if strip and not pulled else 0
    over = _overhang_mm(contacts, a, fixed)
    edge = nv  # column of what still hangs over the roll's edges
    nv += 1 if over > 0.0 else 0
    rows = Rows()
    if len(idx):
        codes = a.pose[idx[:, 0]] * len(contacts.rings) + a.pose[idx[:, 1]]
        asked, which = np.unique(codes, return_inverse=True)
        known = [contacts.segments(*divmod(code, len(contacts.rings))) for code in asked.tolist()]
        start = np.concatenate([[0], np.cumsum([len(each) for each in known])]).astype(np.int64)
        reach = 1.4143 * trust_mm * (2 + np.abs(idx[:, 2]) + np.abs(idx[:, 3])).astype(np.float64)
        about = off
        if slack:
            about = _out_of_overlaps(contacts, a, idx, off, MOST_STEPS_OUT * trust_mm)
            reach += np.hypot(*(about - off).T)
        pair, planes = half_planes(idx, about, which, start, np.concatenate(known), gap_mm, reach)
        (i, j, m, q), o = idx[pair].T, off[pair]
        nx, ny, c = planes.T
        apart = (i != j).astype(np.float64)
        # n . (o + dpj - dpi + m du + q dv) >= c, written as <=
        rows.add(
            nx * o[:, 0] + ny * o[:, 1] - c,
            (2 * j, -nx * apart),
            (2 * j + 1, -ny * apart),
            (2 * i, nx * apart),
            (2 * i + 1, ny * apart),
            (2 * n, -nx * m),
            (2 * n + 1, -ny * m),
            (2 * n + 2, -nx * q),
            (2 * n + 3, -ny * q),
            *([(nv + np.arange(len(pair)), -1.0)] if slack else []),
        )
    pairs_rows = rows.count if slack else 0
    low_bound = np.full(nv, -trust_mm)
    high_bound = np.full(nv, trust_mm)
    held = np.flatnonzero(fixed)
    low_bound[2 * held] = high_bound[2 * held] = 0.0
    low_bound[2 * held + 1] = high_bound[2 * held + 1] = 0.0
    loose = np.flatnonzero(~fixed)
    low, high = contacts.low[a.pose[loose]], contacts.high[a.pose[loose]]
    if a.across_mm is not None:
        room_low = a.across_mm[0] - low[:, 1] - a.at_mm[loose, 1]
        room_high = a.across_mm[1] - high[:, 1] - a.at_mm[loose, 1]
        if over > 0.0:
            rows.add(-room_low, (2 * loose + 1, -1.0), (edge, -1.0))
            rows.add(room_high, (2 * loose + 1, 1.0), (edge, -1.0))
        else:
            low_bound[2 * loose + 1] = np.maximum(-trust_mm, np.minimum(room_low, trust_mm))
            high_bound[2 * loose + 1] = np.minimum(trust_mm, np.maximum(room_high, -trust_mm))
    if strip:
        assert a.along_mm is not None
        room_low = a.along_mm[0] - low[:, 0] - a.at_mm[loose, 0]
        low_bound[2 * loose] = np.maximum(-trust_mm, np.minimum(room_low, trust_mm))
        if not pulled:
            rows.add(-(a.at_mm[loose, 0] + high[:, 0]), (2 * loose, 1.0), (end, -1.0))
    cost = np.zeros(nv)
    if periods == 2:
        (ux, uy), (vx, vy) = a.basis_mm
        sign = 1.0 if ux * vy - uy * vx > 0 else -1.0
        cost[2 * n : 2 * n + 4] = (
            sign * np.array([vy, -vx, -uy, ux]) / max(np.hypot(ux, uy), np.hypot(vx, vy))
        )
        low_bound[0:2] = high_bound[0:2] = 0.0
        if uy == 0.0:  # rows stay level
            low_bound[2 * n + 1] = high_bound[2 * n + 1] = 0.0
    elif periods == 1:
        cost[2 * n] = 1.0
        low_bound[2 * n + 1] = high_bound[2 * n + 1] = 0.0
        if not fixed.any():
            low_bound[0] = high_bound[0] = 0.0
    if a.stays is not None:
        low_bound[2 * n : 2 * n + 2 * periods][a.stays] = 0.0
        high_bound[2 * n : 2 * n + 2 * periods][a.stays] = 0.0
    if pulled:
        cost[0 : 2 * n : 2] = 1.0
    elif strip:
        assert a.along_mm is not None
        cost[end] = 1.0
        low_bound[end], high_bound[end] = a.along_mm[1] - trust_mm, a.along_mm[1] + trust_mm
    if over > 0.0:
        cost[edge] = 1e3
        low_bound[edge], high_bound[edge] = 0.0, over
    if slack:
        cost = np.concatenate([cost, np.full(pairs_rows, 1e3)])
        low_bound = np.concatenate([low_bound, np.zeros(pairs_rows)])
        high_bound = np.concatenate([high_bound, np.full(pairs_rows, np.inf)])
        if strip and not pulled:
            high_bound[end] = a.along_mm[1] + 10 * trust_mm if a.along_mm else np.inf
    x = least(cost, rows, low_bound, high_bound)
    if x is None:
        return None
    moved = replace(
        a,
        at_mm=a.at_mm + x[: 2 * n].reshape(n, 2),
        basis_mm=a.basis_mm + x[2 * n : 2 * n + 2 * periods].reshape(periods, 2),
        along_mm=(a.along_mm[0], float(x[end])) if a.along_mm is not None and not pulled else a.along_mm,
    )
    return moved, (float(x[nv:].sum()) if slack else 0.0) + (float(x[edge]) if over > 0.0 else 0.0)


def _out_of_overlaps(
    contacts: Contacts, a: Arrangement, idx: NDArray[np.int64], off: Array, most_mm: float
) -> Array:
    """Return the offsets (k, 2) about which to look for free space: those of pairs that overlap led out."""
    about = off.copy()
    first, second = a.pose[idx[:, 0]], a.pose[idx[:, 1]]
    low, high = contacts.low, contacts.high
    meet = (off + low[second] < high[first]) & (off + high[second] > low[first])
    for k in np.flatnonzero(meet.all(axis=1)).tolist():
        one, other = int(first[k]), int(second[k])
        if contacts.overlap_mm(one, other, off[k]) > OVERLAPPING_MM:
            about[k] = contacts.way_out(one, other, off[k], most_mm)
    return about


def _overhang_mm(contacts: Contacts, a: Arrangement, fixed: NDArray[np.bool_]) -> float:
    """How far the free pieces hang over the edges across."""
    if a.across_mm is None or fixed.all():
        return 0.0
    pose, y = a.pose[~fixed], a.at_mm[~fixed, 1]
    below = a.across_mm[0] - (y + contacts.low[pose, 1]).min()
    above = (y + contacts.high[pose, 1]).max() - a.across_mm[1]
    most = float(max(below, above))
    return most if most > 1e-9 else 0.0


def tighten(
    contacts: Contacts,
    arrangement: Arrangement,
    gap_mm: float,
    *,
    trust_mm: float,
    steps: int = 40,
    least_gain: float = 1e-6,
    stop: Stop | None = None,
) -> Arrangement | None:
    """Return the arrangement squeezed; None when its overlaps could not be pulled apart.

    ``trust_mm`` is the first step size, ``least_gain`` the relative gain of a step below which
    the step size is halved (three times, then it ends).
    """
    a = arrangement
    slack = True
    best: Arrangement | None = None
    trust = trust_mm
    debt, stuck = np.inf, 0
    for left in range(steps - 1, -1, -1):
        if stop is not None and stop():
            break
        found = _step(contacts, a, gap_mm, trust, slack)
        if found is None:
            if slack:
                return best
            slack = True
            continue
        moved, owed = found
        if owed > 1e-6:
            if owed > left * (debt - owed):  # at this pace it is not worked off in the steps left
                stuck += 1
                if stuck > 3:
                    return best
            debt = owed
            a = moved
            continue
        slack = False
        if best is None:
            a = best = moved
            continue
        if moved.measure < best.measure * (1.0 - least_gain):
            a = best = moved
            continue
        if moved.measure < best.measure:
            a = best = moved
        trust *= 0.5
        if trust < trust_mm / 9.0:
            break
    return best
