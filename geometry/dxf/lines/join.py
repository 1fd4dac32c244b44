"""Loose drawn lines -> closed loops, every closed gap remembered.

Ends that meet are clustered, chains are walked from cluster to cluster. Only what then still
hangs together at junctions is cut into faces; doing that to everything would cut pieces up
along every line that is drawn across them.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from geometry import tolerances
from geometry.dxf.lines.curves import Points
from geometry.dxf.lines.effort import crossings, spend


@dataclass(frozen=True)
class Gap:
    """A gap between two ends, in mm."""

    from_mm: tuple[float, float]
    to_mm: tuple[float, float]

    @staticmethod
    def between(a: Points, b: Points) -> Gap:
        """Return the gap between two points."""
        return Gap((float(a[0]), float(a[1])), (float(b[0]), float(b[1])))

    @property
    def width_mm(self) -> float:
        """Distance of the two ends."""
        return float(np.hypot(self.to_mm[0] - self.from_mm[0], self.to_mm[1] - self.from_mm[1]))

    @property
    def place_mm(self) -> tuple[float, float]:
        """The middle."""
        return (self.from_mm[0] + self.to_mm[0]) / 2, (self.from_mm[1] + self.to_mm[1]) / 2


@dataclass(frozen=True, eq=False)
class Chain:
    """A polyline (n, 2) made of drawn curves (their indices in ``sources``).

    ``face``: one of several faces that share lines, so that what is a piece is a question.
    """

    points: Points
    sources: tuple[int, ...]
    gaps: tuple[Gap, ...] = ()
    closed: bool = False
    face: bool = False

    @cached_property
    def length(self) -> float:
        """Length in mm; a closed chain's last side counts."""
        return polyline_length(self.points) + (
            math.dist(self.points[0], self.points[-1]) if self.closed else 0.0
        )


def polyline_length(points: Points) -> float:
    """Length of an open polyline."""
    if len(points) == 2:
        return math.dist(points[0], points[1])
    steps = points[1:] - points[:-1]
    return float(np.hypot(steps[:, 0], steps[:, 1]).sum())


@dataclass
class Joined:
    """Closed loops, chains that stay open, and how many double lines were dropped."""

    loops: list[Chain]
    open: list[Chain]
    doubles: list[Chain]


def join(
    chains: Sequence[Chain], join_mm: float, ladder_mm: Sequence[float] = tolerances.JOIN_LADDER_MM
) -> Joined:
    """Join open chains into loops over gaps up to ``join_mm``, smallest tolerance first."""
    result = Joined([], list(chains), [])
    if not result.open:
        return result
    every = np.concatenate([chain.points for chain in result.open])
    diagonal = float(np.hypot(*np.ptp(every, axis=0)))
    ladder = [step for step in ladder_mm if step < join_mm] + [join_mm]
    spend(10.0 * len(result.open))
    for step in ladder:
        if not result.open or (step > ladder[0] and step > 0.05 * diagonal):
            break
        result.open, loops, doubles = _level(result.open, step)
        result.loops += loops
        result.doubles += doubles
    _afresh(result, chains, ladder)
    return result


def _afresh(result: Joined, chains: Sequence[Chain], ladder: Sequence[float]) -> None:
    """Join what stayed open once more, from its single curves, at every tolerance.

    A mark that starts exactly in a corner is joined to the outline there, while the outline's
    true next line begins a fraction further off: seen together, three ends meet and the mark,
    loose at its other end, is set aside.
    """
    inside = {source for chain in result.open if len(chain.sources) > 1 for source in chain.sources}
    atoms = [chain for chain in chains if inside & set(chain.sources)]
    found = False
    for step in ladder[1:]:
        _, loops, _ = _level(atoms, step)
        loops = [loop for loop in loops if not loop.face]
        if loops:
            found = True
            result.loops += loops
            used = {source for loop in loops for source in loop.sources}
            atoms = [chain for chain in atoms if not used & set(chain.sources)]
    if found:
        result.open = [chain for chain in result.open if not inside & set(chain.sources)]
        result.open += _level(atoms, ladder[0])[0] if atoms else []


def _level(chains: list[Chain], tolerance: float) -> tuple[list[Chain], list[Chain], list[Chain]]:
    """One round at one tolerance: (still open, loops, doubles)."""
    loops: list[Chain] = []
    chains, doubles = _without_doubles(chains, _labels(chains, tolerance))
    chains, closed = _contract(chains, _labels(chains, tolerance))
    loops += closed
    chains, more = _without_doubles(chains, _labels(chains, tolerance))
    doubles += more
    chains, closed = _contract(chains, _labels(chains, tolerance))
    loops += closed
    # ends that hang loose are set aside for this round: what is left may close without them
    core, loose = _prune(chains, _labels(chains, tolerance))
    if core:
        core, closed = _contract(core, _labels(core, tolerance))
        loops += closed
        core, more = _without_doubles(core, _labels(core, tolerance))
        doubles += more
        core, closed = _contract(core, _labels(core, tolerance))
        loops += closed
        core, more_loose = _prune(core, _labels(core, tolerance))
        loose += more_loose
        if core:
            faces, rest = _faces(core, _labels(core, tolerance))
            if all(_mostly_drawn(face) for face in faces):
                loops += faces
                loose += rest
            else:
                loose += core
    return loose, loops, doubles


