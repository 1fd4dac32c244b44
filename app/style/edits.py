"""Every edit of a style, as a named pure function from style to style.

An edge is named by ``(ring, start)``: its ring (0 = outer) and the vertex it starts at, as in
``EdgeData``. An edit that a person makes on an edge or axis confirms it: they have looked.
Functions that name a piece or a cloth raise EditError when the style has none of that name.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from app.errors import AppError
from app.style.checks import lay_problem, rules_problem
from app.style.model import (
    ClothData,
    EdgeData,
    FlawData,
    HoldChain,
    HoldLine,
    LayData,
    LayerData,
    PieceData,
    Point,
    PullAxisData,
    Style,
)
from app.style.pieces import drawn_piece, edging_of
from app.style.saved.drawn import rejoined
from app.tolerances import MOST_PER_SHOE
from geometry.backing import edges as geometry_edges
from geometry.edge_kinds import EdgeKind
from geometry.piece import Edging, Hand
from geometry.pull import undirected_deg
from geometry.said import said

EdgeName = tuple[int, int]
NO_SETBACK: dict[str, None] = {"setback_mm": None, "setback_end_mm": None}
SHORTEST_LINE_MM, MOST_AT_EDGE_MM = 1.0, 2000.0
"""A shorter hold line, or a larger setback, is a slip of the hand."""


class EditError(AppError):
    """An edit that makes no sense for this style."""


# -- edges ------------------------------------------------------------------------------------
def check_edge_mm(piece: str, *values_mm: float | None) -> None:
    """Raise EditError for a setback or allowance that is not a number, or larger than any piece."""
    if any(value is not None and not abs(value) <= MOST_AT_EDGE_MM for value in values_mm):
        raise EditError(said("{0}: no such length fits a piece", piece), remedy="enter it in mm")


def set_edge_kind(style: Style, piece: str, names: Iterable[EdgeName], kind: EdgeKind) -> Style:
    """Give edges a kind. A setback or allowance of their own goes with the old kind."""

    def change(edge: EdgeData) -> EdgeData:
        if edge.kind is kind:
            return edge if edge.confirmed else edge.model_copy(update={"confirmed": True})
        return edge.model_copy(update={"kind": kind, **NO_SETBACK, "allowance_mm": None, "confirmed": True})

    return _each_edge(style, piece, names, change)


def set_setback(style: Style, piece: str, names: Iterable[EdgeName], setback_mm: float | None) -> Style:
    """Give edges a setback of their own; None goes back to the house rule."""
    check_edge_mm(piece, setback_mm)
    return _each_edge(
        style,
        piece,
        names,
        lambda e: e.model_copy(update={**NO_SETBACK, "setback_mm": setback_mm, "confirmed": True}),
    )


def set_allowance(style: Style, piece: str, names: Iterable[EdgeName], allowance_mm: float | None) -> Style:
    """Give edges an allowance of their own, which grading keeps; None goes back to the house rule."""
    check_edge_mm(piece, allowance_mm)
    return _each_edge(
        style, piece, names, lambda e: e.model_copy(update={"allowance_mm": allowance_mm, "confirmed": True})
    )


def confirm_edges(style: Style, piece: str, names: Iterable[EdgeName]) -> Style:
    """Confirm the kinds of edges as they are."""
    return _each_edge(style, piece, names, lambda e: e.model_copy(update={"confirmed": True}))


def confirm_piece(style: Style, piece: str) -> Style:
    """Confirm all edges and the pull axis of a piece as they are."""
    return _change_piece(style, piece, _confirmed)


def confirm_all(style: Style) -> Style:
    """Confirm everything suggested in the whole style as it is."""
    return style.model_copy(update={"pieces": tuple(_confirmed(piece) for piece in style.pieces)})


def add_break(style: Style, piece: str, ring: int, vertex: int) -> Style:
    """End an edge at ``vertex``: both halves keep the kind. Raises EdgeError if there is a break."""
    outline = drawn_piece(_piece(style, piece), style.size_run.base).outline
    return _change_edging(
        style,
        piece,
        lambda e: geometry_edges.add_break(
            e, ring, vertex, geometry_edges.taper_at(outline, e, ring, vertex)
        ),
    )


def move_break(style: Style, piece: str, ring: int, start: int, vertex: int) -> Style:
    """Move the break at ``start`` to ``vertex``. Raises EdgeError where it would pass another."""
    return _change_edging(
        style, piece, lambda e: geometry_edges.move_break(e, ring, _index(e, ring, start), vertex)
    )


def remove_break(style: Style, piece: str, ring: int, start: int) -> Style:
    """Join the two edges that meet at ``start``; raises EdgeError for a ring's last break."""
    return _change_edging(
        style, piece, lambda e: geometry_edges.remove_break(e, ring, _index(e, ring, start))
    )


