"""Twins: two pieces of a shoe that are mirror images of each other, as outer and inner quarter.

Linked twins (``PieceData.twin``) follow each other: whatever edit changes one of them, ``follow`` makes the
same change on the other. Where the twin is the mirror image itself, vertex for vertex, everything is
mirrored, drawings included; where it is only alike, what was marked is carried by place: break points, kinds,
setbacks, allowances, axis, hold line, partial backings, what is drawn (``drawn_along``).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.style.edits import EditError
from app.style.model import EdgeData, HoldLine, PieceData, Point, PullAxisData, Style
from app.style.new import edge_data, size_drawing
from app.style.pieces import drawn_piece, edging_of
from app.style.revision.carry import carry_edges
from app.style.whole.adding import (
    beside,
    beyond_mirroring,
    moved,
    new_name,
    piece_of,
    put_after,
    refuse_drawn,
    with_piece,
)
from app.style.whole.drawn_along import Mirrored
from app.tolerances import STORED_DECIMALS
from geometry.mirror import mirrored_edging
from geometry.outline import Outline
from geometry.pull import undirected_deg
from geometry.said import said
from geometry.symmetry.reflection import Reflection
from geometry.symmetry.twins import TwinFit, fit_twin

ALIKE_SHARE = 0.12
"""Two pieces are twins when the mirror image of one leaves the other by less than this share of its size (as
for edges that are alike, ``app.tools.likeness``)."""


@dataclass(frozen=True)
class Copied:
    """What came of copying to a twin: how many edges were carried, and the places to look at (mm)."""

    style: Style
    carried: int
    asked: tuple[Point, ...]
    away_mm: float


def mirror_piece(style: Style, piece: str, name: str, *, linked: bool) -> Style:
    """Add the mirror image of a piece as a piece of its own, beside all others; linked to it or not.

    It is another piece of the same shoe: the piece's other hand is made by itself. Raises EditError.
    """
    old = piece_of(style, piece)
    refuse_drawn(old)
    name = new_name(style, name)
    if linked and old.twin:
        raise EditError(said("{0} is linked to {1}", piece, old.twin), remedy="unlink it first")
    base = style.size_run.base
    ring = old.drawings[base].outline_mm
    x = max(px for px, _ in ring)
    mirror = Reflection.across((x, 0.0), (x, 1.0))
    image = _image(style, old, old, mirror).model_copy(update={"name": name, "twin": ""})
    image = moved(image, *beside(style, image.drawings[base].outline_mm))
    style = put_after(style, piece, image)
    return link(style, piece, name) if linked else style


def link(style: Style, piece: str, twin: str) -> Style:
    """Let two pieces follow each other from now on; nothing is changed on either yet.

    Raises EditError when one of them is linked already, or they are not mirror images of each other.
    """
    a, b = piece_of(style, piece), piece_of(style, twin)
    if a is b:
        raise EditError(said("{0} cannot be its own twin", piece), remedy="choose another piece")
    for each in (a, b):
        if each.twin and {each.name, each.twin} != {piece, twin}:
            raise EditError(said("{0} is linked to {1}", each.name, each.twin), remedy="unlink it first")
    _fit(style, a, b)
    style = with_piece(style, piece, a.model_copy(update={"twin": twin}))
    return with_piece(style, twin, b.model_copy(update={"twin": piece}))


def unlink(style: Style, piece: str) -> Style:
    """Let a piece and its twin go their own ways."""
    twin = piece_of(style, piece).twin
    if not twin:
        raise EditError(said("{0} is not linked to a twin", piece), remedy="there is nothing to do")
    for name in (piece, twin):
        style = with_piece(style, name, piece_of(style, name).model_copy(update={"twin": ""}))
    return style


def copy_to_twin(style: Style, piece: str, twin: str) -> Copied:
    """Copy what was marked on a piece to its twin: edges with all they have, axis, hold line, layers.

    An edge that is surely the image of one keeps its confirmation; the others are suggestions. Raises
    EditError when the pieces are not mirror images of each other, nor nearly so.
    """
    a, b = piece_of(style, piece), piece_of(style, twin)
    if a is b:
        raise EditError(said("{0} cannot be its own twin", piece), remedy="choose another piece")
    refuse_drawn(a)
    fit = _fit(style, a, b)
    new, carried, asked = _marked_like(style, a, b, fit)
    return Copied(with_piece(style, twin, new), carried, asked, fit.away_mm)


def likely_twin(style: Style, piece: str) -> str:
    """Return the piece that is most nearly the mirror image of this one, '' when none is."""
    a = piece_of(style, piece)
    if a.twin:
        return a.twin
    here = _outline(style, a)
    found = [(fit_twin(here, _outline(style, b)).away_mm, b.name) for b in style.pieces if b is not a]
    near = [(away, name) for away, name in found if away <= ALIKE_SHARE * here.area_mm2**0.5]
    return min(near, default=(0.0, ""))[1]


def follow(before: Style, after: Style) -> Style:
    """Return ``after`` with every change of a linked piece made on its twin too.

    A pair of which both were changed is taken as it stands; names of pieces that were renamed, and links to
    pieces that are gone, are put right.
    """
    if after.pieces == before.pieces or not any(p.twin for p in after.pieces):
        return after
    after = _links_mended(after)
    old = {piece.name: piece for piece in before.pieces}
    for piece in after.pieces:
        if not piece.twin or beyond_mirroring(piece):
            continue  # a join, or what a newer program drew, stays with its piece
        was, twin = old.get(piece.name), after.piece(piece.twin)
        was_twin = old.get(twin.name)
        changed = was is not None and was.twin == piece.twin and not _alike(was, piece)
        if changed and was is not None and was_twin is not None and _alike(was_twin, twin):
            after = with_piece(after, twin.name, _following(before, after, was, was_twin, piece))
    return after


def _following(before: Style, after: Style, was: PieceData, twin: PieceData, now: PieceData) -> PieceData:
    """Return the twin after its piece went from ``was`` to ``now``."""
    fit = fit_twin(_outline(before, was), _outline(before, twin))
    if fit.exact:
        return _image(after, now, twin, fit.mirror)
    if now.drawings != was.drawings:
        return twin  # of two different outlines each is drawn by itself
    return _marked_like(after, now, twin, fit)[0]


def _image(style: Style, piece: PieceData, twin: PieceData, mirror: Reflection) -> PieceData:
    """Return the mirror image of a piece under the name, note and place in the assembly of its twin."""
    drawings = {size: size_drawing(mirror.drawn(drawn_piece(piece, size))) for size in piece.drawings}
    outline = _outline(style, piece)
    edges: tuple[EdgeData, ...] = ()
    if piece.edges:
        edges = edge_data(mirrored_edging(edging_of(piece, outline), outline))
    kept = {field: getattr(twin, field) for field in ("name", "note", "assembled", "twin")}
    image = piece.model_copy(update={**kept, "drawings": drawings, "edges": edges})
    return image.model_copy(update=_carried_fields(style, piece, image, mirror, exact=True))


def _marked_like(
    style: Style, piece: PieceData, twin: PieceData, fit: TwinFit
) -> tuple[PieceData, int, tuple[Point, ...]]:
    outline, there = _outline(style, piece), _outline(style, twin)
    image = fit.mirror.outline(outline)
    if len(image.rings_mm) != len(there.rings_mm):
        raise EditError(
            said(
                "{0} has {1} holes, {2} {3}",
                piece.name,
                len(outline.holes_mm),
                twin.name,
                len(there.holes_mm),
            ),
            remedy="draw the same holes in both",
        )
    edges = edge_data(mirrored_edging(edging_of(piece, outline), outline))
    carried = carry_edges(edges, image, there, fit.away_mm, style.rules.corner_deg)
    new = twin.model_copy(update={"edges": carried.edges, "per_shoe": piece.per_shoe})
    new = new.model_copy(update=_carried_fields(style, piece, new, fit.mirror, exact=fit.exact))
    return new, carried.carried, carried.asked


def _carried_fields(
    style: Style, piece: PieceData, image: PieceData, mirror: Reflection, *, exact: bool
) -> dict[str, object]:
    """Return axis, hold line, layers and what is drawn on a piece, mirrored onto ``image``."""
    drawn = Mirrored(style, piece, image, mirror, exact=exact)
    axis = piece.pull_axis
    turned = round(undirected_deg(mirror.angle_deg(axis.axis_deg)), STORED_DECIMALS)
    turned = 90.0 if turned <= -90.0 else turned + 0.0
    line = piece.hold_line
    return {
        "pull_axis": PullAxisData.model_validate({**dict(axis), "axis_deg": turned}),
        "hold_line": line and _mirrored_line(line, mirror),
        "layers": tuple(map(drawn.layer, piece.layers)),
        "details": tuple(map(drawn.thing, piece.details)),
    }


def _mirrored_line(line: HoldLine, mirror: Reflection) -> HoldLine:
    ends = {"from_mm": _rounded(mirror.point(line.from_mm)), "to_mm": _rounded(mirror.point(line.to_mm))}
    return line.model_copy(update=ends)


def _fit(style: Style, piece: PieceData, twin: PieceData) -> TwinFit:
    here, there = _outline(style, piece), _outline(style, twin)
    fit = fit_twin(here, there)
    if fit.away_mm > ALIKE_SHARE * np.sqrt(there.area_mm2):
        raise EditError(
            said(
                "{0} is not the mirror image of {1}: they differ by up to {2} mm",
                twin.name,
                piece.name,
                f"{fit.away_mm:.1f}",
            ),
            remedy="choose the piece that is, or mirror this one to a new piece",
        )
    return fit


def _outline(style: Style, piece: PieceData) -> Outline:
    return drawn_piece(piece, style.size_run.base).outline


def _alike(a: PieceData, b: PieceData) -> bool:
    own = {"note": "", "name": "", "assembled": False}
    return a is b or a.model_copy(update=own) == b.model_copy(update=own)


def _links_mended(style: Style) -> Style:
    names = {piece.name for piece in style.pieces}
    pieces = []
    for piece in style.pieces:
        if piece.twin and piece.twin not in names:
            other = next((p.name for p in style.pieces if p.twin == piece.name), "")
            piece = piece.model_copy(update={"twin": other})
        pieces.append(piece)
    both = {piece.name: piece.twin for piece in pieces}
    kept = [
        p if not p.twin or both.get(p.twin) == p.name else p.model_copy(update={"twin": ""}) for p in pieces
    ]
    return style.model_copy(update={"pieces": tuple(kept)})


def _rounded(point: tuple[float, float]) -> Point:
    return round(point[0], STORED_DECIMALS) + 0.0, round(point[1], STORED_DECIMALS) + 0.0
