"""A layout at once, to work with until a better one is found.

Bottom-left layouts (``bottom_left``) in several orders: the largest first, by one measure of size or another.
The shortest is kept: which order is best differs from problem to problem, and a lay of a hundred pieces takes
hundredths of a second. Flaws and pinned pieces are gone round.
"""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from nesting.free.bottom_left import BottomLeft
from nesting.free.clusters import clustered
from nesting.lay import Lay, Placement
from nesting.listen import Listener, Phase, PhaseCode, Silent
from nesting.problem import LayProblem
from nesting.stop import Never, Stop

COARSE_ROWS, FINE_ROWS = 400, 800
"""Rows across the width: fine ones lose less (1 to 4 points of yield, measured), at four times the time."""

FINE_PIECES = 1000
"""Lays of up to this many pieces are laid in fine rows too; of more one takes a second."""

SLOPES = (0.03, 0.06, 0.0)
"""What a mm across the roll counts along it: pieces go to one edge rather than the other, so that what is
left open lies together. The first is the best on most shapes (measured; without, 0.5 points less)."""

WAYS_WORK = 12000
"""Pieces laid, over all ways tried: small lays try every way, those of thousands two."""

ENGINE = "first layout"


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 1,
    work: int | None = None,
) -> Lay:
    """Return the shortest of a few lays: the same for every seed, ``work`` and number of ``workers`` (threads).

    Raises ProblemError when a piece fits no way.
    """
    stop, listener = stop or Never(), listener or Silent()
    listener.phase(Phase(PhaseCode.FIRST_LAYOUT))
    shortest: Lay | None = None
    for placements in _ways(problem, workers):
        lay = _lay(problem, placements, seed)
        if shortest is None or lay.length_mm < shortest.length_mm:
            shortest = lay
            listener.better(lay)
        if stop():
            break
    assert shortest is not None
    return shortest


def at_once(problem: LayProblem, *, seed: int = 0) -> Lay:
    """Return the layout that is there first; raises ProblemError when a piece fits no way."""
    return _lay(problem, next(_ways(problem, 1)), seed)


def layouts(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 1,
) -> list[Lay]:
    """Return different layouts, of single pieces and of clusters of them, the shortest first.

    Squeezed, another may be the shorter one, by up to 4 points of yield (measured on 100 pieces).
    """
    stop, listener = stop or Never(), listener or Silent()
    listener.phase(Phase(PhaseCode.FIRST_LAYOUT))
    found: dict[float, Lay] = {}
    for placements in _in_turn(problem, workers, stop):
        length_mm = problem.length_of_mm(placements)
        if length_mm not in found:
            found[length_mm] = _lay(problem, placements, seed)
            if length_mm == min(found):
                listener.better(found[length_mm])
        if stop():
            break
    return [found[length_mm] for length_mm in sorted(found)]


def _in_turn(problem: LayProblem, workers: int, stop: Stop) -> Iterator[tuple[Placement, ...]]:
    """Yield one layout at once, then those of clusters, which are the denser ones, or of single pieces."""
    single = _ways(problem, workers)
    yield next(single)
    joined = None if stop() else clustered(problem)
    if joined is None:
        yield from single
    else:
        yield from map(joined.apart, _ways(joined.problem, workers))


def _lay(problem: LayProblem, placements: tuple[Placement, ...], seed: int) -> Lay:
    length_mm = problem.length_of_mm(placements)
    return Lay(placements, length_mm, engine=ENGINE, seed=seed, stopped="finished")


def _ways(problem: LayProblem, workers: int) -> Iterator[tuple[Placement, ...]]:
    """Yield layouts, those first that promise most for the time they take."""
    coarse = BottomLeft(problem, COARSE_ROWS)
    orders = [order_of(coarse.demand, size) for size in sizes(problem)]
    pieces = max(1, len(orders[0]))
    ways = range(max(2, min(len(orders), WAYS_WORK // (4 * pieces))))
    laid = [coarse.lay(orders[0], SLOPES[0])]
    yield coarse.placements(laid[0])
    if any(item.turn_tolerance_deg for item in problem.items):
        # a choice of more angles is not always the better choice: the shorter lay decides
        leaning = BottomLeft(problem, COARSE_ROWS, leaning=True)
        yield leaning.placements(leaning.lay(orders[0], SLOPES[0]))
    with ThreadPoolExecutor(max(1, workers)) as threads:
        for each in threads.map(lambda way: coarse.lay(orders[way], SLOPES[0]), ways[1:]):
            laid.append(each)
            yield coarse.placements(each)
        if pieces > FINE_PIECES:
            return
        fine = BottomLeft(problem, FINE_ROWS)
        by_length = sorted(ways, key=lambda way: laid[way].length_mm)
        tries = chain(
            ((way, SLOPES[0]) for way in by_length), ((by_length[0], slope) for slope in SLOPES[1:])
        )
        for each in threads.map(lambda at: fine.lay(orders[at[0]], at[1]), tries):
            yield fine.placements(each)


def sizes(problem: LayProblem) -> tuple[NDArray[np.float64], ...]:
    """Return measures of the items' sizes by which the largest may be laid first."""
    box = np.array([item.outline.bbox_mm for item in problem.items])
    along, across = box[:, 2] - box[:, 0], box[:, 3] - box[:, 1]
    hull = np.array([item.outline.polygon.convex_hull.area for item in problem.items])
    area = np.array([item.outline.area_mm2 for item in problem.items])
    return hull, along, np.hypot(along, across) * np.sqrt(hull), across, area


def order_of(demand: list[int], size: NDArray[np.float64]) -> NDArray[np.int64]:
    """Return the items, each as often as it is asked for, the largest first."""
    largest_first = np.argsort(-size, kind="stable")
    return np.repeat(largest_first, np.array(demand, dtype=np.int64)[largest_first])