def copy_edges(
    style: Style, piece: str, pairs: Mapping[EdgeName, EdgeData], *, confirmed: bool = False
) -> Style:
    """Give each edge named the kind, setback and allowance of another; as a suggestion unless said."""

    def change(edge: EdgeData) -> EdgeData:
        source = pairs[(edge.ring, edge.start)]
        return edge.model_copy(
            update={
                "kind": source.kind,
                "setback_mm": source.setback_mm,
                "setback_end_mm": source.setback_end_mm,
                "allowance_mm": source.allowance_mm,
                "confirmed": confirmed,
            }
        )

    return _each_edge(style, piece, pairs, change)


# -- pieces -----------------------------------------------------------------------------------
def set_axis(style: Style, piece: str, axis_deg: float) -> Style:
    """Turn the pull axis of a piece by hand; the angle may be any, it is an undirected line."""
    axis = PullAxisData(axis_deg=undirected_deg(axis_deg), source="person", confirmed=True)
    return _change_piece(style, piece, lambda p: p.model_copy(update={"pull_axis": axis}))


def confirm_axis(style: Style, piece: str) -> Style:
    """Confirm the pull axis of a piece as it is."""
    return _change_piece(
        style,
        piece,
        lambda p: p.model_copy(update={"pull_axis": p.pull_axis.model_copy(update={"confirmed": True})}),
    )


def rename_piece(style: Style, piece: str, name: str) -> Style:
    """Give a piece another name; raises EditError when it is empty or taken."""
    name = name.strip()
    if not name:
        raise EditError("a piece needs a name", remedy="type one")
    if name != piece and any(other.name == name for other in style.pieces):
        raise EditError(said("there is a piece called {0} already", name), remedy="choose another name")
    renamed = _change_piece(style, piece, lambda p: p.model_copy(update={"name": name}))
    renamed = rejoined(renamed, piece, name)
    if not any(piece in chain.pieces for chain in style.hold_chains):
        return renamed
    chains = tuple(
        chain.model_copy(update={"pieces": tuple(name if p == piece else p for p in chain.pieces)})
        for chain in style.hold_chains
    )
    return renamed.model_copy(update={"hold_chains": chains})


def set_hand(style: Style, piece: str, hand: Hand) -> Style:
    """Say for which shoe a piece is drawn; the other hand is its mirror image."""
    return _change_piece(style, piece, lambda p: p.model_copy(update={"hand": hand}))


def set_per_shoe(style: Style, piece: str, count: int) -> Style:
    """Say how many of a piece one shoe needs."""
    if count < 1:
        raise EditError("a shoe needs at least one of each piece", remedy="remove the piece instead")
    if count > MOST_PER_SHOE:
        raise EditError(
            said("{0} of one piece in a shoe is too many", count),
            remedy=said("enter {0} or fewer", MOST_PER_SHOE),
            piece=piece,
        )
    return _change_piece(style, piece, lambda p: p.model_copy(update={"per_shoe": count}))


def set_layers(style: Style, piece: str, layers: Iterable[LayerData]) -> Style:
    """Say which backings a piece gets: one per layer, none = not backed."""
    return _change_piece(style, piece, lambda p: p.model_copy(update={"layers": tuple(layers)}))


# -- hold -------------------------------------------------------------------------------------
def set_hold_line(style: Style, piece: str, from_mm: Point, to_mm: Point) -> Style:
    """Draw the hold line of a piece, in the base drawing's frame; a limit it had stays.

    Raises EditError when it is shorter than a millimetre.
    """
    if math.dist(from_mm, to_mm) < SHORTEST_LINE_MM:
        raise EditError(
            said("the hold line of {0} has no length", piece), remedy="draw it from heel to throat"
        )
    start, end = ((round(x, 4), round(y, 4)) for x, y in (from_mm, to_mm))
    ends = {"from_mm": start, "to_mm": end}

    def change(data: PieceData) -> PieceData:
        old = data.hold_line or HoldLine(from_mm=start, to_mm=end)
        return data.model_copy(update={"hold_line": old.model_copy(update=ends)})

    return _change_piece(style, piece, change)


