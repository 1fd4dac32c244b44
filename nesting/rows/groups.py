"""Which dies belong together, and which small ones lie in the openings of which large ones.

A family is one shape in its sizes. A group is a lattice cell that a run of columns is made of:
one family alone, or a family with smaller pieces in what it leaves open. How many of each group is
a linear program: least area of cells that meets the demand, family by family, at a middle size.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.compaction.program import Rows, least
from nesting.contact.penetration import depth_raster, depth_table
from nesting.dies.die import Die
from nesting.dies.family import Family, at_rank
from nesting.lattice.densest import Lattice, searched, straight
from nesting.lattice.pairs import WORTH, mirrored, of_other_hand
from nesting.stop import Stop

Array = NDArray[np.float64]

SLACK = 0.03
"""A lattice that much looser than the densest may still fit the roll's width better."""


@dataclass(frozen=True, eq=False)
class Group:
    """A lattice cell: ``roles[k]`` is (family, pose) of the lattice's ring k, the main family first.

    ``lattices`` are those of the middle sizes, densest first: the roll's width decides among them.
    """

    roles: tuple[tuple[int, int], ...]
    lattices: tuple[Lattice, ...]

    @property
    def lattice(self) -> Lattice:
        """The densest."""
        return self.lattices[0]

    @property
    def main(self) -> int:
        """The family that the columns are counted by."""
        return self.roles[0][0]

    @property
    def plain(self) -> bool:
        """Whether it is one family alone."""
        return all(f == self.main for f, _ in self.roles)

    def with_others(self, lattices: tuple[Lattice, ...]) -> Group:
        """The group with such of these lattices too as are not much looser than its densest."""
        good = [each for each in lattices if each.density > self.lattice.density - SLACK]
        return Group(self.roles, tuple(sorted((*self.lattices, *good), key=lambda each: -each.density)))

    def count(self, family: int) -> int:
        """Pieces of a family in a cell."""
        return sum(1 for f, _ in self.roles if f == family)


Search = Callable[["Job"], tuple[Lattice, ...]]


