"""A strip pulled together in windows along the roll, what lies behind each closed up against it."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from nesting.compaction.strip import Strip, pull
from nesting.rows.skyline import Fronts
from nesting.stop import Stop

Ints = NDArray[np.int64]

WINDOW = 90
"""Pieces pulled together by one linear program: its time grows faster than they do."""


def gathered(
    strip: Strip,
    fronts: Fronts,
    *,
    trust_mm: float,
    first: int = 0,
    steps: int = 6,
    most: int | None = None,
    stop: Stop,
) -> bool:
    """Pull pieces together, in windows along the roll; False when a window will not.

    ``first``: only pieces of the arrays from there on, which lie last; ``most`` of them. ``trust_mm`` is how
    far a piece may move in the first step.
    """
    left = strip.at_mm[:, 0] + strip.contacts.low[strip.pose, 0]
    order = np.argsort(left, kind="stable")
    k = int(np.flatnonzero(order >= first).min())
    n = len(order) if most is None else min(len(order), k + most)
    fine = True
    while k < n and not stop():
        last = n if n - k < 4 * WINDOW // 3 else k + WINDOW
        fine &= pull(strip, k, last, steps=steps, trust_mm=trust_mm, stop=stop) or pull(
            strip, k, last, steps=4 * steps, trust_mm=trust_mm, stop=stop
        )
        if not fine and first:
            return False
        _close_up(strip, fronts, order, last)
        k = last
    return fine


def _close_up(strip: Strip, fronts: Fronts, order: Ints, last: int) -> None:
    """Move all from place ``last`` of the order on as a whole against what lies before."""
    before, after = order[max(0, last - 3 * WINDOW) : last], order[last:]
    if not len(after):
        return
    _, front = fronts.reach(strip.pose[before], strip.at_mm[before])
    near = after[: 3 * WINDOW]
    left, _ = fronts.reach(strip.pose[near], strip.at_mm[near])
    shift = float((front - left).max())
    if -np.inf < shift < 0.0:
        strip.at_mm[after, 0] += shift
