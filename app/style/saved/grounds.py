"""What is drawn on a piece, laid on it in one size: the grounds of graded and drawn sizes, and the layers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Literal

import numpy as np
import shapely

from app.style.model import KeepData, LayerData, PieceData
from geometry.backing.edges import carry_vertex
from geometry.backing.house_rules import DraftRules
from geometry.drawn.details import Details, details_on
from geometry.drawn.ground import Array, Ground, base_ground
from geometry.drawn.places import Course, InFrame
from geometry.drawn.shapes import CutLine, LayerDrawing, Region, shaping_on
from geometry.errors import GeometryError
from geometry.outline import rotation
from geometry.piece import NO_SHAPING, Shaping, UpperPiece
from geometry.sizing.grading import grade_frame, net_outline


def has_drawn(piece: PieceData) -> bool:
    """Whether anything is drawn on a piece or its backings."""
    return bool(piece.details) or any(map(_has_drawn, piece.layers))


def _has_drawn(layer: LayerData) -> bool:
    return bool(layer.keep or layer.cuts or layer.changes or layer.splits or layer.joins)


def ground_of_base(base: UpperPiece, rules: DraftRules) -> Ground:
    """Return the ground of the size that things are drawn on."""
    return base_ground(base, net_outline(base, rules))


def ground_of_graded(
    base: UpperPiece, graded: UpperPiece, rules: DraftRules, factors: tuple[float, float]
) -> Ground:
    """Return the ground of a graded size: it has the same vertices, and the net outline is scaled."""
    frame = grade_frame(base, rules, factors)
    return Ground(graded, net_outline(graded, rules), frame, lambda ring, vertex: vertex)


def ground_of_drawn(base: UpperPiece, other: UpperPiece, rules: DraftRules) -> Ground:
    """Return the ground of another drawn size.

    Places in the open are carried in proportion, along and across the pull axis; vertices as breaks are.
    """
    turn = rotation(base.pull_axis.axis_deg)
    before, after = base.outline.ring_mm @ turn, other.outline.ring_mm @ turn
    low, span = before.min(axis=0), np.ptp(before, axis=0)
    new_low, new_span = after.min(axis=0), np.ptp(after, axis=0)

    def frame(points: Array) -> Array:
        inside = (np.asarray(points, dtype=np.float64) @ turn - low) / span
        return np.asarray((inside * new_span + new_low) @ turn.T)

    def vertex(ring: int, number: int) -> int:
        return carry_vertex(base.edging, base.outline, other.outline, ring, number)

    return Ground(other, net_outline(other, rules), frame, vertex)


def layer_shaping(layer: LayerData, ground: Callable[[], Ground], joined: Sequence[UpperPiece]) -> Shaping:
    """Return what is drawn on a layer as it lies on the piece; raises BackingError where it cannot."""
    if not _has_drawn(layer):
        return NO_SHAPING
    own = () if layer.keep is None else (_old_keep(layer.keep),)
    drawn = LayerDrawing(
        keeps=(*own, *(cut.laid() for cut in layer.cuts)),
        changes=tuple(change.laid() for change in layer.changes),
        splits=tuple(split.laid() for split in layer.splits),
    )
    return shaping_on(ground(), drawn, joined)


def piece_details(piece: PieceData, ground: Callable[[], Ground], on: Literal["upper", "backing"]) -> Details:
    """Return the notches, holes, marks and words drawn on the upper or on its backings, as they lie."""
    if not piece.details:
        return Details()
    return details_on(ground(), [detail.laid() for detail in piece.details], on)


def joined_beside(
    base: tuple[UpperPiece, UpperPiece], here: tuple[Ground, Ground], *, graded: bool
) -> UpperPiece:
    """Return another piece of this size where it lies against this one, as it does in the base size.

    ``base`` are this piece and the other in the base size, ``here`` their grounds in this size. Each piece
    is graded about its own middle; the other is moved so that the seam comes together again.
    """
    own, other = here
    outline = other.upper.outline
    if graded:
        seam = _between(*base)
        dx, dy = own.frame(seam)[0] - other.frame(seam)[0]
        outline = outline.moved(float(dx), float(dy))
    return replace(other.upper, outline=outline, notches=(), marks=(), drill_holes=(), letterings=())


def _between(a: UpperPiece, b: UpperPiece) -> Array:
    """Return the place (1, 2) where two pieces meet: the middle of what they share, else of their gap."""
    try:
        shared = a.outline.polygon.intersection(b.outline.polygon)
    except shapely.errors.GEOSException as error:
        raise GeometryError("the pieces to join cannot be laid over each other", piece=a.name) from error
    if shared.is_empty or shared.area == 0.0:
        shared = shapely.shortest_line(a.outline.polygon, b.outline.polygon)
    return np.array([[shared.centroid.x, shared.centroid.y]])


def _old_keep(keep: KeepData) -> CutLine | Region:
    course = Course(tuple(InFrame(*point) for point in keep.points_mm), closed=keep.closed)
    if keep.closed:
        return Region(course)
    x, y = keep.side_mm or (float("nan"), float("nan"))
    return CutLine(course, InFrame(x, y))
