"""Outlines broken into edges: at corners, at turn points, and where a person says so.

An *edge* runs between two break points of a ring in the ring's own direction. Break points are
vertices; no vertex is ever put in, so an edging made on one size carries over to another.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from geometry import tolerances
from geometry.backing.house_rules import DraftRules
from geometry.edge_kinds import EdgeKind
from geometry.errors import EdgeError
from geometry.findings import Finding, Severity
from geometry.outline import Outline, Ring
from geometry.piece import DrawnPiece, Edge, Edging, Mark
from geometry.said import said


def turns_deg(ring: Ring) -> NDArray[np.float64]:
    """Return the turn at every vertex of a ring, (n,), positive to the left, in (-180, 180].

    Steps shorter than SAME_POINT_MM have no direction of their own: the turn is read at the
    last vertex of such a cluster, and the others have none.
    """
    step = np.roll(ring, -1, axis=0) - ring
    real = np.hypot(step[:, 0], step[:, 1]) > tolerances.SAME_POINT_MM
    turns = np.zeros(len(ring))
    at = np.flatnonzero(real)  # vertices whose outgoing step has a direction
    if len(at) < 2:
        return turns
    heading = np.degrees(np.arctan2(step[at, 1], step[at, 0]))
    change = (heading - np.roll(heading, 1) + 180.0) % 360.0 - 180.0
    turns[at] = np.where(change == -180.0, 180.0, change)
    return turns


def corners(ring: Ring, corner_deg: float) -> tuple[int, ...]:
    """Return the vertices where a ring turns by more than ``corner_deg`` either way.

    Where vertices stand closer than CORNER_REACH_MM the turn is read over that length, so that
    neither the jitter of a scanned line makes corners nor a tiny rounding hides one; of several
    such vertices next to each other the sharpest is the corner.
    """
    length = np.hypot(*(np.roll(ring, -1, axis=0) - ring).T)
    reach = min(tolerances.CORNER_REACH_MM, float(length.sum()) / 16.0)
    if float(length.min()) >= reach:
        return tuple(int(i) for i in np.flatnonzero(np.abs(turns_deg(ring)) > corner_deg))
    along = np.concatenate([[0.0], np.cumsum(length)])
    total, at = along[-1], along[:-1]
    closed = np.concatenate([ring, ring[:1]])
    before, after = (
        np.stack([np.interp((at + way) % total, along, closed[:, i]) for i in (0, 1)], axis=1)
        for way in (-reach, reach)
    )
    into, out = ring - before, after - ring
    turn = np.abs(
        np.degrees(
            np.arctan2(into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0], np.einsum("ij,ij->i", into, out))
        )
    )
    found: list[int] = []
    for i in np.flatnonzero(turn > corner_deg).tolist():
        if found and at[i] - at[found[-1]] <= 2.0 * reach:
            found[-1] = i if turn[i] > turn[found[-1]] else found[-1]
        else:
            found.append(i)
    if len(found) > 1 and total - at[found[-1]] + at[found[0]] <= 2.0 * reach:
        found.pop(0 if turn[found[0]] < turn[found[-1]] else -1)
    return tuple(found)


def turn_deg(points: NDArray[np.float64], then: NDArray[np.float64]) -> float:
    """Return the turn from the end of one edge into the next, positive to the left."""
    into, out = _first_step(points[::-1]), _first_step(then)
    return float(np.degrees(np.arctan2(out[0] * into[1] - out[1] * into[0], -(into @ out))))


def _first_step(points: NDArray[np.float64]) -> NDArray[np.float64]:
    step: NDArray[np.float64] = points - points[0]
    return step[int((np.hypot(step[:, 0], step[:, 1]) > tolerances.SAME_POINT_MM).argmax())]


def is_straight(points: NDArray[np.float64]) -> bool:
    """Whether all points of an edge lie within CHORD_MM of the line between its ends."""
    return float(_distances(points, points[[0, -1]]).max()) <= tolerances.CHORD_MM


def find_edging(drawn: DrawnPiece, rules: DraftRules) -> tuple[Edging, tuple[Finding, ...]]:
    """Break the outline of a drawn piece at its corners and turn points.

    A turn point is taken to the nearest vertex; one further off than JOIN_MM is reported and
    left out. A ring without any break is one edge from its first vertex. Every kind is a
    suggestion (``confirmed`` is False).
    """
    rings = drawn.outline.rings_mm
    breaks = [set(corners(ring, rules.corner_deg)) for ring in rings]
    findings: list[Finding] = []
    for point in drawn.turn_points_mm:
        away = [np.hypot(*(ring - point).T) for ring in rings]
        r = min(range(len(rings)), key=lambda i: float(away[i].min()))
        distance = float(away[r].min())
        if distance > tolerances.JOIN_MM:
            findings.append(
                Finding(
                    code="TURN_POINT_OFF_OUTLINE",
                    severity=Severity.WARNING,
                    message=said("a turn point lies {0} mm from the nearest vertex", f"{distance:.2f}"),
                    done="left out",
                    advice="add a break point there by hand if an edge ends there",
                    piece=drawn.name,
                    size=drawn.size,
                    where_mm=((float(point[0]), float(point[1])),),
                )
            )
            continue
        breaks[r].add(int(away[r].argmin()))
    edging = Edging(
        breaks=tuple(tuple(sorted(found)) or (0,) for found in breaks),
        edges=tuple(tuple(Edge(EdgeKind.RAW) for _ in range(max(len(found), 1))) for found in breaks),
    )
    edging = suggest_kinds(drawn, edging)
    findings.append(
        Finding(
            code="EDGES_TO_CONFIRM",
            severity=Severity.QUESTION,
            message=said("{0} edges found; their kinds are suggestions", sum(map(len, edging.edges))),
            advice="choose the kind of each edge, and confirm it",
            piece=drawn.name,
            size=drawn.size,
        )
    )
    return edging, tuple(findings)


def suggest_kinds(drawn: DrawnPiece, edging: Edging) -> Edging:
    """Suggest kinds only where the drawing itself shows them; the rest stays ``raw``.

    - a drawn line that lies on a straight edge from end to end is a fold line: ``centre``;
    - a sew line that runs along an edge at an even distance makes it a ``seam`` whose allowance
      is that distance;
    - a punched hole (no wider than PUNCHED_MM) goes through upper and backing together: its
      edge is ``raw`` with setback 0.
    Edges already confirmed are left alone.
    """
    outline = drawn.outline
    edges = []
    for r, ring_edges in enumerate(edging.edges):
        ring = outline.rings_mm[r]
        punched = r > 0 and float((ring.max(axis=0) - ring.min(axis=0)).max()) <= tolerances.PUNCHED_MM
        suggested = []
        for k, edge in enumerate(ring_edges):
            if not edge.confirmed:
                points = edge_points(outline, edging, r, k)
                edge = _suggestion(points, drawn.marks, punched)
            suggested.append(edge)
        edges.append(tuple(suggested))
    return replace(edging, edges=tuple(edges))


def _suggestion(points: NDArray[np.float64], marks: Sequence[Mark], punched: bool) -> Edge:
    for mark in marks:
        if mark.closed or len(mark.points_mm) < 2:
            continue
        if mark.kind == "line" and is_straight(points) and _lies_on(points, mark.points_mm):
            return Edge(EdgeKind.CENTRE)
        if mark.kind == "sew":
            distance = even_distance(points, mark.points_mm)
            if distance is not None:
                return Edge(EdgeKind.SEAM, allowance_mm=round(distance, 2))
    return Edge(EdgeKind.RAW, setback_mm=0.0) if punched else Edge(EdgeKind.RAW)


def _lies_on(points: NDArray[np.float64], line: NDArray[np.float64]) -> bool:
    ends = np.hypot(*(points[[0, -1]] - line[[0, -1]]).T), np.hypot(*(points[[0, -1]] - line[[-1, 0]]).T)
    return bool(min(e.max() for e in ends) <= tolerances.JOIN_MM and is_straight(line))


def even_distance(points: NDArray[np.float64], line: NDArray[np.float64]) -> float | None:
    """Return the distance at which a line runs along the middle half of an edge, if it is even."""
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    at = np.linspace(0.25, 0.75, 9) * along[-1]
    probes = np.stack([np.interp(at, along, points[:, i]) for i in (0, 1)], axis=1)
    away = _distances(probes, line)
    if away.min() < tolerances.JOIN_MM or away.max() > 25.0 or np.ptp(away) > 2 * tolerances.CHORD_MM:
        return None
    return float(away.mean())


def _distances(points: NDArray[np.float64], line: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the distance of each point from a polyline."""
    a, d = line[:-1], np.diff(line, axis=0)
    t = np.einsum("pij,ij->pi", points[:, None] - a, d) / np.maximum(np.einsum("ij,ij->i", d, d), 1e-300)
    foot = a + np.clip(t, 0.0, 1.0)[:, :, None] * d
    away: NDArray[np.float64] = np.hypot(*np.moveaxis(points[:, None] - foot, -1, 0)).min(axis=1)
    return away


