"""How finely the depths of all pairs of poses can be sampled. Light to load: asked before a search begins."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def finest_cell_mm(size_mm: Array, most_cells: float) -> float:
    """Return the cell at which a table of the depths of all pairs of poses holds this many cells; ``size_mm``
    (n, 2) are their boxes."""
    # half of the pairs serve the other half too
    mm2 = 0.5 * sum(float(((a + size_mm)[:, 0] * (a + size_mm)[:, 1]).sum()) for a in size_mm)
    return math.sqrt(mm2 / most_cells)
