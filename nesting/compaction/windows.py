"""Shorten a strip that is laid, in small windows, those that lose most cloth first.

A window is a little longer than two of the largest pieces: what can be won lies where lattices meet
and at the end, and a small window shows within a second whether there is anything.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray

from nesting.compaction.strip import Strip
from nesting.compaction.window import shorten
from nesting.stop import Stop

Array = NDArray[np.float64]

SIZE = 2.3
"""Length of a window in those of the largest piece."""

OFFSETS = 4
"""Windows of one pass may begin at this many places per window length."""

TRIES = 24
"""Tries to shorten one window; three failures in a row end it."""

FIRST = 0.03
"""The first try takes this share of a window's length, ..."""

LEAST = 0.002
"""... the last one this."""


def shortened(
    strip: Strip,
    choices_of: Callable[[int], list[int]],
    cloth_mm2: Array,
    *,
    largest_mm: float,
    cell_mm: float,
    seed: int,
    passes: int,
    most: int | None = None,
    tries: int | None = None,
    stop: Stop,
) -> Iterator[float]:
    """Shorten windows in place; yields the mm won each time something was.

    ``cloth_mm2``: for every pose the cloth that a piece in it takes in its lattice; a window's loss
    is its cloth less that of its pieces. ``most`` windows a pass, all unless given, and this many ``tries``
    for each.
    """
    size = SIZE * largest_mm
    for turn in range(passes):
        end = strip.end_mm
        begin = -size * (0.5 + 0.31 * turn % 0.5)
        places = [end - size, *np.arange(begin, end - size, size / OFFSETS)]
        x = strip.at_mm[:, 0]
        loss = [
            (min(a + size, end) - max(a, 0.0)) * (strip.across_mm[1] - strip.across_mm[0])
            - float(cloth_mm2[strip.pose[(x >= a) & (x < a + size)]].sum())
            for a in places
        ]
        chosen = places[:1]  # what hangs out at the end costs the whole width
        for k in np.argsort(loss, kind="stable")[::-1]:
            if all(abs(places[k] - a) > 0.9 * size for a in chosen):
                chosen.append(places[k])
        gone: list[tuple[float, float]] = []
        for number, place in enumerate(chosen[:most]):
            if stop():
                return
            a = place - sum(mm for at, mm in gone if at < place)
            mm = shorten(
                strip,
                (max(0.0, a), min(a + size, strip.end_mm) + 1e-6),
                choices_of,
                seed=seed * 1009 + turn * 101 + number,
                tries=tries or TRIES,
                first_mm=FIRST * size / (1 + turn),
                least_mm=LEAST * size / (1 + turn),
                cell_mm=cell_mm,
                stop=stop,
            )
            if mm > 0.0:
                gone.append((place, mm))
                yield mm
