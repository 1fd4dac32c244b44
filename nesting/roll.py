"""The roll of cloth that a lay is cut from."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, eq=False)
class Flaw:
    """A region of the roll to keep clear of: ``ring_mm`` (n, 2) in roll coordinates."""

    ring_mm: NDArray[np.float64]
    note: str = ""


@dataclass(frozen=True)
class Roll:
    """A stretch of cloth: x runs along it, y across from 0 to ``usable_width_mm``.

    ``tight_direction_deg`` is the low-stretch direction, 0 = along the roll, 90 = across.
    ``length_mm`` is None when the lay may be as long as it needs.
    """

    usable_width_mm: float
    tight_direction_deg: float = 0.0
    width_mm: float | None = None
    length_mm: float | None = None
    flaws: tuple[Flaw, ...] = field(default=())
