"""Lengths along edges, areas and extents of pieces; two sizes or versions laid over each other."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from app.style.model import Style
from app.style.pieces import draft_rules, piece_backings, upper_piece
from geometry.backing.edges import edge_points
from geometry.edge_kinds import EdgeKind
from geometry.outline import Outline, rotation
from geometry.piece import UpperPiece
from geometry.sizing.grading import net_outline

Array = NDArray[np.float64]


@dataclass(frozen=True)
class EdgeMeasure:
    """An edge: ``length_mm`` along the cut outline, ``net_mm`` the net line (stitch, feather line)."""

    ring: int
    start: int
    kind: EdgeKind
    length_mm: float
    net_mm: float
    setback_mm: float


@dataclass(frozen=True)
class PieceMeasure:
    """A piece in a size. ``along_mm`` and ``across_mm``: its extent along and across the pull axis.

    ``backing_mm2`` has the area of each layer.
    """

    piece: str
    size: str
    hand: str
    per_shoe: int
    area_mm2: float
    perimeter_mm: float
    along_mm: float
    across_mm: float
    backing_mm2: tuple[float, ...]
    edges: tuple[EdgeMeasure, ...]


@dataclass(frozen=True)
class PieceComparison:
    """A piece laid over another of its name: areas, perimeters, and how far the outlines part at most."""

    piece: str
    area_mm2: tuple[float, float]
    perimeter_mm: tuple[float, float]
    apart_mm: float
    where_mm: tuple[float, float]


def measure_piece(style: Style, name: str, size: str) -> PieceMeasure:
    """Return the measures of a piece in a size; raises KeyError and SizeError as ``upper_piece``."""
    data = style.piece(name)
    upper = upper_piece(style, name, size, data.hand)
    along, across = _extent(upper.outline, upper.pull_axis.axis_deg)
    return PieceMeasure(
        piece=name,
        size=size,
        hand=data.hand,
        per_shoe=data.per_shoe,
        area_mm2=upper.outline.area_mm2,
        perimeter_mm=upper.outline.perimeter_mm,
        along_mm=along,
        across_mm=across,
        backing_mm2=tuple(b.area_mm2 for b in piece_backings(style, name, size, data.hand)),
        edges=edge_measures(style, upper),
    )


def measure_pieces(style: Style, size: str) -> tuple[PieceMeasure, ...]:
    """Return the measures of every piece in a size."""
    return tuple(measure_piece(style, piece.name, size) for piece in style.pieces)


def edge_measures(style: Style, upper: UpperPiece) -> tuple[EdgeMeasure, ...]:
    """Return every edge of a piece with its lengths, ring by ring in their order."""
    rules = draft_rules(style)
    net = net_outline(upper, rules)
    found = []
    for ring, (breaks, edges) in enumerate(zip(upper.edging.breaks, upper.edging.edges, strict=True)):
        for k, (start, edge) in enumerate(zip(breaks, edges, strict=True)):
            rule = rules.edge_rules[edge.kind].setback_mm
            found.append(
                EdgeMeasure(
                    ring=ring,
                    start=start,
                    kind=edge.kind,
                    length_mm=_length(edge_points(upper.outline, upper.edging, ring, k)),
                    net_mm=_length(edge_points(net, upper.edging, ring, k)),
                    setback_mm=rule if edge.setback_mm is None else edge.setback_mm,
                )
            )
    return tuple(found)


def compare_sizes(style: Style, first: str, second: str) -> tuple[PieceComparison, ...]:
    """Compare every piece in two sizes, laid over each other by the middles of their boxes."""
    pairs = []
    for piece in style.pieces:
        a, b = (upper_piece(style, piece.name, size, piece.hand).outline for size in (first, second))
        (x0, y0, x1, y1), (u0, v0, u1, v1) = a.bbox_mm, b.bbox_mm
        b = b.moved((x0 + x1 - u0 - u1) / 2, (y0 + y1 - v0 - v1) / 2)
        pairs.append(_compared(piece.name, a, b))
    return tuple(pairs)


def compare_versions(style: Style, other: Style, size: str) -> tuple[PieceComparison, ...]:
    """Compare the pieces that two versions of a style have in common, each as it is drawn, in one size."""
    names = {piece.name for piece in other.pieces}
    return tuple(
        _compared(
            piece.name,
            upper_piece(style, piece.name, size, piece.hand).outline,
            upper_piece(other, piece.name, size, piece.hand).outline,
        )
        for piece in style.pieces
        if piece.name in names
    )


def _compared(name: str, a: Outline, b: Outline) -> PieceComparison:
    apart, where = 0.0, (float(a.ring_mm[0][0]), float(a.ring_mm[0][1]))
    for one, other in ((a, b), (b, a)):
        points = np.concatenate(one.rings_mm)
        away = shapely.distance(shapely.points(points), other.polygon.boundary)
        worst = int(away.argmax())
        if float(away[worst]) > apart:
            apart, where = float(away[worst]), (float(points[worst][0]), float(points[worst][1]))
    return PieceComparison(name, (a.area_mm2, b.area_mm2), (a.perimeter_mm, b.perimeter_mm), apart, where)


def _extent(outline: Outline, axis_deg: float) -> tuple[float, float]:
    spans = np.ptp(outline.ring_mm @ rotation(axis_deg), axis=0)
    return float(spans[0]), float(spans[1])


def _length(points: Array) -> float:
    return float(np.hypot(*np.diff(points, axis=0).T).sum())
