"""From the saved style to geometry: upper pieces in any size and hand, and their backings.

A drawn size is used as drawn; another is graded from the base size when the style says so.
Results are remembered for the very same style values, so asking again costs nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from typing import Any

import numpy as np

from app import tolerances
from app.style.halves import half_findings
from app.style.model import (
    EdgeData,
    HouseRules,
    NotchData,
    PieceData,
    PullAxisData,
    SizeRun,
    Style,
)
from app.style.saved import grounds
from geometry.backing.derive import derive_backing
from geometry.backing.edges import carry_edging, find_edging
from geometry.backing.house_rules import DraftRules
from geometry.checks import drafting as drafting_checks
from geometry.checks import sets as set_checks
from geometry.drawn.details import backings_with, upper_with
from geometry.drawn.ground import Ground
from geometry.edge_kinds import EDGE_RULES, EdgeRule
from geometry.errors import EdgeError, SizeError
from geometry.findings import Finding, Severity
from geometry.mirror import mirrored_piece, mirrored_shaping
from geometry.outline import Outline, Ring
from geometry.piece import (
    BackingPiece,
    DrawnPiece,
    DrillHole,
    Edge,
    Edging,
    Hand,
    Mark,
    Notch,
    PullAxis,
    UpperPiece,
)
from geometry.pull import axis_deviations
from geometry.said import said
from geometry.sizing.grading import Ready, grade_piece, ready_to_grade
from geometry.sizing.sizes import grade_factors, in_order

HANDS: tuple[Hand, ...] = ("left", "right")


TOLD_ONCE = (
    "KIND_UNCONFIRMED",
    "AXIS_UNCONFIRMED",
    "EDGES_TO_CONFIRM",
)  # of a style, not of each size and hand


OF_THE_PIECE = ("HARD_EDGE",)
"""Codes of what a person decided once, as a cut line: reported for one size, not for each."""


class _Same:
    """Stands for a value by its identity, so that styles serve as keys of a cache."""

    __slots__ = ("value",)

    def __init__(self, value: Any) -> None:
        self.value = value

    def __hash__(self) -> int:
        return id(self.value)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and self.value is other.value


@dataclass(frozen=True)
class _Sized:
    """A piece in one size in the hand drawn, without (``bare``) and with what is drawn on it."""

    bare: UpperPiece
    upper: UpperPiece
    ground: Callable[[], Ground]
    findings: tuple[Finding, ...] = ()


def draft_rules(style: Style) -> DraftRules:
    """Return the style's drafting rules; an edge kind it says nothing of has the program's."""
    return _rules(_Same(style.rules))


def upper_piece(style: Style, name: str, size: str, hand: Hand) -> UpperPiece:
    """Return a piece in a size and hand.

    Raises KeyError for an unknown piece, SizeError for a size that is neither drawn nor graded.
    """
    piece = style.piece(name)
    return _upper(_Same(piece), _run_for(style.size_run, size, piece), _Same(style.rules), size, hand)


def piece_backings(style: Style, name: str, size: str, hand: Hand) -> tuple[BackingPiece, ...]:
    """Return the backing of a piece, one entry per layer (none when it is not backed)."""
    piece = style.piece(name)
    joined = dict.fromkeys(other for layer in piece.layers for other in layer.joins)
    others = tuple(style.piece(other) for other in joined)
    run = _run_for(style.size_run, size, piece, *others)
    return _backing(_Same(piece), run, _Same(style.rules), size, hand, tuple(map(_Same, others)))


def piece_beside(style: Style, name: str, other: str, size: str) -> UpperPiece:
    """Return piece ``other`` where it lies against piece ``name`` in a size, in that one's frame."""
    pair = _Same(style.piece(name)), _Same(style.piece(other))
    return _beside(*pair, _Same(style.size_run), _Same(style.rules), size)


def backings(style: Style, sizes: Iterable[str], hands: Sequence[Hand] = HANDS) -> tuple[BackingPiece, ...]:
    """Return the backing of every piece, size, hand and layer; raises as ``upper_piece``."""
    return tuple(
        backing
        for piece in style.pieces
        for size in sizes
        for hand in hands
        for backing in piece_backings(style, piece.name, size, hand)
    )


