"""Bands laid a part at a time: what a short search has laid of them the next one goes on from.

Kept beside lattices and sections (``nesting.known.folder``), after each group of pieces, and judged before
use. Where no group was laid in the time that there was, or the bands come to nothing, that is kept too: no
search as short tries again.
"""

from __future__ import annotations

import hashlib
from typing import Any

import numpy as np

from nesting.compaction.slp import Arrangement, shortfall
from nesting.known.folder import KeptFiles, in_use
from nesting.rows.columns import Columns
from nesting.tolerances import SPARE_MM

VERSION = 2
"""Raised when what is kept could be misread, or bands are laid otherwise."""

LONGER = 1.25
"""A search with this many times as much time tries again what came to nothing."""

NEVER_S = 1e9
"""Came to nothing with all the time there is."""


class LaidSoFar:
    """How far the bands of a problem are laid: ``done`` groups, in the order in which they are laid, and then
    one more, the pieces that are in none."""

    def __init__(self, store: KeptFiles, columns: Columns) -> None:
        self._store, self._columns = store, columns
        self._key = f"bands-{_key(columns)}"
        found = store.find(self._key)
        self._found: dict[str, Any] = found if isinstance(found, dict) else {}
        self.done = 0

    @staticmethod
    def of(columns: Columns) -> LaidSoFar | None:
        """Return what is laid of these; None where nothing is kept from one search to the next."""
        store = in_use()
        return None if store is None else LaidSoFar(store, columns)

    def came_to_nothing(self, left_s: float) -> bool:
        """Whether a search with about as much time has come to nothing."""
        took_s = self._found.get("nothing_s", 0.0)
        return isinstance(took_s, float) and LONGER * took_s > left_s

    def take_up(self, groups: int) -> None:
        """Set down what is kept; nothing where it was laid of another number of groups, or does not hold."""
        try:
            done, of = int(self._found["done"]), int(self._found["groups"])
            pose = np.array(self._found["pose"], dtype=np.int64)
            at_mm = np.array(self._found["at_mm"], dtype=np.float64).reshape(-1, 2)
        except (KeyError, OverflowError, TypeError, ValueError):
            return
        columns = self._columns
        fits = of == groups and 0 < done <= groups + 1 and 0 < len(pose) == len(at_mm)
        if not fits or not _hold(columns, pose, at_mm):
            self._store.forget(self._key)
            return
        columns.strip.add(pose, at_mm)
        for die in columns.die_of[pose].tolist():
            columns.left[die] -= 1
        self.done = done

    def keep(self, done: int, groups: int) -> None:
        """Keep what is laid now, ``done`` of the groups."""
        self.done = done
        strip = self._columns.strip
        laid = {"pose": strip.pose.tolist(), "at_mm": strip.at_mm.tolist()}
        self._store.keep(self._key, {"done": done, "groups": groups, **laid})

    def give_up(self, took_s: float = NEVER_S) -> None:
        """Keep that so much time came to nothing."""
        self._store.keep(self._key, self._found | {"nothing_s": took_s})


def _hold(columns: Columns, pose: np.ndarray, at_mm: np.ndarray) -> bool:
    """Whether pieces are asked for, lie on the roll and keep the gap."""
    if pose.min() < 0 or pose.max() >= len(columns.die_of) or not np.isfinite(at_mm).all():
        return False
    laid = np.bincount(columns.die_of[pose], minlength=len(columns.dies))
    if any(laid[die] > left for die, left in columns.left.items()):
        return False
    low, high = at_mm + columns.contacts.low[pose], at_mm + columns.contacts.high[pose]
    if low[:, 1].min() < columns.across[0] - SPARE_MM or high[:, 1].max() > columns.across[1] + SPARE_MM:
        return False
    return shortfall(columns.contacts, Arrangement(pose, at_mm), columns.gap_mm) < SPARE_MM


def _key(columns: Columns) -> str:
    digest = hashlib.sha256(repr((VERSION, columns.gap_mm, columns.across)).encode())
    for die in columns.dies:
        digest.update(repr((die.demand, len(die.rings_mm))).encode())
        for ring in die.rings_mm:
            digest.update(np.ascontiguousarray(ring, dtype=np.float64).tobytes())
    return digest.hexdigest()[:40]
