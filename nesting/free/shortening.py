"""Shorten a lay as a whole: some of its length is taken out, and what then overlaps is pulled apart.

Everything right of a place taken at random moves in together; where pieces are pinned or the roll has
flaws, which stay, only what hangs out at the end does. Guided local search on sampled depths
(``compaction.separation``) pulls the pieces apart, and the result is squeezed on the true outlines. Where
that fails two large pieces change places and the search goes on from there, as in the exploration of
Gardeyn & Wauters (arXiv 2509.13329).
"""

from __future__ import annotations

import math
import threading
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from nesting.compaction.lays import PoseContacts, compact
from nesting.compaction.window import SampledGround, halting
from nesting.free.sampling import MOST_CELLS, MOST_CELLS_AROUND, WHOLE, cell_mm
from nesting.free.turns import turns_of
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.stop import Stop

Array = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST_SHARE, SPREAD = 0.01, 10.0
"""A try takes out this share of the length at most and a tenth of it at least, drawn so that each order of
size is as likely. ..."""

FIRST_SHARE, NOT_SO_MUCH = 0.05, 0.6
"""... At first it takes out as much as this, ever less each time that it fails."""

ROUNDS, PATIENCE, SAMPLES = 400, 80, 60
"""Effort of a try (more patience or samples than half of this: 0.5 to 1.5 points of yield in 8 s on 90 to
112 pieces; twice as much brings no more, measured)."""

CHANGES = 7
"""So often two pieces change places before another try is begun from the best lay."""

LARGE = 0.5
"""The pieces that change places are of this share, the largest."""

BEHIND = 0.003
"""A thread goes over to the best lay when its own is longer by this share: nearer, it goes its own way."""

STEPS = 20
"""Steps of the squeeze of what was pulled apart."""

AROUND = "shortened around"
"""What a lay says of this where something is fixed; WHOLE elsewhere."""


class SampledPoses:
    """The poses in which the pieces of ``placements`` lie or may be laid, and sampled depths of all pairs."""

    def __init__(
        self, problem: LayProblem, placements: Sequence[Placement], contacts: PoseContacts, *, workers: int
    ) -> None:
        self.keys, self.ways = _poses_of(problem, placements)
        which = [contacts.pose(*key) for key in self.keys]
        self.flaws = list(range(len(which), len(which) + len(problem.roll.flaws)))
        which += [contacts.flaw(flaw.ring_mm) for flaw in problem.roll.flaws]
        across = (problem.edge_margin_mm, problem.roll.usable_width_mm - problem.edge_margin_mm)
        size_mm = contacts.high[which] - contacts.low[which]
        fixed = self.flaws or any(at.pinned for at in placements)
        cell = cell_mm(size_mm, MOST_CELLS_AROUND if fixed else MOST_CELLS)
        self.ground = SampledGround.of(
            contacts, np.array(which), problem.gap_mm, across, cell, workers=workers
        )
        self.box_mm2 = size_mm.prod(axis=1)

    def hold(self, placements: Sequence[Placement]) -> bool:
        """Whether each piece lies in one of these poses."""
        return {(at.item_id, at.turn_deg) for at in placements} <= set(self.keys)


def shorten(
    problem: LayProblem,
    lay: Lay,
    contacts: PoseContacts,
    *,
    seed: int,
    stop: Stop,
    better: Callable[[Lay], None],
    tries: int,
    workers: int = 1,
    sampled: SampledPoses | None = None,
) -> Lay:
    """Return the shortest lay found within ``tries`` for each worker, or until it is time to stop.

    ``better`` is called with each lay shorter than all before, by one thread at a time. ``sampled`` is of
    another lay of the problem; made here if None, or if it does not hold the poses of this one. One worker
    finds the same again; several do not, since each goes on from what others have found.
    """
    if sampled is None or not sampled.hold(lay.placements):
        sampled = SampledPoses(problem, lay.placements, contacts, workers=workers)
    found = _Shortening(problem, lay, contacts, sampled, seed, stop, better)
    with halting(stop) as halt, ThreadPoolExecutor(max(1, workers)) as threads:
        list(threads.map(lambda number: found.search(number, tries, halt), range(max(1, workers))))
    return found.best


