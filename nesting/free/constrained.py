"""Shorten a lay round pieces pinned by hand and flaws of the roll, which the free search knows not.

The end of the lay is pushed in a little, what overlaps is pulled apart on sampled depths while
pinned pieces and flaws stay, and the result is squeezed on the true outlines. Counts work, not
time, so that it can be repeated.
"""

from __future__ import annotations

import math
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from nesting.compaction.lays import PoseContacts, compact
from nesting.compaction.window import SampledGround
from nesting.free.turns import turns_of
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.stop import Stop

MOST_CELLS = 6e7
"""Samples of depth over all pairs of pieces; half turns share them, so 120 MB at most."""

FIRST_SHARE, LEAST_SHARE = 0.02, 0.0005
"""Share of the length that a try takes off, at first and when it gives up."""

SPARE_CELLS = 0.25
"""Share of a cell added to the gap while pulling apart: what the samples may be wrong by."""

LOOK_S = 0.05  # a wish to stop is met within 200 ms


def shorten(
    problem: LayProblem,
    lay: Lay,
    contacts: PoseContacts,
    *,
    seed: int,
    stop: Stop,
    better: Callable[[Lay], None],
    tries: int = 60,
) -> Lay:
    """Return the shortest lay found within ``tries``; ``better`` is called with each."""
    search = _Around(problem, contacts, lay.placements)
    best = lay
    share, failed = FIRST_SHARE, 0
    with _watched(stop) as halt:
        for k in range(tries):
            if stop():
                break
            if share < LEAST_SHARE:  # nothing gives any more: try the large steps again, by another way
                share = FIRST_SHARE
            target = (best.length_mm - 2.0 * problem.end_margin_mm) * (1.0 - share)
            loose = search.pulled_apart(best.placements, target, seed * 100003 + k, halt)
            moved = None
            if loose is not None:
                moved = compact(problem, loose, contacts=contacts, steps=8, stop=stop)
            length = math.inf if moved is None else problem.length_of_mm(moved)
            if moved is not None and length < best.length_mm - 1e-6:
                best = replace(
                    lay, placements=moved, length_mm=length, engine="first layout, shortened around"
                )
                better(best)
                failed = 0
                continue
            failed += 1
            if failed >= 2:
                share, failed = 0.6 * share, 0
    return best


class _Around:
    """The poses of a problem, and the sampled depths of every pair of them."""

    def __init__(self, problem: LayProblem, contacts: PoseContacts, placements: Sequence[Placement]) -> None:
        self._problem = problem
        self._keys: list[tuple[str, float]] = []
        which: list[int] = []
        own: dict[str, tuple[float, ...]] = {}
        laid = {at.item_id for at in placements}
        for item in problem.items:
            if item.id in laid:
                own[item.id] = _turns(item)
                used = {at.turn_deg for at in placements if at.item_id == item.id}
                for turn in dict.fromkeys((*own[item.id], *sorted(used))):
                    self._keys.append((item.id, turn))
                    which.append(contacts.pose(item.id, turn))
        self._number = {key: n for n, key in enumerate(self._keys)}
        self._flaws = list(range(len(which), len(which) + len(problem.roll.flaws)))
        which += [contacts.flaw(flaw.ring_mm) for flaw in problem.roll.flaws]
        across = (problem.edge_margin_mm, problem.roll.usable_width_mm - problem.edge_margin_mm)
        sizes = np.array([contacts.high[k] - contacts.low[k] for k in which])
        pairs = (sizes[:, None, :] + sizes[None, :, :]).prod(axis=2).sum() / 2.0
        cell = max(float(sizes.min()) / 40.0, math.sqrt(float(pairs) / MOST_CELLS))
        self._ground = SampledGround.of(
            contacts, np.array(which), problem.gap_mm + SPARE_CELLS * cell, across, cell
        )
        ways: dict[str, list[int]] = {}
        for number, (item_id, turn) in enumerate(self._keys):
            if turn in own[item_id]:
                ways.setdefault(item_id, []).append(number)
        self._ways = ways

    def pulled_apart(
        self, placements: Sequence[Placement], length_mm: float, seed: int, halt: NDArray[np.uint8]
    ) -> tuple[Placement, ...] | None:
        """Return the placements within ``length_mm`` (margins not counted), or None."""
        start = self._problem.end_margin_mm
        pose = np.array([self._number[at.item_id, at.turn_deg] for at in placements] + self._flaws)
        at = np.array([(p.x_mm - start, p.y_mm) for p in placements] + [(-start, 0.0)] * len(self._flaws))
        free = np.array([not p.pinned for p in placements] + [False] * len(self._flaws))
        widest = max(len(way) for way in self._ways.values())
        choices = np.full((len(pose), widest), -1)
        for row, p in enumerate(placements):
            way = self._ways[p.item_id]
            choices[row, : len(way)] = way
        for row, flaw in enumerate(self._flaws, start=len(placements)):
            choices[row, 0] = flaw
        room = self._ground.room[pose, 1]
        at[free, 0] = np.minimum(at[free, 0], length_mm - room[free])
        done = self._ground.separate(
            at,
            pose,
            choices,
            free=free,
            length_mm=length_mm,
            rounds=1000,
            patience=60,
            samples=48,
            seed=seed,
            halt=halt,
        )
        if not done:
            return None
        return tuple(
            p
            if p.pinned
            else Placement(p.item_id, self._keys[int(k)][1], float(x) + start, float(y), pinned=False)
            for p, k, (x, y) in zip(placements, pose, at, strict=False)
        )


def _turns(item: Item) -> tuple[float, ...]:
    """Turns a piece may take: those allowed, and the ends of what is granted about each."""
    granted = item.turn_tolerance_deg if item.turns_deg is not None else 0.0
    leans = (0.0, -granted, granted) if granted else (0.0,)
    return tuple(turn + lean for turn in turns_of(item) for lean in leans)


@contextmanager
def _watched(stop: Stop) -> Iterator[NDArray[np.uint8]]:
    """Give a flag that compiled code looks at, raised as soon as it must stop."""
    halt = np.zeros(1, np.uint8)
    over = threading.Event()

    def watch() -> None:
        while not over.wait(LOOK_S):
            if stop():
                halt[0] = 1
                return

    thread = threading.Thread(target=watch, daemon=True)
    thread.start()
    try:
        yield halt
    finally:
        over.set()
        thread.join()
