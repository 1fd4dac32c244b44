"""A layout at once, to work with until a better one is found.

Bottom-left layouts (``ways``) in several orders, of single pieces and, where those come out shorter, of
clusters. The shortest is kept: which order is best differs from problem to problem, and a lay of a hundred
pieces takes hundredths of a second. Flaws and pinned pieces are gone round.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from functools import cached_property
from itertools import chain

from nesting.free.clusters import Clustered, Clusters, clustered
from nesting.free.ways import Ways
from nesting.lay import Lay, Placement
from nesting.listen import Listener, Phase, PhaseCode, Silent
from nesting.problem import LayProblem
from nesting.stop import Never, Stop

ENGINE = "first layout"

WORTH_CLUSTERING = 0.005
"""Clusters are used where they make the shortest layout in coarse rows shorter by this share (measured: it is
0.7 to 2.2 % where the search gains by them too, by 0.5 to 3 points of yield; on three of the literature's
instances it was longer or the same, and the search lost up to 1.5)."""

LEAST_CLUSTERED_S = 1.6
"""With less time than this for first layouts all of it goes into those of single pieces: clusters take half
of it to find."""

KEPT = 8
"""Problems whose layouts in coarse rows are kept: the search and other orders ask for them again."""


def solve(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 1,
    work: int | None = None,
) -> Lay:
    """Return the shortest of a few lays of single pieces: the same for every seed, ``work`` and number of
    ``workers`` (threads).

    Raises ProblemError when a piece fits no way.
    """
    ways = Ways(problem)
    return _shortest_first(problem, chain(ways.coarse(workers), ways.fine(workers)), seed, stop, listener)[0]


def at_once(problem: LayProblem, *, seed: int = 0) -> Lay:
    """Return the layout that is there first; raises ProblemError when a piece fits no way."""
    return _lay(problem, _compared(problem).single.first(), seed)


def layouts(
    problem: LayProblem,
    *,
    seed: int = 0,
    stop: Stop | None = None,
    listener: Listener | None = None,
    workers: int = 1,
) -> list[Lay]:
    """Return different layouts, the shortest first.

    Squeezed, another may be the shorter one, by up to 4 points of yield (measured on 100 pieces).
    """
    clusters = stop is None or stop.left_s > LEAST_CLUSTERED_S
    return _shortest_first(problem, _in_turn(problem, workers, clusters), seed, stop, listener)


def worthwhile_clusters(problem: LayProblem, workers: int = 1) -> Clusters | None:
    """Return the problem in clusters; None where there are none, or they make no shorter layout."""
    both = _compared(problem)
    if both.joined is None:
        return None
    for ways in (both.single, both.clusters):
        ways.shortest_order(workers)
    return both.joined if both.clusters_ahead else None


def shortest_ways(problem: LayProblem, workers: int = 1) -> tuple[Ways, Clustered | None]:
    """Return the layouts of clusters and the clusters where those are worthwhile, else of single pieces."""
    both, clusters = _compared(problem), worthwhile_clusters(problem, workers)
    return (both.single, None) if clusters is None else (both.clusters, clusters.laid)


class _Compared:
    """The layouts of a problem, of single pieces and of clusters; none is made before it is asked for."""

    def __init__(self, problem: LayProblem) -> None:
        self.problem = problem
        self.single = Ways(problem)

    @cached_property
    def joined(self) -> Clusters | None:
        return clustered(self.problem)

    @cached_property
    def clusters(self) -> Ways:
        return Ways(self.problem if self.joined is None else self.joined.laid.problem)

    @property
    def clusters_ahead(self) -> bool:
        return self.clusters.shortest_mm < self.single.shortest_mm * (1.0 - WORTH_CLUSTERING)


_kept: deque[_Compared] = deque(maxlen=KEPT)


def _compared(problem: LayProblem) -> _Compared:
    for known in _kept:
        if known.problem is problem:
            return known
    _kept.append(_Compared(problem))
    return _kept[-1]


def _in_turn(problem: LayProblem, workers: int, clusters: bool) -> Iterator[tuple[Placement, ...]]:
    """Yield layouts, those first that promise most for the time they take."""
    both = _compared(problem)
    yield from both.single.coarse(workers)
    if clusters and both.joined is not None:
        yield from map(both.joined.laid.apart, both.clusters.coarse(workers))
        if both.clusters_ahead:
            yield from map(both.joined.laid.apart, both.clusters.fine(workers))
            return
    yield from both.single.fine(workers)


def _shortest_first(
    problem: LayProblem,
    layouts: Iterator[tuple[Placement, ...]],
    seed: int,
    stop: Stop | None,
    listener: Listener | None,
) -> list[Lay]:
    stop, listener = stop or Never(), listener or Silent()
    listener.phase(Phase(PhaseCode.FIRST_LAYOUT))
    found: dict[float, Lay] = {}
    for placements in layouts:
        lay = _lay(problem, placements, seed)
        if lay.length_mm not in found:
            found[lay.length_mm] = lay
            if lay.length_mm == min(found):
                listener.better(lay)
        if stop():
            break
    return [found[length_mm] for length_mm in sorted(found)]


def _lay(problem: LayProblem, placements: tuple[Placement, ...], seed: int) -> Lay:
    length_mm = problem.length_of_mm(placements)
    return Lay(placements, length_mm, engine=ENGINE, seed=seed, stopped="finished")