def edge_points(outline: Outline, edging: Edging, ring: int, k: int) -> NDArray[np.float64]:
    """Return the vertices of edge ``k`` of a ring, both ends included, (n, 2).

    The single edge of a ring with one break comes back to its start, so that its first and last
    point are the same. Raises EdgeError when there is no such edge.
    """
    points = outline.rings_mm[ring]
    breaks = edging.breaks[ring]
    if not 0 <= k < len(breaks) or breaks[-1] >= len(points):
        raise EdgeError(
            said("there is no edge {0} on ring {1} of this outline", k, ring), remedy="find the edges again"
        )
    start, stop = breaks[k], breaks[(k + 1) % len(breaks)]
    count = (stop - start - 1) % len(points) + 1
    return points[np.arange(start, start + count + 1) % len(points)]


def check_edging(outline: Outline, edging: Edging, piece: str = "") -> None:
    """Raise EdgeError unless the edging fits the outline: rings, ascending vertices, one edge per break."""
    rings = outline.rings_mm
    if len(edging.breaks) != len(rings) or len(edging.edges) != len(rings):
        raise EdgeError(
            said("edges are marked on {0} rings, the outline has {1}", len(edging.breaks), len(rings)),
            remedy="find the edges again",
            piece=piece,
        )
    for ring, breaks, edges in zip(rings, edging.breaks, edging.edges, strict=True):
        fits = breaks and list(breaks) == sorted(set(breaks)) and breaks[0] >= 0 and breaks[-1] < len(ring)
        if not fits or len(edges) != len(breaks):
            raise EdgeError("break points do not fit the outline", remedy="find the edges again", piece=piece)


