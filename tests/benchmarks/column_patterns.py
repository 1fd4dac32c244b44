"""What filled columns and a master linear program could come to on an order that repeats: an experiment.

    PYTHONPATH=. .venv/bin/python tests/benchmarks/column_patterns.py FILE ... [--gap 2] [--sizes 6]

A column is a full-width stretch that repeats along the roll. It starts as a level lattice cut to the roll's
width: between its edges it closes on itself after one period. What the cut leaves open takes more pieces:
one is set down where it overlaps least, all others give way by guided local search on the cylinder, so that
copies interlock, and what is found is squeezed on the true outlines; the period may grow by less than the
piece is worth. The master program chooses how many periods of each column meet the demand with the least
length; its dual prices say what a piece is worth in mm of roll, and columns are filled for these prices until
nothing more is found (column generation: Gilmore and Gomory 1961, from memory).

Printed is the yield without ends and without any change of size or lattice, at several places in the sizes
of every family: of the densest cells in the plane, of the columns cut from them, and of the columns filled.
It is the best found, not a proven bound. What the engine makes of such an order with its ends and changes is
in docs/benchmarks.md; why it does not lay these columns, in docs/nesting.md.
"""

from __future__ import annotations

import argparse
import time
from dataclasses import dataclass, replace

import numpy as np
from numba import njit
from numpy.typing import NDArray
from scipy.optimize import linprog

from geometry.outline import ring_area_mm2
from nesting.compaction.among import among_of, weighted_depth
from nesting.compaction.separation import Effort, Pieces, Walls, separate
from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.compaction.window import SampledGround
from nesting.contact.penetration import DepthTable
from nesting.dies.die import Die, dies_of
from nesting.dies.family import Family, at_rank, families_of
from nesting.files.instance import read
from nesting.lattice.bands import levelled
from nesting.lattice.densest import searched, straight
from nesting.rows.groups import Group, groups_of
from nesting.stop import Never
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Ints = NDArray[np.int64]

FIRST_STEP, LAST_STEP = 8.0, 0.3
"""Steps, in cells, by which a piece slides to where it overlaps least."""

CELL = 24.0
"""Cells of the sampled depths in the smaller measure of the middle piece."""

PHASES = 48
"""Places across the roll at which a lattice is cut."""

LONGEST = 4.0
"""Periods up to so many lengths of the piece; ..."""

SHORTEST = 0.8
"""... and one shorter than this share of the largest piece is taken several times, so that a small piece may
lie in one of them only."""

MOST_CUTS = 3
"""Patterns of a group that are filled."""

LATTICES = 2
"""Lattices of a group that are cut."""

LEAST_DENSITY = 0.5
"""A looser cut is no column."""

ROUNDS, PATIENCE, SAMPLES = 60, 8, 12
"""Effort of the local search in a try."""

SPOTS = (4, 12, 40)
"""Random places looked at for a piece, one of these: few try what many would pass over."""

ENOUGH, NEARLY = 0.25, 0.7
"""Depths, in cells: as good as none, and from which the linear program is tried."""

EXCHANGED = 0.25
"""Share of the tries in which a cheaper piece is taken out first."""

WORTH = 0.9
"""A period grows by at most this share of what the piece is worth."""

EDGES = 1.15
"""What the roll's edges make of a lattice where no cut of it closes on itself (vamps of a sample style)."""

VAIN = 8
"""Tries in vain, one after the other, after which another pattern is tried."""


PARENTS = 3
"""Patterns of each family that are filled further, those worth most for their length."""

JOBS = 8
"""Patterns filled at the same prices."""

MILD = 0.05
"""A pattern that is worth so much less than its length is filled e times more seldom."""

DRY_ROUNDS = 6
"""Programs solved in a row that gained less than ..."""

DRY = 2e-4
"""... this share of the length."""


