"""The densest lattice of a piece, alone (one-way) or with its half turn (two-way).

Copies of every piece of a cell lie at ``at + i u + j v``. Many random cells descend on sampled
depths under a rising penalty; the best distinct ones are squeezed on the true outlines
(``slp.tighten``) and judged on every pair of copies whose boxes meet. The result is the best found,
not proven best, except where theory says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.outline import Outline, ring_area_mm2
from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.contact.penetration import DepthTable, depth_table
from nesting.contact.touch import without_doubles
from nesting.known import folder
from nesting.lattice import kept
from nesting.lattice.descent import descend
from nesting.stop import Never, Stop
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]

DEEP = 0.02
"""A descent that ends with an overlap deeper than this share of the piece has failed: half-planes
read from inside a sum cannot be trusted to lead out of it."""

FLAT = 0.75
"""A cell that would take less than this share of its pieces' area is not a cell: its periods have fallen into
one line, where the descent sees no overlap, and a squeeze over all its copies takes seconds for nothing."""


@dataclass(frozen=True, eq=False)
class Lattice:
    """A periodic cell: copies of pose k at ``at_mm[k] + i u_mm + j v_mm``, ``gap_mm`` apart.

    ``rings_mm`` are the poses about their own origins, ``cell_mm2`` the cell's area,
    ``density`` the net area of the pieces over it.
    """

    rings_mm: tuple[Array, ...]
    at_mm: Array
    u_mm: Array
    v_mm: Array
    gap_mm: float
    density: float

    @property
    def cell_mm2(self) -> float:
        """Area of one cell."""
        return abs(float(self.u_mm[0] * self.v_mm[1] - self.u_mm[1] * self.v_mm[0]))

    def swapped(self, rings_mm: tuple[Array, ...]) -> Lattice:
        """The lattice mirrored in the diagonal; ``rings_mm`` are its rings so mirrored."""
        at, u, v = (a[..., ::-1].copy() for a in (self.at_mm, self.u_mm, self.v_mm))
        return Lattice(rings_mm, at, u, v, self.gap_mm, self.density)


@dataclass(frozen=True)
class FixedMeasure:
    """A measure of a level cell that stays as it is: its first period, or the height to the next row."""

    mm: float
    first: bool

    @property
    def component(self) -> int:
        """Which of u_x, u_y, v_x, v_y it is."""
        return 0 if self.first else 3


def _starts(
    rng: np.random.Generator,
    rings: list[Array],
    total_mm2: float,
    count: int,
    level: bool,
    held: FixedMeasure | None,
) -> Array:
    """Random cells: a first period of the order of the piece, the second so that the cell holds
    the pieces at a random density, offsets anywhere in it."""
    size = np.ptp(np.concatenate(rings), axis=0)
    angle = rng.uniform(0.0, np.pi, count) if not level else np.zeros(count)
    u = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    # length of a chord of the bounding box in that direction
    chord = 1.0 / np.maximum(np.abs(u[:, 0]) / size[0], np.abs(u[:, 1]) / size[1])
    u *= (chord * rng.uniform(0.35, 1.25, count))[:, None]
    cell = total_mm2 / rng.uniform(0.45, 0.95, count)
    if held is not None and held.first:
        u[:, 0] = held.mm
    elif held is not None:
        u[:, 0] = cell / held.mm
    along = rng.uniform(-0.5, 0.5, count)
    length = np.hypot(u[:, 0], u[:, 1])
    normal = np.stack([-u[:, 1], u[:, 0]], axis=1) / length[:, None]
    v = along[:, None] * u + normal * (cell / length)[:, None]
    parts = [u, v]
    for _ in range(len(rings) - 1):
        f = rng.uniform(0.0, 1.0, (count, 2))
        parts.append(f[:, :1] * u + f[:, 1:] * v)
    return np.concatenate(parts, axis=1)


def search(rings: list[Array], gap_mm: float = 0.0, **how: Any) -> Lattice | None:
    """Return the densest cell found that holds one copy of each ring (see ``searched``)."""
    found = searched(rings, gap_mm, **how)
    return found[0] if found else None


def searched(
    rings: list[Array],
    gap_mm: float = 0.0,
    *,
    seed: int = 0,
    starts: int = 2000,
    rounds: int = 240,
    keep: int = 12,
    level: bool = False,
    held: FixedMeasure | None = None,
    worth_mm2: float = np.inf,
    stop: Stop | None = None,
) -> list[Lattice]:
    """Return the densest distinct cells found that hold one copy of each ring, at most three.

    ``rings`` are counter-clockwise poses; they are moved about their own box centres, and
    ``Lattice.rings_mm`` holds them so. ``level``: the first period lies along x (rows along the
    roll); ``held`` one measure of such a cell that is given. Cells that will not come below
    ``worth_mm2`` are given up early. Deterministic by ``seed`` and the counts; where lattices are kept
    (``kept``) what was found before comes back instead, whatever the seed.
    """
    stop = stop or Never()
    rings = [centred(r) for r in rings]
    store = folder.in_use()
    key = kept.key_of(rings, gap_mm, starts, rounds, keep, level, held, worth_mm2)
    known = None if store is None else _known(store, key, rings, gap_mm)
    if known is not None:
        return known
    areas = [abs(ring_area_mm2(r)) for r in rings]
    total = sum(areas)
    scale = float(min(min(np.ptp(r, axis=0)) for r in rings))
    h = max(scale / 48.0, float(max(np.ptp(np.concatenate(rings), axis=0))) / 400.0)
    table = depth_table(rings, h, gap_mm)
    rng = np.random.default_rng(seed)
    params = _starts(rng, rings, total, starts, level, held)
    contacts = Contacts(rings)
    area, worst = _run(params, level, held, rounds, scale, total, table, stop)
    found = _finish(contacts, params, area, worst, scale, total, gap_mm, keep, worth_mm2, held, stop)
    if store is not None and not stop():  # a search cut short is not an answer for the next time
        kept.keep(store, key, [(each.at_mm, np.array([each.u_mm, each.v_mm])) for each in found])
    return found


def _known(store: folder.KeptFiles, key: str, rings: list[Array], gap_mm: float) -> list[Lattice] | None:
    """The cells kept, judged again on the true outlines; None where there are none that hold."""
    cells = kept.find(store, key)
    if cells is None:
        return None
    contacts = Contacts(rings)
    total = sum(abs(ring_area_mm2(r)) for r in rings)
    lattices = []
    for at, basis in cells:
        cell = Arrangement(pose=np.arange(len(rings)), at_mm=at, basis_mm=basis)
        sound = len(at) == len(rings) and np.isfinite(at).all() and np.isfinite(basis).all()
        if not sound or cell.measure < total or shortfall(contacts, cell, gap_mm) > SPARE_MM:
            store.forget(key)
            return None
        lattices.append(_lattice(contacts, cell, total, gap_mm))
    return lattices


def straight(
    rings: list[Array],
    gap_mm: float = 0.0,
    *,
    seed: int = 0,
    starts: int = 1000,
    keep: int = 12,
    stop: Stop | None = None,
) -> list[Lattice]:
    """Return dense lattices with a period along the roll, or straight across it: rows and columns
    that do not lean."""
    how: dict[str, Any] = {"seed": seed, "starts": starts, "keep": keep, "level": True, "stop": stop}
    along = searched(rings, gap_mm, **how)
    own = tuple(centred(r) for r in rings)
    across = searched([swapped(r) for r in own], gap_mm, **how)
    return along + [a.swapped(own) for a in across]


def swapped(ring: Array) -> Array:
    """Return the ring mirrored in the diagonal, still counter-clockwise."""
    return np.ascontiguousarray(ring[::-1, ::-1])


def centred(ring: Array) -> Array:
    """Return the ring about the centre of its box."""
    return without_doubles(ring - (ring.min(axis=0) + ring.max(axis=0)) / 2.0)


def _run(
    params: Array,
    level: bool,
    held: FixedMeasure | None,
    rounds: int,
    scale: float,
    total: float,
    table: DepthTable,
    stop: Stop,
) -> tuple[Array, Array]:
    area, worst = np.full(len(params), np.inf), np.full(len(params), np.inf)
    for k in range(0, len(params), 50):
        if stop():
            break
        area[k : k + 50], worst[k : k + 50] = descend(
            params[k : k + 50],
            level,
            -1 if held is None else held.component,
            rounds,
            scale,
            total,
            table,
        )
    return area, worst


def _finish(
    contacts: Contacts,
    params: Array,
    area: Array,
    worst: Array,
    scale: float,
    total: float,
    gap_mm: float,
    keep: int,
    worth_mm2: float,
    held: FixedMeasure | None,
    stop: Stop,
) -> list[Lattice]:
    # what a cell would take once its worst overlap is pulled apart
    estimate = area * (1.0 + 2.0 * worst / scale)
    order = np.lexsort((estimate, worst > DEEP * scale))
    chosen: list[int] = []
    for i in order:
        if len(chosen) == keep:
            break
        if not FLAT * total < estimate[i] < worth_mm2 * 1.04:
            continue
        if all(abs(area[i] - area[c]) > 1e-3 * area[c] for c in chosen):
            chosen.append(int(i))
    best: list[Lattice] = []
    spare = gap_mm + SPARE_MM
    first: list[Arrangement] = []
    stays = None
    if held is not None:
        stays = np.zeros(4, bool)
        stays[held.component] = True
    for i in chosen:
        if stop() and first:
            break
        p = params[i]
        n = (len(p) - 4) // 2 + 1
        at = np.zeros((n, 2))
        at[1:] = p[4:].reshape(-1, 2)
        a = Arrangement(np.arange(n), at, p[:4].reshape(2, 2).copy(), stays=stays)
        t = tighten(contacts, a, spare, trust_mm=scale * 0.04, steps=10 if n <= 2 else 7)
        # a narrow piece may have gone through its copies: the densest of all, and no cell
        if t is not None and shortfall(contacts, t, gap_mm) <= SPARE_MM / 2:
            first.append(t)
    first.sort(key=lambda t: t.measure)
    for t in _distinct(first)[:3]:
        if t.measure > worth_mm2 * 1.01:
            break
        done = tighten(contacts, t, spare, trust_mm=scale * 0.02, steps=60, least_gain=1e-7)
        if done is None or shortfall(contacts, done, gap_mm) > SPARE_MM / 2:
            continue
        if all(abs(done.measure - b.cell_mm2) > 1e-4 * done.measure for b in best):
            best.append(_lattice(contacts, done, total, gap_mm))
    return sorted(best, key=lambda b: b.cell_mm2)


def _distinct(found: list[Arrangement]) -> list[Arrangement]:
    """Of cells of the same area, the first."""
    kept: list[Arrangement] = []
    for a in found:
        if all(abs(a.measure - k.measure) > 2e-3 * k.measure for k in kept):
            kept.append(a)
    return kept


def _lattice(contacts: Contacts, a: Arrangement, total: float, gap_mm: float) -> Lattice:
    return Lattice(
        tuple(contacts.rings[i] for i in a.pose),
        a.at_mm,
        a.basis_mm[0],
        a.basis_mm[1],
        gap_mm,
        total / a.measure,
    )


def one_way(outline: Outline, gap_mm: float = 0.0, **how: Any) -> Lattice | None:
    """Return the densest lattice of the piece as it lies (single lattice)."""
    return search([np.asarray(outline.ring_mm)], gap_mm, **how)


def two_way(outline: Outline, gap_mm: float = 0.0, **how: Any) -> Lattice | None:
    """Return the densest lattice of the piece and its half turn (double lattice)."""
    ring = np.asarray(outline.ring_mm)
    return search([ring, -ring], gap_mm, **how)