def taper_at(outline: Outline, edging: Edging, ring: int, vertex: int) -> float | None:
    """Return the setback at a vertex within an edge whose setback changes along it; None in any other."""
    k = sum(b < vertex for b in edging.breaks[ring]) - 1  # -1: before the first break lies the last edge
    edge, start = edging.edges[ring][k], edging.breaks[ring][k]
    if edge.setback_end_mm is None or edge.setback_mm is None:
        return None
    step = np.hypot(*np.diff(edge_points(outline, edging, ring, k % len(edging.breaks[ring])), axis=0).T)
    before = step[: (vertex - start) % len(outline.rings_mm[ring])].sum()
    return float(edge.setback_mm + before / step.sum() * (edge.setback_end_mm - edge.setback_mm))


def add_break(edging: Edging, ring: int, vertex: int, between_mm: float | None = None) -> Edging:
    """Return the edging with a break at ``vertex``; both halves keep the kind of the edge there.

    ``between_mm`` is the setback there of an edge whose setback changes along it.
    Raises EdgeError when there is a break already.
    """
    breaks, edges = list(edging.breaks[ring]), list(edging.edges[ring])
    if vertex in breaks:
        raise EdgeError("there is a break point already", remedy="choose another vertex")
    at = sum(b < vertex for b in breaks)
    breaks.insert(at, vertex)
    edges.insert(at, edges[at - 1])  # before the first break lies the last edge
    if between_mm is not None:
        edges[at - 1] = replace(edges[at - 1], setback_end_mm=between_mm)
        edges[at] = replace(edges[at], setback_mm=between_mm)
    return _with_ring(edging, ring, breaks, edges)


