"""Shorten a strip that is already laid: push its end in, pull apart what overlaps, squeeze exactly.

Guided local search (``separate``) moves only pieces in conflict, so a good layout stays as it is
except where the end was pushed in; pieces at the end may find room anywhere. Every step that
succeeds on sampled depths is finished on the true outlines (``tighten``).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from nesting.depth import DepthTable, depth_table
from nesting.separate import separate
from nesting.stop import Stop
from nesting.tighten import Arrangement, Contacts, shortfall, tighten
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Ground:
    """What the search knows of some poses: sampled depths and where their origins may lie.

    ``which`` (k,) are indices into ``contacts.rings``; the search numbers poses 0..k-1.
    """

    contacts: Contacts
    which: Ints
    table: DepthTable
    gap_mm: float
    across_mm: tuple[float, float]
    room: Array

    @staticmethod
    def of(
        contacts: Contacts, which: Ints, gap_mm: float, across_mm: tuple[float, float], cell_mm: float | None = None
    ) -> Ground:
        """Sample the depths of all pairs of ``which``; a cell is a fortieth of the smallest piece
        unless given."""
        rings = [contacts.rings[k] for k in which]
        least = float(min(min(np.ptp(r, axis=0)) for r in rings))
        most = float(max(max(np.ptp(r, axis=0)) for r in rings))
        h = cell_mm or max(least / 40.0, most / 250.0)
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
        return Ground(contacts, which, depth_table(rings, h, gap_mm), gap_mm, across_mm, room)

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
        free: NDArray[np.bool_] | None = None,
        period_mm: float = 0.0,
        length_mm: float = 0.0,
        rounds: int,
        patience: int,
        samples: int,
        seed: int,
        halt: NDArray[np.uint8],
    ) -> bool:
        """Pull pieces apart in place (poses numbered as in ``which``); True when none overlaps."""
        n = len(pose)
        t = self.table
        room = self.room if period_mm > 0.0 else self.room
        worst, _ = separate(
            at,
            pose,
            choices,
            np.ones(n, np.bool_) if free is None else free,
            room,
            period_mm,
            length_mm,
            np.ones((n, n)),
            rounds,
            patience,
            samples,
            self.enough_mm,
            seed,
            halt,
            t.cells,
            t.start,
            t.box,
            t.index,
            t.flip,
            t.h_mm,
        )
        return bool(worst <= self.enough_mm)


def squeeze(
    ground: Ground,
    start: Arrangement,
    choices: Ints,
    *,
    seed: int,
    tries: int,
    stop: Stop,
    better: Callable[[Arrangement], None],
    first: float = 0.01,
    least: float = 0.0005,
    samples: int = 48,
    patience: int = 60,
) -> Arrangement:
    """Return the shortest strip found from ``start`` (poses numbered as in ``ground.which``).

    ``tries`` is the budget of work; ``first`` and ``least`` the shares of the length that a try
    takes off. ``better`` hears of every shorter strip, exact.
    """
    contacts = Contacts([ground.contacts.rings[k] for k in ground.which])
    gap = ground.gap_mm + SPARE_MM
    best = start
    share = first
    halt = np.zeros(1, np.uint8)
    assert start.along_mm is not None
    origin = start.along_mm[0]
    failed = 0
    for k in range(tries):
        if stop() or share < least:
            break
        assert best.along_mm is not None
        length = best.along_mm[1] - origin
        target = length * (1.0 - share)
        pose = best.pose.copy()
        at = best.at_mm - (origin, 0.0)
        at[:, 0] = np.minimum(at[:, 0], target - ground.room[pose, 1])
        ok = ground.separate(
            at,
            pose,
            choices,
            length_mm=target,
            rounds=1000,
            patience=patience,
            samples=samples,
            seed=seed * 100003 + k,
            halt=halt,
        )
        if ok:
            moved = replace(best, pose=pose, at_mm=at + (origin, 0.0), along_mm=(origin, origin + target))
            done = tighten(contacts, moved, gap, trust_mm=max(4.0 * ground.table.h_mm, 1.0), steps=8, least_gain=1e-5)
            if (
                done is not None
                and done.measure < best.measure - 1e-6
                and shortfall(contacts, done, ground.gap_mm) < SPARE_MM / 2
            ):
                best = done
                better(best)
                failed = 0
                continue
        failed += 1
        if failed >= 2:
            share *= 0.6
            failed = 0
    return best
