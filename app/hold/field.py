"""The plane model of lasting asked for a style: its assembled pieces joined, or one piece by itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from app.errors import UsageError
from app.hold.cloth_choice import in_place_of_first
from app.hold.materials import known_cloth, known_upper
from app.style.joined import running_over
from app.style.model import ClothData, HoldLine, PieceData, Style
from app.style.pieces import piece_backings, upper_piece
from geometry.backing.edges import edge_points
from geometry.edge_kinds import EdgeKind
from geometry.outline import rotation
from geometry.said import said
from geometry.stretch.field.answers import Field, FieldCase, Range
from geometry.stretch.field.upper import FieldLayer, FieldModel, FieldPiece, FieldUpper, settled_model

SWEEP_DEG = (0.0, 15.0, 30.0, 45.0, 60.0, 75.0, 90.0)
"""Turns of the backing that are told beside the three cases."""


@dataclass(frozen=True)
class FieldOptions:
    """What is asked of the field beside the style; defaults are common practice, no source.

    ``piece`` '' takes the pieces drawn in assembled position, or where fewer than two are, the backed piece
    with most lasting edge across the pull. ``size`` '' is the base size. ``large``: large strain and the
    tension field too.
    """

    size: str = ""
    piece: str = ""
    turn_deg: float = 0.0
    sides_held: bool = False
    pincers: bool = False
    large: bool = False


@dataclass(frozen=True, eq=False)
class FieldQuestion:
    """An upper in the pull's frame, turned by ``frame_deg`` from its drawing; mm of the drawing else.

    ``called`` names the piece or chain whose hold line ends at the throat asked for, '' without one.
    """

    upper: FieldUpper
    called: str
    frame_deg: float

    def in_drawing(self, at_mm: tuple[float, float]) -> tuple[float, float]:
        """Return where a place of the frame lies in the drawing."""
        x, y = rotation(-self.frame_deg) @ np.array(at_mm)
        return float(x), float(y)


@dataclass(frozen=True, eq=False)
class ClothCase:
    """The backed case with another cloth in place of the style's first."""

    cloth: ClothData
    case: FieldCase


@dataclass(frozen=True, eq=False)
class Pulled:
    """All that was asked: the question, its model, the cases, other cloths, and the throat by turns."""

    question: FieldQuestion
    model: FieldModel
    field: Field
    cloths: tuple[ClothCase, ...] = ()
    sweep: tuple[tuple[float, Range | None], ...] = ()


def field_question(style: Style, options: FieldOptions = FieldOptions()) -> FieldQuestion:
    """Return the question for a style's upper.

    Raises UsageError when there is no such piece or size, or nothing is known of how a material stretches.
    """
    size = options.size or style.size_run.base
    if size not in style.size_run.sizes:
        raise UsageError(
            said("size {0} is not a size of {1}", size, style.name),
            remedy=said("its sizes are {0}", ", ".join(style.size_run.sizes)),
        )
    chosen = _chosen(style, options.piece)
    axis = chosen[0].pull_axis.axis_deg
    frame_deg = -axis + _towards_toe(style, chosen, axis, size)
    to_frame = rotation(frame_deg)
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
            material = known_cloth(cloth, pull).material.turned(off + options.turn_deg)
            layers.append(FieldLayer(_in_frame(region, to_frame), material))
        for over in running_over(style, data.name, size):
            region = over.region
            if over.owner in chosen:  # where the two uppers lap, the cloth counts behind its owner
                region = region.difference(over.owner_region)
            cloth = style.cloth(over.layer.cloth or style.cloths[0].id)
            turned = over.owner.pull_axis.axis_deg - axis + options.turn_deg
            layers.append(
                FieldLayer(_in_frame(region, to_frame), known_cloth(cloth, pull).material.turned(turned))
            )
        edges = tuple(
            (edge.kind, edge_points(drawn.outline, drawn.edging, ring, k) @ to_frame.T)
            for ring, here in enumerate(drawn.edging.edges)
            for k, edge in enumerate(here)
        )
        region = _in_frame(drawn.outline.polygon, to_frame)
        pieces.append(FieldPiece(data.name, region, edges, upper.turned(off), tuple(layers)))
    called, throat = _throat(style, chosen, size, to_frame)
    asked = FieldUpper(tuple(pieces), pull, throat, sides_held=options.sides_held, pincers=options.pincers)
    return FieldQuestion(asked, called, frame_deg)


