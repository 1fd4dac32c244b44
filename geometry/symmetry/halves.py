"""Half patterns: unfolded over their centre edge to the whole piece, and whole pieces folded to a half.

Where a drawn half is reported by its file the reader unfolds it (``geometry.dxf.mirror_line``); here a person
says which edge is the centre line, on a piece whose edges are marked already.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Point, Polygon

from geometry import tolerances
from geometry.backing.edges import edge_points, is_straight, turns_deg
from geometry.dxf.mirror_line import unfold
from geometry.edge_kinds import EdgeKind
from geometry.errors import OutlineError
from geometry.mirror import turned_edge
from geometry.outline import Outline
from geometry.piece import DrawnPiece, Edge, Edging, Mark
from geometry.said import said
from geometry.symmetry.reflection import Reflection

Array = NDArray[np.float64]
EdgeName = tuple[int, int]
FAR_MM = 1e5
"""A fold line is drawn out this far either way: beyond any drawing of a shoe (our own choice, no source)."""

ON_FOLD_MM = tolerances.FOLD_MM / 10.0
"""A vertex of the piece this near to an end of the fold is that end (our own choice, no source)."""


def centre_line(outline: Outline, edging: Edging, name: EdgeName, piece: str = "") -> Array:
    """Return the two ends of the edge ``name`` = (ring, start) as the line to unfold over, (2, 2).

    Raises OutlineError when the edge is not straight: a piece cannot be folded along a curve.
    """
    ring, start = name
    points = edge_points(outline, edging, ring, edging.breaks[ring].index(start))
    if not is_straight(points) or ring != 0:
        raise OutlineError(
            "the centre edge is not straight" if ring == 0 else "the edge of a hole cannot be a centre line",
            remedy="choose the straight edge along the fold, or set its two break points",
            piece=piece,
        )
    return points[[0, -1]]


def unfolded(drawn: DrawnPiece, line: Array) -> DrawnPiece:
    """Return a half piece joined with its mirror image over ``line``, a straight edge of its own.

    Raises OutlineError when the piece does not lie on one side of the line, or the whole would cross itself.
    """
    full, finding = unfold(replace(drawn, pull_axis=None), line)
    if finding.code == "NOT_UNFOLDED":
        raise OutlineError(finding.message, remedy="check which edge is the centre line", piece=drawn.name)
    return full


def unfolded_edging(half: Outline, edging: Edging, full: Outline, line: Array, corner_deg: float) -> Edging:
    """Return the edges of the unfolded piece: those of the half, and their mirror images.

    An edge that ran up to the centre line goes on over it into its own image, unless the outline turns there
    by more than ``corner_deg``, or its setback changes along it.
    """
    mirror = Reflection.across(*line)
    places: dict[EdgeName, bool] = {}
    for ring, marked in zip(half.rings_mm, edging.breaks, strict=True):
        for vertex in marked:
            for point in (ring[vertex], mirror.points(ring[vertex])[0]):
                places[_vertex_at(full, point)] = True
    breaks: list[tuple[int, ...]] = []
    edges: list[tuple[Edge, ...]] = []
    for r, ring in enumerate(full.rings_mm):
        turns = np.abs(turns_deg(ring))
        here = sorted(vertex for at, vertex in places if at == r) or [0]
        known = [_edge_of(half, edging, mirror, ring, vertex) for vertex in here]
        kept = [
            k
            for k, vertex in enumerate(here)
            if not (
                _on_line(ring[vertex], line)
                and turns[vertex] <= corner_deg
                and _runs_on(known[k - 1], known[k])
            )
        ] or [0]
        breaks.append(tuple(here[k] for k in kept))
        edges.append(tuple(known[k] for k in kept))
    return Edging(tuple(breaks), tuple(edges))


def folded(drawn: DrawnPiece, edging: Edging, line: Array) -> tuple[DrawnPiece, Edging]:
    """Return the half of a whole piece left of ``line`` (from, to), its fold marked as the centre edge.

    Raises OutlineError when the line misses the piece or cuts it more than once, and when the two halves
    differ by more than FOLD_MM: what one of them has would be lost.
    """
    outline = drawn.outline
    mirror = Reflection.across(*line)
    whole = outline.polygon
    away = _apart_mm(mirror.outline(outline).polygon, whole)
    if away > tolerances.FOLD_MM:
        raise OutlineError(
            said("the two halves differ by up to {0} mm over this line", f"{away:.1f}"),
            remedy="choose the line over which the piece is the same on both sides",
            piece=drawn.name,
        )
    way = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
    left = np.array([-way[1], way[0]])
    a, b = line[0] - FAR_MM * way, line[0] + FAR_MM * way
    half = whole.intersection(Polygon([a, b, b + FAR_MM * left, a + FAR_MM * left]))
    if not isinstance(half, Polygon) or half.is_empty:
        raise OutlineError(
            "the line does not divide the piece in two", remedy="draw it across the piece", piece=drawn.name
        )
    made = _undoubled(Outline.of_polygon(half), line[0], left)
    sides = (made.ring_mm - line[0]) @ left
    on = np.flatnonzero(np.abs(sides) <= 1e-6)
    if len(on) < 2:
        raise OutlineError("the line misses the piece", remedy="draw it across the piece", piece=drawn.name)
    along = (made.ring_mm[on] - line[0]) @ way
    first, last = int(on[along.argmin()]), int(on[along.argmax()])  # the half lies left: the fold runs on

    def keeps(x: float, y: float) -> bool:
        return float((np.array([x, y]) - line[0]) @ left) >= -tolerances.JOIN_MM

    breaks: list[tuple[int, ...]] = []
    edges: list[tuple[Edge, ...]] = []
    for r, ring in enumerate(made.rings_mm):
        starts = {v for at, v in _old_breaks(outline, edging, made) if at == r}
        if r == 0:
            starts |= {first, last}
            starts -= {int(v) for v in on if v not in (first, last)}
        here = sorted(starts) or [0]
        found = [_edge_near(outline, edging, _middle(ring, vertex))[1] for vertex in here]
        if r == 0:
            found[here.index(first)] = Edge(EdgeKind.CENTRE, confirmed=True)
        breaks.append(tuple(here))
        edges.append(tuple(found))
    marks = []
    for mark in drawn.marks:
        line_of = LineString([*mark.points_mm, mark.points_mm[0]] if mark.closed else mark.points_mm)
        inside = shapely.intersection(line_of, half.buffer(tolerances.JOIN_MM))
        for part in shapely.get_parts(inside):
            if isinstance(part, LineString) and part.length > tolerances.JOIN_MM:
                marks.append(Mark(np.asarray(part.coords), mark.kind, False))
    piece = replace(
        drawn,
        outline=made,
        notches=tuple(n for n in drawn.notches if keeps(n.x_mm, n.y_mm)),
        drill_holes=tuple(d for d in drawn.drill_holes if keeps(d.x_mm, d.y_mm)),
        marks=tuple(marks),
        turn_points_mm=tuple(p for p in drawn.turn_points_mm if keeps(*p)),
    )
    return piece, Edging(tuple(breaks), tuple(edges))


def _undoubled(half: Outline, on_fold: Array, left: Array) -> Outline:
    """Return a half without the vertices a hair off the fold: the line cuts the outline beside them."""
    ring = half.ring_mm
    off = np.abs((ring - on_fold) @ left)
    ahead = np.roll(np.arange(len(ring)), -1)
    doubled = (np.hypot(*(ring[ahead] - ring).T) <= ON_FOLD_MM) & (np.minimum(off, off[ahead]) <= 1e-6)
    gone = [int(k if off[k] > off[ahead[k]] else ahead[k]) for k in np.flatnonzero(doubled)]
    return Outline.make(np.delete(ring, gone, axis=0), half.holes_mm)


def _apart_mm(a: Polygon, b: Polygon) -> float:
    return float(shapely.hausdorff_distance(a.boundary, b.boundary))


def _vertex_at(outline: Outline, point: Array) -> EdgeName:
    away = [(float(d.min()), r, int(d.argmin())) for r, d in enumerate(_distances(outline, point))]
    _, ring, vertex = min(away)
    return ring, vertex


def _distances(outline: Outline, point: Array) -> list[Array]:
    return [np.hypot(*(ring - point).T) for ring in outline.rings_mm]


def _old_breaks(outline: Outline, edging: Edging, made: Outline) -> list[EdgeName]:
    """Return the break points of ``outline`` that are vertices of ``made`` too."""
    found = []
    for ring, breaks in zip(outline.rings_mm, edging.breaks, strict=True):
        for vertex in breaks:
            r, v = _vertex_at(made, ring[vertex])
            if float(np.hypot(*(made.rings_mm[r][v] - ring[vertex]))) <= 1e-6:
                found.append((r, v))
    return found


def _middle(ring: Array, vertex: int) -> Array:
    middle: Array = (ring[vertex] + ring[(vertex + 1) % len(ring)]) / 2.0
    return middle


def _edge_of(half: Outline, edging: Edging, mirror: Reflection, ring: Array, vertex: int) -> Edge:
    """The edge of the half that lies where an edge of the whole starts, or where its mirror image does.

    The image is walked the other way: a setback that changes along the edge changes ends.
    """
    point = _middle(ring, vertex)
    away, own = _edge_near(half, edging, point)
    image_away, image = _edge_near(half, edging, mirror.points(point)[0])
    return own if away <= image_away else turned_edge(image)


def _edge_near(outline: Outline, edging: Edging, point: Array) -> tuple[float, Edge]:
    """Return the edge nearest to a point, the centre edge left out, and how far it is."""
    best: tuple[float, Edge] | None = None
    where = Point(point)
    for r, ring_edges in enumerate(edging.edges):
        for k, edge in enumerate(ring_edges):
            if edge.kind is EdgeKind.CENTRE and len(ring_edges) > 1:
                continue
            away = float(LineString(edge_points(outline, edging, r, k)).distance(where))
            if best is None or away < best[0]:
                best = away, edge
    assert best is not None  # an outline has edges
    return best


def _on_line(point: Array, line: Array) -> bool:
    way = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
    off = point - line[0]
    return bool(abs(off[0] * -way[1] + off[1] * way[0]) <= tolerances.JOIN_MM)


def _runs_on(before: Edge, after: Edge) -> bool:
    return before == after and before.setback_end_mm is None
