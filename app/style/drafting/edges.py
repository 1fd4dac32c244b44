"""Edits of edges: setbacks that change along an edge, breaks at corners of an angle, edges of a kind."""

from __future__ import annotations

from app.style import edits
from app.style.drafting.where import piece_of, stretch_of
from app.style.edits import EdgeName, EditError
from app.style.model import Style
from app.style.pieces import drawn_piece
from geometry.backing.edges import corners
from geometry.edge_kinds import EdgeKind
from geometry.said import said


def edges_of_kind(style: Style, piece: str, kind: EdgeKind) -> frozenset[EdgeName]:
    """Return all edges of a kind on a piece."""
    return frozenset((e.ring, e.start) for e in piece_of(style, piece).edges if e.kind is kind)


def set_taper(style: Style, piece: str, edge: EdgeName, from_mm: float, to_mm: float) -> Style:
    """Let an edge's setback run from one value at its start to another at its end, by the length walked."""
    edits.check_edge_mm(piece, from_mm, to_mm)
    stretch_of(style, piece, edge)
    last = None if from_mm == to_mm else float(to_mm)

    update = {"setback_mm": float(from_mm), "setback_end_mm": last, "confirmed": True}
    old = piece_of(style, piece)
    made = tuple(e.model_copy(update=update) if (e.ring, e.start) == edge else e for e in old.edges)
    new = old.model_copy(update={"edges": made})
    return style.model_copy(update={"pieces": tuple(new if p is old else p for p in style.pieces)})


def break_at_corners(style: Style, piece: str, corner_deg: float) -> Style:
    """End edges at every corner of the base outline that turns by more than an angle; other breaks stay."""
    if not 1.0 <= corner_deg <= 179.0:
        raise EditError(
            said("{0}: a corner of {1} degrees", piece, f"{corner_deg:g}"), remedy="give 1 to 179"
        )
    data = piece_of(style, piece)
    outline = drawn_piece(data, style.size_run.base).outline
    held = {(edge.ring, edge.start) for edge in data.edges}
    for r, ring in enumerate(outline.rings_mm):
        for vertex in corners(ring, corner_deg):
            if (r, vertex) not in held:
                style = edits.add_break(style, piece, r, vertex)
    return style
