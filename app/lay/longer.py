"""What a longer search is likely to add to a yield, in words; and when two yields are no different."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from nesting.expected import no_difference

LEAST_GAIN = 0.0005
"""A smaller gain or change than half a tenth of a point is none: it would be written as 0.0 %."""


def longer_text(longer: Mapping[str, float] | None) -> str:
    """Return it as an addition to a yield, '' where nothing is known or nothing to be gained."""
    if longer is None or longer["gain"] < LEAST_GAIN:
        return ""
    return (
        f" ({longer['seconds']:g} s of search are likely to add {100.0 * longer['gain']:.1f} "
        f"± {100.0 * longer['scatter']:.1f} points)"
    )


def no_change(row: Mapping[str, Any], own: Mapping[str, Any]) -> bool:
    """Whether a line of a comparison takes the same cloth per pair as another, as far as can be told."""
    change = row["metres_per_pair"] / own["metres_per_pair"] - 1.0
    return same_within_scatter(row, own) or abs(change) < LEAST_GAIN


def same_within_scatter(row: Mapping[str, Any], other: Mapping[str, Any]) -> bool:
    """Whether the yields of two lays differ by no more than what longer searches may make of them.

    Never for one and the same lay, nor where it is not known how long was searched.
    """
    longer, others = row.get("longer_search"), other.get("longer_search")
    if longer is None or others is None or row["lay_length_mm"] == other["lay_length_mm"]:
        return False
    scatters = (longer["scatter"], others["scatter"])
    return no_difference(row["yield"], other["yield"], scatters, (longer["gain"], others["gain"]))
