"""Pieces from the end of a strip moved into openings that their neighbours make room for.

Bands leave openings all over a strip, most of them a little too small or of the wrong shape for what lies
at its end. A piece is set down where it overlaps least, those about it give way by guided local search
(``seats``), and what overlap is left a linear program over a wider neighbourhood takes out, which moves
whole chains of pieces by a little each. Every move is judged on the true outlines before it counts.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.compaction.seats import MARGIN_MM, LaidStrip, Wish, near_box, room_made
from nesting.compaction.separation import Effort
from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.compaction.strip import Strip
from nesting.compaction.window import halting
from nesting.contact.cells import finest_cell_mm
from nesting.contact.penetration import DepthTable, depth_table
from nesting.stop import Stop
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]
Ints = NDArray[np.int64]

CELL = 2.2
"""The depths are sampled this much coarser than the bands' own: one table holds every pair of poses, ..."""

MOST_CELLS = 25e6
"""... and coarser still where it would hold more than this (4 bytes each)."""

HALF = 1.0
"""Neighbours give way within this many of the largest piece's lengths to each side."""

REACH = 0.3
"""A random spot is searched so far about, in the largest piece's length."""

GAIN = 0.03
"""A piece moved must end at least this share of the largest piece's length before its end now."""

TAIL = 8
"""Pieces at the end that are tried."""

ROUNDS, PATIENCE, SAMPLES = 60, 6, 8
"""Effort of the local search: little and often does as well as much and seldom (measured: twice
the patience and samples moved 70 to 75 pieces in 30 s, against 66 to 68)."""

ENOUGH = 0.25
"""Depth as good as none, in cells."""

NEARLY = 0.7
"""Depth, in cells, from which the linear program is tried."""

WIDER = 0.6
"""The linear program moves pieces this much further about (largest piece's lengths); where none overlaps any
more, half of it."""

SHIFTED_MM = 1e-9
"""A neighbour found no further from its place has not moved: the search counts from another origin."""

DRY = 100
"""After so many tries that did not bring the end nearer nothing more is looked for."""


@dataclass(frozen=True, eq=False)
class Sampled:
    """Depths of all pairs of some poses: ``which`` (k,) numbers them in ``Contacts.rings``."""

    which: Ints
    table: DepthTable


def sampled(
    contacts: Contacts, which: Iterable[int], gap_mm: float, cell_mm: float, threads: int = 1
) -> Sampled:
    """Sample the depths of all pairs of poses: a second or more where there are many."""
    here = np.array(sorted(which))
    size = contacts.high[here] - contacts.low[here]
    h = max(CELL * cell_mm, finest_cell_mm(size, MOST_CELLS))
    return Sampled(here, depth_table([contacts.rings[p] for p in here], h, gap_mm, threads))