def set_hold_limit(style: Style, piece: str, limit_mm: float | None) -> Style:
    """Give the hold line of a piece a limit; raises EditError without a line, or below zero."""
    line = _piece(style, piece).hold_line
    if line is None:
        raise EditError(said("{0} has no hold line", piece), remedy="draw it from heel to throat first")
    limited = line.model_copy(update={"limit_mm": _limit(limit_mm)})
    return _change_piece(style, piece, lambda p: p.model_copy(update={"hold_line": limited}))


def remove_hold_line(style: Style, piece: str) -> Style:
    """Take the hold line of a piece away, with its limit. Raises EditError while a chain needs it."""
    chains = [chain.name for chain in style.hold_chains if piece in chain.pieces]
    if chains:
        raise EditError(
            said("the hold line of {0} is part of the chain {1}", piece, chains[0]),
            remedy="undo the chain first, on the Cloth desk",
        )
    return _change_piece(style, piece, lambda p: p.model_copy(update={"hold_line": None}))


def put_hold_chain(style: Style, chain: HoldChain) -> Style:
    """Put a chain of hold lines in place of the one of that name, or after the last.

    Raises EditError when it has fewer than two pieces, or one of them no hold line.
    """
    if len(set(chain.pieces)) < 2:
        raise EditError(
            "a chain runs over two pieces or more", remedy="choose the pieces from heel to throat"
        )
    bare = [name for name in chain.pieces if _piece(style, name).hold_line is None]
    if bare:
        raise EditError(said("{0} has no hold line", bare[0]), remedy="draw it on the Draft desk first")
    chain = chain.model_copy(update={"limit_mm": _limit(chain.limit_mm)})
    kept = list(style.hold_chains)
    at = next((i for i, other in enumerate(kept) if other.name == chain.name), len(kept))
    kept[at : at + 1] = [chain]
    return style.model_copy(update={"hold_chains": tuple(kept)})


def remove_hold_chain(style: Style, name: str) -> Style:
    """Take a chain apart; the hold lines of its pieces stay."""
    kept = tuple(chain for chain in style.hold_chains if chain.name != name)
    return style.model_copy(update={"hold_chains": kept})


def _limit(limit_mm: float | None) -> float | None:
    if limit_mm is not None and not limit_mm > 0:
        raise EditError(said("a limit of {0} mm", f"{limit_mm:g}"), remedy="give one above zero, or none")
    return limit_mm


# -- cloths, rules, the style -----------------------------------------------------------------
def set_cloth(style: Style, cloth: str, **fields: Any) -> Style:
    """Set fields of a cloth, checked as in a file; a width below the usable width is refused."""
    old = _cloth(style, cloth)
    new = ClothData.model_validate(dict(old) | fields)
    if new.usable_width_mm > new.width_mm:
        raise EditError(
            said("cloth {0}: the usable width cannot be larger than the width", new.name),
            remedy="check both widths",
        )
    return style.model_copy(update={"cloths": tuple(new if c is old else c for c in style.cloths)})


def add_cloth(style: Style, cloth: ClothData) -> Style:
    """Add a cloth; raises EditError when its id is taken."""
    if any(other.id == cloth.id for other in style.cloths):
        raise EditError(said("there is a cloth {0} already", cloth.id), remedy="choose another id")
    return style.model_copy(update={"cloths": (*style.cloths, cloth)})


def remove_cloth(style: Style, cloth: str) -> Style:
    """Take a cloth out; raises EditError for the last one, or while a piece is backed with it."""
    old = _cloth(style, cloth)
    first = style.cloths[0].id  # what a layer without a cloth of its own has
    users = [p.name for p in style.pieces if any((layer.cloth or first) == old.id for layer in p.layers)]
    if users:
        raise EditError(
            said("cloth {0} backs {1}", old.name, ", ".join(users)),
            remedy="give these pieces another cloth first",
        )
    if len(style.cloths) == 1:
        raise EditError("a style needs a cloth", remedy="change this one instead")
    return style.model_copy(update={"cloths": tuple(c for c in style.cloths if c is not old)})


def add_flaw(style: Style, cloth: str, flaw: FlawData) -> Style:
    """Mark a flaw on the roll of a cloth."""
    return set_cloth(style, cloth, flaws=(*_cloth(style, cloth).flaws, flaw))


def set_flaw(style: Style, cloth: str, index: int, flaw: FlawData | None) -> Style:
    """Change the flaw of that index, or take it away with None."""
    flaws = list(_cloth(style, cloth).flaws)
    flaws[index : index + 1] = [] if flaw is None else [flaw]
    return set_cloth(style, cloth, flaws=tuple(flaws))


