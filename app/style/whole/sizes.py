"""The size run of a style: system, base, which sizes, and how each comes about.

A size of a piece is *drawn*, *graded* from the base size, or *cut as* another size (one die for two sizes).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

from app.style.edits import EditError
from app.style.model import Grading, PieceData, SizeRun, Style
from app.style.new import edge_data, size_drawing
from app.style.pieces import drawn_piece, edging_of, upper_piece
from app.style.whole.adding import piece_of, stale_lays, with_piece
from geometry.backing.edges import carry_edging
from geometry.errors import SizeError
from geometry.piece import DrawnPiece
from geometry.said import said
from geometry.sizing.sizes import (
    girth_mm,
    grade_factors,
    in_order,
    last_length_mm,
    parse_sizes,
    size_number,
    system_of,
)

LONGEST_LAST_MM = 1000.0
"""No foot is so long: a label that comes to more is read in the wrong system (common practice, no source)."""

How = Literal["drawn", "graded", "cut as another", "missing"]


@dataclass(frozen=True)
class SizeRow:
    """A size of the run: measures of the last, its step from the size before, and how pieces get it.

    ``drawn``, ``graded``, ``cut_as`` and ``missing`` count pieces.
    """

    size: str
    base: bool
    last_mm: float
    girth_mm: float
    last_step_mm: float | None
    girth_step_mm: float | None
    drawn: int
    graded: int
    cut_as: int
    missing: int


def size_rows(style: Style) -> tuple[SizeRow, ...]:
    """Return the size run as a table, smallest size first; SizeError for a size that is not a number."""
    run = style.size_run
    rows: list[SizeRow] = []
    for size in in_order(run.sizes):
        last = last_length_mm(run.system, size)
        girth = girth_mm(run.system, run.base, size, run.base_girth_mm)
        before = rows[-1] if rows else None
        how = [how_made(style, piece, size) for piece in style.pieces]
        rows.append(
            SizeRow(
                size=size,
                base=size == run.base,
                last_mm=last,
                girth_mm=girth,
                last_step_mm=None if before is None else last - before.last_mm,
                girth_step_mm=None if before is None else girth - before.girth_mm,
                drawn=how.count("drawn"),
                graded=how.count("graded"),
                cut_as=how.count("cut as another"),
                missing=how.count("missing"),
            )
        )
    return tuple(rows)


def how_made(style: Style, piece: PieceData, size: str) -> How:
    """Return how a piece comes about in a size."""
    if size in piece.cut_as:
        return "cut as another"
    if size in piece.drawings:
        return "drawn"
    return "graded" if style.size_run.graded else "missing"


def set_system(style: Style, system: str) -> Style:
    """Read the size labels in another system.

    Raises SizeError when there is none of that name, and when a size would have no last in it.
    """
    run = style.size_run
    for size in run.sizes:
        _require_last(system, size)
        if run.graded:
            grade_factors(system, run.base, size, run.base_girth_mm)
    system_of(system)
    return _with_run(style, system=system)


def set_girth(style: Style, base_girth_mm: float) -> Style:
    """Set the ball girth of the base size, by which widths are graded; raises EditError out of reason."""
    if not 50.0 <= base_girth_mm <= 500.0:
        raise EditError(
            said("a ball girth of {0} mm", f"{base_girth_mm:g}"), remedy="measure the last's joint girth"
        )
    return _with_run(style, base_girth_mm=base_girth_mm)


def add_sizes(style: Style, text: str) -> Style:
    """Add sizes such as "36-41" or "38.5" to the run; those not drawn are graded from the base size.

    Raises SizeError for a text that cannot be read, EditError when all are there already or a size cannot be
    graded.
    """
    run = style.size_run
    have = {size_number(size) for size in run.sizes}
    new = [size for size in parse_sizes(text, system=run.system) if size_number(size) not in have]
    if not new:
        raise EditError(
            said("the run has {0} already", text.strip()), remedy="type a size that it does not have"
        )
    for size in new:
        _require_last(run.system, size)
        grade_factors(run.system, run.base, size, run.base_girth_mm)
    drawn = all(size in piece.drawings for size in new for piece in style.pieces)
    return _with_run(style, sizes=in_order((*run.sizes, *new)), graded=run.graded or not drawn)


def remove_size(style: Style, size: str) -> Style:
    """Take a size out of the run, with its drawings and the pairs ordered of it.

    Raises EditError for the base size, an unknown one, and one that a lay or another size needs.
    """
    run = style.size_run
    _require_sizes(style, size)
    if size == run.base:
        raise EditError(said("{0} is the base size", size), remedy="choose another base size first")
    lays = [lay.name for lay in (*style.lays, *style.locked_lays) if lay.pairs.get(size)]
    if lays:
        raise EditError(
            said("lay {0} holds pairs of size {1}", lays[0], size), remedy="take them out of the lay first"
        )
    needing = [piece.name for piece in style.pieces if size in piece.cut_as.values()]
    if needing:
        raise EditError(
            said("{0} is cut in the shape of size {1} in another size", needing[0], size),
            remedy="give that size its own shape first",
        )
    pieces = tuple(
        piece.model_copy(
            update={
                "drawings": {s: d for s, d in piece.drawings.items() if s != size},
                "cut_as": {s: other for s, other in piece.cut_as.items() if s != size},
            }
        )
        for piece in style.pieces
    )
    style = style.model_copy(
        update={"pieces": pieces, "order": {s: n for s, n in style.order.items() if s != size}}
    )
    return _with_run(style, sizes=tuple(s for s in run.sizes if s != size))


def set_base(style: Style, size: str) -> Style:
    """Make ``size`` the base size.

    Where every piece is drawn in it, its drawings become the ones that are marked: edges are carried over,
    hold lines and partial backings stay where they are drawn. Where only the base size is drawn, that drawing
    is said to be of ``size`` (it was entered under a wrong size). Raises EditError in between, EdgeError
    when edges cannot be told on the other drawing, and SizeError for a size that has no last.
    """
    size = parse_sizes(size, system=style.size_run.system)[0]
    run = style.size_run
    if size == run.base:
        return style
    _require_last(run.system, size)
    grade_factors(run.system, size, size, run.base_girth_mm)
    if all(size in piece.drawings for piece in style.pieces):
        pieces = []
        for piece in style.pieces:
            old, new = drawn_piece(piece, run.base), drawn_piece(piece, size)
            edges = piece.edges
            if edges:
                carried, _ = carry_edging(edging_of(piece, old.outline), old.outline, new.outline)
                edges = edge_data(carried)
            pieces.append(piece.model_copy(update={"edges": edges}))
        return stale_lays(_with_run(style.model_copy(update={"pieces": tuple(pieces)}), base=size))
    drawn_alone = all(set(piece.drawings) == {run.base} for piece in style.pieces)
    if not drawn_alone or any(piece.cut_as for piece in style.pieces):
        raise EditError(
            said("not every piece is drawn in size {0}", size),
            remedy="draw them in it, or choose a size that is drawn",
        )
    pieces = [
        piece.model_copy(update={"drawings": {size: piece.drawings[run.base]}}) for piece in style.pieces
    ]
    others = set(run.sizes) if size in run.sizes else set(run.sizes) - {run.base}
    sizes = in_order({*others, size})
    named = style.model_copy(update={"pieces": tuple(pieces)})
    if size not in run.sizes:
        renamed = {size if s == run.base else s: n for s, n in style.order.items()}
        named = named.model_copy(update={"order": renamed})
    return stale_lays(_with_run(named, base=size, sizes=sizes))


def draw_size(style: Style, size: str, pieces: Iterable[str] = ()) -> Style:
    """Keep the graded outlines of a size as its drawings, for these pieces (none = all), to be corrected.

    Raises EditError for the base size, SizeError when a piece cannot be graded to it.
    """
    if size not in style.size_run.sizes or size == style.size_run.base:
        raise EditError(
            said("size {0} is not one that is graded", size), remedy="choose another size of the run"
        )
    for name in tuple(pieces) or tuple(piece.name for piece in style.pieces):
        piece = piece_of(style, name)
        if size in piece.drawings:
            continue
        upper = upper_piece(style, name, size, piece.hand)
        drawn = DrawnPiece(
            name=name,
            outline=upper.outline,
            size=size,
            notches=upper.notches,
            marks=upper.marks,
            drill_holes=upper.drill_holes,
        )
        drawings = {**piece.drawings, size: size_drawing(drawn)}
        ordered = {s: drawings[s] for s in in_order(drawings)}
        cut_as = {s: other for s, other in piece.cut_as.items() if s != size}
        new = piece.model_copy(update={"drawings": ordered, "cut_as": cut_as})
        style = with_piece(style, name, new)
    return style


def grade_size(style: Style, size: str, pieces: Iterable[str] = ()) -> Style:
    """Forget the drawings of a size, for these pieces (none = all): it is graded from the base size again.

    Raises EditError for the base size, and for one that the run does not have.
    """
    _require_sizes(style, size)
    if size == style.size_run.base:
        raise EditError(said("{0} is the base size", size), remedy="choose another size")
    for name in tuple(pieces) or tuple(piece.name for piece in style.pieces):
        piece = piece_of(style, name)
        kept = {s: drawing for s, drawing in piece.drawings.items() if s != size}
        style = with_piece(style, name, piece.model_copy(update={"drawings": kept}))
    return _with_run(style, graded=True)


def set_grading(style: Style, piece: str, grading: Grading) -> Style:
    """Say along what a piece grows from size to size: both ways, length or width alone, or not at all."""
    old = piece_of(style, piece)
    return stale_lays(with_piece(style, piece, old.model_copy(update={"grading": grading})))


def set_cut_as(style: Style, piece: str, same: Mapping[str, str]) -> Style:
    """Say which sizes of a piece are cut in the shape of another size (one die or card for several sizes).

    Raises EditError for a size that the run does not have, for the base size, and for a chain of such sizes.
    """
    old, run = piece_of(style, piece), style.size_run
    _require_sizes(style, *same.keys(), *same.values())
    same = {size: other for size, other in same.items() if size != other}
    for size, other in same.items():
        if size == run.base:
            raise EditError(
                said("{0} is the base size", size), remedy="cut the other size as the base size instead"
            )
        if other in same:
            raise EditError(
                said("{0} is itself cut as {1}", other, same[other]),
                remedy=said("cut {0} as {1} as well", size, same[other]),
            )
    return stale_lays(with_piece(style, piece, old.model_copy(update={"cut_as": dict(same)})))


def missing_sizes(style: Style, sizes: Iterable[str]) -> tuple[str, ...]:
    """Return those of an order's sizes that the run does not have, as they would be added.

    A label that is not a size is left out: adding sizes does not help it.
    """
    have = {size_number(size) for size in style.size_run.sizes}
    found: list[str] = []
    for size in sizes:
        try:
            number = size_number(size)
        except SizeError:
            continue
        if number not in have:
            found += parse_sizes(str(size), system=style.size_run.system)
    return in_order(dict.fromkeys(found))


def _require_sizes(style: Style, *sizes: str) -> None:
    for size in sizes:
        if size not in style.size_run.sizes:
            raise EditError(
                said("there is no size {0}", size),
                remedy=said("the sizes are {0}", ", ".join(style.size_run.sizes)),
            )


def _require_last(system: str, size: str) -> None:
    length = last_length_mm(system, size)
    if not length <= LONGEST_LAST_MM:
        raise EditError(
            said("size {0} would have a last of {1} mm", size, f"{length:g}"),
            remedy="check the size and the system",
        )


def _with_run(style: Style, **fields: object) -> Style:
    run = SizeRun.model_validate({**dict(style.size_run), **fields})
    return style if run == style.size_run else style.model_copy(update={"size_run": run})
