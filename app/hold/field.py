"""The plane model of lasting asked for a style: its assembled pieces joined, or one piece by itself."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from app.errors import UsageError
from app.hold.materials import known_cloth, known_upper
from app.style.model import PieceData, Style
from app.style.pieces import piece_backings, upper_piece
from geometry.backing.edges import edge_points
from geometry.outline import rotation
from geometry.piece import EdgeKind
from geometry.said import said
from geometry.stretch.field.upper import Field, FieldCase, FieldLayer, FieldModel, FieldPiece, FieldUpper

SWEEP_DEG = (0.0, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0)
"""Turns of the backing that are told beside the three cases."""


def field_upper(
    style: Style,
    *,
    size: str = "",
    piece: str = "",
    turn_deg: float = 0.0,
    sides_held: bool = False,
    pincers: bool = False,
) -> FieldUpper:
    """Return the question for a style's upper.

    ``piece`` '' takes the pieces drawn in assembled position, or where fewer than two are, the first backed
    piece with a hold line. Raises UsageError when there is no such piece or size, or nothing is known of how
    a material stretches.
    """
    size = size or style.size_run.base
    if size not in style.size_run.sizes:
        raise UsageError(
            said("size {0} is not a size of {1}", size, style.name),
            remedy=said("its sizes are {0}", ", ".join(style.size_run.sizes)),
        )
    chosen = _chosen(style, piece)
    axis = chosen[0].pull_axis.axis_deg
    turn = _towards_toe(style, chosen, axis, size)
    to_frame = rotation(-axis + turn)
    pull = style.pull_n_per_mm
    upper = known_upper(style.upper_material, pull).material
    pieces = []
    for data in chosen:
        drawn = upper_piece(style, data.name, size, data.hand)
        off = data.pull_axis.axis_deg - axis
        layers = []
        backings = piece_backings(style, data.name, size, data.hand) if data.layers else ()
        for backing, layer in zip(backings, data.layers, strict=True):
            cloth = style.cloth(layer.cloth or style.cloths[0].id)
            region = shapely.union_all([outline.polygon for outline in backing.outlines])
            material = known_cloth(cloth, pull).material.turned(off + turn_deg)
            layers.append(FieldLayer(_in_frame(region, to_frame), material))
        edges = tuple(
            (edge.kind, edge_points(drawn.outline, drawn.edging, ring, k) @ to_frame.T)
            for ring, here in enumerate(drawn.edging.edges)
            for k, edge in enumerate(here)
        )
        region = _in_frame(drawn.outline.polygon, to_frame)
        pieces.append(FieldPiece(data.name, region, edges, upper.turned(off), tuple(layers)))
    return FieldUpper(
        tuple(pieces), pull, _throat(chosen, size, style, to_frame), sides_held=sides_held, pincers=pincers
    )


def field_of(
    style: Style, *, tell: Callable[[str], None] = lambda text: None, **options: Any
) -> tuple[FieldModel, Field]:
    """Return the model and its solved cases; options as ``field_upper``. Raises as the model does."""
    model = FieldModel(field_upper(style, **options))
    return model, model.solve(tell)


def field_json(field: Field, sweep: list[tuple[float, FieldCase]], seconds: float) -> dict[str, Any]:
    """Return ``field`` of ``hold --json``: ranges in mm, strains in per cent."""
    return {
        "cases": [
            {
                "case": each.case,
                "throat_mm": _range(each.throat_mm),
                "vamp_mm": _range(each.vamp_mm),
                "side_mm": _range(each.side_mm),
                "strain_percent": {
                    "median": round(100.0 * each.median_strain, 2),
                    "max": round(100.0 * each.peak_strain, 2),
                },
                "compressed_share": round(each.compressed_share, 3),
            }
            for each in field.cases
        ],
        "sweep": [{"turn_deg": turn, "throat_mm": _range(each.throat_mm)} for turn, each in sweep],
        "mesh": {"elements": len(field.mesh.triangles)},
        "seconds": round(seconds, 2),
    }


def _range(span: tuple[float, float] | None) -> list[float] | None:
    return None if span is None else [round(span[0], 2), round(span[1], 2)]


def _chosen(style: Style, piece: str) -> tuple[PieceData, ...]:
    if piece:
        if all(each.name != piece for each in style.pieces):
            names = ", ".join(each.name for each in style.pieces)
            raise UsageError(
                said("{0} has no piece {1}", style.name, piece), remedy=said("its pieces are {0}", names)
            )
        return (style.piece(piece),)
    assembled = tuple(each for each in style.pieces if each.assembled)
    if len(assembled) > 1:
        return assembled
    lined = [each for each in style.pieces if each.hold_line is not None]
    backed = [each for each in style.pieces if each.layers]
    if not (lined or backed):
        raise UsageError(said("no piece of {0} is backed", style.name), remedy="give a piece a backing layer")
    return (max(lined or backed, key=lambda each: _toe_edge_mm(style, each)),)


def _toe_edge_mm(style: Style, piece: PieceData) -> float:
    """How much lasting edge of a piece runs across the pull: the vamp has most."""
    drawn = upper_piece(style, piece.name, style.size_run.base, piece.hand)
    across = np.radians(piece.pull_axis.axis_deg + 90.0)
    way = np.array([np.cos(across), np.sin(across)])
    total = 0.0
    for k, edge in enumerate(drawn.edging.edges[0]):
        if edge.kind is EdgeKind.LASTING:
            total += float(
                np.abs(np.diff(edge_points(drawn.outline, drawn.edging, 0, k), axis=0) @ way).sum()
            )
    return total


def _towards_toe(style: Style, pieces: tuple[PieceData, ...], axis_deg: float, size: str) -> float:
    """Return 0 or 180: the turn after which the toe lies at the right.

    The hold line runs from heel to throat and so towards the toe; without one, the toe is where more lasting
    edge faces along the axis.
    """
    along = np.array([np.cos(np.radians(axis_deg)), np.sin(np.radians(axis_deg))])
    for piece in pieces:
        if piece.hold_line is not None:
            way = np.subtract(piece.hold_line.to_mm, piece.hold_line.from_mm)
            return 0.0 if way @ along >= 0.0 else 180.0
    facing = 0.0
    for piece in pieces:
        drawn = upper_piece(style, piece.name, size, piece.hand)
        middle = np.array(drawn.outline.polygon.centroid.coords[0])
        for k, edge in enumerate(drawn.edging.edges[0]):
            if edge.kind is EdgeKind.LASTING:
                points = edge_points(drawn.outline, drawn.edging, 0, k)
                facing += float(((points.mean(axis=0) - middle) @ along) * len(points))
    return 0.0 if facing >= 0.0 else 180.0


def _throat(
    pieces: tuple[PieceData, ...], size: str, style: Style, to_frame: NDArray[np.float64]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """The first hold line in the pull's frame; hold lines are drawn on the base size."""
    if size != style.size_run.base:
        return None
    line = next((piece.hold_line for piece in pieces if piece.hold_line is not None), None)
    if line is None:
        return None
    (ax, ay), (bx, by) = (to_frame @ np.array(point) for point in (line.from_mm, line.to_mm))
    return (float(ax), float(ay)), (float(bx), float(by))


def _in_frame(shape: shapely.Geometry, to_frame: NDArray[np.float64]) -> shapely.Geometry:
    return shapely.transform(shape, lambda xy: xy @ to_frame.T)
