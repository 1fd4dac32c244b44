"""What shortens a strip once all is laid: pulled together, its end moved into openings, windows shortened.

The three take turns until the time is up: pieces that went into openings leave holes at the end, which
pulling and a window there close, and then others lie last.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from nesting.compaction.reinsertion import DRY, Openings, Sampled, sampled
from nesting.compaction.strip import Strip
from nesting.compaction.windows import shortened
from nesting.listen import Listener, Phase, PhaseCode
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


class Improvable(Protocol):
    """A strip with what is known of its pieces.

    ``asked_poses`` are those that a piece may take, ``cloth_mm2`` is for every pose the cloth that a piece
    in it takes where it repeats, ``cell_mm`` the grain in which depths are sampled and ``largest_mm`` the
    largest side of a piece.
    """

    strip: Strip
    cloth_mm2: NDArray[np.float64]
    cell_mm: float
    largest_mm: float

    @property
    def asked_poses(self) -> set[int]:
        """The poses that a piece may take."""

    def choices_of(self, pose: int) -> list[int]:
        """The poses that a piece in this pose may take."""

    def gather(self) -> bool:
        """Pull all pieces together; False when some will not."""


def ground_of(laid: Improvable, threads: int = 1) -> Sampled:
    """Sample the depths of every pose that is asked for."""
    return sampled(laid.strip.contacts, laid.asked_poses, laid.strip.gap_mm, laid.cell_mm, threads)


def improved(
    laid: Improvable,
    ground: Callable[[], Sampled] | None,
    *,
    seed: int,
    passes: int | None,
    threads: int,
    gathers: bool = True,
    listener: Listener,
    stop: Stop,
) -> Iterator[None]:
    """Shorten the strip of ``laid`` in place; yields whenever it may have become shorter.

    ``ground`` gives ``ground_of(laid)``, which may be on its way; without it nothing is moved into openings.
    Without ``gathers`` the strip is not pulled together as a whole (rows of one die are tight as they are).
    With a clock it goes on until the time is up; without one there is one turn of counted work, and the same
    seed gives the same strip.
    """
    timed = math.isfinite(stop.left_s)
    strip = laid.strip
    tries = DRY if timed else TRIES_A_PASS * (passes or PASSES)
    openings: Openings | None = None
    turn = 0
    while not stop() and (timed or turn == 0):
        yield from _gathered(laid, stop, gathers)
        if ground is not None:
            listener.phase(Phase(PhaseCode.OPENINGS))
            if openings is None:
                openings = Openings(strip, laid.choices_of, ground(), laid.largest_mm)
            openings.renew(1 + turn)
            while not openings.dry(tries) and not stop():
                slice_of = Share(stop, TELL_S) if timed else stop
                openings.move_in(
                    seed=seed + turn, tries=tries, threads=threads if timed else 1, stop=slice_of
                )
                yield
            yield from _gathered(laid, stop, gathers)
        listener.phase(Phase(PhaseCode.WINDOWS))
        for _ in shortened(
            strip,
            laid.choices_of,
            laid.cloth_mm2,
            largest_mm=laid.largest_mm,
            cell_mm=1.5 * laid.cell_mm,
            seed=seed + turn,
            passes=1 if timed else passes or PASSES,
            most=WINDOWS if timed else None,
            tries=TRIES if timed else None,
            stop=stop,
        ):
            yield
        turn += 1


def _gathered(laid: Improvable, stop: Stop, gathers: bool) -> Iterator[None]:
    """Pull the strip together, if there is time for it."""
    takes_s = GATHER_S_PER_PIECE * len(laid.strip.pose)
    if gathers and takes_s < MOST_GATHERING * stop.left_s:
        laid.gather()
        yield
