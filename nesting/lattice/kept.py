"""Cells of lattices as they are kept (``nesting.known.folder``).

A search for a lattice is the same whatever lay it is for: its key is the exact outlines, the gap and how it
is searched, but not the seed.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from nesting.known.folder import VERSION, KeptFiles

Cell = tuple[NDArray[np.float64], NDArray[np.float64]]
"""Where each pose lies in the cell (n, 2), and the two periods (2, 2)."""


def key_of(rings: Sequence[NDArray[np.float64]], *how: object) -> str:
    """Return the key of a search for cells of these rings."""
    digest = hashlib.sha256(repr((VERSION, len(rings), how)).encode())
    for ring in rings:
        points = np.ascontiguousarray(ring, dtype=np.float64)
        digest.update(repr(points.shape).encode() + points.tobytes())
    return digest.hexdigest()[:40]


def find(store: KeptFiles, key: str) -> list[Cell] | None:
    """Return the cells of a search, None when none are kept or they cannot be read."""
    found = store.find(key)
    if found is None:
        return None
    try:
        return [
            (np.array(at, dtype=np.float64).reshape(-1, 2), np.array(basis, dtype=np.float64).reshape(2, 2))
            for at, basis in found
        ]
    except (ValueError, TypeError):
        store.forget(key)
        return None


def keep(store: KeptFiles, key: str, cells: Sequence[Cell]) -> None:
    """Keep the cells of a search."""
    store.keep(key, [[at.tolist(), basis.tolist()] for at, basis in cells])
