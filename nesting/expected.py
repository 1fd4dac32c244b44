"""What a longer search is likely to bring: from the measured curve of yield against time."""

from __future__ import annotations

import math
from dataclasses import dataclass

from nesting.lay import Lay

LONGER_S = 60.0
"""The longer search that is spoken of: a minute."""

LEAST_ABOVE = 1e-4
"""A lay longer than its lower bound by less than this share is as short as can be."""

SOURCE = "tests/benchmarks/anytime.py, table 'Yield against time' in docs/benchmarks.md"
"""Where the curve was measured."""

SECONDS = (3.0, 6.0, 12.0, 20.0, 60.0)
"""Times of the curve."""

GAINS = {
    100: (0.057, 0.038, 0.020, 0.012, 0.0),
    400: (0.070, 0.043, 0.024, 0.014, 0.0),
    1200: (0.080, 0.017, 0.015, 0.011, 0.0),
    5800: (0.095, 0.095, 0.014, 0.002, 0.0),
}
"""Yield at LONGER_S less yield at each of SECONDS, by pieces of the order; in between by the logarithms.

Means of the orders of the table: 100 of backing-0096, derby-0096 and 90 pieces of the court, 400 of
backing-0288, sandal-0400 and 576 pieces of the court, 1200 of backing-1152 and boot-0960, 5800 backing-5760
alone, of which nothing but the first layout is there at 3 and at 6 s."""

SCATTERS = (0.025, 0.013, 0.013, 0.013, 0.005)
"""Standard deviation of that difference from order to order, at each of SECONDS.

Of the eight orders behind the first three of GAINS about their means: 0.0161 at 3 s, 0.0083 at 6, 0.0057 at
12 and 0.0040 at 20 (five degrees of freedom each); 0.0237, 0.0108, 0.0044 and 0.0029 with the engine of the
same day's afternoon. Before the lay was shortened as a whole it was 0.0128 at 20 (two degrees), and so few
degrees tell no difference: the larger stands, for 6 and 12 s too, since it may not grow with time; the last
is an estimate, never below the half point by which runs of a minute scatter."""


@dataclass(frozen=True)
class LongerSearch:
    """What a search of ``seconds`` is likely to add to the yield (a fraction), and how far that scatters."""

    seconds: float
    gain_share: float
    scatter: float

    def to_json(self) -> dict[str, float]:
        """Return it as lay.json and cost objects hold it."""
        return {"seconds": self.seconds, "gain": round(self.gain_share, 4), "scatter": round(self.scatter, 4)}


def longer_search(lay: Lay, pieces: int) -> LongerSearch | None:
    """Return what a search of LONGER_S would add to the yield of a lay of this many pieces.

    None where nothing is known of how it was searched for, where it was as long already, and where the lay
    is as short as can be.
    """
    at_bound = lay.above_bound is not None and lay.above_bound < LEAST_ABOVE
    if pieces < 1 or at_bound or not 0.0 < lay.searched_s < LONGER_S:
        return None
    searched_s = lay.searched_s
    sizes = list(GAINS)
    gains = [_between(searched_s, SECONDS, GAINS[size]) for size in sizes]
    scatter = _between(searched_s, SECONDS, SCATTERS)
    return LongerSearch(LONGER_S, _between(float(pieces), sizes, gains), scatter)


def no_difference(
    first: float, second: float, scatters: tuple[float, float], gains: tuple[float, float] = (0.0, 0.0)
) -> bool:
    """Whether two yields differ by no more than their searches scatter (one standard deviation of both).

    A difference must stand as the yields are and as a longer search is likely to leave them, ``gains`` added:
    a large order is further from what it comes to than a small one after the same time.
    """
    now, later = first - second, first - second + gains[0] - gains[1]
    return now * later <= 0.0 or min(abs(now), abs(later)) <= math.hypot(*scatters)


def _between(
    at: float, places: tuple[float, ...] | list[int], values: tuple[float, ...] | list[float]
) -> float:
    """Interpolate over the logarithm of the place; outside the nearest value holds."""
    if at <= places[0]:
        return values[0]
    for k in range(1, len(places)):
        if at <= places[k]:
            share = math.log(at / places[k - 1]) / math.log(places[k] / places[k - 1])
            return values[k - 1] + share * (values[k] - values[k - 1])
    return values[-1]
