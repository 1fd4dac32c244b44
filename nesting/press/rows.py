"""Rows of one die as a press cutter can set them out: every place a whole number of tenths of a mm.

A press has stops, not coordinates: the die steps along a straight row by one figure, the next row
lies one pitch further on, and the die turned by half lies at one place from the die as it is. So
the lattice is one whose rows run straight along the roll or straight across it, its figures are
brought to what a rule shows, and no piece is moved off it afterwards (``nesting.rows`` does, and
saves a little more cloth where a machine places the die).
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from geometry.outline import Outline
from nesting.compaction.slp import Arrangement, Contacts, shortfall
from nesting.errors import ProblemError
from nesting.lattice.bands import levelled
from nesting.lattice.densest import Lattice, searched, straight
from nesting.stop import Never, Stop
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Run = Literal["along", "across"]

RULE_MM = 0.1
"""What a stop can be set to by eye: figures are whole numbers of it."""

PHASES = 96
"""Phases of a lattice tried across the roll; a phase is where its first row lies."""

LONG_MM = 2500.0
"""Rows are chosen by how many places a strip of about this length takes: where a few more or less fit
into a short one says little of what the cloth gives once other dies follow."""

ROUNDINGS = 6
"""Lattices that are brought to the rule, of those found: the loosest never win."""


@dataclass(frozen=True)
class Row:
    """One straight row: the die's way up, where the lower left corner of its box comes first, how
    many places."""

    turned: bool
    x_mm: float
    y_mm: float
    places: int


@dataclass(frozen=True, eq=False)
class PressRows:
    """Where a die is set down on a strip of cloth.

    ``step_mm`` leads from place to place in a row, ``pitch_mm`` from a row to the next of the same
    way up, which begins ``shift_mm`` further along the row; ``twin_mm`` (along the roll, across it) leads
    from a place to that of the half-turned die, None one-way. ``corners_mm`` (n, 2) are the lower left
    corners of the die's box as it lies, ``turned`` (n,) which of them are half turned. ``per_m`` is how many
    places a metre of roll takes when the rows go on. ``density`` is the piece's area over step x pitch
    (twice the area two-way), ``free_density`` that of the closest lattice found, which may lean.
    """

    runs: Run
    step_mm: float
    pitch_mm: float
    shift_mm: float
    twin_mm: tuple[float, float] | None
    corners_mm: Array
    turned: NDArray[np.bool_]
    length_mm: float
    per_m: float
    density: float
    free_density: float
    lattice: Lattice

    @property
    def size_mm(self) -> tuple[float, float]:
        """The die's extent along and across the roll."""
        along, across = np.ptp(self.lattice.rings_mm[0], axis=0)
        return float(along), float(across)

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows in the order of cutting: from the edge inwards, or along the roll."""
        across = 1 if self.runs == "along" else 0
        found: dict[tuple[float, bool], list[Array]] = {}
        for corner, turned in zip(self.corners_mm, self.turned.tolist(), strict=True):
            found.setdefault((round(float(corner[across]), 3), turned), []).append(corner)
        rows = []
        for (_, turned), corners in sorted(found.items()):
            first = min(corners, key=lambda c: float(c[1 - across]))
            rows.append(Row(turned, float(first[0]), float(first[1]), len(corners)))
        return tuple(rows)

    def strip(self, count: int, across_mm: tuple[float, float]) -> tuple[Array, NDArray[np.bool_]]:
        """Return the corners and ways up of another number of places in the same rows, from x = 0."""
        cut = _cut(Contacts(self.lattice.rings_mm), self.lattice, self.runs, count, across_mm, 0.0)
        assert cut is not None  # the die fits the roll, or it would have no rows
        return cut.corners_mm, cut.turned

    @property
    def mirrored(self) -> PressRows:
        """The rows of the other hand's die: mirrored in the roll's length, on the same strip of the width."""
        y = self.corners_mm[:, 1]
        corners = np.column_stack([self.corners_mm[:, 0], np.round(y.min() + y.max() - y, 6)])
        twin = None if self.twin_mm is None else (self.twin_mm[0], -self.twin_mm[1])
        own, flip = self.lattice, np.array([1.0, -1.0])
        k = 0 if self.runs == "along" else 1
        lattice = replace(
            own,
            rings_mm=tuple(ring[::-1] * flip for ring in own.rings_mm),
            at_mm=own.at_mm * flip,
            u_mm=own.u_mm * (flip if k == 0 else -flip),
            v_mm=own.v_mm * (-flip if k == 0 else flip),
        )
        return replace(self, shift_mm=-self.shift_mm, twin_mm=twin, corners_mm=corners, lattice=lattice)


def press_rows(
    outline: Outline,
    width_mm: float,
    gap_mm: float,
    count: int,
    *,
    edge_margin_mm: float = 0.0,
    end_margin_mm: float = 0.0,
    one_way: bool = False,
    seed: int = 0,
    starts: int = 600,
    stop: Stop | None = None,
) -> PressRows:
    """Return a strip of ``count`` places of a die in the straight rows that take least of a long roll.

    ``outline`` as it lies, two-way (with its half turn) unless ``one_way``. Raises ProblemError
    when the die is wider than the roll, or no rows were found in the time.
    """
    stop = stop or Never()
    ring = np.asarray(outline.ring_mm)
    across = (edge_margin_mm, width_mm - edge_margin_mm)
    if np.ptp(ring[:, 1]) > across[1] - across[0]:
        raise ProblemError("the piece is wider than the roll", remedy="take a wider roll or turn the piece")
    rings = [ring] if one_way else [ring, -ring]
    free = searched(rings, gap_mm, seed=seed, starts=starts, stop=stop)
    found = straight(rings, gap_mm, seed=seed, starts=starts, stop=stop)
    if not free + found:
        raise ProblemError("no rows were found in the time", remedy="allow more time")
    contacts = Contacts((free + found)[0].rings_mm)
    ways = [(way, _runs(way)) for way in found]
    for lattice in free:
        for level in levelled(contacts, lattice, longest_mm=3.2 * float(np.ptp(ring[:, 0])), stop=stop):
            density = lattice.density * lattice.cell_mm2 / level.measure
            u, v = level.basis_mm
            ways.append((Lattice(lattice.rings_mm, level.at_mm, u, v, gap_mm, density), "along"))
    ways.sort(key=lambda way: -way[0].density)
    many = max(count, int(LONG_MM * width_mm * ways[0][0].density / outline.area_mm2)) if ways else count
    best: PressRows | None = None
    for lattice, runs in ways[:ROUNDINGS]:
        ruled = _ruled(contacts, lattice, runs, gap_mm)
        if ruled is None:
            continue
        tried = _cut(contacts, ruled, runs, many, across, end_margin_mm)
        if tried is not None and (best is None or tried.per_m > best.per_m):
            best = tried
    if best is None:
        raise ProblemError("no straight rows of it keep the gap", remedy="make the gap a tenth wider")
    short = _cut(contacts, best.lattice, best.runs, count, across, end_margin_mm)
    assert short is not None  # a longer strip was cut from the same rows
    top = max(lattice.density for lattice, _ in [*ways, *((f, "along") for f in free)])
    return replace(short, per_m=best.per_m, free_density=top)


def _runs(lattice: Lattice) -> Run:
    return "along" if abs(lattice.u_mm[1]) < 1e-6 else "across"


def _ruled(contacts: Contacts, lattice: Lattice, runs: Run, gap_mm: float) -> Lattice | None:
    """Return the lattice with all its figures on the rule and the gap kept, None if none is near."""
    along = 0 if runs == "along" else 1
    step = abs(float(lattice.u_mm[along]))
    v = np.asarray(lattice.v_mm) * (1.0 if lattice.v_mm[1 - along] > 0 else -1.0)
    v = v - np.round(v[along] / step) * step * np.eye(2)[along]
    twin = lattice.at_mm[-1] - lattice.at_mm[0] if len(lattice.at_mm) > 1 else None
    area = lattice.density * lattice.cell_mm2
    best: tuple[float, Lattice] | None = None
    # a figure may be rounded up by as much as makes room again for one that was rounded down
    low = np.floor(np.array([step, v[1 - along], v[along]]) / RULE_MM)
    ends = [(0.0, 0.0)] if twin is None else list(itertools.product((0.0, 1.0), repeat=2))
    trials = sorted(
        itertools.product((0.0, 1.0, 2.0, 3.0), (0.0, 1.0, 2.0, 3.0), (0.0, 1.0), ends),
        key=lambda t: (low[0] + t[0]) * (low[1] + t[1]),
    )
    for ds, dp, dh, dt in trials:
        s, p, h = (low + (ds, dp, dh)) * RULE_MM
        if best is not None and s * p >= best[0]:
            break
        basis = np.array([[s, 0.0], [h, p]]) if runs == "along" else np.array([[0.0, s], [p, h]])
        at = np.zeros((len(lattice.at_mm), 2))
        if twin is not None:
            at[1] = (np.floor(twin / RULE_MM) + dt) * RULE_MM
        a = Arrangement(np.arange(len(at)), at, basis)
        if shortfall(contacts, a, gap_mm) > SPARE_MM / 2:
            continue
        best = (s * p, Lattice(lattice.rings_mm, at, basis[0], basis[1], gap_mm, area / (s * p)))
    return None if best is None else best[1]


def _cut(
    contacts: Contacts,
    lattice: Lattice,
    runs: Run,
    count: int,
    across_mm: tuple[float, float],
    end_margin_mm: float,
) -> PressRows | None:
    """Return the shortest strip of ``count`` places of a lattice between the roll's edges."""
    poses = len(lattice.at_mm)
    size = contacts.high[0] - contacts.low[0]
    low, high = on_rule(across_mm[0]), across_mm[1]
    width = high - low
    basis = np.array([lattice.u_mm, lattice.v_mm])
    length = 1.6 * count * abs(np.linalg.det(basis)) / poses / width + 4.0 * float(size.max())
    at, pose = copies(lattice, (-length, length), (-width, 2.0 * width))
    across = float(basis[:, 1].max())
    phases = {0.0, *np.round(-lattice.at_mm[:, 1] % across, 6)}
    if runs == "across":
        phases |= set(np.round(np.arange(PHASES) / PHASES * across / RULE_MM) * RULE_MM)
    best: tuple[float, Array, NDArray[np.int64], float] | None = None
    for phase in sorted(phases):
        y = at[:, 1] + phase + low
        fits = (y >= low - 1e-6) & (y + size[1] <= high + 1e-6)
        xs, kept = at[fits], np.flatnonzero(fits)
        period = float(basis[:, 0].max())
        for start in _starts(xs[:, 0], period):
            inside = np.flatnonzero(xs[:, 0] >= start - 1e-6)
            if len(inside) < count:
                continue
            order = inside[np.lexsort((xs[inside, 1], np.round(xs[inside, 0], 6)))][:count]
            first = float(xs[order, 0].min())
            reach = float(xs[order, 0].max()) - first + float(size[0])
            if best is None or reach < best[0] - 1e-9:
                window = max(1.0, np.ceil((reach - float(size[0])) / period)) * period
                per_m = 1000.0 * np.count_nonzero(xs[inside, 0] < start + window - 1e-6) / window
                places = xs[order] + (end_margin_mm - first, phase + low)
                best = (reach, places, pose[kept[order]], float(per_m))
    if best is None:
        return None
    reach, places, which, per_m = best
    step, shift, pitch = _figures(basis, runs)
    return PressRows(
        runs,
        step,
        pitch,
        shift,
        _twin(lattice) if poses > 1 else None,
        np.round(places, 6),
        which == 1,
        reach + 2.0 * end_margin_mm,
        per_m,
        lattice.density,
        lattice.density,
        lattice,
    )


