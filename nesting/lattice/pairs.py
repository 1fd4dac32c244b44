"""Two pieces in one lattice: left and right of a pair, or neighbouring sizes of one shape.

A piece and its half turn are not always the best of company. Left and right may fit together like
the halves of a torn sheet, and of two sizes the smaller may lie in what the larger leaves. What that
brings is told against each of them in its own best lattice.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from geometry.outline import Outline
from nesting.errors import ProblemError
from nesting.lattice.densest import Lattice, centred, searched
from nesting.stop import Stop

Array = NDArray[np.float64]

WORTH = 0.002
"""Share of the cloth from which a common lattice pays: less is lost again at its ends."""

MIRROR_MM = 0.1
"""Outlines this close to each other's mirror image are left and right of one piece: twice the chord
error."""


@dataclass(frozen=True, eq=False)
class PairLattice:
    """Two pieces in one cell. ``roles[k]`` of the lattice's ring k: (0 first or 1 second, half turned).

    ``alone`` are the best lattices of each by itself. ``gain`` is the share of cloth that the common
    lattice saves of what the same pieces take each in its own (negative when it takes more).
    """

    lattice: Lattice
    roles: tuple[tuple[int, bool], ...]
    alone: tuple[Lattice, Lattice]

    @property
    def gain(self) -> float:
        """Share of cloth saved."""
        apart = sum(self.alone[which].cell_mm2 / len(self.alone[which].rings_mm) for which, _ in self.roles)
        return 1.0 - self.lattice.cell_mm2 / apart

    @property
    def pays(self) -> bool:
        """Whether the pair is better laid together than each alone."""
        return self.gain > WORTH


def best_pair(
    first: Outline,
    second: Outline,
    gap_mm: float,
    *,
    one_way: bool = False,
    seed: int = 0,
    starts: int = 1000,
    stop: Stop | None = None,
) -> PairLattice:
    """Return the common lattice of two pieces that saves most cloth (or wastes least), in equal numbers.

    ``one_way``: no half turns. Raises ProblemError when the time is too short for any lattice.
    """
    a, b = np.asarray(first.ring_mm), np.asarray(second.ring_mm)

    def found(rings: list[Array]) -> Lattice | None:
        cells = searched(rings, gap_mm, seed=seed, starts=starts, keep=6, stop=stop)
        return cells[0] if cells else None

    own = [found([ring] if one_way else [ring, -ring]) for ring in (a, b)]
    if own[0] is None or own[1] is None:
        raise ProblemError("no lattice was found in the time", remedy="allow more time")
    tried = []
    for roles in cells_of_two(one_way):
        lattice = found([(a, b)[which] * (-1.0 if turned else 1.0) for which, turned in roles])
        if lattice is not None:
            tried.append(PairLattice(lattice, roles, (own[0], own[1])))
    if not tried:
        raise ProblemError("no lattice was found in the time", remedy="allow more time")
    return max(tried, key=lambda pair: pair.gain)


def cells_of_two(one_way: bool) -> tuple[tuple[tuple[int, bool], ...], ...]:
    """Return the cells tried for two pieces: side by side, one of them turned, both with their half turns."""
    plain = ((0, False), (1, False))
    if one_way:
        return (plain,)
    return (plain, ((0, False), (1, True)), ((0, False), (0, True), (1, False), (1, True)))


def mirrored(first: Array, second: Array) -> bool:
    """Whether two rings are left and right of one piece, about their box centres."""
    a, b = centred(first), centred(second)
    if np.abs(np.ptp(a, axis=0) - np.ptp(b, axis=0)).max() > MIRROR_MM:
        return False
    flipped = a * (1.0, -1.0)
    # every vertex of the one has one of the other near: both are flattened within the chord error
    apart = np.hypot(*(flipped[:, None, :] - b[None, :, :]).transpose(2, 0, 1))
    return bool(max(apart.min(axis=0).max(), apart.min(axis=1).max()) < MIRROR_MM)
