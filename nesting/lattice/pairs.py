"""Left and right of a pair in one lattice: which rings are hands of one piece, and what must be gained.

A piece and its half turn are not always the best fit: left and right may fit together like
the halves of a torn sheet. Bands weigh such cells against each hand in its own best lattice.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from nesting.lattice.densest import centred

Array = NDArray[np.float64]

WORTH = 0.002
"""Share of the cloth from which a common lattice pays: less is lost again at its ends."""

MIRROR_MM = 0.1
"""Outlines this close to each other's mirror image are left and right of one piece: twice the chord
error."""


def mirrored(first: Array, second: Array) -> bool:
    """Whether two rings are left and right of one piece, about their box centres."""
    a, b = centred(first), centred(second)
    if np.abs(np.ptp(a, axis=0) - np.ptp(b, axis=0)).max() > MIRROR_MM:
        return False
    flipped = a * (1.0, -1.0)
    # every vertex of the one has one of the other near: both are flattened within the chord error
    apart = np.hypot(*(flipped[:, None, :] - b[None, :, :]).transpose(2, 0, 1))
    return bool(max(apart.min(axis=0).max(), apart.min(axis=1).max()) < MIRROR_MM)