class _Shortening:
    """The best lay, and what every thread needs to shorten it."""

    def __init__(
        self,
        problem: LayProblem,
        lay: Lay,
        contacts: PoseContacts,
        sampled: SampledPoses,
        seed: int,
        stop: Stop,
        better: Callable[[Lay], None],
    ) -> None:
        self._problem, self._contacts, self._seed, self._stop = problem, contacts, seed, stop
        self._better, self._one_at_a_time = better, threading.Lock()
        self.best = lay
        self._pieces = lay.placements
        self._sampled, self._ground = sampled, sampled.ground
        self._number = {key: n for n, key in enumerate(sampled.keys)}
        self._fixed = np.array([at.pinned for at in lay.placements] + [True] * len(sampled.flaws), np.bool_)
        self._choices = self._poses_allowed()

    def search(self, number: int, tries: int, halt: NDArray[np.uint8]) -> None:
        """Try so often to shorten the best lay; ``number`` makes each thread's chance another."""
        chance = np.random.default_rng((self._seed, number))
        own, failed = self.best, CHANGES + 1
        at, pose, length_mm = self._arrays(own.placements), self._poses(own.placements), 0.0
        share = FIRST_SHARE
        for _ in range(tries):
            if self._stop():
                return
            if failed > CHANGES:
                failed = 0
                if self.best.length_mm < own.length_mm * (1.0 - BEHIND):
                    own = self.best
                at, pose = self._arrays(own.placements), self._poses(own.placements)
                taken = share * math.exp(-chance.random() * math.log(SPREAD))
                length_mm = self._taken_out(at, pose, own.length_mm, taken, chance)
            else:
                self._change_places(at, pose, chance)
            moved = self._pulled_apart(at, pose, length_mm, int(chance.integers(1 << 30)), halt)
            found_mm = math.inf if moved is None else self._problem.length_of_mm(moved)
            if moved is None or found_mm >= own.length_mm - 1e-6:
                failed += 1
                if share > MOST_SHARE:
                    share, failed = max(MOST_SHARE, NOT_SO_MUCH * share), CHANGES + 1
                continue
            own = self._keep(replace(own, placements=moved, length_mm=found_mm))
            failed = CHANGES + 1

    def _keep(self, lay: Lay) -> Lay:
        how = AROUND if self._fixed.any() else WHOLE
        if how not in lay.engine:
            lay = replace(lay, engine=f"{lay.engine}, {how}")
        with self._one_at_a_time:
            if lay.length_mm < self.best.length_mm:
                self.best = lay
                self._better(lay)
        return lay

    # -------------------------------------------------------------- one try

    def _arrays(self, placements: Sequence[Placement]) -> Array:
        start = self._problem.end_margin_mm
        return np.array(
            [(p.x_mm - start, p.y_mm) for p in placements] + [(-start, 0.0)] * len(self._sampled.flaws)
        )

    def _poses(self, placements: Sequence[Placement]) -> Ints:
        return np.array([self._number[at.item_id, at.turn_deg] for at in placements] + self._sampled.flaws)

    def _taken_out(
        self, at: Array, pose: Ints, length_mm: float, share: float, chance: np.random.Generator
    ) -> float:
        """Take a share of the length out in place; returns what is left between the margins."""
        room = self._ground.room
        length_mm -= 2.0 * self._problem.end_margin_mm
        left_mm = length_mm * (1.0 - share)
        if not self._fixed.any():
            middle = at[:, 0] + (room[pose, 1] - room[pose, 0]) / 2.0
            at[middle > chance.random() * length_mm, 0] -= length_mm - left_mm
        self._within(at, pose, left_mm)
        return left_mm

    def _change_places(self, at: Array, pose: Ints, chance: np.random.Generator) -> None:
        """Let two large pieces change places."""
        free = np.flatnonzero(~self._fixed)
        largest_first = free[np.argsort(-self._sampled.box_mm2[pose[free]], kind="stable")]
        large = largest_first[: max(2, round(LARGE * len(free)))]
        if len(large) < 2:
            return
        room = self._ground.room
        one, other = chance.choice(large, 2, replace=False)
        low, high = self._contacts.low, self._contacts.high
        of = self._ground.which[pose[[one, other]]]
        middle = at[[one, other]] + (low[of] + high[of]) / 2.0
        at[one] += middle[1] - middle[0]
        at[other] -= middle[1] - middle[0]
        at[:, 1] = np.where(
            self._fixed, at[:, 1], np.minimum(np.maximum(at[:, 1], room[pose, 2]), room[pose, 3])
        )

    def _within(self, at: Array, pose: Ints, length_mm: float) -> None:
        """Bring what hangs out at the ends in."""
        room, free = self._ground.room, ~self._fixed
        limit = length_mm - room[pose[free], 1]
        at[free, 0] = np.minimum(np.maximum(at[free, 0], room[pose[free], 0]), limit)

    def _pulled_apart(
        self, at: Array, pose: Ints, length_mm: float, seed: int, halt: NDArray[np.uint8]
    ) -> tuple[Placement, ...] | None:
        """Return the pieces pulled apart and squeezed, or None; ``at`` and ``pose`` change in place."""
        room = self._ground.room[pose[~self._fixed]]
        if (room[:, 0] + room[:, 1] > length_mm).any():
            return None
        self._within(at, pose, length_mm)
        done = self._ground.separate(
            at,
            pose,
            self._choices,
            free=~self._fixed,
            length_mm=length_mm,
            rounds=ROUNDS,
            patience=PATIENCE,
            samples=SAMPLES,
            seed=seed,
            halt=halt,
        )
        if not done:
            return None
        start = self._problem.end_margin_mm
        loose = tuple(
            p
            if p.pinned
            else Placement(p.item_id, self._sampled.keys[int(k)][1], float(x) + start, float(y), pinned=False)
            for p, k, (x, y) in zip(self._pieces, pose, at, strict=False)
        )
        return compact(self._problem, loose, contacts=self._contacts, steps=STEPS, stop=self._stop)

    def _poses_allowed(self) -> Ints:
        """Return the poses each piece may take (-1 padded), flaws theirs."""
        widest = max(len(way) for way in self._sampled.ways.values())
        choices = np.full((len(self._pieces) + len(self._sampled.flaws), widest), -1)
        for row, p in enumerate(self._pieces):
            way = [self._number[p.item_id, turn] for turn in self._sampled.ways[p.item_id]]
            choices[row, : len(way)] = way
        for row, flaw in enumerate(self._sampled.flaws, start=len(self._pieces)):
            choices[row, 0] = flaw
        return choices


def _poses_of(
    problem: LayProblem, placements: Sequence[Placement]
) -> tuple[list[tuple[str, float]], dict[str, tuple[float, ...]]]:
    """Return every item and turn that is laid or allowed, and what each item laid may take."""
    laid = {at.item_id for at in placements}
    ways = {item.id: _turns(item) for item in problem.items if item.id in laid}
    used = sorted({(at.item_id, at.turn_deg) for at in placements})
    allowed = [(item_id, turn) for item_id, turns in ways.items() for turn in turns]
    return list(dict.fromkeys([*allowed, *used])), ways


def _turns(item: Item) -> tuple[float, ...]:
    """Turns a piece may take: those allowed, and the ends of what is granted about each."""
    granted = item.turn_tolerance_deg if item.turns_deg is not None else 0.0
    leans = (0.0, -granted, granted) if granted else (0.0,)
    return tuple(turn + lean for turn in turns_of(item) for lean in leans)