@dataclass(frozen=True, eq=False)
class Pattern:
    """Pieces on a cylinder: ``pose`` (n,) in its numbers, ``at_mm`` (n, 2), the period along the roll;
    ``counts`` pieces of each family; ``main`` is the family it was cut from."""

    main: int
    pose: Ints
    at_mm: Array
    period_mm: float
    counts: Array


@njit(cache=True, nogil=True)
def fitted_in(
    pieces: Pieces, walls: Walls, effort: Effort, spots: int, table: DepthTable, halt: NDArray[np.uint8]
) -> float:
    """Set the last piece down where it overlaps least, near one of ``spots`` random places, then pull all
    pieces apart, in place; returns the greatest depth left (mm)."""
    at, pose, choices, _, weight = pieces
    room, period = walls.room, walls.period
    n = len(pose) - 1
    h = table.h_mm
    np.random.seed(effort.seed)
    kinds = 0
    while kinds < choices.shape[1] and choices[n, kinds] >= 0:
        kinds += 1
    least = np.inf
    among = among_of(at, pose, weight, table)
    for _ in range(spots):
        c = choices[n, np.random.randint(kinds)]
        x = np.random.random() * period
        y = room[c, 2] + np.random.random() * (room[c, 3] - room[c, 2])
        mm = weighted_depth(n, c, x, y, np.inf, among, period, table)
        step = FIRST_STEP * h
        while step > LAST_STEP * h and mm > 0.0:
            won = False
            for k in range(9):
                tx = x + step * (k % 3 - 1)
                ty = min(max(y + step * (k // 3 - 1), room[c, 2]), room[c, 3])
                f = weighted_depth(n, c, tx, ty, mm, among, period, table)
                if f < mm:
                    x, y, mm, won = tx, ty, f, True
                    break
            if not won:
                step *= 0.5
        if mm < least:
            least = mm
            pose[n] = c
            at[n, 0] = x - np.floor(x / period) * period
            at[n, 1] = y
    worst, _ = separate(pieces, walls, effort, table, halt)
    return worst


def levels_of(group: Group) -> list[Arrangement]:
    """Return a group's densest lattices bent level, at their own size, poses numbered as its roles."""
    found: list[Arrangement] = []
    for lattice in group.lattices[:LATTICES]:
        size = float(max(np.ptp(r[:, 0]) for r in lattice.rings_mm))
        found += levelled(Contacts(lattice.rings_mm), lattice, longest_mm=LONGEST * size, most=3)
    return found


class Cylinder:
    """The roll's width as a cylinder, for one size of each family, that at ``rank`` (0..1) of its demand:
    its poses, where they may lie, how deep they lie in each other."""

    def __init__(
        self,
        dies: tuple[Die, ...],
        families: tuple[Family, ...],
        gap_mm: float,
        across_mm: tuple[float, float],
        rank: float,
    ) -> None:
        self.dies = [dies[at_rank(dies, f, rank)] for f in families]
        self.gap_mm, self.across_mm, self.rank = gap_mm, across_mm, rank
        roles = [(f, k) for f, die in enumerate(self.dies) for k in range(len(die.rings_mm))]
        self.pose_of = {role: p for p, role in enumerate(roles)}
        self.family_of = np.array([f for f, _ in roles])
        self.kind_of = np.array([k for _, k in roles])
        self.area_mm2 = np.array([die.area_mm2 for die in self.dies])
        self.contacts = Contacts([self.dies[f].rings_mm[k] for f, k in roles])
        self.cell_mm = float(np.median([min(die.size_mm) for die in self.dies])) / CELL
        self.largest_mm = max(max(die.size_mm) for die in self.dies)
        most = max(len(die.rings_mm) for die in self.dies)
        self.choices = np.full((len(roles), most), -1, np.int64)
        for p, (f, _) in enumerate(roles):
            mine = [self.pose_of[f, k] for k in range(len(self.dies[f].rings_mm))]
            self.choices[p, : len(mine)] = mine
        self._ground = SampledGround.of(self.contacts, np.arange(len(roles)), gap_mm, across_mm, self.cell_mm)
        self._halt = np.zeros(1, np.uint8)

    def pattern(self, main: int, pose: Ints, at_mm: Array, period_mm: float) -> Pattern:
        """Return a pattern with its pieces counted."""
        counts = np.bincount(self.family_of[pose], minlength=len(self.dies)).astype(float)
        return Pattern(main, pose, at_mm, period_mm, counts)

    def squeezed(self, pattern: Pattern, steps: int) -> Pattern | None:
        """Return the pattern with the shortest period its pieces come to; None where they do not part."""
        start = Arrangement(
            pattern.pose, pattern.at_mm, np.array([[pattern.period_mm, 0.0]]), across_mm=self.across_mm
        )
        done = tighten(
            self.contacts,
            start,
            self.gap_mm + SPARE_MM,
            trust_mm=3.0 * self.cell_mm,
            steps=steps,
            least_gain=1e-4,
        )
        if done is None or shortfall(self.contacts, done, self.gap_mm) > SPARE_MM / 2:
            return None
        return Pattern(pattern.main, pattern.pose, done.at_mm, float(done.basis_mm[0, 0]), pattern.counts)

    def cut_from(self, group: Group, levels: list[Arrangement], most: int) -> list[Pattern]:
        """Return the densest patterns cut from a group's level lattices, at most so many."""
        pose = np.array([self.pose_of[role] for role in group.roles])
        base = group.lattice.rings_mm[0]
        ratio = np.ptp(self.contacts.rings[pose[0]], axis=0) / np.ptp(base, axis=0)
        found: list[Pattern] = []
        for level in levels:
            scaled = replace(level, pose=pose, at_mm=level.at_mm * ratio, basis_mm=level.basis_mm * ratio)
            done = tighten(
                self.contacts, scaled, self.gap_mm + SPARE_MM, trust_mm=3.0 * self.cell_mm, steps=8
            )
            if done is not None and shortfall(self.contacts, done, self.gap_mm) < SPARE_MM / 2:
                found += self._cuts(group, done)
        found.sort(key=lambda p: -self.density(p))
        kept: list[Pattern] = []
        for p in found:
            like = (abs(p.period_mm - k.period_mm) < 0.5 and (p.counts == k.counts).all() for k in kept)
            if self.density(p) > LEAST_DENSITY and not any(like):
                kept.append(p)
            if len(kept) == most:
                break
        squeezed = [self.squeezed(self._repeated(p), 6) for p in kept]
        return [p for p in squeezed if p is not None]

    def in_bands(self, group: Group) -> Pattern:
        """Return what stands for bands cut from a plain group's lattice, so that the master program always
        finds a mix: a period of one cell, without places, and so much longer as the roll's edges cost."""
        width = self.across_mm[1] - self.across_mm[0]
        counts = np.zeros(len(self.dies))
        counts[group.main] = len(group.roles)
        scale = self.area_mm2[group.main] / abs(ring_area_mm2(group.lattice.rings_mm[0]))
        none = np.zeros(0, np.int64)
        return Pattern(
            group.main, none, np.zeros((0, 2)), EDGES * scale * group.lattice.cell_mm2 / width, counts
        )

    def density(self, p: Pattern) -> float:
        """Return the share of the cloth that a pattern uses."""
        return float(self.area_mm2 @ p.counts) / (p.period_mm * (self.across_mm[1] - self.across_mm[0]))

    def _repeated(self, p: Pattern) -> Pattern:
        times = max(1, round(SHORTEST * self.largest_mm / p.period_mm))
        at = np.concatenate([p.at_mm + (k * p.period_mm, 0.0) for k in range(times)])
        return Pattern(p.main, np.tile(p.pose, times), at, times * p.period_mm, times * p.counts)

    def _cuts(self, group: Group, level: Arrangement) -> list[Pattern]:
        """The two cuts of a level lattice that hold most, of all phases across the roll."""
        pose, at = level.pose, level.at_mm
        low, high = self.contacts.low[pose, 1], self.contacts.high[pose, 1]
        period, (lean, pitch) = float(level.basis_mm[0, 0]), level.basis_mm[1]
        across = self.across_mm
        reach = float(np.abs(at[:, 1]).max()) + across[1] - across[0]
        row = np.arange(-int(reach / pitch) - 3, int(reach / pitch) + 4)
        found: dict[tuple[int, ...], Pattern] = {}
        for phase in np.arange(PHASES) / PHASES:
            y = across[0] + phase * pitch + at[:, 1][:, None] + row[None, :] * pitch
            fits = (y + low[:, None] >= across[0] - 1e-9) & (y + high[:, None] <= across[1] + 1e-9)
            role, r = np.nonzero(fits)
            key = tuple(fits.sum(axis=1).tolist())
            if len(role) and key not in found:
                x = (at[role, 0] + row[r] * lean) % period
                found[key] = self.pattern(group.main, pose[role], np.column_stack([x, y[role, r]]), period)
        return sorted(found.values(), key=lambda p: -self.density(p))[:2]

    def filled(self, pattern: Pattern, prices_mm: Array, rng: np.random.Generator) -> Pattern | None:
        """Return the pattern with more in it than it takes of roll at these prices; None if none is found."""
        wish = prices_mm / np.sqrt(self.area_mm2)
        wish = wish / wish.sum()
        now, vain = pattern, 0
        while vain < VAIN:
            tried = self._with_one_more(now, prices_mm, int(rng.choice(len(wish), p=wish)), rng)
            now, vain = (now, vain + 1) if tried is None else (tried, 0)
        return None if now is pattern else now

    def _with_one_more(
        self, p: Pattern, prices_mm: Array, family: int, rng: np.random.Generator
    ) -> Pattern | None:
        pose, at, gain = p.pose, p.at_mm, float(prices_mm[family])
        if rng.random() < EXCHANGED:
            cheaper = np.flatnonzero(prices_mm[self.family_of[pose]] < gain)
            if len(cheaper):
                out = int(rng.choice(cheaper))
                gain -= float(prices_mm[self.family_of[pose[out]]])
                pose, at = np.delete(pose, out), np.delete(at, out, axis=0)
        period = p.period_mm + (WORTH * gain * rng.random() if rng.random() < 0.5 else 0.0)
        pose = np.append(pose, self.pose_of[family, 0])
        at = np.vstack([at * (period / p.period_mm, 1.0), [[0.0, 0.0]]])
        n = len(pose)
        worst = fitted_in(
            Pieces(at, pose, self.choices[pose], np.ones(n, np.bool_), np.ones((n, n))),
            Walls(self._ground.room, period, 0.0),
            Effort(ROUNDS, PATIENCE, SAMPLES, ENOUGH * self.cell_mm, int(rng.integers(1 << 30))),
            int(rng.choice(SPOTS)),
            self._ground.table,
            self._halt,
        )
        if worst > NEARLY * self.cell_mm:
            return None
        done = self.squeezed(self.pattern(p.main, pose, at, period), 8)
        if done is None or prices_mm @ done.counts / done.period_mm <= prices_mm @ p.counts / p.period_mm:
            return None
        return done


@dataclass(frozen=True, eq=False)
class Mix:
    """Patterns and how many periods of each; ``prices_mm`` of one piece of each family."""

    patterns: list[Pattern]
    periods: Array
    length_mm: float
    prices_mm: Array


def mixed(patterns: list[Pattern], demand: Array) -> Mix | None:
    """Return the mix that takes least length; None when the patterns do not hold every family."""
    if not patterns:
        return None
    made = np.array([p.counts for p in patterns]).T
    done = linprog(np.array([p.period_mm for p in patterns]), A_ub=-made, b_ub=-demand, method="highs")
    if done.status != 0:
        return None
    return Mix(patterns, done.x, float(done.fun), np.maximum(0.0, -done.ineqlin.marginals))


def generated(cylinder: Cylinder, patterns: list[Pattern], demand: Array, seed: int) -> Mix | None:
    """Return the mix when no more patterns that shorten it are found; the same seed gives the same."""
    mix = mixed(patterns, demand)
    rng = np.random.default_rng(seed)
    dry = 0
    while mix is not None and dry < DRY_ROUNDS:
        worth = np.array([float(mix.prices_mm @ p.counts) / p.period_mm for p in mix.patterns])
        mains = np.array([p.main if len(p.pose) else -1 for p in mix.patterns])
        order = np.argsort(-worth, kind="stable")
        parents = np.concatenate([order[mains[order] == f][:PARENTS] for f in range(len(demand))])
        if not len(parents):
            break
        weight = (cylinder.area_mm2 * demand)[mains[parents]] * np.exp((worth[parents] - 1.0) / MILD)
        chosen = rng.choice(parents, size=JOBS, p=weight / weight.sum())
        tried = [cylinder.filled(mix.patterns[int(k)], mix.prices_mm, rng) for k in chosen]
        better = mixed(mix.patterns + [p for p in tried if p is not None], demand)
        assert better is not None
        dry = dry + 1 if better.length_mm > (1.0 - DRY) * mix.length_mm else 0
        mix = better
    return mix


def main() -> None:
    """Print the figures of every file."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("files", nargs="+")
    parser.add_argument("--gap", type=float, default=2.0)
    parser.add_argument("--sizes", type=int, default=6)
    parser.add_argument("--seed", type=int, default=0)
    options = parser.parse_args()
    for file in options.files:
        _one(file, options)


def _one(file: str, options: argparse.Namespace) -> None:
    problem, _ = read(file, options.gap)
    dies = dies_of(problem)
    families = families_of(dies)
    across = (problem.edge_margin_mm, problem.roll.usable_width_mm - problem.edge_margin_mm)
    width = across[1] - across[0]
    demand = np.array([sum(dies[k].demand for k in f.dies) for f in families], dtype=float)
    how = {"seed": options.seed, "stop": Never()}
    chosen = groups_of(dies, families, options.gap, starts=1000, threads=1, **how)
    groups = [g for g, _ in chosen if not g.plain]
    for f, family in enumerate(families):
        rings = list(dies[at_rank(dies, family, 0.5)].rings_mm)
        found = searched(rings, options.gap, starts=1000, keep=LATTICES, **how)
        found += straight(rings, options.gap, starts=500, keep=2, **how)
        groups.append(Group(tuple((f, k) for k in range(len(rings))), tuple(found)))
    levels = [(g, levels_of(g)) for g in groups]
    middle = np.array([dies[at_rank(dies, f, 0.5)].area_mm2 for f in families])
    plane = sum(n * g.lattice.cell_mm2 for g, n in chosen)
    print(f"{file}: densest cells {100 * float(demand @ middle) / plane:.2f} %", flush=True)
    total, lengths = 0.0, {"cut": 0.0, "filled": 0.0}
    for rank in (np.arange(options.sizes) + 0.5) / options.sizes:
        begun = time.process_time()
        cylinder = Cylinder(dies, families, options.gap, across, float(rank))
        patterns = [p for g, level in levels for p in cylinder.cut_from(g, level, MOST_CUTS)]
        patterns += [cylinder.in_bands(g) for g in groups if g.plain]
        cut = mixed(patterns, demand)
        filled = generated(cylinder, patterns, demand, options.seed)
        assert cut is not None and filled is not None
        area = float(demand @ cylinder.area_mm2) / width
        total += area
        lengths["cut"] += cut.length_mm
        lengths["filled"] += filled.length_mm
        print(
            f"  at {rank:.2f} of the sizes: cut {100 * area / cut.length_mm:.2f} %, filled "
            f"{100 * area / filled.length_mm:.2f} % ({time.process_time() - begun:.0f} s of processor time)",
            flush=True,
        )
    print("  all sizes: " + ", ".join(f"{k} {100 * total / v:.2f} %" for k, v in lengths.items()), flush=True)


if __name__ == "__main__":
    main()