def uppers_and_backings(
    style: Style, sizes: Iterable[str], hands: Sequence[Hand] = HANDS
) -> tuple[tuple[UpperPiece, BackingPiece | None], ...]:
    """Return every upper with its backing, one entry per layer, as the papers take them."""
    pairs: list[tuple[UpperPiece, BackingPiece | None]] = []
    for piece in style.pieces:
        for size in sizes:
            for hand in hands:
                upper = upper_piece(style, piece.name, size, hand)
                layers = piece_backings(style, piece.name, size, hand)
                pairs += [(upper, backing) for backing in layers] or [(upper, None)]
    return tuple(pairs)


def findings(style: Style, sizes: Iterable[str], hands: Sequence[Hand] = HANDS) -> tuple[Finding, ...]:
    """Return everything worth saying about the style in these sizes, each thing once."""
    sizes = tuple(sizes)
    rules = _Same(style.rules)
    found: list[Finding] = []
    for piece in style.pieces:
        for size in sizes:
            found += _sized(_Same(piece), _run_for(style.size_run, size, piece), rules, size).findings
    for backing in backings(style, sizes, hands):
        found += backing.findings
        if style.piece(backing.upper.name).backing_only:
            continue  # cut as it is drawn: there is no upper that it could be wrong for
        found += _draft_checked(_Same(backing), rules)
    assembled = [
        upper_piece(style, piece.name, style.size_run.base, piece.hand)
        for piece in style.pieces
        if piece.assembled
    ]
    found += axis_deviations(assembled, tolerances.AXIS_LIMIT_DEG)
    found += set_checks.check_assembled(
        [b for upper in assembled for b in piece_backings(style, upper.name, upper.size, upper.hand)]
    )
    for piece in style.pieces:
        drawn = (upper_piece(style, piece.name, size, piece.hand) for size in in_order(piece.drawings))
        found += _sizes_checked(tuple(map(_Same, drawn)))
    return (
        half_findings(style)
        + unconfirmed(style)
        + _each_once(finding for finding in found if finding.code not in TOLD_ONCE)
    )


@lru_cache(maxsize=1024)
def _draft_checked(backing: _Same, rules: _Same) -> tuple[Finding, ...]:
    return drafting_checks.check(backing.value.upper, backing.value, _rules(rules))


@lru_cache(maxsize=512)
def _sizes_checked(uppers: tuple[_Same, ...]) -> tuple[Finding, ...]:
    return set_checks.check_sizes([upper.value for upper in uppers])


def unconfirmed(style: Style) -> tuple[Finding, ...]:
    """Return a finding for every edge kind, pull axis and tight direction nobody has confirmed."""
    found = []
    for piece in style.pieces:
        open_edges = sum(not edge.confirmed for edge in piece.edges) if piece.layers else 0
        if open_edges or (piece.layers and not piece.edges):
            told = (
                said("{0} of {1} edge kinds are suggestions", open_edges, len(piece.edges))
                if piece.edges
                else said("the edge kinds are suggestions")
            )
            found.append(_question("EDGES_UNCONFIRMED", piece.name, told, "confirm them"))
        if piece.layers and not piece.pull_axis.confirmed:
            axis = piece.pull_axis
            message = said(
                "the pull axis {0} deg is a proposal (from {1})", f"{axis.axis_deg:.1f}", axis.source
            )
            found.append(_question("AXIS_UNCONFIRMED", piece.name, message, "confirm or turn it"))
    for cloth in style.cloths:
        if cloth.how_known == "assumed" and cloth.id in used_cloths(style):
            angle = f"{cloth.tight_direction_deg:g}"
            message = said("the tight direction {0} deg of {1} is assumed", angle, cloth.name)
            advice = "test a strip each way, or take the supplier's statement, and enter how it is known"
            found.append(_question("TIGHT_DIRECTION_ASSUMED", "", message, advice))
    return tuple(found)


def used_cloths(style: Style) -> tuple[str, ...]:
    """Return the ids of the cloths that some piece is backed with, in the style's order."""
    used = {layer.cloth or style.cloths[0].id for piece in style.pieces for layer in piece.layers}
    return tuple(cloth.id for cloth in style.cloths if cloth.id in used)


def drawn_piece(piece: PieceData, size: str) -> DrawnPiece:
    """Return a drawn size of a piece as the drawing gave it."""
    drawing = piece.drawings[size]
    return DrawnPiece(
        name=piece.name,
        outline=Outline.make(drawing.outline_mm, drawing.holes_mm),
        size=size,
        notches=tuple(_notch(notch) for notch in drawing.notches),
        marks=tuple(Mark(_points(mark.points_mm), mark.kind, mark.closed) for mark in drawing.marks),
        drill_holes=tuple(DrillHole(hole.x_mm, hole.y_mm, hole.diameter_mm) for hole in drawing.drill_holes),
        turn_points_mm=drawing.turn_points_mm,
        pull_axis=_axis(piece.pull_axis),
    )


