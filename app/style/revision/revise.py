"""A revised drawing brought into a style: what was marked and drawn on the old pieces stays."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np
import shapely

from app.errors import UsageError
from app.style.checks import first_problem
from app.style.model import HoldLine, KeepData, LayData, PieceData, Style
from app.style.new import new_style
from app.style.revision.carry import CarriedEdges, carry_edges
from app.style.revision.match import Match, Matching, match_pieces
from app.style.saved.drawn import InFrameData, PlaceData, rejoined, with_places
from geometry.dxf.read import ReadDrawing
from geometry.outline import Outline
from geometry.said import said

UNCHANGED_MM = 1e-6
"""Outlines that lie closer than this are the same: the decimals that a style file keeps."""


@dataclass(frozen=True)
class RevisionQuestion:
    """A question that the revision leaves open. ``code`` is stable; ``where_mm`` in the new frame."""

    code: str
    piece: str
    message: str
    where_mm: tuple[tuple[float, float], ...] = ()
    other: str = ""


@dataclass(frozen=True)
class MatchedPiece:
    """A piece of the style with its new drawing."""

    match: Match
    before: PieceData
    after: PieceData
    edges: CarriedEdges


@dataclass(frozen=True)
class Revision:
    """The revised style and all that a person must know of it."""

    style: Style
    matched: tuple[MatchedPiece, ...]
    added: tuple[PieceData, ...]
    removed: tuple[PieceData, ...]
    asked: tuple[RevisionQuestion, ...]
    stale_lays: tuple[str, ...]

    @property
    def open(self) -> bool:
        """Whether a question must be answered before the style can be written."""
        return any(each.code == "NAMES_SWAPPED" for each in self.asked)


def revise(
    style: Style,
    drawing: ReadDrawing,
    *,
    source: str = "",
    by_shape: Sequence[str] = (),
    refused: Sequence[str] = (),
    keep_removed: bool = False,
) -> Revision:
    """Return the style with the pieces of a revised drawing.

    ``by_shape`` names pieces to be matched by shape (the answer where names were swapped), ``refused`` those
    that stay as they were. Pieces that are not in the drawing go, unless ``keep_removed``. Raises UsageError
    when the drawing holds no piece, or none in the base size.
    """
    base = style.size_run.base
    drawn, _ = new_style(drawing, name=style.name, rules=style.rules, source=source, base=base)
    old = {piece.name: _outline(piece, base) for piece in style.pieces}
    new = {piece.name: _outline(piece, base) for piece in drawn.pieces}
    matching = match_pieces(old, new, by_shape=tuple(by_shape))
    asked = [
        RevisionQuestion(
            "NAMES_SWAPPED",
            a,
            said("{0} and {1} look as if their names were swapped in the drawing", a, b),
            other=b,
        )
        for a, b in matching.swapped
    ]
    matched = []
    for match in matching.matches:
        if match.piece in refused:
            continue
        before, fresh = style.piece(match.piece), drawn.piece(match.new_name)
        matched.append(_carried(style, before, fresh, match, old, new, asked))
    removed = tuple(style.piece(name) for name in matching.removed if name not in refused)
    added = tuple(drawn.piece(name) for name in matching.added if name not in refused)
    pieces = _in_place(style, matched, added, () if keep_removed else removed)
    asked += _sizes(style, matched)
    changed = {each.before.name for each in matched if _changed(each)}
    changed |= set() if keep_removed else {piece.name for piece in removed}
    lays, locked = (
        tuple(_stale(lay, source) if changed and lay.placements else lay for lay in kept)
        for kept in (style.lays, style.locked_lays)
    )
    chains = tuple(
        chain for chain in style.hold_chains if all(any(p.name == n for p in pieces) for n in chain.pieces)
    )
    asked += [
        RevisionQuestion(
            "CHAIN_BROKEN",
            chain.pieces[0] if chain.pieces else "",
            said("chain {0} lost a piece", chain.name),
        )
        for chain in style.hold_chains
        if chain not in chains
    ]
    revised = style.model_copy(
        update={
            "pieces": pieces,
            "lays": lays,
            "locked_lays": locked,
            "hold_chains": chains,
            "drawing": source or style.drawing,
        }
    )
    for name in [piece.name for piece in style.pieces if all(p.name != piece.name for p in pieces)]:
        revised = rejoined(revised, name, None)
    problem = first_problem(revised)
    if problem:
        raise UsageError(
            said("the revised style is not consistent: {0}", problem), file=source, remedy="redraw it"
        )
    stale = tuple(lay.name for lay in lays if lay.stale)
    return Revision(revised, tuple(matched), added, removed, tuple(asked), stale)


def revision_json(revision: Revision) -> dict[str, Any]:
    """Return the object of ``revise --json``."""
    return {
        "matched": [
            {
                "piece": each.match.piece,
                "new_name": each.match.new_name,
                "by": each.match.by,
                "max_move_mm": round(each.match.max_move_mm, 3),
                "edges_carried": each.edges.carried,
                "edges_asked": len(each.edges.asked),
            }
            for each in revision.matched
        ],
        "added": [piece.name for piece in revision.added],
        "removed": [piece.name for piece in revision.removed],
        "asked": [
            {
                "code": each.code,
                "piece": each.piece,
                "message": each.message,
                "where_mm": [list(point) for point in each.where_mm],
            }
            for each in revision.asked
        ],
        "stale_lays": list(revision.stale_lays),
    }


def _carried(
    style: Style,
    before: PieceData,
    fresh: PieceData,
    match: Match,
    old: dict[str, Outline],
    new: dict[str, Outline],
    asked: list[RevisionQuestion],
) -> MatchedPiece:
    """Return a matched piece: the new drawings under all that was known of the old piece."""
    dx, dy = match.shift_mm
    there = old[match.piece].moved(dx, dy)
    outline = new[match.new_name]
    edges = carry_edges(before.edges, there, outline, match.max_move_mm, style.rules.corner_deg)
    if edges.asked:
        told = said("edge kinds to check, not carried over with certainty: {0}", len(edges.asked))
        asked.append(RevisionQuestion("EDGES_TO_CONFIRM", match.piece, told, edges.asked))
    if match.by == "shape":
        told = said("matched by its shape with {0} of the drawing", match.new_name)
        asked.append(RevisionQuestion("MATCHED_BY_SHAPE", match.piece, told))
    hold = before.hold_line
    if hold is not None:
        hold = HoldLine(
            from_mm=_moved(hold.from_mm, dx, dy), to_mm=_moved(hold.to_mm, dx, dy), limit_mm=hold.limit_mm
        )
        inside = outline.polygon.buffer(0.5)
        outside = [p for p in (hold.from_mm, hold.to_mm) if not inside.covers(shapely.Point(p))]
        if outside:
            told = said("the hold line leaves the new outline: draw it again")
            asked.append(RevisionQuestion("HOLD_LINE_OUTSIDE", match.piece, told, tuple(outside)))
    drawn = partial(_moved_place, dx=dx, dy=dy, old=there, new=outline)
    some = before.details or any(layer.cuts or layer.changes or layer.splits for layer in before.layers)
    if some and match.max_move_mm > UNCHANGED_MM:
        told = said(
            "things drawn on the piece were carried to the nearest points of the new outline: check them"
        )
        asked.append(RevisionQuestion("DRAWN_CARRIED", match.piece, told))
    layers = tuple(
        layer if layer.keep is None else layer.model_copy(update={"keep": _moved_keep(layer.keep, dx, dy)})
        for layer in before.layers
    )
    axis = before.pull_axis
    after = before.model_copy(
        update={
            "drawings": fresh.drawings,
            "edges": edges.edges or fresh.edges,
            "pull_axis": axis,
            "layers": with_places(layers, drawn),
            "details": with_places(before.details, drawn),
            "hold_line": hold,
        }
    )
    return MatchedPiece(match, before, after, edges)


def _in_place(
    style: Style, matched: Sequence[MatchedPiece], added: Sequence[PieceData], removed: Sequence[PieceData]
) -> tuple[PieceData, ...]:
    after = {each.before.name: each.after for each in matched}
    gone = {piece.name for piece in removed}
    kept = [after.get(piece.name, piece) for piece in style.pieces if piece.name not in gone]
    names = {piece.name for piece in kept}
    for piece in added:
        name, number = piece.name, 1
        while name in names:
            number += 1
            name = f"{piece.name} {number}"
        names.add(name)
        kept.append(piece.model_copy(update={"name": name}))
    return tuple(kept)


def _sizes(style: Style, matched: Sequence[MatchedPiece]) -> list[RevisionQuestion]:
    """Sizes that were drawn and are not drawn any more: they are graded now, or missing."""
    found = []
    for each in matched:
        gone = [size for size in each.before.drawings if size not in each.after.drawings]
        if gone:
            words = "size {0} is not in the revised drawing: graded from the base size now"
            if not style.size_run.graded:
                words = "size {0} is not in the revised drawing: missing now"
            told = said(words, ", ".join(gone))
            found.append(RevisionQuestion("SIZES_GONE", each.before.name, told))
    return found


def _changed(each: MatchedPiece) -> bool:
    return each.match.max_move_mm > UNCHANGED_MM or each.before.edges != each.after.edges


def _stale(lay: LayData, source: str) -> LayData:
    return lay.model_copy(
        update={"stale": f"laid with the outlines before {source or 'the revised drawing'}"}
    )


def _outline(piece: PieceData, base: str) -> Outline:
    drawing = piece.drawings[base]
    return Outline.make(drawing.outline_mm, drawing.holes_mm)


def _moved(point: tuple[float, float], dx: float, dy: float) -> tuple[float, float]:
    return point[0] + dx, point[1] + dy


def _moved_place(place: PlaceData, dx: float, dy: float, old: Outline, new: Outline) -> PlaceData:
    """Return a place on the revised piece: moved with it, or at the vertices nearest to its old ones."""
    if isinstance(place, InFrameData):
        return place.model_copy(update={"x_mm": place.x_mm + dx, "y_mm": place.y_mm + dy})
    ring = min(place.ring, len(new.rings_mm) - 1)
    here, there = old.rings_mm[place.ring], new.rings_mm[ring]
    ends = [int(np.hypot(*(there - here[v]).T).argmin()) for v in (place.start, place.stop)]
    return place.model_copy(update={"ring": ring, "start": ends[0], "stop": ends[1]})


def _moved_keep(keep: KeepData, dx: float, dy: float) -> KeepData:
    return keep.model_copy(
        update={
            "points_mm": tuple(_moved(point, dx, dy) for point in keep.points_mm),
            "side_mm": None if keep.side_mm is None else _moved(keep.side_mm, dx, dy),
        }
    )


__all__ = ["MatchedPiece", "Matching", "Revision", "RevisionQuestion", "revise", "revision_json"]