def set_upper(style: Style, **fields: Any) -> Style:
    """Set fields of the upper material, checked as in a file."""
    upper = type(style.upper_material).model_validate(dict(style.upper_material) | fields)
    return style.model_copy(update={"upper_material": upper})


def set_pull(style: Style, pull_n_per_mm: float) -> Style:
    """Set the pull of lasting by which the hold is judged; raises EditError outside 0 to 1000 N/mm."""
    if not 0 < pull_n_per_mm < 1000:
        raise EditError(
            said("a pull of {0} N/mm", f"{pull_n_per_mm:g}"),
            remedy="give one above zero; lasting takes about 1",
        )
    return style.model_copy(update={"pull_n_per_mm": pull_n_per_mm})


def set_rules(style: Style, **fields: Any) -> Style:
    """Set fields of the house rules, checked as in a file."""
    rules = type(style.rules).model_validate(dict(style.rules) | fields)
    if wrong := rules_problem(rules):
        raise EditError(wrong, remedy="enter another value")
    return style.model_copy(update={"rules": rules})


# -- lays -------------------------------------------------------------------------------------
def put_lay(style: Style, index: int, lay: LayData) -> Style:
    """Put a lay in place of the one of that index, or after the last."""
    if wrong := lay_problem(lay):
        raise EditError(wrong, remedy="enter another value")
    lays = list(style.lays)
    lays[index : index + 1] = [lay]
    return style.model_copy(update={"lays": tuple(lays)})


def remove_lay(style: Style, index: int) -> Style:
    """Take a lay away."""
    return style.model_copy(update={"lays": style.lays[:index] + style.lays[index + 1 :]})


# -- how ----------------------------------------------------------------------------------------
def _index(edging: Edging, ring: int, start: int) -> int:
    return edging.breaks[ring].index(start)


def _change_edging(style: Style, piece: str, change: Callable[[Edging], Edging]) -> Style:
    def changed(data: PieceData) -> PieceData:
        before = {(edge.ring, edge.start): edge for edge in data.edges}
        outline = drawn_piece(data, style.size_run.base).outline
        edging = change(edging_of(data, outline))
        edges = []
        for ring, (breaks, ring_edges) in enumerate(zip(edging.breaks, edging.edges, strict=True)):
            for start, edge in zip(breaks, ring_edges, strict=True):
                made = EdgeData(
                    ring=ring,
                    start=start,
                    kind=edge.kind,
                    setback_mm=edge.setback_mm,
                    setback_end_mm=edge.setback_end_mm,
                    allowance_mm=edge.allowance_mm,
                    confirmed=edge.confirmed,
                )
                held = before.get((ring, start))
                edges.append(held if held is not None and _same(held, made) else made)
        return data.model_copy(update={"edges": tuple(edges)})

    return _change_piece(style, piece, changed)


def _same(a: EdgeData, b: EdgeData) -> bool:
    fields = ("kind", "setback_mm", "setback_end_mm", "allowance_mm", "confirmed")
    return all(getattr(a, name) == getattr(b, name) for name in fields)


def _each_edge(
    style: Style, piece: str, names: Iterable[EdgeName], change: Callable[[EdgeData], EdgeData]
) -> Style:
    wanted = set(names)
    known = {(edge.ring, edge.start) for edge in _piece(style, piece).edges}
    if wanted - known:
        raise EditError(said("{0}: there is no such edge", piece), remedy="choose an edge on the board")
    return _change_piece(
        style,
        piece,
        lambda p: p.model_copy(
            update={"edges": tuple(change(e) if (e.ring, e.start) in wanted else e for e in p.edges)}
        ),
    )


def _confirmed(piece: PieceData) -> PieceData:
    return piece.model_copy(
        update={
            "edges": tuple(
                e if e.confirmed else e.model_copy(update={"confirmed": True}) for e in piece.edges
            ),
            "pull_axis": piece.pull_axis.model_copy(update={"confirmed": True}),
        }
    )


def _change_piece(style: Style, piece: str, change: Callable[[PieceData], PieceData]) -> Style:
    old = _piece(style, piece)
    new = change(old)
    if new == old:
        return style
    return style.model_copy(update={"pieces": tuple(new if p is old else p for p in style.pieces)})


def _piece(style: Style, name: str) -> PieceData:
    try:
        return style.piece(name)
    except KeyError:
        raise EditError(said("there is no piece called {0}", name), remedy="choose one of the list") from None


def _cloth(style: Style, cloth_id: str) -> ClothData:
    try:
        return style.cloth(cloth_id)
    except KeyError:
        raise EditError(said("there is no cloth {0}", cloth_id), remedy="choose one of the list") from None
