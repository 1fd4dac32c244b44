"""Shorten a strip that is already laid, window by window.

All that lies right of a window is pushed in a little; guided local search (``separation``) pulls
apart what then overlaps. It moves only pieces in conflict, so a good layout stays as it is
elsewhere. Every step that succeeds on sampled depths is finished on the true outlines (``slp.tighten``).
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon

from nesting.compaction.separation import Effort, Pieces, Walls, separate
from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.compaction.strip import Strip
from nesting.contact.cells import finest_cell_mm
from nesting.contact.penetration import DepthTable, depth_table
from nesting.stop import Stop
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Ints = NDArray[np.int64]


GIVE_UP = 2
"""A window that fails this many times in a row, each time asked for half as much, is left."""

MOST_CELLS = 12e6
"""The depths of a window are sampled more coarsely where one table of them would hold more than this (4 bytes
each)."""

BOLDER = 1.5
"""While nothing fails each try asks for this much more."""

ASK_S = 0.05
"""How often compiled work asks whether to stop."""


@contextmanager
def halting(stop: Stop) -> Iterator[NDArray[np.uint8]]:
    """Give compiled work a flag that is raised soon after ``stop`` says so."""
    halt = np.zeros(1, np.uint8)
    done = threading.Event()

    def watch() -> None:
        while not done.wait(ASK_S):
            if stop():
                halt[0] = 1
                return

    watcher = threading.Thread(target=watch, daemon=True)
    watcher.start()
    try:
        yield halt
    finally:
        done.set()
        watcher.join()


@dataclass(frozen=True, eq=False)
class SampledGround:
    """What the search knows of some poses: sampled depths and where their origins may lie.

    ``which`` (k,) are indices into ``contacts.rings``; the search numbers poses 0..k-1. ``size`` (k,) is the
    fourth root of each pose's area: an overlap counts as the product of the two pieces' (a large piece finds
    another place less easily: 2 points of yield on 50 and 64 very different pieces, measured; the samples'
    pieces are too much alike for a difference).
    """

    contacts: Contacts
    which: Ints
    table: DepthTable
    gap_mm: float
    across_mm: tuple[float, float]
    room: Array
    size: Array

    @staticmethod
    def of(
        contacts: Contacts,
        which: Ints,
        gap_mm: float,
        across_mm: tuple[float, float],
        cell_mm: float,
        *,
        workers: int = 1,
    ) -> SampledGround:
        """Sample the depths of all pairs of ``which``, in so many threads."""
        rings = [contacts.rings[k] for k in which]
        room = np.array(
            [
                [
                    -r[:, 0].min(),
                    r[:, 0].max(),
                    across_mm[0] - r[:, 1].min(),
                    across_mm[1] - r[:, 1].max(),
                    0.0,
                    min(np.ptp(r, axis=0)),
                ]
                for r in rings
            ]
        )
        table = depth_table(rings, cell_mm, gap_mm, workers)
        size = np.array([Polygon(r).area for r in rings]) ** 0.25
        return SampledGround(contacts, which, table, gap_mm, across_mm, room, size)

    @property
    def enough_mm(self) -> float:
        """Depth that the samples cannot tell from touching; the exact squeeze takes it out."""
        return 0.25 * self.table.h_mm

    def separate(
        self,
        at: Array,
        pose: Ints,
        choices: Ints,
        *,
        free: NDArray[np.bool_],
        length_mm: float,
        rounds: int,
        patience: int,
        samples: int,
        seed: int,
        halt: NDArray[np.uint8],
    ) -> bool:
        """Pull pieces apart in place (poses numbered as in ``which``); True when none overlaps."""
        counts = np.outer(self.size[pose], self.size[pose])
        worst, _ = separate(
            Pieces(at, pose, choices, free, counts / np.median(counts)),
            Walls(self.room, 0.0, length_mm),
            Effort(rounds, patience, samples, self.enough_mm, seed),
            self.table,
            halt,
        )
        return bool(worst <= self.enough_mm)


def shorten(
    strip: Strip,
    window_mm: tuple[float, float],
    choices_of: Callable[[int], list[int]],
    *,
    seed: int,
    tries: int,
    first_mm: float,
    least_mm: float,
    cell_mm: float,
    samples: int = 40,
    patience: int = 40,
    stop: Stop,
) -> float:
    """Shorten a strip inside a window of its length: what lies right of it moves left as a whole.

    Pieces that lie wholly in the window may move anywhere in it; the others hold. ``choices_of``
    says which poses a piece in a pose may take. Returns the mm won; the strip is changed in place.
    """
    contacts = strip.contacts
    low, high = contacts.low, contacts.high
    left = strip.at_mm[:, 0] + low[strip.pose, 0]
    right = strip.at_mm[:, 0] + high[strip.pose, 0]
    a, b = window_mm
    inside = (left >= a) & (right <= b)
    after = ~inside & (left + right > a + b)
    size = float((high - low)[strip.pose[inside], 0].max()) if inside.any() else 0.0
    near = inside | ((right > a - size - 20.0) & (left < b + size + 20.0))
    which = np.flatnonzero(near)
    if inside.sum() < 2:
        return 0.0
    poses = sorted(
        {q for p in set(strip.pose[inside].tolist()) for q in choices_of(p)} | set(strip.pose[which].tolist())
    )
    number = {p: k for k, p in enumerate(poses)}
    size_mm = (high - low)[poses]
    cell_mm = max(cell_mm, finest_cell_mm(size_mm, MOST_CELLS))
    ground = SampledGround.of(contacts, np.array(poses), strip.gap_mm, strip.across_mm, cell_mm)
    pose = np.array([number[p] for p in strip.pose[which].tolist()])
    most = max(len(choices_of(p)) for p in strip.pose[which].tolist())
    choices = np.full((len(which), most), -1, np.int64)
    for r, p in enumerate(strip.pose[which].tolist()):
        for c, q in enumerate(choices_of(p)):
            choices[r, c] = number[q] if q in number else number[p]
    free = inside[which]
    moves = after[which]
    origin = a
    won, take, failed = 0.0, first_mm, 0
    at = strip.at_mm[which].copy()
    for k in range(tries):
        if stop() or take < least_mm:
            break
        trial_at = at - (origin, 0.0)
        trial_at[moves, 0] -= take
        trial_pose = pose.copy()
        length = b - a - won - take
        limit = length - ground.room[trial_pose, 1]
        trial_at[free, 0] = np.clip(trial_at[free, 0], ground.room[trial_pose[free], 0], limit[free])
        with halting(stop) as halt:
            ok = ground.separate(
                trial_at,
                trial_pose,
                choices,
                free=free,
                length_mm=length,
                rounds=400,
                patience=patience,
                samples=samples,
                seed=seed * 7919 + k,
                halt=halt,
            )
        done = None
        if ok:
            arr = Arrangement(
                np.array(poses)[trial_pose],
                trial_at + (origin, 0.0),
                across_mm=strip.across_mm,
                along_mm=(min(0.0, a - 1e4), np.inf),
                fixed=~free,
            )
            done = tighten(
                contacts,
                arr,
                strip.gap_mm + SPARE_MM,
                trust_mm=3.0 * cell_mm,
                steps=5,
                least_gain=1e-4,
                stop=stop,
            )
            if done is not None:
                # what moved as a whole may have met what stayed
                judged = replace(done, fixed=~free & ~moves)
                if shortfall(contacts, judged, strip.gap_mm) > SPARE_MM / 2:
                    done = None
        if done is None:
            failed += 1
            if failed >= GIVE_UP:
                break
            take *= 0.5
            continue
        pose = trial_pose
        at = done.at_mm
        won += take
        take *= BOLDER if not failed else 1.0
        failed = 0
    if won > 0.0:
        strip.pose[which] = np.array(poses)[pose]
        strip.at_mm[which] = at
        rest = after & ~near
        strip.at_mm[rest, 0] -= won
    return won
