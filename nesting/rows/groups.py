"""Which dies belong together, and which small ones lie in the openings of which large ones.

A family is one shape in its sizes. A group is a lattice cell that a run of columns is made of:
one family alone, or a family with smaller pieces in what it leaves open. How many of each group is
a linear program: least area of cells that meets the demand, family by family, at a middle size.
"""

from __future__ import annotations

import itertools
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import linprog

from nesting.contact.penetration import depth_raster, depth_table
from nesting.dies.die import Die
from nesting.dies.family import Family, at_rank
from nesting.lattice.densest import Lattice, searched, straight
from nesting.lattice.pairs import WORTH, mirrored
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

    def count(self, family: int) -> int:
        """Pieces of a family in a cell."""
        return sum(1 for f, _ in self.roles if f == family)


def groups_of(
    dies: tuple[Die, ...],
    families: tuple[Family, ...],
    gap_mm: float,
    *,
    seed: int,
    starts: int,
    stop: Stop,
    mixing: bool = True,
    threads: int = 2,
) -> list[tuple[Group, float]]:
    """Return groups and how many cells of each: least cell area that meets the families' demand."""
    middle = [at_rank(dies, f, 0.5) for f in families]

    def found(rings: list[Array], count: int, rounds: int, keep: int, worth: float) -> tuple[Lattice, ...]:
        return tuple(
            searched(
                rings, gap_mm, seed=seed, starts=count, rounds=rounds, keep=keep, worth_mm2=worth, stop=stop
            )
        )

    def with_straight(group: Group) -> Group:
        """The group with such straight lattices as are not much looser (plain groups only)."""
        if stop() or not group.plain:
            return group
        rings = list(dies[middle[group.main]].rings_mm)
        level = straight(rings, gap_mm, seed=seed, starts=starts // 2, keep=4, stop=stop)
        good = [a for a in level if a.density > group.lattice.density - SLACK]
        return Group(group.roles, tuple(sorted((*group.lattices, *good), key=lambda a: -a.density)))

    _warm_up()
    with ThreadPoolExecutor(threads) as pool:
        alone = list(pool.map(lambda k: found(list(dies[k].rings_mm), starts, 200, 6, np.inf), middle))
        groups = [
            Group(tuple((f, p) for p in range(len(dies[middle[f]].rings_mm))), lattices)
            for f, lattices in enumerate(alone)
            if lattices
        ]
        jobs: list[tuple[tuple[tuple[int, int], ...], list[Array], float]] = []
        for f, k in enumerate(middle):
            if not alone[f] or not mixing:
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
                    rings, mixed = list(dies[k].rings_mm), [(f, p) for p in range(poses)]
                    for _ in range(times):
                        rings += list(dies[middle[g]].rings_mm)
                        mixed += [(g, p) for p in range(len(other[0].rings_mm))]
                    worth = base.cell_mm2 + times * other[0].cell_mm2 * poses / len(other[0].rings_mm)
                    jobs.append((tuple(mixed), rings, worth))
        jobs += _pairs(dies, middle, alone) if mixing else []
        # where most stays open, most is to be won: that first, should the time run out
        jobs.sort(key=lambda j: -dies[middle[j[0][0][0]]].area_mm2)
        for (roles, _, _), lattices in zip(
            jobs, pool.map(lambda j: found(j[1], starts // 2, 160, 4, j[2]), jobs), strict=True
        ):
            if lattices:
                groups.append(Group(roles, lattices))
        chosen = _chosen(dies, families, groups)
        return list(zip(pool.map(with_straight, [g for g, _ in chosen]), [n for _, n in chosen], strict=True))


def _pairs(
    dies: tuple[Die, ...], middle: list[int], alone: list[tuple[Lattice, ...]]
) -> list[tuple[tuple[tuple[int, int], ...], list[Array], float]]:
    """Cells of left and right of one piece together: roles, rings, and what they take each alone."""
    jobs: list[tuple[tuple[tuple[int, int], ...], list[Array], float]] = []
    for f, g in itertools.combinations(range(len(middle)), 2):
        one, two = dies[middle[f]], dies[middle[g]]
        if not alone[f] or not alone[g] or len(one.rings_mm) != len(two.rings_mm):
            continue
        poses = len(one.rings_mm)
        if poses > 2 or not any(mirrored(one.rings_mm[0], ring) for ring in two.rings_mm):
            continue
        apart = (alone[f][0].cell_mm2 + alone[g][0].cell_mm2) / poses
        for p in range(poses):
            jobs.append((((f, 0), (g, p)), [one.rings_mm[0], two.rings_mm[p]], apart * (1.0 - WORTH)))
    return jobs


def _chosen(
    dies: tuple[Die, ...], families: tuple[Family, ...], groups: list[Group]
) -> list[tuple[Group, float]]:
    """How many cells of each group: least cell area that meets the demand; none if nothing does."""
    if not groups:
        return []
    demand = np.array([sum(dies[k].demand for k in f.dies) for f in families], dtype=float)
    made = np.array([[g.count(f) for g in groups] for f in range(len(families))], dtype=float)
    cost = np.array([g.lattice.cell_mm2 for g in groups])
    done = linprog(cost, A_ub=-made, b_ub=-demand, method="highs")
    if done.status != 0:
        return []
    return [(g, float(n)) for g, n in zip(groups, done.x, strict=True) if n > 1e-6]


def _warm_up() -> None:
    """Run everything that is compiled once before threads do: numba 0.68 may hand a second thread
    a function that is not wholly loaded ("'descr' is NULL")."""
    triangle = np.array([[0.0, 0.0], [9.0, 0.0], [3.0, 7.0]])
    straight([triangle, -triangle], 1.0, starts=2)
    searched([triangle, -triangle], 1.0, starts=2, rounds=8, keep=1)
    depth_table([triangle, -triangle], 1.0, 1.0)
    depth_raster(triangle, triangle, 1.0, 1.0, False)
