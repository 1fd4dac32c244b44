"""Backing that runs over a seam onto another piece, which has none of its own there: it lies behind both."""

from __future__ import annotations

from dataclasses import dataclass

import shapely
import shapely.affinity

from app.style.model import LayerData, PieceData, Style
from app.style.pieces import piece_backings, piece_beside, upper_piece


@dataclass(frozen=True, eq=False)
class RunsOver:
    """A layer of ``owner`` that also lies behind another piece, in that piece's frame, in the hand drawn.

    ``region`` is all of the layer, ``owner_region`` the owner's upper: where the two uppers lap, the cloth
    lies behind both of them once.
    """

    owner: PieceData
    layer: LayerData
    region: shapely.Geometry
    owner_region: shapely.Geometry


def running_over(style: Style, name: str, size: str) -> tuple[RunsOver, ...]:
    """Return the layers of other pieces that are backed in one with this one."""
    data = style.piece(name)
    found = []
    for owner in style.pieces:
        for number, layer in enumerate(owner.layers):
            if name not in layer.joins:
                continue
            here = upper_piece(style, name, size, data.hand).outline.ring_mm
            there = piece_beside(style, owner.name, name, size).outline.ring_mm
            dx, dy = (here - there)[0].tolist()  # a graded piece lies elsewhere in its own frame
            backing = piece_backings(style, owner.name, size, owner.hand)[number]
            region = shapely.union_all([outline.polygon for outline in backing.outlines])
            upper = upper_piece(style, owner.name, size, owner.hand).outline.polygon
            moved = (shapely.affinity.translate(shape, dx, dy) for shape in (region, upper))
            found.append(RunsOver(owner, layer, *moved))
    return tuple(found)
