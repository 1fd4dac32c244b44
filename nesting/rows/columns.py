"""Bands of lattice columns set down one against the other along the roll."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from geometry.outline import ring_area_mm2
from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.compaction.strip import Strip
from nesting.dies.die import Die
from nesting.dies.family import Family
from nesting.lattice.bands import levelled
from nesting.lattice.graded import graded, graded_runs
from nesting.rows.gathering import WINDOW, gathered
from nesting.rows.groups import SLACK, Group
from nesting.rows.skyline import Fronts
from nesting.stop import Never, Stop
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST_VARIANTS = 5
"""Lattices of a group that are tried on the roll."""

WEIGHED = 16
"""Cuts of a band that are tried behind everything, when none joins what lies before it."""

CELLS = 48.0
"""Depths are sampled so many times in the smaller side of the middle piece, or some times coarser."""

USUAL = 0.8
"""Density of a lattice where none was found for a piece by itself."""

TRUST = 2.5
"""Cells that a piece may move in the first step of pulling together."""


@dataclass(frozen=True, eq=False)
class Cell:
    """A lattice ready to be cut: poses (into the strip's contacts), offsets, periods."""

    pose: Ints
    at_mm: Array
    u_mm: Array
    v_mm: Array


@dataclass(frozen=True, eq=False)
class CutBand:
    """A band cut from a lattice, its left end at x = 0; ``taken`` main pieces of the queue."""

    pose: Ints
    at_mm: Array
    taken: int
    worth: float


class Columns:
    """Lays bands of groups on a strip and keeps count of what is left to lay.

    While ``hurry`` says so bands are set down as they are, without pulling them together.
    """

    def __init__(
        self,
        dies: tuple[Die, ...],
        families: tuple[Family, ...],
        gap_mm: float,
        across_mm: tuple[float, float],
        stop: Stop,
    ) -> None:
        self.hurry: Stop = Never()
        self.dies, self.families, self.gap_mm, self.across, self.stop = (
            dies,
            families,
            gap_mm,
            across_mm,
            stop,
        )
        self.place_of = {k: (f, i) for f, fam in enumerate(families) for i, k in enumerate(fam.dies)}
        self.pose_of: dict[tuple[int, int], int] = {}
        self.die_at: list[tuple[int, int]] = []
        rings: list[Array] = []
        for d, die in enumerate(dies):
            for k, ring in enumerate(die.rings_mm):
                self.pose_of[d, k] = len(rings)
                self.die_at.append((d, k))
                rings.append(ring)
        self.contacts = Contacts(rings)
        self.die_of = np.array([d for d, _ in self.die_at])
        self.kind_of = np.array([k for _, k in self.die_at])
        self.area = np.array([abs(ring_area_mm2(r)) for r in rings])
        self.cloth_mm2 = self.area / USUAL
        self.strip = Strip(self.contacts, gap_mm, across_mm)
        self.left = Counter({d: die.demand for d, die in enumerate(dies)})
        self.cell_mm = float(np.median([min(d.size_mm) for d in dies])) / CELLS
        self.largest_mm = max(max(d.size_mm) for d in dies)
        self._hooked: set[int] = set()
        self._fronts = Fronts(self.contacts, gap_mm, across_mm)
        self._cells: dict[tuple[int, tuple[int, ...]], list[Cell]] = {}
        self._variants: dict[int, list[Arrangement]] = {}

    def in_one(self, group: Group) -> float:
        """Return how many pieces of a group's main family, in its largest size, a column holds."""
        largest = self.dies[self.families[group.main].dies[-1]]
        width = self.across[1] - self.across[0]
        return width * largest.size_mm[0] * group.count(group.main) / group.lattice.cell_mm2

    @property
    def asked_poses(self) -> set[int]:
        """The poses of the dies that are asked for."""
        return {p for (d, _), p in self.pose_of.items() if self.dies[d].demand}

    def choices_of(self, pose: int) -> list[int]:
        """The poses a piece in this pose may take."""
        d = int(self.die_of[pose])
        return [self.pose_of[d, k] for k in range(len(self.dies[d].rings_mm))]

    def lay_group(self, number: int, group: Group, amounts: list[tuple[int, int]]) -> None:
        """Lay ``amounts`` (die, pieces) of a group's main family, in that order, band by band."""
        if group.plain:
            ks = [p for p, d in enumerate(self.die_of) if int(d) in self.families[group.main].dies]
            self.cloth_mm2[ks] = self.area[ks] / group.lattice.density
        queue: list[int] = []
        cell = group.lattice.cell_mm2 / group.count(group.main)
        width = self.across[1] - self.across[0]
        for first, end in self._runs(group, amounts):
            queue += [d for d, n in amounts[first:end] for _ in range(n)]
            last = end == len(amounts)
            column = width * self.dies[amounts[end - 1][0]].size_mm[0] / cell
            while queue and (last or len(queue) >= 1.5 * column):
                if self.stop():
                    return
                taken = self._band(number, group, queue, last)
                if not taken and group.main in self._hooked:  # nor the few that are left of several sizes
                    taken = self._band(number, group, queue[: queue.count(queue[0])], True)
                elif not taken:  # sizes that interlock do not share a lattice
                    self._hooked.add(group.main)
                    self.lay_group(number, group, [(d, queue.count(d)) for d in dict.fromkeys(queue)])
                    rest = amounts[end:]
                    if rest:
                        self.lay_group(number, group, rest)
                    return
                queue = queue[taken:]
                if not last:
                    break

    def _runs(self, group: Group, amounts: list[tuple[int, int]]) -> list[tuple[int, int]]:
        """Which of the sizes, in their order, are laid in one lattice."""
        single = [(i, i + 1) for i in range(len(amounts))]
        if not group.plain or group.main in self._hooked or self.hurry():
            return single
        loose = (
            group.lattice.cell_mm2 / group.count(group.main) / abs(ring_area_mm2(group.lattice.rings_mm[0]))
        )
        sizes = [(self.dies[d].size_mm[0], self.dies[d].area_mm2, n) for d, n in amounts]
        return graded_runs(sizes, loose, self.across[1] - self.across[0])

    def _band(self, number: int, group: Group, queue: list[int], last: bool) -> int:
        die = max(queue, key=lambda d: self.dies[d].area_mm2)
        family, place = self.place_of[die]
        share = (place + 0.5) / len(self.families[family].dies)
        poses: list[int] = []
        pick: dict[int, int] = {}
        for f, k in group.roles:
            if f != group.main and f not in pick:
                pick[f] = self._filler(f, share)
            poses.append(self.pose_of[die if f == group.main else pick[f], k])
        cells = self._cells_of(number, group, tuple(poses))
        fillers = {d: self.left[d] for d in pick.values()}
        n0 = len(self.strip.pose)
        taken = self._set_down(cells, die, queue, last, fillers)
        for d in self.die_of[self.strip.pose[n0:]].tolist():
            self.left[d] -= 1
        return taken

    def _filler(self, family: int, share: float) -> int:
        """The die of a family that goes with mains of that rank: none larger, if any is left."""
        ks = self.families[family].dies
        want = min(len(ks) - 1, int(share * len(ks)))
        return next((ks[k] for k in range(want, -1, -1) if self.left[ks[k]] > 0), ks[want])

    def _cells_of(self, number: int, group: Group, poses: tuple[int, ...]) -> list[Cell]:
        """The group's lattices for some dies: as found and bent level, squeezed for these sizes."""
        hit = self._cells.get((number, poses))
        if hit is not None:
            return hit
        if number not in self._variants:
            self._variants[number] = self._variants_of(group)
        base = group.lattice.rings_mm[0]
        extent = np.ptp(self.contacts.rings[poses[0]], axis=0)
        ratio = extent / np.ptp(base, axis=0)
        index = np.array(poses)
        found = []
        for a in self._variants[number][: 1 if self.hurry() else None]:
            if self.stop():
                break
            scaled = replace(a, pose=index, at_mm=a.at_mm * ratio, basis_mm=a.basis_mm * ratio)
            done = tighten(
                self.contacts, scaled, self.gap_mm + SPARE_MM, trust_mm=0.02 * float(extent.max()), steps=6
            )
            if done is not None and shortfall(self.contacts, done, self.gap_mm) < SPARE_MM / 2:
                found.append(Cell(index, done.at_mm, done.basis_mm[0], done.basis_mm[1]))
        self._cells[number, poses] = found
        return found

    def _variants_of(self, group: Group) -> list[Arrangement]:
        found: list[Arrangement] = []
        for lattice in group.lattices:
            own = Contacts(lattice.rings_mm)
            raw = Arrangement(
                np.arange(len(lattice.rings_mm)), lattice.at_mm, np.array([lattice.u_mm, lattice.v_mm])
            )
            size = float(max(np.ptp(r[:, 0]) for r in lattice.rings_mm))
            found += [raw, *levelled(own, lattice, longest_mm=3.0 * size, most=2, stop=self.stop)]
        least = min(a.measure for a in found)
        found = [a for a in found if a.measure < (1.0 + SLACK) * least]
        return sorted(found, key=lambda a: a.measure)[:MOST_VARIANTS]

    def _copies(self, cell: Cell, cells: float) -> Iterator[tuple[Ints, Array]]:
        """Copies of a lattice between the edges at each of its phases, from x = 0 on, in order of their right
        ends."""
        u, v = cell.u_mm, cell.v_mm
        low, high = self.contacts.low[cell.pose], self.contacts.high[cell.pose]
        a0, a1 = self.across
        length = 1.4 * cells * abs(u[0] * v[1] - u[1] * v[0]) / (a1 - a0) + 2.5 * float(
            (high - low)[:, 0].max()
        )
        aside = float(np.abs(cell.at_mm).max()) + self.largest_mm
        corners = np.array([[x, y] for x in (-aside, length) for y in (a0 - aside, a1 + aside)])
        basis = np.array([u, v])
        ij = corners @ np.linalg.inv(basis)
        i = np.arange(int(ij[:, 0].min()) - 1, int(ij[:, 0].max()) + 2)
        j = np.arange(int(ij[:, 1].min()) - 1, int(ij[:, 1].max()) + 2)
        grid = np.stack(np.meshgrid(i, j, indexing="ij"), axis=-1).reshape(-1, 2) @ basis
        most = np.abs(basis).sum(axis=0)  # by which a phase moves them
        grid = grid[(grid > (-aside - most[0], a0 - aside - most[1])).all(axis=1)]
        grid = grid[(grid < (length + aside + most[0], a1 + aside + most[1])).all(axis=1)]
        role = np.repeat(np.arange(len(cell.pose)), len(grid))
        at = np.concatenate([grid + t for t in cell.at_mm])
        # a phase moves all copies alike: their order stays
        order = np.argsort(at[:, 0] + high[role, 0], kind="stable")
        role, at = role[order], at[order]
        for fx in np.arange(6) / 6:
            for fy in np.arange(12) / 12:
                here = at + (fx * u + fy * v)
                ok = (
                    (here[:, 1] + low[role, 1] >= a0)
                    & (here[:, 1] + high[role, 1] <= a1)
                    & (here[:, 0] + low[role, 0] >= 0)
                    & (here[:, 0] < length + aside)
                )
                yield role[ok], here[ok]

    def _cuts(
        self, cells: list[Cell], die: int, queue: list[int], last: bool, fillers: dict[int, int]
    ) -> list[CutBand]:
        """Bands of the queue's pieces (all of them when ``last``, else up to a column fewer), best first."""
        found: list[CutBand] = []
        most = len(queue)
        width = float(np.ptp(self.contacts.rings[self.pose_of[die, 0]][:, 0]))
        by_kind = np.array([[self.pose_of[d, k] for k in range(len(self.dies[d].rings_mm))] for d in queue])
        high = self.contacts.high[:, 0]
        for cell in cells:
            if self.stop() and found:
                break
            main_role = self.die_of[cell.pose] == die
            for role, at in self._copies(cell, most / main_role.sum()):
                pose = cell.pose[role]
                mains = np.flatnonzero(main_role[role])[:most]
                if len(mains) < most:
                    continue
                right = at[:, 0] + high[pose]
                start = float((at[mains, 0] + self.contacts.low[pose[mains], 0]).min())
                column = int(np.searchsorted(right[mains], right[mains[0]] + 0.6 * width))
                least = most if last else max(1, most - column + 1)
                counts = np.arange(least, most + 1)
                n = int(counts[np.argmax(counts / (right[mains[least - 1 :]] - start))])
                mains = mains[:n]
                keep = np.zeros(len(pose), bool)
                keep[mains] = True
                out = pose.copy()
                out[mains] = by_kind[np.arange(n), self.kind_of[pose[mains]]]
                edge = right[mains[-1]]
                for d, amount in fillers.items():
                    keep[np.flatnonzero((self.die_of[pose] == d) & (right <= edge))[:amount]] = True
                out, put = out[keep], at[keep]
                if queue[0] != queue[-1]:
                    put = graded(put, high[out] / high[pose[keep]], width)
                put = put - ((put[:, 0] + self.contacts.low[out, 0]).min(), 0.0)
                reach = float((put[:, 0] + high[out]).max())
                found.append(CutBand(out, put, n, float(self.area[out].sum()) / reach))
        found.sort(key=lambda c: -c.worth)
        return found

    def _set_down(
        self, cells: list[Cell], die: int, queue: list[int], last: bool, fillers: dict[int, int]
    ) -> int:
        """Add the band that lies best against the front; returns how many of the queue it took."""
        strip = self.strip
        cuts = self._cuts(cells, die, queue, last, fillers)
        if not cuts:  # no lattice for these dies: one piece at a time behind everything
            pose = self.pose_of[queue[0], 0]
            x = strip.end_mm + self.gap_mm * bool(len(strip.pose)) - self.contacts.low[pose, 0]
            strip.add(np.array([pose]), np.array([[x, self.across[0] - self.contacts.low[pose, 1]]]))
            return 1
        n0 = len(strip.pose)
        ranked = self._against_front(cuts) if n0 else [(c, 0.0) for c in cuts]
        sizes = len(set(queue[: cuts[0].taken]))
        for cut, shift in ranked[: 3 if sizes <= 2 else 1]:
            strip.add(cut.pose, cut.at_mm + (shift, 0.0))
            if self._joined(n0, sizes > 1) and not self.stop():  # stopped half way, it may still overlap
                return cut.taken
            strip.drop(n0)
        if sizes > 2:
            return 0
        end = strip.end_mm + self.gap_mm * bool(n0)
        for cut in cuts[: WEIGHED if sizes == 1 else 1]:
            if self.stop():
                return 1
            strip.add(cut.pose, cut.at_mm + (end, 0.0))
            if self._joined(n0, sizes > 1) and not self.stop():
                return cut.taken
            strip.drop(n0)
        cut = cuts[0]  # its pieces are of different sizes and cannot be separated: the first of them alone
        strip.add(
            cut.pose[:1], cut.at_mm[:1] - (cut.at_mm[0, 0] + self.contacts.low[cut.pose[0], 0] - end, 0.0)
        )
        return 1

    def _against_front(self, cuts: list[CutBand]) -> list[tuple[CutBand, float]]:
        """Each cut with the least shift that clears what lies before it, best first."""
        strip = self.strip
        near = strip.at_mm[:, 0] + self.contacts.high[strip.pose, 0] > strip.end_mm - 4.0 * self.largest_mm
        _, front = self._fronts.reach(strip.pose[near], strip.at_mm[near])
        solid = np.where(np.isfinite(front), front, 0.0)
        full = max(cut.worth for cut in cuts)
        ranked = []
        for cut in cuts:
            left, right = self._fronts.reach(cut.pose, cut.at_mm)
            shift = max(0.0, float((front - left).max()))
            reach = np.maximum(right + shift, solid)
            used = 0.7 * reach.mean() + 0.3 * float(reach.max())
            worth = float(self.area[cut.pose].sum()) / full
            ranked.append((used - worth, cut, shift))
        ranked.sort(key=lambda r: r[0])
        return [(cut, shift) for _, cut, shift in ranked]

    def _joined(self, first: int, graded: bool) -> bool:
        """Pull a new band (pieces ``first``.. of the arrays) against what lies before it."""
        if self.hurry() and not graded:
            return True
        new = len(self.strip.pose) - first
        if graded or new <= 2 * WINDOW:
            return self.gather(first)
        # a long band's inside is a tight lattice already: only its first columns meet others
        return self.gather(first, most=WINDOW)

    def gather(self, first: int = 0, most: int | None = None) -> bool:
        """Pull pieces together (``gathering.gathered``); False when a window will not."""
        trust_mm = TRUST * self.cell_mm
        return gathered(self.strip, self._fronts, trust_mm=trust_mm, first=first, most=most, stop=self.stop)
