"""What shortens a strip once all is laid: pulled together, its end moved into openings, windows shortened.

The three take turns until the time is up: pieces that went into openings leave holes at the end, which
pulling and a window there close, and then others lie last.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from nesting.compaction.reinsertion import DRY, Openings, Sampled, sampled
from nesting.compaction.windows import shortened
from nesting.listen import Listener, Phase, PhaseCode
from nesting.rows.columns import Columns
from nesting.stop import Share, Stop

PASSES = 6
"""Passes of the window work when no clock is set."""

TRIES_A_PASS = 20
"""Tries to move a piece into an opening for each of them."""

TELL_S = 2.0
"""While pieces are moved a lay is reported this often."""

GATHER_S_PER_PIECE = 1e-3
"""Pulling a whole strip together takes so long for each piece (measured), ..."""

MOST_GATHERING = 0.1
"""... and is done where that is less than this share of the time left."""

WINDOWS, TRIES = 1, 6
"""Windows shortened in a turn, that at the end first, and tries for each: one processor is idle meanwhile."""


def ground_of(columns: Columns) -> Sampled:
    """Sample the depths of every pose that is asked for."""
    poses = {p for (d, _), p in columns.pose_of.items() if columns.dies[d].demand}
    return sampled(columns.contacts, poses, columns.gap_mm, columns.cell_mm)


def improved(
    columns: Columns,
    ground: Callable[[], Sampled],
    *,
    seed: int,
    passes: int | None,
    threads: int,
    listener: Listener,
    stop: Stop,
) -> Iterator[None]:
    """Shorten the strip of ``columns`` in place; yields whenever it may have become shorter.

    ``ground`` gives ``ground_of(columns)``, which may be on its way. With a clock it goes on until the time
    is up; without one there is one turn of counted work, and the same seed gives the same strip.
    """
    timed = math.isfinite(stop.left_s)
    strip = columns.strip
    tries = DRY if timed else TRIES_A_PASS * (passes or PASSES)
    openings: Openings | None = None
    turn = 0
    while not stop() and (timed or turn == 0):
        yield from _gathered(columns, stop)
        listener.phase(Phase(PhaseCode.OPENINGS))
        if openings is None:
            openings = Openings(strip, columns.choices_of, ground(), columns.largest_mm)
        openings.renew(1 + turn)
        while not openings.dry(tries) and not stop():
            slice_of = Share(stop, TELL_S) if timed else stop
            openings.move_in(seed=seed + turn, tries=tries, threads=threads if timed else 1, stop=slice_of)
            yield
        yield from _gathered(columns, stop)
        listener.phase(Phase(PhaseCode.WINDOWS))
        for _ in shortened(
            strip,
            columns.choices_of,
            columns.cloth_mm2,
            largest_mm=columns.largest_mm,
            cell_mm=1.5 * columns.cell_mm,
            seed=seed + turn,
            passes=1 if timed else passes or PASSES,
            most=WINDOWS if timed else None,
            tries=TRIES if timed else None,
            stop=stop,
        ):
            yield
        turn += 1


def _gathered(columns: Columns, stop: Stop) -> Iterator[None]:
    """Pull the strip together, if there is time for it; rows of one die are pulled tight as they are."""
    takes_s = GATHER_S_PER_PIECE * len(columns.strip.pose)
    if len(columns.dies) > 1 and takes_s < MOST_GATHERING * stop.left_s:
        columns.gather()
        yield