def on_rule(value_mm: float) -> float:
    """Return the next figure of the rule from ``value_mm`` on."""
    return float(np.ceil(value_mm / RULE_MM - 1e-9)) * RULE_MM


def copies(
    lattice: Lattice, along_mm: tuple[float, float], across_mm: tuple[float, float]
) -> tuple[Array, NDArray[np.int64]]:
    """Return places (n, 2) and poses of a lattice that cover a rectangle, and some beyond it."""
    basis = np.array([lattice.u_mm, lattice.v_mm])
    ij = np.array(list(itertools.product(along_mm, across_mm))) @ np.linalg.inv(basis)
    i = np.arange(np.floor(ij[:, 0].min()), np.ceil(ij[:, 0].max()) + 1)
    j = np.arange(np.floor(ij[:, 1].min()), np.ceil(ij[:, 1].max()) + 1)
    grid = np.stack(np.meshgrid(i, j, indexing="ij"), axis=-1).reshape(-1, 2) @ basis
    at = np.concatenate([grid + t for t in lattice.at_mm])
    return at, np.repeat(np.arange(len(lattice.at_mm)), len(grid))


def _twin(lattice: Lattice) -> tuple[float, float]:
    """Where the nearest half-turned place lies from a place."""
    near = itertools.product((-2, -1, 0, 1, 2), repeat=2)
    ways = [lattice.at_mm[1] - lattice.at_mm[0] + i * lattice.u_mm + j * lattice.v_mm for i, j in near]
    x, y = min(ways, key=lambda w: (round(float(np.hypot(*w)), 3), -float(w[0]), -float(w[1])))
    return round(float(x), 6), round(float(y), 6)


def _starts(x: Array, period: float) -> Array:
    """Where a strip may begin: at each place of one period."""
    return np.unique(np.round(x[(x >= 0.0) & (x < period)], 6))


def _figures(basis: Array, runs: Run) -> tuple[float, float, float]:
    """Step, shift and pitch of a lattice whose first vector is the step, on the rule."""
    k = 0 if runs == "along" else 1
    step, shift, pitch = basis[0, k], basis[1, k], basis[1, 1 - k]
    return round(float(step), 6), round(float(shift), 6), round(float(pitch), 6)
