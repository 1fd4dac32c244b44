"""How a lay is improved for hours: round after round, each going on from the best, with another seed."""

from __future__ import annotations

from collections.abc import Iterator

ROUNDS_S = (60.0, 120.0, 300.0, 600.0)
"""Seconds of the rounds, the last one again and again: longer rounds find what shorter ones no longer do, and
what a round found is kept at its end, so that an end by force loses ten minutes at most."""


def rounds_s(seconds: float) -> Iterator[float]:
    """Yield the seconds of one round after the other, ``seconds`` in all."""
    number = 0
    while seconds > 0.0:
        each = min(ROUNDS_S[min(number, len(ROUNDS_S) - 1)], seconds)
        yield each
        seconds -= each
        number += 1