def groups_of(
    dies: tuple[Die, ...],
    families: tuple[Family, ...],
    gap_mm: float,
    *,
    seed: int,
    starts: int,
    stop: Stop,
    quick: bool = False,
    threads: int = 2,
) -> list[tuple[Group, float]]:
    """Return groups and how many cells of each: least cell area that meets the families' demand.

    ``quick``: of one family each, and without lattices that lie level on the roll.
    """
    middle = [at_rank(dies, f, 0.5) for f in families]
    hands = _other_hands(dies, middle)

    def cells_of(starts: int, rounds: int, keep: int) -> Search:
        return lambda job: tuple(
            searched(
                job.rings,
                gap_mm,
                seed=seed,
                starts=starts,
                rounds=rounds,
                keep=keep,
                worth_mm2=job.worth_mm2,
                stop=stop,
            )
        )

    def level(job: Job) -> tuple[Lattice, ...]:
        """Straight lattices; none where the time is up."""
        if stop():
            return ()
        return tuple(straight(job.rings, gap_mm, seed=seed, starts=starts // 2, keep=4, stop=stop))

    def all_found(jobs: list[Job], search: Search) -> list[tuple[Lattice, ...]]:
        """Search for each job, but of two that mirror each other only for the first."""
        place = {job.roles: n for n, job in enumerate(jobs)}
        like = [min(n, place.get(job.of_other_hand(hands), n)) for n, job in enumerate(jobs)]
        first = [n for n in range(len(jobs)) if like[n] == n]
        known = dict(zip(first, pool.map(lambda n: search(jobs[n]), first), strict=True))

        def mirrored_or_found(n: int) -> tuple[Lattice, ...]:
            image = of_other_hand(known[like[n]], jobs[n].rings)
            return search(jobs[n]) if image is None else image

        rest = [n for n in range(len(jobs)) if like[n] != n]
        known |= dict(zip(rest, pool.map(mirrored_or_found, rest), strict=True))
        return [known[n] for n in range(len(jobs))]

    _warm_up()
    with ThreadPoolExecutor(threads) as pool:
        plain = [Job.of(dies, middle, [f]) for f in range(len(families))]
        alone = all_found(plain, cells_of(starts, 200, 6))
        groups = [Group(job.roles, lattices) for job, lattices in zip(plain, alone, strict=True) if lattices]
        jobs: list[Job] = []
        for f, k in enumerate(middle):
            if not alone[f] or quick:
                continue
            base = alone[f][0]
            poses = len(base.rings_mm)
            opening = base.cell_mm2 / poses - dies[k].area_mm2
            for g, other in enumerate(alone):
                if g == f or not other:
                    continue
                for times in (1, 2):
                    if times * dies[middle[g]].area_mm2 > opening:
                        continue
                    worth = base.cell_mm2 + times * other[0].cell_mm2 * poses / len(other[0].rings_mm)
                    jobs.append(Job.of(dies, middle, [f, *times * [g]], worth))
        jobs += [] if quick else _pairs(dies, middle, alone)
        # where most stays open, most is to be won: that first, should the time run out
        jobs.sort(key=lambda job: -dies[middle[job.roles[0][0]]].area_mm2)
        mixed = zip(jobs, all_found(jobs, cells_of(starts // 2, 160, 4)), strict=True)
        groups += [Group(job.roles, lattices) for job, lattices in mixed if lattices]
        chosen = _chosen(dies, families, groups)
        if quick:
            return chosen
        alike = [plain[group.main] for group, _ in chosen if group.plain]
        straight_of = dict(zip((job.roles for job in alike), all_found(alike, level), strict=True))
    return [(group.with_others(straight_of.get(group.roles, ())), n) for group, n in chosen]


@dataclass(frozen=True, eq=False)
class Job:
    """A cell to search for: its ``roles`` and ``rings``, and the area from which it is not worth having."""

    roles: tuple[tuple[int, int], ...]
    rings: list[Array]
    worth_mm2: float

    @staticmethod
    def of(dies: tuple[Die, ...], middle: list[int], families: list[int], worth_mm2: float = np.inf) -> Job:
        """Return the cell of every pose of these families, one after the other."""
        roles = tuple((f, p) for f in families for p in range(len(dies[middle[f]].rings_mm)))
        return Job(roles, [dies[middle[f]].rings_mm[p] for f, p in roles], worth_mm2)

    def of_other_hand(self, hands: dict[int, int]) -> tuple[tuple[int, int], ...]:
        """The roles of its mirror image, none where a piece has no other hand."""
        if any(f not in hands for f, _ in self.roles):
            return ()
        return tuple((hands[f], p) for f, p in self.roles)


def _other_hands(dies: tuple[Die, ...], middle: list[int]) -> dict[int, int]:
    """The family that each family's pieces mirror, pose by pose: itself where they are symmetrical."""
    found: dict[int, int] = {}
    for f, g in itertools.combinations_with_replacement(range(len(middle)), 2):
        one, two = dies[middle[f]].rings_mm, dies[middle[g]].rings_mm
        if f in found or g in found or len(one) != len(two):
            continue
        if all(mirrored(a, b) for a, b in zip(one, two, strict=True)):
            found |= {f: g, g: f}
    return found


def _pairs(dies: tuple[Die, ...], middle: list[int], alone: list[tuple[Lattice, ...]]) -> list[Job]:
    """Cells of left and right of one piece together."""
    jobs: list[Job] = []
    for f, g in itertools.combinations(range(len(middle)), 2):
        one, two = dies[middle[f]], dies[middle[g]]
        if not alone[f] or not alone[g] or len(one.rings_mm) != len(two.rings_mm):
            continue
        poses = len(one.rings_mm)
        if poses > 2 or not any(mirrored(one.rings_mm[0], ring) for ring in two.rings_mm):
            continue
        apart = (alone[f][0].cell_mm2 + alone[g][0].cell_mm2) / poses
        for p in range(poses):
            jobs.append(Job(((f, 0), (g, p)), [one.rings_mm[0], two.rings_mm[p]], apart * (1.0 - WORTH)))
    return jobs


def _chosen(
    dies: tuple[Die, ...], families: tuple[Family, ...], groups: list[Group]
) -> list[tuple[Group, float]]:
    """How many cells of each group: least cell area that meets the demand of the families in any of them."""
    if not groups:
        return []
    made = np.array([[g.count(f) for g in groups] for f in range(len(families))], dtype=float)
    demand = np.array([sum(dies[k].demand for k in f.dies) for f in families]) * made.any(axis=1)
    cost = np.array([g.lattice.cell_mm2 for g in groups])
    rows = Rows()
    rows.add(-demand, *((k, -each) for k, each in enumerate(made.T)))
    cells = least(cost, rows, np.zeros(len(groups)), np.full(len(groups), np.inf))
    if cells is None:
        return []
    return [(g, float(n)) for g, n in zip(groups, cells, strict=True) if n > 1e-6]


def _warm_up() -> None:
    """Run everything that is compiled once before threads do: numba 0.68 may hand a second thread
    a function that is not wholly loaded ("'descr' is NULL")."""
    triangle = np.array([[0.0, 0.0], [9.0, 0.0], [3.0, 7.0]])
    straight([triangle, -triangle], 1.0, starts=2)
    searched([triangle, -triangle], 1.0, starts=2, rounds=8, keep=1)
    depth_table([triangle, -triangle], 1.0, 1.0)
    depth_raster(triangle, triangle, 1.0, 1.0, False)
