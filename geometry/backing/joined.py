"""Pieces that lie against each other backed in one: the backing runs on over the seam."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import shapely
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.backing.bands import Joints
from geometry.backing.edges import edge_points
from geometry.backing.house_rules import DraftRules
from geometry.backing.offset import as_shape, parts
from geometry.backing.report import Report
from geometry.findings import Severity
from geometry.piece import Edging, UpperPiece
from geometry.said import percent, said

SEAM_SHARE = 0.8
"""An edge that lies on or under another joined piece by more than this share of its length is the seam."""

HALF_SHARE = 0.3
"""One that does so by less than SEAM_SHARE but more than this should be broken where the seam ends."""

Inset = Callable[..., BaseGeometry]


def joined_inset(
    upper: UpperPiece,
    others: Sequence[UpperPiece],
    rules: DraftRules,
    joints: Joints,
    report: Report,
    inset: Inset,
) -> tuple[BaseGeometry, BaseGeometry]:
    """Return the regions of several pieces less their setbacks, in one, and the region of the uppers.

    Edges at which two of the pieces meet have no setback: there the backing goes on.
    """
    pieces = [upper, *others]
    shapes: list[BaseGeometry] = []
    for i, piece in enumerate(pieces):
        rest = shapely.union_all([p.outline.polygon for j, p in enumerate(pieces) if j != i])
        edging = _open_at_seams(piece, rest.buffer(tolerances.JOIN_MM), report)
        starts = tuple(
            tuple(rules.edge_rules[e.kind].setback_mm if e.setback_mm is None else e.setback_mm for e in ring)
            for ring in edging.edges
        )
        last = tuple(
            tuple(s if e.setback_end_mm is None else e.setback_end_mm for e, s in zip(ring, row, strict=True))
            for ring, row in zip(edging.edges, starts, strict=True)
        )
        shapes.append(inset(piece.outline, edging, starts, rules, joints, last))
    whole = shapely.union_all(shapes, grid_size=tolerances.GRID_MM)
    if len(parts(whole)) > 1:  # a hair's gap between two pieces drawn edge to edge
        half = tolerances.JOIN_MM / 2.0
        closed = whole.buffer(half, join_style="mitre").buffer(-half, join_style="mitre")
        whole = shapely.union_all([whole, closed], grid_size=tolerances.GRID_MM)
    if len(parts(whole)) > max(len(parts(shape)) for shape in shapes):
        centre = upper.outline.polygon.representative_point()
        report.add(
            "JOIN_APART",
            Severity.WARNING,
            said("the backings of {0} do not meet", ", ".join(p.name for p in pieces)),
            [(centre.x, centre.y)],
            done="left in parts",
            advice="draw the pieces where they lie in the upper, or back them separately",
        )
    return as_shape(parts(whole)), shapely.union_all([p.outline.polygon for p in pieces])


def _open_at_seams(piece: UpperPiece, rest: BaseGeometry, report: Report) -> Edging:
    """Return the piece's edging with no setback on the edges that lie on the other pieces."""
    rings = []
    for r, ring in enumerate(piece.edging.edges):
        edges = []
        for k, edge in enumerate(ring):
            line = LineString(edge_points(piece.outline, piece.edging, r, k))
            share = line.intersection(rest).length / max(line.length, 1e-9)
            if share >= SEAM_SHARE:
                edge = replace(edge, setback_mm=0.0, setback_end_mm=None)
            elif share > HALF_SHARE:
                middle = line.interpolate(0.5, normalized=True)
                report.add(
                    "JOIN_EDGE_HALF",
                    Severity.WARNING,
                    said(
                        "an edge of {0} lies on a joined piece by {1} of its length only",
                        piece.name,
                        percent(share, 0),
                    ),
                    [(middle.x, middle.y)],
                    done="set back along the whole edge",
                    advice="break the edge where the seam ends",
                )
            edges.append(edge)
        rings.append(tuple(edges))
    return replace(piece.edging, edges=tuple(rings))