def edging_of(piece: PieceData, outline: Outline) -> Edging:
    """Return the marked edges as geometry takes them; raises EdgeError when a ring has none."""
    breaks, edges = [], []
    for ring in range(len(outline.rings_mm)):
        here = sorted((edge for edge in piece.edges if edge.ring == ring), key=lambda edge: edge.start)
        if not here:
            raise EdgeError(said("ring {0} has no edge", ring), remedy="mark its edges", piece=piece.name)
        breaks.append(tuple(edge.start for edge in here))
        edges.append(tuple(_edge(edge) for edge in here))
    return Edging(tuple(breaks), tuple(edges))


def _each_once(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Leave out what only the other hand repeats, or another size of what is of the piece."""
    by_place: dict[tuple[str, ...], Finding] = {}
    for finding in found:
        own = () if finding.code in OF_THE_PIECE else (finding.size, finding.message)
        by_place.setdefault((finding.code, finding.piece, *own), finding)
    return tuple(by_place.values())


@lru_cache(maxsize=64)
def _rules(rules: _Same) -> DraftRules:
    own: HouseRules = rules.value
    edge_rules = dict(EDGE_RULES)
    for kind, rule in own.edge_rules.items():
        edge_rules[kind] = EdgeRule(rule.setback_mm, rule.allowance_mm, rule.reason)
    return DraftRules(
        edge_rules=edge_rules,
        corner_deg=own.corner_deg,
        chord_mm=own.chord_mm,
        knife_radius_mm=own.knife_radius_mm,
    )


def _run_for(run: SizeRun, size: str, *pieces: PieceData) -> _Same:
    """The size run as far as these pieces need it: where they are drawn, only the base size's name."""
    drawn = all(size in piece.drawings and size not in piece.cut_as for piece in pieces)
    return _base_alone(run.base) if drawn else _Same(run)


@lru_cache(maxsize=64)
def _base_alone(base: str) -> _Same:
    return _Same(SizeRun(base=base, sizes=(base,)))


@lru_cache(maxsize=4096)
def _upper(piece: _Same, run: _Same, rules: _Same, size: str, hand: Hand) -> UpperPiece:
    upper = _sized(piece, run, rules, size).upper
    return upper if upper.hand == hand else mirrored_piece(upper)


@lru_cache(maxsize=4096)
def _backing(
    piece: _Same, run: _Same, rules: _Same, size: str, hand: Hand, others: tuple[_Same, ...]
) -> tuple[BackingPiece, ...]:
    """The layers of a piece; ``others`` are the pieces that a layer of it is joined with."""
    data: PieceData = piece.value
    sized = _sized(piece, run, rules, size)
    upper = _upper(piece, run, rules, size, hand)
    mirrored = hand != data.hand
    beside = {other.value.name: _beside(piece, other, run, rules, size) for other in others}
    backings = []
    bare = sized.bare if not mirrored else upper if sized.bare is sized.upper else mirrored_piece(sized.bare)
    for number, layer in enumerate(data.layers):
        joined = [beside[name] for name in layer.joins]
        shaping = grounds.layer_shaping(layer, sized.ground, joined)
        if mirrored and not shaping.empty:
            shaping = mirrored_shaping(shaping)
        backings.append(derive_backing(bare, _rules(rules), shaping=shaping, layer=number))
    details = grounds.piece_details(data, sized.ground, "backing")
    return backings_with(backings, upper, details.mirrored() if mirrored else details)


def _beside(piece: _Same, other: _Same, run: _Same, rules: _Same, size: str) -> UpperPiece:
    """A piece of this size where it lies against another one, in the frame of that."""
    base = run.value.base
    at_base = tuple(_sized(each, run, rules, base) for each in (piece, other))
    here = tuple(_sized(each, run, rules, size) for each in (piece, other))
    graded = size not in piece.value.drawings
    return grounds.joined_beside(
        (at_base[0].bare, at_base[1].bare), (here[0].ground(), here[1].ground()), graded=graded
    )


@lru_cache(maxsize=4096)
def _sized(piece: _Same, run: _Same, rules: _Same, size: str) -> _Sized:
    """The piece in one size in the hand drawn."""
    data: PieceData = piece.value
    size_run: SizeRun = run.value
    if size in data.cut_as:
        same = _sized(piece, run, rules, data.cut_as[size])
        return replace(same, bare=replace(same.bare, size=size), upper=replace(same.upper, size=size))
    draft = _rules(rules)
    drawn = drawn_piece(data, size_run.base)
    noticed: tuple[Finding, ...] = ()
    if data.edges:
        edging = edging_of(data, drawn.outline)
    else:
        edging, noticed = find_edging(drawn, draft)
    base = _as_upper(data, drawn, edging, size_run.base)
    if size == size_run.base:
        return _laid(data, base, partial(grounds.ground_of_base, base, draft), noticed)
    if size in data.drawings:
        other = drawn_piece(data, size)
        other_edging, doubts = carry_edging(edging, drawn.outline, other.outline)
        upper = _as_upper(data, other, other_edging, size)
        doubts = tuple(replace(doubt, piece=data.name, size=size) for doubt in doubts)
        if grounds.has_drawn(data):
            doubts = (*doubts, _carried_finding(data.name, size))
        return _laid(data, upper, partial(grounds.ground_of_drawn, base, upper, draft), doubts)
    if not size_run.graded:
        raise SizeError(
            said(
                "size {0} is not drawn ({1} are), and the style is not graded", size, ", ".join(data.drawings)
            ),
            remedy="draw the size, or let the style be graded from its base size",
            piece=data.name,
        )
    if size not in size_run.sizes:
        raise SizeError(
            said("size {0} is not in the style's run", size),
            remedy=said("sizes are {0}", ", ".join(size_run.sizes)),
        )
    along, across = grade_factors(size_run.system, size_run.base, size, size_run.base_girth_mm)
    factors = (
        along if data.grading in ("both", "length") else 1.0,
        across if data.grading in ("both", "width") else 1.0,
    )
    base, ready = _ready(piece, _base_alone(size_run.base), rules)
    graded = grade_piece(base, draft, factors, size=size, ready=ready)
    return _laid(data, graded, partial(grounds.ground_of_graded, base, graded, draft, factors), ())


@lru_cache(maxsize=1024)
def _ready(piece: _Same, base: _Same, rules: _Same) -> tuple[UpperPiece, Ready]:
    """The base size of a piece, and what its grade to every other size needs of it."""
    upper = _sized(piece, base, rules, base.value.base).bare
    return upper, ready_to_grade(upper, _rules(rules))


def _laid(
    data: PieceData, upper: UpperPiece, ground: Callable[[], Ground], found: tuple[Finding, ...]
) -> _Sized:
    """A piece with what is drawn on it."""
    details = grounds.piece_details(data, ground, "upper")
    return _Sized(upper, upper_with(upper, details), ground, found)


def _as_upper(data: PieceData, drawn: DrawnPiece, edging: Edging, size: str) -> UpperPiece:
    return UpperPiece(
        name=data.name,
        size=size,
        hand=data.hand,
        outline=drawn.outline,
        edging=edging,
        pull_axis=_axis(data.pull_axis),
        notches=drawn.notches,
        marks=drawn.marks,
        drill_holes=drawn.drill_holes,
    )


def _edge(edge: EdgeData) -> Edge:
    return Edge(edge.kind, edge.setback_mm, edge.allowance_mm, edge.confirmed, edge.setback_end_mm)


def _axis(axis: PullAxisData) -> PullAxis:
    return PullAxis(axis.axis_deg, axis.source, axis.confirmed)


def _notch(notch: NotchData) -> Notch:
    return Notch(notch.x_mm, notch.y_mm, notch.angle_deg, notch.depth_mm, notch.width_mm, notch.kind)


def _points(points: Any) -> Ring:
    return np.array(points, dtype=np.float64).reshape(-1, 2)


def _carried_finding(piece: str, size: str) -> Finding:
    return Finding(
        code="PARTIAL_BACKING_CARRIED",
        severity=Severity.NOTE,
        message="lines, regions and marks are drawn on the base size only",
        done="carried to this drawn size: those in the open in proportion to the piece's length and width",
        advice="check it on the board",
        piece=piece,
        size=size,
    )


def _question(code: str, piece: str, message: str, advice: str) -> Finding:
    return Finding(code=code, severity=Severity.QUESTION, message=message, advice=advice, piece=piece)
