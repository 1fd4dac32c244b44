"""Which pieces a style has: duplicated, deleted, brought in from another drawing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

from app.style.edits import EditError
from app.style.model import DrillData, EdgeData, LayData, NotchData, PieceData, Points, SizeDrawing, Style
from app.style.new import piece_data
from app.style.pieces import draft_rules
from app.style.whole.drawn_along import shifted
from geometry.piece import DrawnPiece
from geometry.said import said
from geometry.sizing.sizes import in_order

if TYPE_CHECKING:  # the reader is loaded by whoever reads a drawing
    from geometry.dxf.read import ReadDrawing


P = TypeVar("P", NotchData, DrillData)

BESIDE_MM = 24.0
"""A new piece lies this far from all others (the gap the board shows between pieces)."""

GONE = "the pieces of the style changed"
"""Why the placements of a kept lay no longer hold."""


def piece_of(style: Style, name: str) -> PieceData:
    """Return the piece of that name; raises EditError."""
    try:
        return style.piece(name)
    except KeyError:
        names = ", ".join(piece.name for piece in style.pieces)
        raise EditError(
            said("there is no piece called {0}", name), remedy=said("the pieces are {0}", names)
        ) from None


def with_piece(style: Style, name: str, new: PieceData) -> Style:
    """Return the style with a piece in place of the one of that name."""
    return style.model_copy(update={"pieces": tuple(new if p.name == name else p for p in style.pieces)})


def free_name(style: Style, wanted: str) -> str:
    """Return ``wanted``, or with the first free number after it."""
    taken = {piece.name for piece in style.pieces}
    name, number = wanted, 1
    while name in taken:
        number += 1
        name = f"{wanted} {number}"
    return name


def new_name(style: Style, name: str) -> str:
    """Return a name as it is kept; raises EditError when it is empty or taken."""
    name = " ".join(name.split())
    if not name:
        raise EditError("a piece needs a name", remedy="type one")
    if any(piece.name == name for piece in style.pieces):
        raise EditError(said("there is a piece called {0} already", name), remedy="choose another name")
    return name


def duplicate(style: Style, piece: str, name: str = "") -> Style:
    """Add a copy of a piece, set beside all others, under ``name`` ('' = the next free number)."""
    old = piece_of(style, piece)
    name = new_name(style, name) if name else free_name(style, piece)
    base = style.size_run.base
    dx, dy = beside(style, old.drawings[base].outline_mm)
    copied = moved(old, dx, dy).model_copy(update={"name": name, "twin": ""})
    return put_after(style, piece, copied)


def delete(style: Style, piece: str) -> Style:
    """Take a piece away with its seams; lays that hold it must be laid again.

    Raises EditError for the last piece, and while a chain of hold lines needs it.
    """
    old = piece_of(style, piece)
    if len(style.pieces) == 1:
        raise EditError("a style needs a piece", remedy="add another piece first")
    chains = [chain.name for chain in style.hold_chains if piece in chain.pieces]
    if chains:
        raise EditError(
            said("{0} is part of the chain {1}", piece, chains[0]),
            remedy="undo the chain first, on the Cloth desk",
        )
    kept = tuple(
        p if p.twin != piece else p.model_copy(update={"twin": ""}) for p in style.pieces if p is not old
    )
    seams = tuple(s for s in style.seams if piece not in (s.first[0], s.second[0]))
    return stale_lays(style.model_copy(update={"pieces": kept, "seams": seams}))


def add_drawn(style: Style, drawing: ReadDrawing, names: Sequence[str] = ()) -> tuple[Style, tuple[str, ...]]:
    """Add pieces of another drawing (all, or those named); returns the style and the names they got.

    A name that is taken gets a number. A piece without a size is taken as drawn in the base size. Edges and
    axis are proposals. Raises EditError for a name that the drawing does not have, and for a piece that is
    not drawn in the style's base size.
    """
    grouped: dict[str, dict[str, DrawnPiece]] = {}
    for drawn in drawing.pieces:
        grouped.setdefault(" ".join(drawn.name.split()) or "piece", {})[drawn.size] = drawn
    unknown = [name for name in names if name not in grouped]
    if unknown:
        raise EditError(
            said("the drawing has no piece {0}", unknown[0]),
            remedy=said("its pieces are {0}", ", ".join(grouped)),
        )
    base, added = style.size_run.base, []
    for name, by_size in grouped.items():
        if names and name not in names:
            continue
        sized = {size or base: drawn for size, drawn in by_size.items()}
        if base not in sized:
            raise EditError(
                said(
                    "{0} is not drawn in the base size {1} ({2} are)", name, base, ", ".join(in_order(sized))
                ),
                remedy="draw it in the base size",
            )
        sized = {size: drawn for size, drawn in sized.items() if size in style.size_run.sizes}
        for drawn in sized.values():
            if not drawn.outline.polygon.is_valid:
                raise EditError(said("the outline of {0} crosses itself", name), remedy="redraw it there")
        style, made = add_piece(style, free_name(style, name), sized)
        added.append(made)
    return style, tuple(added)


def add_piece(style: Style, name: str, by_size: dict[str, DrawnPiece]) -> tuple[Style, str]:
    """Add a drawn piece with its edges and axis proposed, beside all others if it would lie on one."""
    made, _ = piece_data(name, by_size, style.size_run.base, draft_rules(style))
    ring = made.drawings[style.size_run.base].outline_mm
    if _overlaps(_box(ring), [_box(p.drawings[style.size_run.base].outline_mm) for p in style.pieces]):
        made = moved(made, *beside(style, ring))
    return stale_lays(style.model_copy(update={"pieces": (*style.pieces, made)})), name


def put_after(style: Style, piece: str, new: PieceData) -> Style:
    """Put a piece after the one of that name in the style's list."""
    pieces: list[PieceData] = []
    for each in style.pieces:
        pieces += [each, new] if each.name == piece else [each]
    return stale_lays(style.model_copy(update={"pieces": tuple(pieces)}))


