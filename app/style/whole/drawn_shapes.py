"""Pieces drawn from nothing: a rectangle or a closed shape, as an upper, or as a backing without an upper."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from shapely.geometry import Polygon
from shapely.validation import explain_validity

from app.style.edits import EditError
from app.style.model import LayerData, PieceData, PullAxisData, Style
from app.style.whole.adding import add_piece, all_edges, new_name, with_piece
from geometry.edge_kinds import EdgeKind
from geometry.errors import OutlineError
from geometry.outline import Outline
from geometry.piece import DrawnPiece
from geometry.said import said

LARGEST_MM = 2000.0
"""A longer side is a slip of the hand: no piece of a shoe is (common practice, no source)."""

SMALLEST_MM = 1.0
"""So is a shorter one: nothing so small is cut (common practice, no source)."""


def add_rectangle(
    style: Style,
    name: str,
    width_mm: float,
    height_mm: float,
    *,
    at_mm: tuple[float, float] = (0.0, 0.0),
    backing_only: bool = False,
) -> Style:
    """Add a rectangle of ``width_mm`` along x and ``height_mm`` along y, its lower left corner ``at_mm``.

    It lies beside all other pieces where it would lie on one. Raises EditError for sides below 1 mm or beyond
    2 m, and for a name that is taken.
    """
    _require_sides(width_mm, height_mm)
    (x, y), (u, v) = at_mm, (at_mm[0] + width_mm, at_mm[1] + height_mm)
    corners = [(x, y), (u, y), (u, v), (x, v)]
    return add_shape(style, name, corners, backing_only=backing_only)


def add_shape(
    style: Style, name: str, points_mm: Sequence[tuple[float, float]], *, backing_only: bool = False
) -> Style:
    """Add the closed shape through these points (mm, in the drawing's frame) as a piece.

    ``backing_only``: no upper is cut; the shape is cut from cloth as it is, its pull axis along its longest
    direction. Otherwise edges and axis are proposals, as of a piece that was read from a drawing. Raises
    EditError when the points make no outline.
    """
    name = new_name(style, name)
    if not all(math.isfinite(v) and abs(v) <= 1e6 for point in points_mm for v in point):
        raise EditError("a point lies out of reach", remedy="give points in mm")
    if len(points_mm) > 2:
        _require_sides(*(max(row) - min(row) for row in zip(*points_mm, strict=True)))
    try:
        outline = Outline.make(np.array(points_mm, dtype=np.float64).reshape(-1, 2))
    except OutlineError as error:
        raise EditError(said("{0}: {1}", name, error.message), remedy="give at least three corners") from None
    polygon = Polygon(outline.ring_mm)
    if not polygon.is_valid:
        raise EditError(
            said("the outline of {0} is not clean: {1}", name, explain_validity(polygon)),
            remedy="give the corners in their order round the piece",
        )
    base = style.size_run.base
    style, name = add_piece(style, name, {base: DrawnPiece(name=name, outline=outline, size=base)})
    if not backing_only:
        return style
    made = style.piece(name)
    return with_piece(style, name, _as_backing(made))


def _require_sides(*sides_mm: float) -> None:
    for side in sides_mm:
        if not SMALLEST_MM <= side <= LARGEST_MM:
            raise EditError(
                said("a side of {0} mm", f"{side:g}"),
                remedy=said("give one of {0} to {1} mm", f"{SMALLEST_MM:g}", f"{LARGEST_MM:g}"),
            )


def _as_backing(piece: PieceData) -> PieceData:
    axis = PullAxisData.model_validate({**dict(piece.pull_axis), "confirmed": False})
    return piece.model_copy(
        update={
            "backing_only": True,
            "edges": all_edges(piece, kind=EdgeKind.RAW, setback_mm=0.0, allowance_mm=0.0),
            "layers": piece.layers or (LayerData(),),
            "pull_axis": axis,
        }
    )
