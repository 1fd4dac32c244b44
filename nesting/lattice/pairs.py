"""Left and right of a pair: which rings are hands of one piece, and the lattices of one from the other's.

A piece and its half turn are not always the best fit: left and right may fit together like
the halves of a torn sheet. Bands weigh such cells against each hand in its own best lattice.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from geometry.outline import ring_area_mm2
from nesting.compaction.slp import Arrangement, Contacts, shortfall, tighten
from nesting.lattice.densest import Lattice, centred
from nesting.tolerances import SPARE_MM

Array = NDArray[np.float64]

WORTH = 0.002
"""Share of the cloth from which a common lattice pays: less is lost again at its ends."""

MIRROR_MM = 0.1
"""Outlines this close to each other's mirror image are left and right of one piece: twice the chord
error."""

PULLED_APART = 0.02
"""What the two outlines differ by is taken out of a mirrored lattice in steps of this share of the piece."""


def mirrored(first: Array, second: Array) -> bool:
    """Whether two rings are left and right of one piece, about their box centres."""
    a, b = centred(first), centred(second)
    if np.abs(np.ptp(a, axis=0) - np.ptp(b, axis=0)).max() > MIRROR_MM:
        return False
    flipped = a * (1.0, -1.0)
    # every vertex of the one has one of the other near: both are flattened within the chord error
    apart = np.hypot(*(flipped[:, None, :] - b[None, :, :]).transpose(2, 0, 1))
    return bool(max(apart.min(axis=0).max(), apart.min(axis=1).max()) < MIRROR_MM)


def of_other_hand(lattices: Sequence[Lattice], rings: Sequence[Array]) -> tuple[Lattice, ...] | None:
    """Return the lattices of ``rings``, each the other hand of that in the same place, as mirror images.

    The axis they are mirrored in lies along the roll, so every pull axis stays on it. None where one will not
    keep the gap.
    """
    own = tuple(centred(ring) for ring in rings)
    contacts = Contacts(own)
    total = sum(abs(ring_area_mm2(ring)) for ring in own)
    trust_mm = PULLED_APART * float(min(min(np.ptp(ring, axis=0)) for ring in own))
    found = []
    for lattice in lattices:
        # the second period is turned round besides: it stays to the left of the first
        u, v = lattice.u_mm * (1.0, -1.0), lattice.v_mm * (-1.0, 1.0)
        cell = Arrangement(np.arange(len(own)), lattice.at_mm * (1.0, -1.0), np.array([u, v]))
        done: Arrangement | None = cell
        if shortfall(contacts, cell, lattice.gap_mm) > SPARE_MM / 2:
            done = tighten(contacts, cell, lattice.gap_mm + SPARE_MM, trust_mm=trust_mm, steps=10)
        if done is None or shortfall(contacts, done, lattice.gap_mm) > SPARE_MM / 2:
            return None
        density = total / done.measure
        found.append(Lattice(own, done.at_mm, done.basis_mm[0], done.basis_mm[1], lattice.gap_mm, density))
    return tuple(sorted(found, key=lambda each: each.cell_mm2))
