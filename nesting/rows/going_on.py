"""A lay that is already there, gone on with: pulled together, its end moved into openings, windows shortened.

Whatever laid it. A second search for the same long lay so begins where the first one ended, and does not lay
its bands once more.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import partial

import numpy as np

from geometry.outline import ring_area_mm2
from nesting.compaction.lays import PoseContacts
from nesting.compaction.reinsertion import Sampled
from nesting.compaction.strip import Strip
from nesting.free.turns import turns_of
from nesting.lay import Lay, Placement
from nesting.listen import Listener, Silent
from nesting.problem import LayProblem
from nesting.rows.columns import CELLS, TRUST, USUAL
from nesting.rows.gathering import gathered
from nesting.rows.improving import ground_of, improved
from nesting.rows.names import with_windows
from nesting.rows.skyline import Fronts
from nesting.stop import Never, Stop


class LayOnStrip:
    """A lay as a strip: a pose for every turn that an item may take, and for each that it lies in."""

    def __init__(self, problem: LayProblem, lay: Lay, stop: Stop) -> None:
        self._problem, self._stop = problem, stop
        contacts = PoseContacts(problem)
        self._turn_of: dict[int, tuple[str, float]] = {}
        self._poses_of: dict[str, list[int]] = {}
        asked = [item for item in problem.items if item.demand]
        for item in asked:
            for turn in turns_of(item):
                self._add(contacts, item.id, turn)
        pose = [self._add(contacts, at.item_id, at.turn_deg) for at in lay.placements]
        margin = problem.edge_margin_mm
        across = (margin, problem.roll.usable_width_mm - margin)
        self.strip = Strip(contacts, problem.gap_mm, across)
        at_mm = np.array([(at.x_mm, at.y_mm) for at in lay.placements])
        self.strip.add(np.array(pose), at_mm - (problem.end_margin_mm, 0.0))
        self.cloth_mm2 = np.array([abs(ring_area_mm2(ring)) for ring in contacts.rings]) / USUAL
        sizes = [np.ptp(contacts.rings[self._poses_of[item.id][0]], axis=0) for item in asked]
        self.cell_mm = float(np.median([size.min() for size in sizes])) / CELLS
        self.largest_mm = float(max(size.max() for size in sizes))
        self.asked_poses = set(self._turn_of)
        self._fronts = Fronts(contacts, problem.gap_mm, across)

    def _add(self, contacts: PoseContacts, item_id: str, turn_deg: float) -> int:
        pose = contacts.pose(item_id, turn_deg)
        if pose not in self._turn_of:
            self._turn_of[pose] = (item_id, turn_deg)
            self._poses_of.setdefault(item_id, []).append(pose)
        return pose

    def choices_of(self, pose: int) -> list[int]:
        """The poses a piece in this pose may take."""
        return self._poses_of[self._turn_of[pose][0]]

    def gather(self) -> bool:
        """Pull pieces together (``gathering.gathered``)."""
        return gathered(self.strip, self._fronts, trust_mm=TRUST * self.cell_mm, stop=self._stop)

    def placements(self) -> tuple[Placement, ...]:
        """Return where each piece lies now."""
        strip, end = self.strip, self._problem.end_margin_mm
        start = float((strip.at_mm[:, 0] + strip.contacts.low[strip.pose, 0]).min())
        return tuple(
            Placement(*self._turn_of[p], x - start + end, y)
            for p, (x, y) in zip(strip.pose.tolist(), strip.at_mm.tolist(), strict=True)
        )


def solve(
    problem: LayProblem,
    start: Lay,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 2,
    work: int | None = None,
) -> Lay:
    """Return the shortest lay found, ``start`` if none is shorter.

    Nothing may be fixed: neither pinned pieces nor flaws are known here.
    Deterministic by ``seed`` and ``work`` (passes of the window work) when no clock stops it.
    """
    stop, listener = stop or Never(), listener or Silent()
    laid = LayOnStrip(problem, start, stop)
    best = start
    for _ in _improved(laid, seed, work, workers, listener, stop):
        placements = laid.placements()
        length_mm = problem.length_of_mm(placements)
        if length_mm < best.length_mm:
            best = replace(
                start, placements=placements, length_mm=length_mm, engine=with_windows(start.engine)
            )
            listener.better(best)
    return best


def _improved(
    laid: LayOnStrip, seed: int, passes: int | None, threads: int, listener: Listener, stop: Stop
) -> Iterator[None]:
    ground: Callable[[], Sampled] = partial(ground_of, laid)
    if math.isfinite(stop.left_s):  # sampled on one processor while the other pulls together
        beside = ThreadPoolExecutor(1)
        ground = beside.submit(ground).result
        beside.shutdown(wait=False)
    yield from improved(laid, ground, seed=seed, passes=passes, threads=threads, listener=listener, stop=stop)
