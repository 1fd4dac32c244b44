"""Whether a lay may be shortened as a whole (``shortening``), and how long that alone is the better search.

Light to load: asked before a search begins.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from geometry.outline import rotation
from nesting.contact.cells import finest_cell_mm
from nesting.free.turns import granted_turns, turns_of
from nesting.lay import Lay
from nesting.problem import LayProblem

MOST_CELLS, MOST_CELLS_AROUND = 12e6, 60e6
"""Samples of depth over all pairs of poses, those that half turns share counted twice: 24 MB, or 48 where no
half turns are allowed. Where something is fixed nothing else shortens the lay: there five times as much."""

CELLS_ACROSS, CELLS_ALONG = 12.0, 250.0
"""No finer than so many cells across the smallest pose, or along the largest (tables of 3, 6 and 12 million
cells, 6 to 12 across the smallest of 96 pieces of the derby, find the same on four orders of 90 to 144 pieces
and on seven of the literature, measured)."""

LEAST_CELLS = 4.0
"""With fewer cells across the smallest pose a lay is not shortened as a whole: of 96 different outlines
MOST_CELLS leave it 2, and at 12 s that has 75.3 % where the search with clusters has 76.0 (measured; 75.8 and
76.0 on 288 of them); at 5, 400 pieces gain 4 points."""

ALONE_S, ALONE_PIECES, ALONE_S_PER_PIECE = 6.0, 100, 0.2
"""Up to so long, longer by so much for each piece more than so many, no general solver is begun (measured: at
6 s 0.5 points ahead of it in the mean of five orders of 90 to 400 pieces; of 90 to 144 pieces as good at
11 s, and there both after one another no better; on 400 pieces 1.8 ahead at 11 s, 2.9 at 20)."""

ALONE_FROM_S = 3.5
"""With less time than this for a lay that nobody has searched for yet the solver is the better search, where
it is begun at all (90 pieces of the court, whose first layout is poor: at 2 and 3 s of the command 56.6 and
59.2 % against 60.1 and 61.5; on 96 and 112 pieces of the others up to 1.2 the other way)."""

WHOLE = "shortened as a whole"
"""What a lay says of it."""

MOST_PIECES = 800
"""Lays of more pieces are not shortened as a whole: a squeeze takes a second there."""


def cell_mm(size_mm: NDArray[np.float64], most_cells: float = MOST_CELLS) -> float:
    """Return the cell at which poses with boxes ``size_mm`` (n, 2) are sampled."""
    coarsest_of = float(size_mm.min()) / CELLS_ACROSS, float(size_mm.max()) / CELLS_ALONG
    return max(*coarsest_of, finest_cell_mm(size_mm, most_cells))


def suits(problem: LayProblem) -> bool:
    """Whether a lay has few enough pieces, and samples tell whether the smallest of them overlaps another."""
    if problem.pieces > MOST_PIECES:
        return False
    size_mm = np.array(
        [
            np.ptp(item.outline.ring_mm @ rotation(turn).T, axis=0)
            for item in problem.items
            if item.demand
            for turn in granted_turns(item) or turns_of(item)
        ]
    )
    return float(size_mm.min()) >= LEAST_CELLS * cell_mm(size_mm)


def as_a_whole(problem: LayProblem, seconds: float) -> bool:
    """Whether in so much time a lay is not divided into sections, since it gets shorter by this."""
    most_s = ALONE_S + ALONE_S_PER_PIECE * max(0, problem.pieces - ALONE_PIECES)
    return seconds <= most_s and suits(problem)


def alone(problem: LayProblem, seconds: float) -> bool:
    """Whether in so much time a lay gets shorter by this than by the general solver and this."""
    return seconds >= ALONE_FROM_S and as_a_whole(problem, seconds)


def goes_on(problem: LayProblem, lay: Lay | None, seconds: float) -> bool:
    """Whether in so much time only this goes on from a lay that was searched for before."""
    return lay is not None and lay.searched_s > 0.0 and as_a_whole(problem, seconds)
