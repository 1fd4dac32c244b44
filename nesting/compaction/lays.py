"""Squeeze a lay on its true outlines: linear programs over separating half-planes (``slp.tighten``).

The way in from any other engine's layout: one that keeps every gap, or one that breaks some a
little because it was found on simplified outlines, which is pulled apart first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from geometry.outline import as_ring, rotation
from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.lay import Placement
from nesting.problem import LayProblem
from nesting.stop import Stop
from nesting.tolerances import SPARE_MM


def compact(
    problem: LayProblem,
    placements: Sequence[Placement],
    *,
    contacts: PoseContacts | None = None,
    trust_mm: float | None = None,
    steps: int = 12,
    stop: Stop | None = None,
) -> tuple[Placement, ...] | None:
    """Return the placements squeezed towards x = 0, or None when they cannot be made to keep the gap.

    Pinned pieces stay; flaws are kept clear of. ``trust_mm`` is the first step (a fortieth of the
    larger side of the average piece if None). Deterministic for given ``steps`` and no clock.
    """
    contacts = contacts or PoseContacts(problem)
    pose = [contacts.pose(at.item_id, at.turn_deg) for at in placements]
    at_mm = [(at.x_mm, at.y_mm) for at in placements]
    fixed = [at.pinned for at in placements]
    for flaw in problem.roll.flaws:
        pose.append(contacts.flaw(flaw.ring_mm))
        at_mm.append((0.0, 0.0))
        fixed.append(True)
    if trust_mm is None:
        size = contacts.high - contacts.low
        trust_mm = float(size.max(axis=1).mean()) / 40.0
    start = Arrangement(
        pose=np.array(pose),
        at_mm=np.array(at_mm, dtype=np.float64),
        across_mm=(problem.edge_margin_mm, problem.roll.usable_width_mm - problem.edge_margin_mm),
        along_mm=(problem.end_margin_mm, problem.length_of_mm(placements) - problem.end_margin_mm),
        fixed=np.array(fixed) if any(fixed) else None,
    )
    done = tighten(contacts, start, problem.gap_mm + SPARE_MM, trust_mm=trust_mm, steps=steps, stop=stop)
    if done is None or shortfall(contacts, done, problem.gap_mm) > SPARE_MM:
        return None
    moved = done.at_mm.tolist()
    return tuple(
        at if at.pinned else replace(at, x_mm=x, y_mm=y)
        for at, (x, y) in zip(placements, moved, strict=False)
    )


class PoseContacts(Contacts):
    """Contacts of a problem's items: a pose for each item and turn, made when first asked for."""

    def __init__(self, problem: LayProblem) -> None:
        super().__init__([])
        self.low = self.high = np.zeros((0, 2))
        self._problem = problem
        self._poses: dict[tuple[str, float], int] = {}
        self._flaws: dict[bytes, int] = {}

    def pose(self, item_id: str, turn_deg: float) -> int:
        """Return the index of an item's outer ring at a turn."""
        key = (item_id, turn_deg)
        if key not in self._poses:
            self._poses[key] = self.add(self._problem.by_id[item_id].outline.ring_mm @ rotation(turn_deg).T)
        return self._poses[key]

    def flaw(self, ring: np.ndarray) -> int:
        """Return the index of a flaw's ring, which never moves."""
        key = np.asarray(ring, dtype=np.float64).tobytes()
        if key not in self._flaws:
            self._flaws[key] = self.add(as_ring(ring, ccw=True))
        return self._flaws[key]
