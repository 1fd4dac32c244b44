"""Contact read from segments agrees with the Minkowski sum itself, put together slowly by shapely."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import LineString, Point, Polygon

from nesting.contact.touch import clearance, convolution, free_space, half_planes, ways_out

FORK = np.array([(0, 0), (30, 0), (30, 25), (20, 25), (20, 10), (10, 10), (10, 25), (0, 25)], float)
WEDGE = np.array([(-4, -3), (5, -2), (3, 6)], float)
offsets = st.tuples(st.floats(-25, 50), st.floats(-25, 50))


def plain_sum(a: np.ndarray, b: np.ndarray) -> Polygon:
    """A + (-B): A at a corner of -B, -B at a corner of A, and what their edges sweep over each other."""
    c = -b
    parts = [translate(Polygon(a), *c[0]), translate(Polygon(c), *a[0])]
    for p, q in zip(a, np.roll(a, -1, axis=0), strict=True):
        for s, e in zip(c, np.roll(c, -1, axis=0), strict=True):
            parts.append(shapely.convex_hull(shapely.MultiPoint([p + s, p + e, q + s, q + e])))
    return shapely.union_all(parts)


def plain_convolution(a: np.ndarray, b: np.ndarray) -> shapely.Geometry:
    """What the segments must cover: the boundary of the sum."""
    return plain_sum(a, b).boundary


def plain_clearance(a: np.ndarray, b: np.ndarray, q: tuple[float, float]) -> float:
    """Distance of the two pieces as they lie."""
    return Polygon(a).distance(translate(Polygon(b), *q))


def plain_free_space(a: np.ndarray, b: np.ndarray, q: tuple[float, float], gap: float) -> bool:
    """Whether pieces at this offset keep the gap."""
    return plain_clearance(a, b, q) >= gap - 1e-6


@pytest.mark.parametrize("pair", [(FORK, WEDGE), (WEDGE, FORK), (FORK, FORK), (WEDGE, -WEDGE)])
def test_segments_cover_the_boundary_of_the_sum(pair: tuple[np.ndarray, np.ndarray]) -> None:
    lines = shapely.union_all([LineString(s.reshape(2, 2)) for s in convolution(*pair)])
    assert plain_convolution(*pair).difference(lines.buffer(1e-6)).length < 1e-6


@settings(max_examples=80, deadline=None)
@given(offsets)
def test_clearance_is_the_distance(q: tuple[float, float]) -> None:
    apart = plain_clearance(FORK, WEDGE, q)
    if apart > 1e-6:
        assert clearance(convolution(FORK, WEDGE), *q) == pytest.approx(apart, abs=1e-9)


def reflex_corners(polygon: Polygon) -> list[Point]:
    """The corners at which the boundary turns back on what it surrounds."""
    ring = np.asarray(shapely.geometry.polygon.orient(polygon).exterior.coords)[:-1]
    come, go = ring - np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0) - ring
    return [Point(*at) for at in ring[come[:, 0] * go[:, 1] - come[:, 1] * go[:, 0] < 0.0]]


@settings(max_examples=60, deadline=None)
@given(st.floats(0, 1), st.floats(0.001, 0.3))
def test_just_inside_the_sum_clearance_is_negative(along: float, deep: float) -> None:
    """Deep inside and about reflex corners its sign is not promised: a segment within the sum may lie nearer
    than the boundary."""
    whole = plain_sum(FORK, WEDGE)
    inner = whole.buffer(-deep).exterior
    q = inner.interpolate(along, normalized=True)
    assert whole.contains(q)
    assume(all(q.distance(corner) > 4.0 * deep for corner in reflex_corners(whole)))
    assert clearance(convolution(FORK, WEDGE), q.x, q.y) < 0.0


@settings(max_examples=60, deadline=None)
@given(offsets, st.floats(0.0, 3.0))
def test_free_space_holds_no_offset_nearer_than_the_gap(q: tuple[float, float], gap: float) -> None:
    if plain_clearance(FORK, WEDGE, q) <= 1e-3:
        return  # an offset that overlaps may be led out, and is judged again afterwards
    reach = 4.0
    cuts = free_space(convolution(FORK, WEDGE), *q, gap, reach)
    for dx in np.linspace(-reach, reach, 7) / 1.5:
        for dy in np.linspace(-reach, reach, 7) / 1.5:
            x = (q[0] + dx, q[1] + dy)
            if all(nx * x[0] + ny * x[1] >= c for nx, ny, c in cuts):
                assert plain_free_space(FORK, WEDGE, x, gap)


def test_where_nothing_lies_near_nothing_is_cut_off() -> None:
    assert len(free_space(convolution(FORK, WEDGE), 400.0, 0.0, 2.0, 5.0)) == 0


def test_the_gap_is_kept_to_every_edge_of_a_bay_that_holds_a_piece() -> None:
    """A bay of many short edges bounds a move by each of them, and curved edges nested in each other do."""
    turns = np.radians(np.arange(10.0, 351.0, 10.0))
    arc = np.column_stack([np.cos(turns), np.sin(turns)])
    bay, bead = np.vstack([9.0 * arc, 6.0 * arc[::-1]]), 0.1 * WEDGE
    gap, reach = 1.0, 10.0
    cuts = free_space(convolution(bay, bead), 0.5, 0.0, gap, reach)
    spots = np.array([(x, y) for x in np.linspace(-5, 5, 31) for y in np.linspace(-5, 5, 31)])
    kept = spots[(spots @ cuts[:, :2].T >= cuts[:, 2]).all(axis=1)]
    assert len(kept) > 40, "there is room to move"
    moved = [translate(Polygon(bead), *at) for at in kept]
    assert shapely.distance(Polygon(bay), moved).min() >= gap - 1e-6


def plain_half_planes(sums: list[np.ndarray], offsets: np.ndarray, gap: float, reach: list[float]) -> list:
    """One pair after the other."""
    found = []
    for pair, (segments, q, far) in enumerate(zip(sums, offsets, reach, strict=True)):
        found += [(pair, *cut) for cut in free_space(segments, q[0], q[1], gap, far)]
    return found


def test_many_pairs_at_once_get_the_half_planes_of_each() -> None:
    sums = [convolution(FORK, WEDGE), convolution(WEDGE, FORK)]
    which, reach = np.array([0, 1, 0, 1]), np.array([4.0, 9.0, 30.0, 2.0])
    offsets = np.array([(36.0, 5.0), (-36.0, 0.0), (14.0, 20.0), (400.0, 0.0)])
    start = np.array([0, len(sums[0]), len(sums[0]) + len(sums[1])])
    pair, planes = half_planes(np.zeros((4, 4), np.int64), offsets, which, start, np.vstack(sums), 2.0, reach)
    plain = plain_half_planes([sums[k] for k in which], offsets, 2.0, reach.tolist())
    assert len(plain) > 3
    assert np.column_stack([pair, planes]) == pytest.approx(np.array(plain))


def plain_ways_out(segments: np.ndarray, q: np.ndarray, beyond: float) -> list[np.ndarray]:
    """Past every segment that has q squarely on its left."""
    found = []
    for x0, y0, x1, y1 in segments:
        edge = np.array([x1 - x0, y1 - y0]) / np.hypot(x1 - x0, y1 - y0)
        right = np.array([edge[1], -edge[0]])
        along, behind = (q - (x0, y0)) @ edge, -((q - (x0, y0)) @ right)
        if 0.0 <= along <= np.hypot(x1 - x0, y1 - y0) and behind >= 0.0:
            found.append(q + (behind + beyond) * right)
    return sorted(found, key=lambda out: float(np.hypot(*(out - q))))


@settings(max_examples=80, deadline=None)
@given(offsets)
def test_ways_out_of_an_overlap_are_those_past_each_edge_it_is_behind(q: tuple[float, float]) -> None:
    segments = convolution(FORK, WEDGE)
    told, plain = ways_out(segments, *q, 1e-3), plain_ways_out(segments, np.array(q), 1e-3)
    assert len(told) == len(plain)
    assert np.hypot(*(told - q).T) == pytest.approx([np.hypot(*(out - q)) for out in plain])
    whole = plain_sum(FORK, WEDGE)
    if whole.contains(Point(q)):
        free = [out for out in told if not whole.contains(Point(out))]
        nearest = whole.boundary.distance(Point(q))
        assert free, "from every overlap a way leads out"
        assert np.hypot(*(free[0] - q)) >= nearest, "and none is nearer than the boundary"