def move_break(edging: Edging, ring: int, k: int, vertex: int) -> Edging:
    """Return the edging with break ``k`` moved to ``vertex``; edges keep their kinds.

    Raises EdgeError when the move would pass a neighbouring break.
    """
    breaks, edges = _ring_of(edging, ring, k)
    if vertex == breaks[k]:
        return edging
    others = [b for i, b in enumerate(breaks) if i != k]
    before = sum(b < breaks[k] for b in others) % max(len(others), 1)
    after = sum(b < vertex for b in others) % max(len(others), 1)
    if vertex in others or (others and before != after):
        raise EdgeError("a break point cannot pass its neighbour", remedy="remove one of them instead")
    pairs = sorted(
        zip([*others, vertex], [*[e for i, e in enumerate(edges) if i != k], edges[k]], strict=True),
        key=lambda pair: pair[0],
    )
    return _with_ring(edging, ring, [b for b, _ in pairs], [e for _, e in pairs])


def remove_break(edging: Edging, ring: int, k: int) -> Edging:
    """Return the edging without break ``k``; the edge before it takes in the edge after it.

    Raises EdgeError for the last break of a ring.
    """
    breaks, edges = _ring_of(edging, ring, k)
    if len(breaks) == 1:
        raise EdgeError("a ring needs one break point", remedy="move it instead")
    before, after = edges[k - 1], edges[k]
    if before.setback_end_mm is not None:  # one taper again, as far as the second had a figure of its own
        end = after.setback_mm if after.setback_end_mm is None else after.setback_end_mm
        edges[k - 1] = replace(before, setback_end_mm=before.setback_end_mm if end is None else end)
    del breaks[k], edges[k]
    return _with_ring(edging, ring, breaks, edges)


def _ring_of(edging: Edging, ring: int, k: int) -> tuple[list[int], list[Edge]]:
    if not (0 <= ring < len(edging.breaks) and 0 <= k < len(edging.breaks[ring])):
        raise EdgeError(said("there is no edge {0} on ring {1}", k, ring), remedy="find the edges again")
    return list(edging.breaks[ring]), list(edging.edges[ring])


def _with_ring(edging: Edging, ring: int, breaks: list[int], edges: list[Edge]) -> Edging:
    return Edging(
        breaks=tuple(tuple(breaks) if r == ring else b for r, b in enumerate(edging.breaks)),
        edges=tuple(tuple(edges) if r == ring else e for r, e in enumerate(edging.edges)),
    )


def carry_edging(edging: Edging, base: Outline, other: Outline) -> tuple[Edging, tuple[Finding, ...]]:
    """Carry the edging of ``base`` over to another size's outline.

    Rings with the same corners at the same vertices take the break points as they are. Else
    corners are matched in their order round the ring, and break points between corners go to
    the vertex at the same share of the length. Where the corners differ in number, all break
    points go by length, their edges lose their confirmation, and a finding says so. Raises
    EdgeError when the outlines have different numbers of rings or too few vertices.
    """
    check_edging(base, edging)
    if len(base.rings_mm) != len(other.rings_mm):
        raise EdgeError(
            said("one size has {0} holes, the other {1}", len(base.holes_mm), len(other.holes_mm)),
            remedy="draw the same holes in every size, or mark the edges of this size by hand",
        )
    breaks, edges, findings = [], [], []
    for r, (ring, image) in enumerate(zip(base.rings_mm, other.rings_mm, strict=True)):
        carried, sure = _carried_breaks(ring, image, edging.breaks[r])
        order = sorted(range(len(carried)), key=lambda k: carried[k])
        breaks.append(tuple(carried[k] for k in order))
        kept = [edging.edges[r][k] for k in order]
        edges.append(tuple(kept if sure else [replace(e, confirmed=False) for e in kept]))
        if not sure:
            findings.append(
                Finding(
                    code="EDGES_CARRIED_BY_LENGTH",
                    severity=Severity.QUESTION,
                    message="the corners of this size do not match those of the base size",
                    done="break points placed by their share of the outline's length, kinds unconfirmed",
                    advice="check every break point of this size",
                    where_mm=tuple((float(x), float(y)) for x, y in image[list(breaks[-1])]),
                )
            )
    return Edging(tuple(breaks), tuple(edges)), tuple(findings)