def stale_lays(style: Style) -> Style:
    """Mark every lay that has placements: its pieces are no longer those of the style."""
    return style.model_copy(update={"lays": _gone(style.lays), "locked_lays": _gone(style.locked_lays)})


def _gone(lays: tuple[LayData, ...]) -> tuple[LayData, ...]:
    return tuple(
        lay.model_copy(update={"stale": lay.stale or GONE}) if lay.placements else lay for lay in lays
    )


KNOWN = {
    "edge": {"ring", "start", "kind", "setback_mm", "setback_end_mm", "allowance_mm", "confirmed"},
    "layer": {"cloth", "keep", "cuts", "changes", "splits"},
    "piece": {
        "name", "drawings", "hand", "per_shoe", "edges", "pull_axis", "layers", "assembled", "hold_line",
        "note", "twin", "backing_only", "grading", "cut_as", "details",
    },
}  # fmt: skip
"""Fields of a piece that are moved, mirrored and unfolded with it."""


def beyond_mirroring(piece: PieceData) -> str:
    """Return what a piece has that is not moved or mirrored with it, '' = nothing.

    A layer backed in one with another piece (joins) lies against that piece; what a newer program drew is
    not known.
    """
    parts = [("edge", e) for e in piece.edges] + [("layer", la) for la in piece.layers] + [("piece", piece)]
    for what, part in parts:
        if more := set(part.model_dump(exclude_defaults=True)) - KNOWN[what]:
            return min(more).removesuffix("_mm").replace("_", " ")
    return ""


def refuse_drawn(piece: PieceData) -> None:
    """Raise EditError for a piece that would lose, or keep in the wrong place, what is drawn on it."""
    if joined := next((name for layer in piece.layers for name in layer.joins), ""):
        raise EditError(
            said("{0} shares one backing with {1}, which would be lost", piece.name, joined),
            remedy="back them separately first, and together again afterwards",
        )
    require_mirrored(piece)


def require_mirrored(piece: PieceData) -> None:
    """Raise EditError for a piece with something on it that cannot be mirrored, its joins apart."""
    layers = tuple(layer.model_copy(update={"joins": ()}) for layer in piece.layers)
    if what := beyond_mirroring(piece.model_copy(update={"layers": layers})):
        raise EditError(
            said("{0} has {1} drawn on it, which would be lost", piece.name, what),
            remedy="take it away first, and draw it again afterwards",
        )


def beside(style: Style, ring: Points) -> tuple[float, float]:
    """Return how far to move a ring so that it lies right of all pieces, on their foot line."""
    boxes = [_box(piece.drawings[style.size_run.base].outline_mm) for piece in style.pieces]
    x0, y0, _, _ = _box(ring)
    right, foot = max(box[2] for box in boxes), min(box[1] for box in boxes)
    return round(right + BESIDE_MM - x0, 4), round(foot - y0, 4)


def moved(piece: PieceData, dx_mm: float, dy_mm: float) -> PieceData:
    """Return a piece at another place of the drawing; raises EditError as ``refuse_drawn``."""
    refuse_drawn(piece)
    return mapped(piece, lambda points: tuple((round(x + dx_mm, 4), round(y + dy_mm, 4)) for x, y in points))


def mapped(piece: PieceData, change: Callable[[Points], Points]) -> PieceData:
    """Return a piece with all its points moved by ``change``, which must not turn it."""

    def drawing(old: SizeDrawing) -> SizeDrawing:
        return old.model_copy(
            update={
                "outline_mm": change(old.outline_mm),
                "holes_mm": tuple(change(hole) for hole in old.holes_mm),
                "notches": tuple(_placed(n, change) for n in old.notches),
                "marks": tuple(m.model_copy(update={"points_mm": change(m.points_mm)}) for m in old.marks),
                "drill_holes": tuple(_placed(d, change) for d in old.drill_holes),
                "turn_points_mm": change(old.turn_points_mm),
            }
        )

    line = piece.hold_line
    if line is not None:
        a, b = change((line.from_mm, line.to_mm))
        line = line.model_copy(update={"from_mm": a, "to_mm": b})
    layers = []
    for layer in piece.layers:
        keep = layer.keep
        if keep is not None:
            side = None if keep.side_mm is None else change((keep.side_mm,))[0]
            keep = keep.model_copy(update={"points_mm": change(keep.points_mm), "side_mm": side})
        drawn = {name: shifted(getattr(layer, name), change) for name in ("cuts", "changes", "splits")}
        layers.append(layer.model_copy(update={"keep": keep, **drawn}))
    return piece.model_copy(
        update={
            "drawings": {size: drawing(old) for size, old in piece.drawings.items()},
            "hold_line": line,
            "layers": tuple(layers),
            "details": shifted(piece.details, change),
        }
    )


def _placed(place: P, change: Callable[[Points], Points]) -> P:
    x, y = change(((place.x_mm, place.y_mm),))[0]
    return place.model_copy(update={"x_mm": x, "y_mm": y})


def _box(ring: Points) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return min(xs), min(ys), max(xs), max(ys)


def _overlaps(box: tuple[float, ...], others: Sequence[tuple[float, ...]]) -> bool:
    return any(box[0] < o[2] and o[0] < box[2] and box[1] < o[3] and o[1] < box[3] for o in others)


def all_edges(piece: PieceData, **fields: object) -> tuple[EdgeData, ...]:
    """Return the edges of a piece with these fields, confirmed."""
    return tuple(edge.model_copy(update={**fields, "confirmed": True}) for edge in piece.edges)