class Openings:
    """A strip whose end is being moved into its openings; the strip is changed in place."""

    def __init__(
        self, strip: Strip, choices_of: Callable[[int], list[int]], ground: Sampled, largest_mm: float
    ) -> None:
        self._strip, self._largest_mm = strip, largest_mm
        self._which, self._table = ground.which, ground.table
        here = ground.which.tolist()
        number = np.full(len(strip.contacts.rings), -1)
        number[self._which] = np.arange(len(here))
        self._low, self._high = strip.contacts.low[self._which], strip.contacts.high[self._which]
        most = max(len(choices_of(p)) for p in here)
        self._choices = np.full((len(here), most), -1, np.int64)
        for k, p in enumerate(here):
            self._choices[k, : len(choices_of(p))] = number[choices_of(p)]
        self._number = number
        self._lock = threading.Lock()
        self._busy: set[int] = set()
        self._turn = 0
        self.renew()

    def renew(self, effort: int = 1) -> None:
        """Begin again with the strip as it is now; ``effort`` times as much goes into each try."""
        self._patience = effort * PATIENCE
        strip = self._strip
        self._pose, self._at = self._number[strip.pose], strip.at_mm.copy()
        grain = REACH * self._largest_mm / 4.0
        width = strip.across_mm[1] - strip.across_mm[0]
        self._failed = np.zeros((int(strip.end_mm / grain) + 2, int(width / grain) + 2))
        self._without_gain = 0

    def dry(self, tries: int) -> bool:
        """Whether the last ``tries`` tries have not brought the end nearer."""
        return self._without_gain >= tries

    def move_in(self, *, seed: int, tries: int, threads: int, stop: Stop) -> int:
        """Move pieces in until ``tries`` in a row have not brought the end nearer; returns how many.

        With one thread and no clock the same seed gives the same strip.
        """
        self._turn += 1
        with halting(stop) as halt:
            # compiled once, before threads run it
            self._search(0, seed, halt, stop)
            near_box(self._at, self._pose, self._low, self._high, 0.0, 0.0, 0.0, 0.0, -1)
            with ThreadPoolExecutor(threads) as pool:
                seeds = [(seed * 1009 + self._turn) * threads + k for k in range(threads)]
                jobs = [pool.submit(self._work, one, tries, halt, stop) for one in seeds]
                moved = sum(job.result() for job in jobs)
        self._strip.pose, self._strip.at_mm = self._which[self._pose], self._at.copy()
        return moved

    @property
    def _end_mm(self) -> float:
        return float((self._at[:, 0] + self._high[self._pose, 0]).max())

    def _work(self, seed: int, tries: int, halt: NDArray[np.uint8], stop: Stop) -> int:
        moved = turn = 0
        while self._without_gain < tries and not stop():
            turn += 1
            before = self._end_mm
            used, done = self._search(20, (seed * 100_003 + turn) % 2**31, halt, stop)
            moved += done
            self._without_gain = 0 if self._end_mm < before else self._without_gain + used
        return moved

    def _search(self, tries: int, seed: int, halt: NDArray[np.uint8], stop: Stop) -> tuple[int, bool]:
        """One call of the compiled search and what follows it: (tries used, whether a piece moved)."""
        table, largest = self._table, self._largest_mm
        with self._lock:
            order = np.argsort(-(self._at[:, 0] + self._high[self._pose, 0]), kind="stable")
            tail = np.array([t for t in order[: TAIL + len(self._busy)].tolist() if t not in self._busy])
            at, pose = self._at.copy(), self._pose.copy()
        h = table.h_mm
        who, ids, places, kinds, worst, used = room_made(
            LaidStrip(at, pose, self._low, self._high, self._choices, self._strip.across_mm),
            Wish(tail, GAIN * largest, HALF * largest, REACH * largest, NEARLY * h),
            Effort(ROUNDS, self._patience, SAMPLES, ENOUGH * h, seed),
            tries,
            self._failed,
            table,
            halt,
        )
        if who < 0:
            return used, False
        with self._lock:
            self._busy.add(who)
        try:
            proposal, poses = at.copy(), pose.copy()
            # of the neighbours looked at only some gave way; the others stay exactly where they were
            gave_way = (np.abs(places[:-1] - at[ids]) > SHIFTED_MM).any(axis=1) | (kinds[:-1] != pose[ids])
            ids = ids[gave_way]
            proposal[ids], poses[ids] = places[:-1][gave_way], kinds[:-1][gave_way]
            proposal[who], poses[who] = places[-1], kinds[-1]
            wide = WIDER if worst > ENOUGH * h else WIDER / 2.0
            found = self._finished(proposal, poses, who, ids, wide, stop)
            done = found is not None and self._agreed(at, pose, poses, who, *found)
        finally:
            with self._lock:
                self._busy.discard(who)
        return used, done

    def _finished(
        self, at: Array, pose: Ints, who: int, gave_way: Ints, wide: float, stop: Stop
    ) -> tuple[Ints, Array] | None:
        """Squeeze on the true outlines about piece ``who``: (pieces, places), None where there is no room.

        Those that ``gave_way`` are free too, also where they lie at the rim of what is squeezed: of two
        held pieces nobody asks whether they keep the gap.
        """
        contacts, gap = self._strip.contacts, self._strip.gap_mm
        low, high = at + self._low[pose], at + self._high[pose]
        half = (HALF + wide) * self._largest_mm
        a, b = (low[who] + high[who]) / 2.0 - half, (low[who] + high[who]) / 2.0 + half
        reach = MARGIN_MM + 0.5 * self._largest_mm
        ids = near_box(
            at, pose, self._low, self._high, a[0] - reach, b[0] + reach, a[1] - reach, b[1] + reach, -1
        )
        free = ((low[ids] >= a) & (high[ids] <= b)).all(axis=1) | np.isin(ids, gave_way)
        start = Arrangement(
            self._which[pose[ids]],
            at[ids],
            across_mm=self._strip.across_mm,
            along_mm=(0.0, np.inf),
            fixed=~free,
        )
        done = tighten(
            contacts,
            start,
            gap + SPARE_MM,
            trust_mm=3.0 * self._table.h_mm,
            steps=8,
            least_gain=1e-4,
            stop=stop,
        )
        if done is None or shortfall(contacts, done, gap) > SPARE_MM / 2:
            return None
        return ids, done.at_mm

    def _agreed(self, was: Array, was_pose: Ints, pose: Ints, who: int, ids: Ints, places: Array) -> bool:
        """Take the places over, unless what lies about them has changed meanwhile or is in the way, or the
        squeeze has pushed the piece back or another beyond the end."""
        with self._lock:
            about = np.zeros(len(pose), np.bool_)
            about[ids] = True
            if (self._at[ids] != was[ids]).any() or (self._pose[ids] != was_pose[ids]).any():
                return False
            at, kinds = self._at.copy(), self._pose.copy()
            at[ids], kinds[ids] = places, pose[ids]
            ends, before = at[:, 0] + self._high[kinds, 0], self._at[:, 0] + self._high[self._pose, 0]
            if ends[who] > before[who] - 0.5 * GAIN * self._largest_mm or ends.max() > before.max():
                return False
            moved = ids[(at[ids] != self._at[ids]).any(axis=1)]
            low, high = at[moved] + self._low[kinds[moved]], at[moved] + self._high[kinds[moved]]
            gap = self._strip.gap_mm
            (x0, y0), (x1, y1) = low.min(axis=0) - gap, high.max(axis=0) + gap
            near = near_box(at, kinds, self._low, self._high, x0, x1, y0, y1, -1)
            others = near[~about[near]]
            if len(others):
                both = np.concatenate([moved, others])
                held = np.arange(len(both)) >= len(moved)
                judged = Arrangement(self._which[kinds[both]], at[both], fixed=held)
                if shortfall(self._strip.contacts, judged, gap) > SPARE_MM / 2:
                    return False
            self._at, self._pose = at, kinds
            grain = REACH * self._largest_mm / 4.0
            bottom = self._strip.across_mm[0]
            self._failed[
                max(0, int(x0 / grain)) : int(x1 / grain) + 1,
                max(0, int((y0 - bottom) / grain)) : int((y1 - bottom) / grain) + 1,
            ] = 0.0
        return True
