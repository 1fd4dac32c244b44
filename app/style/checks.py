"""What must hold in a style beyond the types of its fields."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shapely.geometry import Polygon
from shapely.validation import explain_validity

from app.style.model import HouseRules, LayData, PieceData, Points, SizeDrawing, Style
from app.style.saved.drawn import drawn_problems
from app.tolerances import MOST_GAP_MM
from geometry.outline import ring_area_mm2

NOT_BELOW_ZERO = {
    "edge_margin_mm": "margin at the selvedges",
    "end_margin_mm": "margin at the ends",
    "end_loss_mm": "end loss",
    "knife_radius_mm": "minimum knife corner radius",
    "turn_tolerance_deg": "permitted tilt",
    "roll_end_percent": "percentage for ends of rolls",
    "splice_percent": "percentage for splices",
    "reject_percent": "percentage for rejects",
}
"""House rules that make no sense below zero: a margin or gap below it would let pieces overlap."""


def first_problem(style: Style) -> str:
    """Return the first thing wrong with a style in one sentence, '' when all is well."""
    return next(problems(style), "")


def rules_problem(rules: HouseRules) -> str:
    """Return the first thing wrong with house rules in one sentence, '' when all is well."""
    if wrong := _gap_problem(rules.gap_mm):
        return f"house rules: {wrong}"
    for field, name in NOT_BELOW_ZERO.items():
        value = getattr(rules, field)
        if value < 0.0:
            return f"house rules: the {name} of {value:g} is below zero"
    return ""


def lay_problem(lay: LayData) -> str:
    """Return the first thing wrong with what a kept lay asks for in one sentence, '' when all is well."""
    if lay.gap_mm is not None and (wrong := _gap_problem(lay.gap_mm)):
        return f"lay {lay.name}: {wrong}"
    if lay.max_length_mm is not None and lay.max_length_mm <= 0.0:
        return f"lay {lay.name}: a maximum length of {lay.max_length_mm:g} mm leaves no room for a piece"
    short = next((size for size, count in lay.pairs.items() if count < 0), None)
    return "" if short is None else f"lay {lay.name}: size {short} has a negative number of pairs"


def _gap_problem(gap_mm: float) -> str:
    within = 0.0 <= gap_mm <= MOST_GAP_MM
    return "" if within else f"a gap of {gap_mm:g} mm is not valid; 0 to {MOST_GAP_MM:g} mm are"


def problems(style: Style) -> Iterator[str]:
    """Yield everything that makes a style impossible to work with."""
    if not style.pieces:
        yield "the style has no pieces"
    if not style.cloths:
        yield "the style has no cloth"
    yield from _twice("piece", [piece.name for piece in style.pieces])
    yield from _twice("cloth", [cloth.id for cloth in style.cloths])
    yield from _twice("size", list(style.size_run.sizes))
    if style.size_run.base not in style.size_run.sizes:
        yield f"the base size {style.size_run.base} is not among the sizes"
    for cloth in style.cloths:
        if cloth.usable_width_mm > cloth.width_mm:
            yield f"cloth {cloth.id}: the usable width is larger than the width"
        if cloth.price_per_m is not None and cloth.price_per_m < 0:
            yield f"cloth {cloth.id}: the price is negative"
    yield from filter(
        None, [rules_problem(style.rules), *map(lay_problem, (*style.lays, *style.locked_lays))]
    )
    for size, count in style.order.items():
        if size not in style.size_run.sizes:
            yield f"the order names size {size}, which the style does not have"
        if count < 0:
            yield f"the order has a negative number of pairs of size {size}"
    yield from _twice("chain", [chain.name for chain in style.hold_chains])
    names = {piece.name for piece in style.pieces}
    for chain in style.hold_chains:
        if missing := [name for name in chain.pieces if name not in names]:
            yield f"chain {chain.name}: there is no piece called {missing[0]}"
    for piece in style.pieces:
        for problem in _piece_problems(style, piece):
            yield f"piece {piece.name}: {problem}"
        yield from _whole_problems(style, piece, names)


def _piece_problems(style: Style, piece: PieceData) -> Iterator[str]:
    base = piece.drawings.get(style.size_run.base)
    if not piece.name.strip():
        yield "a piece has no name"
    if base is None:
        yield f"there is no drawing in the base size {style.size_run.base}"
        return
    for size, drawing in piece.drawings.items():
        for number, ring in enumerate((drawing.outline_mm, *drawing.holes_mm)):
            problem = _ring_problem(ring, ccw=number == 0)
            if problem:
                where = "outline" if number == 0 else f"hole {number}"
                yield f"size {size}: the {where} {problem}"
                return
        polygon = Polygon(drawing.outline_mm, drawing.holes_mm)
        if not polygon.is_valid:
            yield f"size {size}: the outline is not clean: {explain_validity(polygon)}"
    yield from _edge_problems(piece, base)
    cloths = {cloth.id for cloth in style.cloths}
    for layer in piece.layers:
        if layer.cloth and layer.cloth not in cloths:
            yield f"a backing layer names the cloth {layer.cloth}, which the style does not have"
        if layer.keep and len(layer.keep.points_mm) < (3 if layer.keep.closed else 2):
            yield "a partial backing's line has too few points"
        if layer.keep and not layer.keep.closed and layer.keep.side_mm is None:
            yield "a partial backing's cut line does not say on which side the backing stays (side_mm)"
        yield from _join_problems(style, piece, layer.joins)
    yield from drawn_problems(piece, [len(base.outline_mm), *map(len, base.holes_mm)])


def _join_problems(style: Style, piece: PieceData, joins: Sequence[str]) -> Iterator[str]:
    pieces = {other.name: other for other in style.pieces}
    for name in joins:
        if name == piece.name:
            yield "a backing layer is joined with its own piece"
        elif name not in pieces:
            yield f"a backing layer is joined with {name}, which the style does not have"
        elif pieces[name].hand != piece.hand or pieces[name].per_shoe != piece.per_shoe:
            yield f"a backing layer is joined with {name}, which is of another hand or count a shoe"


def _whole_problems(style: Style, piece: PieceData, names: set[str]) -> Iterator[str]:
    """What is wrong with how a piece stands to others, and to the size run."""
    if piece.twin and (piece.twin not in names or style.piece(piece.twin).twin != piece.name):
        yield f"piece {piece.name}: its twin {piece.twin} is not linked to it"
    for size, other in piece.cut_as.items():
        if size == style.size_run.base or not {size, other} <= set(style.size_run.sizes):
            yield f"piece {piece.name}: size {size} cannot be cut as size {other}"
        elif other in piece.cut_as:
            yield f"piece {piece.name}: size {size} is cut as {other}, which is cut as another size itself"


def _ring_problem(ring: Points, *, ccw: bool) -> str:
    if len(ring) < 3:
        return "has fewer than three points"
    if ring[0] == ring[-1]:
        return "repeats its first point at the end"
    area = ring_area_mm2(ring)
    if area == 0.0:
        return "encloses nothing"
    if (area > 0) != ccw:
        return f"must run {'counter-clockwise' if ccw else 'clockwise'}"
    return ""


def _edge_problems(piece: PieceData, base: SizeDrawing) -> Iterator[str]:
    rings = (base.outline_mm, *base.holes_mm)
    for edge in piece.edges:
        if not 0 <= edge.ring < len(rings):
            yield f"an edge lies on ring {edge.ring}, there are {len(rings)}"
        elif not 0 <= edge.start < len(rings[edge.ring]):
            yield f"an edge starts at vertex {edge.start}, ring {edge.ring} has {len(rings[edge.ring])}"
        if edge.setback_end_mm is not None and edge.setback_mm is None:
            yield "an edge's setback changes along it (setback_end_mm) but has no first value (setback_mm)"
    starts = [(edge.ring, edge.start) for edge in piece.edges]
    if len(set(starts)) != len(starts):
        yield "two edges start at the same vertex"
    for ring in range(len(rings)):
        if piece.edges and not any(edge.ring == ring for edge in piece.edges):
            yield f"ring {ring} has no edge"


def _twice(what: str, names: Sequence[str]) -> Iterator[str]:
    for name in dict.fromkeys(names):
        if names.count(name) > 1:
            yield f"there are {names.count(name)} {what}s called {name}"