def carry_vertex(edging: Edging, base: Outline, other: Outline, ring: int, vertex: int) -> int:
    """Return the vertex of another size's outline that a vertex of ``base`` is carried to, as a break is."""
    breaks = tuple(sorted({*edging.breaks[ring], vertex}))
    return _carried_breaks(base.rings_mm[ring], other.rings_mm[ring], breaks)[0][breaks.index(vertex)]


def _carried_breaks(ring: Ring, image: Ring, breaks: tuple[int, ...]) -> tuple[list[int], bool]:
    """Return the vertex of ``image`` for every break of ``ring``, and whether that is sure."""
    here, there = (corners(r, tolerances.CORNER_DEG) for r in (ring, image))
    if len(ring) == len(image) and here == there:
        return list(breaks), True
    a, b = _unit_box(ring), _unit_box(image)
    along, along_there = _shares(ring), _shares(image)
    sure = len(here) == len(there) and len(here) > 0
    if sure:
        shifts = [np.roll(there, -s) for s in range(len(there))]
        best = min(shifts, key=lambda s: float(np.hypot(*(a[list(here)] - b[s]).T).sum()))
        anchors = {h: int(t) for h, t in zip(here, best, strict=True)}
        sure = bool(np.hypot(*(a[list(here)] - b[best]).T).max() < 0.15)
    else:
        anchors = {breaks[0]: int(np.hypot(*(b - a[breaks[0]]).T).argmin())}
    starts = sorted(anchors)
    carried = []
    for vertex in breaks:
        if vertex in anchors:
            carried.append(anchors[vertex])
            continue
        at = sum(s <= vertex for s in starts) - 1  # -1: before the first anchor, so after the last
        start, stop = starts[at], starts[(at + 1) % len(starts)]
        span = (along[stop] - along[start]) % 1.0 or 1.0
        share = ((along[vertex] - along[start]) % 1.0) / span
        span_there = (along_there[anchors[stop]] - along_there[anchors[start]]) % 1.0 or 1.0
        target = (along_there[anchors[start]] + share * span_there) % 1.0
        away = np.abs((along_there - target + 0.5) % 1.0 - 0.5)
        away[carried] = np.inf
        carried.append(int(away.argmin()))
    if len(set(carried)) < len(breaks):
        raise EdgeError("an outline has fewer vertices than edges", remedy="draw this size with more points")
    first = carried.index(min(carried))
    if carried[first:] + carried[:first] != sorted(carried):
        raise EdgeError(
            "the edges of the base size cannot be identified on this size",
            remedy="mark its break points by hand",
        )
    return carried, sure


def _unit_box(ring: Ring) -> NDArray[np.float64]:
    low = ring.min(axis=0)
    scaled: NDArray[np.float64] = (ring - low) / (ring.max(axis=0) - low)
    return scaled


def _shares(ring: Ring) -> NDArray[np.float64]:
    """Return the share of the ring's length that lies before each vertex, in [0, 1)."""
    length = np.hypot(*(np.roll(ring, -1, axis=0) - ring).T)
    shares: NDArray[np.float64] = np.concatenate([[0.0], np.cumsum(length)[:-1]]) / length.sum()
    return shares