def _labels(chains: list[Chain], tolerance: float) -> NDArray[np.int64]:
    """Return the cluster of every end: [2 i] the start, [2 i + 1] the end of chain i.

    Two ends are one when they are within the tolerance, and within half the length of the
    shorter chain: else small pieces would be pulled together to a point.
    """
    if not chains:
        return np.empty(0, dtype=np.int64)
    ends = np.array([end for c in chains for end in (c.points[0], c.points[-1])])
    reach = np.repeat([0.5 * c.length for c in chains], 2)
    places, index = np.unique(ends, axis=0, return_inverse=True)
    index = index.reshape(-1)
    allowed = np.full(len(places), np.inf)
    np.minimum.at(allowed, index, reach)
    pairs = cKDTree(places).query_pairs(tolerance, output_type="ndarray")
    if len(pairs):
        gap = np.hypot(*(places[pairs[:, 0]] - places[pairs[:, 1]]).T)
        pairs = pairs[gap <= np.minimum(allowed[pairs[:, 0]], allowed[pairs[:, 1]])]
    graph = coo_matrix((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(len(places), len(places)))
    _, labels = connected_components(graph, directed=False)
    return np.asarray(labels[index], dtype=np.int64)


def _contract(chains: list[Chain], labels: NDArray[np.int64]) -> tuple[list[Chain], list[Chain]]:
    """Join chains wherever exactly two ends meet: (open chains, loops)."""
    partner = np.full(len(labels), -1, dtype=np.int64)
    order = np.argsort(labels, kind="stable")
    sorted_labels = labels[order]
    begin = np.flatnonzero(np.r_[True, sorted_labels[1:] != sorted_labels[:-1]])
    size = np.diff(np.r_[begin, len(labels)])
    for at in begin[size == 2]:
        a, b = order[at], order[at + 1]
        partner[a], partner[b] = b, a
    used = np.zeros(len(chains), dtype=bool)
    paths: list[Chain] = []
    loops: list[Chain] = []

    def walk(start: int) -> list[tuple[int, bool]]:
        """Follow from an end (as the entry) until no partner or back at the start."""
        steps: list[tuple[int, bool]] = []
        end = start
        while True:
            chain = end // 2
            if used[chain]:
                return steps
            used[chain] = True
            steps.append((chain, bool(end % 2)))
            end = int(partner[end ^ 1])
            if end < 0:
                return steps

    for end in np.flatnonzero(partner < 0):
        if not used[end // 2]:
            paths.append(_linked(chains, walk(int(end)), False))
    for chain in range(len(chains)):
        if not used[chain]:
            steps = walk(2 * chain)
            loop = _linked(chains, steps, True)
            if len(loop.points) > 2 and _mostly_drawn(loop):
                loops.append(loop)
            else:  # there and back along one line, or more gap than line, closes nothing
                paths += [chains[i] for i, _ in steps]
    return paths, loops


def _mostly_drawn(loop: Chain) -> bool:
    """Tell whether gaps make up only a small part of a loop."""
    return sum(gap.width_mm for gap in loop.gaps) <= tolerances.GAP_SHARE * loop.length


def _linked(chains: list[Chain], steps: list[tuple[int, bool]], closed: bool) -> Chain:
    """One chain of several, each joint made one point."""
    if len(steps) == 1 and not closed:
        return chains[steps[0][0]]
    parts = [chains[i].points[::-1] if back else chains[i].points for i, back in steps]
    parts = [part.copy() for part in parts]
    sources = tuple(s for i, _ in steps for s in chains[i].sources)
    gaps = [gap for i, _ in steps for gap in chains[i].gaps]
    count = len(parts)
    for i in range(count if closed else count - 1):
        before, after = parts[i], parts[(i + 1) % count]
        point, gap = _joint(before, after)
        if gap > tolerances.JOIN_LADDER_MM[0]:
            gaps.append(Gap.between(before[-1], after[0]))
        before[-1] = point
        after[0] = point
    points = np.concatenate([parts[0], *(part[1:] for part in parts[1:])])
    if closed and len(points) > 1:
        points = points[:-1]
    return Chain(points, sources, tuple(gaps), closed)


def _joint(before: Points, after: Points) -> tuple[Points, float]:
    """Return the point in which two ends are joined, and the width of the gap.

    Where the two lines, run on straight, meet within the gap's width, that is the corner
    that was meant; else the middle.
    """
    a, b = before[-1], after[0]
    gap = float(np.hypot(*(b - a)))
    if gap <= tolerances.JOIN_LADDER_MM[0] or len(before) < 2 or len(after) < 2:
        return a, gap
    way_a, way_b = a - before[-2], b - after[1]
    cross = way_a[0] * way_b[1] - way_a[1] * way_b[0]
    if abs(cross) > 0.1 * float(np.hypot(*way_a) * np.hypot(*way_b)):
        share = ((b - a)[0] * way_b[1] - (b - a)[1] * way_b[0]) / cross
        meet = a + share * way_a
        if max(np.hypot(*(meet - a)), np.hypot(*(meet - b))) <= gap + 1e-12:
            return meet, gap
    return 0.5 * (a + b), gap


def _without_doubles(chains: list[Chain], labels: NDArray[np.int64]) -> tuple[list[Chain], list[Chain]]:
    """Drop chains that run between the same two clusters along the same way."""
    groups: dict[tuple[int, int], list[int]] = defaultdict(list)
    for i in range(len(chains)):
        a, b = int(labels[2 * i]), int(labels[2 * i + 1])
        groups[min(a, b), max(a, b)].append(i)
    dropped: set[int] = set()
    for members in groups.values():
        kept: list[int] = []
        for i in members:
            if any(same_curve(chains[i].points, chains[k].points) for k in kept[-50:]):
                dropped.add(i)
            else:
                kept.append(i)
    return [c for i, c in enumerate(chains) if i not in dropped], [chains[i] for i in sorted(dropped)]


def same_curve(a: Points, b: Points) -> bool:
    """Tell whether two open polylines nowhere part by more than SAME_CURVE_MM."""
    if np.abs(a.min(axis=0) - b.min(axis=0)).max() > tolerances.SAME_CURVE_MM:
        return False
    if np.abs(a.max(axis=0) - b.max(axis=0)).max() > tolerances.SAME_CURVE_MM:
        return False
    spend(0.01 * len(a) * len(b))
    one, other = shapely.LineString(a), shapely.LineString(b)
    return bool(shapely.hausdorff_distance(one, other) <= tolerances.SAME_CURVE_MM)


def _prune(chains: list[Chain], labels: NDArray[np.int64]) -> tuple[list[Chain], list[Chain]]:
    """Set aside, again and again, chains with an end that meets nothing: (core, loose)."""
    alive = np.ones(len(chains), dtype=bool)
    degree = np.bincount(labels) if len(labels) else np.empty(0, dtype=np.int64)
    at: dict[int, list[int]] = defaultdict(list)
    for end, label in enumerate(labels.tolist()):
        at[label].append(end // 2)
    queue = [label for label, count in enumerate(degree) if count == 1]
    while queue:
        label = queue.pop()
        for chain in at[label]:
            if alive[chain]:
                alive[chain] = False
                for end in (2 * chain, 2 * chain + 1):
                    degree[labels[end]] -= 1
                    if degree[labels[end]] == 1:
                        queue.append(int(labels[end]))
    return [c for c, keep in zip(chains, alive, strict=True) if keep], [
        c for c, keep in zip(chains, alive, strict=True) if not keep
    ]


def _faces(chains: list[Chain], labels: NDArray[np.int64]) -> tuple[list[Chain], list[Chain]]:
    """Cut what hangs together at junctions into faces: (loops, chains that bound none)."""
    centre: dict[int, list[Points]] = defaultdict(list)
    for i, chain in enumerate(chains):
        centre[int(labels[2 * i])].append(chain.points[0])
        centre[int(labels[2 * i + 1])].append(chain.points[-1])
    spot = {label: np.mean(points, axis=0) for label, points in centre.items()}
    snapped: list[Chain] = []
    for i, chain in enumerate(chains):
        points = chain.points.copy()
        gaps = list(chain.gaps)
        for place, label in ((0, int(labels[2 * i])), (-1, int(labels[2 * i + 1]))):
            gap = float(np.hypot(*(points[place] - spot[label])))
            if gap > tolerances.JOIN_LADDER_MM[0]:
                gaps.append(Gap.between(points[place], spot[label]))
            points[place] = spot[label]
        snapped.append(Chain(points, chain.sources, tuple(gaps)))
    return faces_of(snapped)


def faces_of(chains: list[Chain]) -> tuple[list[Chain], list[Chain]]:
    """Node chains and cut them into faces: (loops, chains that bound none)."""
    lines = [shapely.LineString(chain.points) for chain in chains]
    spend(12.0 * crossings([chain.points for chain in chains], closed=False))
    noded = shapely.union_all(lines)
    polygons = list(shapely.get_parts(shapely.polygonize([noded])))
    if not polygons:
        return [], chains
    tree = shapely.STRtree(lines)
    loops: list[Chain] = []
    touched: set[int] = set()
    for polygon in polygons:
        ring = np.asarray(polygon.exterior.coords)[:-1]
        spend(120.0 + 10.0 * len(ring))
        near = tree.query(polygon.exterior, predicate="dwithin", distance=1e-6)
        along = [
            int(i)
            for i in near
            if shapely.length(shapely.intersection(lines[int(i)], shapely.buffer(polygon.exterior, 1e-6)))
            > 1e-4
        ]
        touched.update(along)
        sources = tuple(s for i in along for s in chains[i].sources)
        gaps = tuple(dict.fromkeys(gap for i in along for gap in chains[i].gaps))
        loops.append(Chain(ring, sources, gaps, closed=True, face=len(polygons) > 1))
    return loops, [chain for i, chain in enumerate(chains) if i not in touched]