def pull_upper(
    style: Style,
    options: FieldOptions = FieldOptions(),
    *,
    cloths: Sequence[ClothData] = (),
    sweep_deg: Sequence[float] = (),
    tell: Callable[[str], None] = lambda text: None,
    cancelled: Callable[[], bool] = lambda: False,
) -> Pulled:
    """Return the cases of a style's upper, the backed case on other cloths, and the throat by turns.

    ``tell`` is called with what is at work. Raises as ``field_question`` and the model do, and
    SheetError when cancelled.
    """
    question = field_question(style, options)
    tell("elements")
    model = settled_model(question.upper, cancelled=cancelled)
    field = model.solve(tell, large=options.large)
    tried = []
    for cloth in cloths:
        if cloth == style.cloths[0]:
            continue  # that is the backed case
        tell(cloth.name)
        other = field_question(in_place_of_first(style, cloth), options).upper
        tried.append(ClothCase(cloth, model.with_cloths(other).solve_case("backed", large=options.large)))
    known = {0.0: field.case("backed").throat_mm, 90.0: field.case("turned").throat_mm}
    if sweep_deg:
        tell("turned step by step")
    steps = [turn for turn in sweep_deg if turn not in known]
    known |= dict(model.sweep(steps))
    return Pulled(question, model, field, tuple(tried), tuple((turn, known[turn]) for turn in sweep_deg))


def predicted_throat_mm(style: Style, piece: str, size: str = "") -> float:
    """Return where the field puts the throat of a piece as backed, best estimates: what a trial judges.

    ``piece`` may be a chain of assembled pieces. Raises UsageError or SheetError where it cannot tell.
    """
    chain = next((each for each in style.hold_chains if each.name == piece), None)
    question = field_question(style, FieldOptions(size=size, piece="" if chain else piece))
    if question.called != piece:
        raise UsageError(
            said("the field has no throat of {0}", piece),
            remedy="draw its hold line"
            if chain is None
            else "mark its pieces as drawn in assembled position",
        )
    return settled_model(question.upper).best_throat_mm()


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
    style: Style, pieces: tuple[PieceData, ...], size: str, to_frame: NDArray[np.float64]
) -> tuple[str, tuple[tuple[float, float], tuple[float, float]] | None]:
    """Return whose hold line is asked for and where it runs in the pull's frame.

    Over joined pieces it is that of a chain of them, from its first line's heel to its last line's throat;
    else the first line there is.
    """
    lines = {piece.name: piece.hold_line for piece in pieces if piece.hold_line is not None}
    chain = next((c for c in style.hold_chains if c.pieces and all(name in lines for name in c.pieces)), None)
    if chain is not None and len(pieces) > 1:
        called, first, last = chain.name, chain.pieces[0], chain.pieces[-1]
    elif lines:
        called = first = last = next(iter(lines))
    else:
        return "", None
    by_name = {piece.name: piece for piece in pieces}
    ax, ay = to_frame @ _graded(style, by_name[first], size, lines[first], "from_mm")
    bx, by = to_frame @ _graded(style, by_name[last], size, lines[last], "to_mm")
    return called, ((float(ax), float(ay)), (float(bx), float(by)))


def _graded(style: Style, piece: PieceData, size: str, line: HoldLine, end: str) -> NDArray[np.float64]:
    """An end of a hold line, drawn on the base size, in another: it keeps its place in the piece's box."""
    point = np.array(getattr(line, end), dtype=np.float64)
    if size == style.size_run.base:
        return point
    turn = rotation(piece.pull_axis.axis_deg)
    before = upper_piece(style, piece.name, style.size_run.base, piece.hand).outline.ring_mm @ turn
    after = upper_piece(style, piece.name, size, piece.hand).outline.ring_mm @ turn
    share = (point @ turn - before.min(axis=0)) / np.ptp(before, axis=0)
    return np.asarray((share * np.ptp(after, axis=0) + after.min(axis=0)) @ turn.T)


def _in_frame(shape: shapely.Geometry, to_frame: NDArray[np.float64]) -> shapely.Geometry:
    return shapely.transform(shape, lambda xy: xy @ to_frame.T)
