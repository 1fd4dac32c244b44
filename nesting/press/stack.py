"""Several dies cut from one stack: blocks of rows side by side, stretch of cloth after stretch.

A few strokes fill no row across the roll. So the cloth is taken in stretches of one length; in each
the dies are set out one beside the other, every one in its own rows by its own figures, on the
least width, and what a block leaves free takes the next. Deepest dies (along the roll) go first.
Several lengths of the stretch are tried. What is found is a good order, not a proven optimum.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from nesting.press.rows import PHASES, RULE_MM, PressRows, copies, on_rule

Array = NDArray[np.float64]
Rect = tuple[float, float, float, float]
"""min x, min y, max x, max y in mm."""

DEPTHS = (1.0, 1.3, 1.6, 2.0, 2.4, 3.0)
"""Lengths of a stretch tried, in lengths of the deepest die."""

LEAST = 3
"""A part of a run smaller than this is not worth moving the stops for, unless it ends the run."""


@dataclass(frozen=True, eq=False)
class Block:
    """Places of one die set out together: ``die`` indexes the rows given; corners as in PressRows."""

    die: int
    corners_mm: Array
    turned: NDArray[np.bool_]


def press_stack(
    dies: Sequence[PressRows],
    counts: Sequence[int],
    across_mm: tuple[float, float],
    gap_mm: float,
    *,
    start_mm: float = 0.0,
) -> tuple[tuple[Block, ...], float]:
    """Return the blocks in the order of cutting, and where the last one ends.

    ``counts`` are the places of each die, ``across_mm`` the strip between the edge margins.
    """
    deepest = max(die.size_mm[0] for die in dies)
    tried = (
        _stack(dies, counts, across_mm, gap_mm, start_mm, on_rule(deepest * depth) + RULE_MM)
        for depth in DEPTHS
    )
    return min(tried, key=lambda found: found[1])


def _stack(
    dies: Sequence[PressRows],
    counts: Sequence[int],
    across_mm: tuple[float, float],
    gap_mm: float,
    start_mm: float,
    depth_mm: float,
) -> tuple[tuple[Block, ...], float]:
    """Return the blocks and their end with stretches of one length, then closed up."""
    low, high = on_rule(across_mm[0]), across_mm[1]
    free: list[tuple[int, Rect]] = []
    blocks: list[tuple[int, Block]] = []
    stretches, whole = 0, (0.0, low, depth_mm, high)
    for k in sorted(range(len(dies)), key=lambda k: (-dies[k].size_mm[0], -dies[k].size_mm[1])):
        left = counts[k]
        while left:
            for number, rect in sorted(free, key=lambda f: (f[0], _area(f[1]))):
                block = _filled(dies[k], rect, left)
                if block is None or (len(block[0]) < min(left, LEAST) and rect != whole):
                    continue
                blocks.append((number, Block(k, *block)))
                left -= len(block[0])
                free.remove((number, rect))
                free += [(number, rest) for rest in _rest(dies[k], rect, block[0], gap_mm)]
                break
            else:
                free.append((stretches, whole))
                stretches += 1
    return _closed_up(dies, blocks, stretches, gap_mm, on_rule(start_mm))


def _closed_up(
    dies: Sequence[PressRows], blocks: list[tuple[int, Block]], stretches: int, gap_mm: float, start_mm: float
) -> tuple[tuple[Block, ...], float]:
    """Let each stretch begin where the one before it really ends."""
    done: list[Block] = []
    begin = end = start_mm
    for number in range(stretches):
        own = [block for at, block in blocks if at == number]
        for block in own:
            corners = np.round(block.corners_mm + (begin, 0.0), 6)
            done.append(Block(block.die, corners, block.turned))
            end = max(end, float(corners[:, 0].max()) + dies[block.die].size_mm[0])
        begin = on_rule(end + gap_mm)
    return tuple(done), end


def _filled(die: PressRows, rect: Rect, count: int) -> tuple[Array, NDArray[np.bool_]] | None:
    """Return at most ``count`` places in a rectangle, as many as go, on the least of its width.

    None where the rectangle takes none.
    """
    x0, y0, x1, y1 = rect
    deep, wide = x1 - x0 - die.size_mm[0], y1 - y0 - die.size_mm[1]
    if deep < -1e-6 or wide < -1e-6:
        return None
    lattice = die.lattice
    period, across = (die.step_mm, die.pitch_mm) if die.runs == "along" else (die.pitch_mm, die.step_mm)
    at, pose = copies(lattice, (-period, deep), (-across, wide))
    best: tuple[int, float, Array, NDArray[np.int64]] | None = None
    for fi in _phases(at[:, 0], period):
        x = at[:, 0] + fi
        column = np.flatnonzero((x >= -1e-6) & (x <= deep + 1e-6))
        low = np.unique(np.round(at[column, 1], 6))
        for y_low in low[(low > -across) & (low < 1e-6)]:
            y = at[column, 1] - y_low
            inside = np.flatnonzero((y >= -1e-6) & (y <= wide + 1e-6))
            chosen = inside[np.lexsort((x[column[inside]], np.round(y[inside], 6)))][:count]
            if not len(chosen):
                continue
            top = float(y[chosen].max())
            if best is None or (len(chosen), -top) > (best[0], -best[1]):
                use = column[chosen]
                best = (len(chosen), top, np.column_stack([x[use], y[chosen]]), pose[use])
    if best is None:
        return None
    corners = best[2] - (best[2][:, 0].min(), 0.0) + (on_rule(x0), on_rule(y0))
    if corners[:, 0].max() > x0 + deep + 1e-6 or corners[:, 1].max() > y0 + wide + 1e-6:
        return None  # the rule's tenth did not fit any more
    return np.round(corners, 6), best[3] == 1


def _phases(x: Array, period: float) -> Array:
    """Moves along the roll that bring some place of the lattice to the rectangle's near side."""
    moves = np.unique(np.round(-x % period, 6))
    return moves[:: max(1, len(moves) // PHASES)]


def _rest(die: PressRows, rect: Rect, corners: Array, gap_mm: float) -> list[Rect]:
    """What a block leaves of a rectangle: beside it across the roll, and behind it along the roll."""
    x0, y0, x1, y1 = rect
    right = float(corners[:, 0].max()) + die.size_mm[0] + gap_mm
    top = float(corners[:, 1].max()) + die.size_mm[1] + gap_mm
    return [r for r in ((x0, top, x1, y1), (right, y0, x1, top - gap_mm)) if r[2] > r[0] and r[3] > r[1]]


def _area(rect: Rect) -> float:
    return (rect[2] - rect[0]) * (rect[3] - rect[1])
