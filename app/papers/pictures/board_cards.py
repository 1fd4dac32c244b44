"""The cards of the boards: an upper, its backing, and both overlaid, each at full size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.papers.formats.drawing import Drawing
from app.papers.formats.lettering import extent_mm
from app.papers.layout import pens
from app.papers.pictures.overlay import draw_overlay, letter
from app.papers.pictures.pieces import NameLine, draw_details, draw_outline
from app.style.model import Style
from app.words import say
from geometry.drawn.details import cut_apart
from geometry.edge_kinds import EdgeKind
from geometry.piece import BackingPiece, UpperPiece

_MARGIN_MM = 2.0


@dataclass(frozen=True, eq=False)
class BoardCard:
    """A drawing with its lower left corner at (0, 0), and its size."""

    name: str
    size: str
    hand: str
    drawing: Drawing
    width_mm: float
    height_mm: float
    kinds: frozenset[EdgeKind] = frozenset()  # drawn in their own dashes on this card


def cards_of(style: Style, upper: UpperPiece, backings: Sequence[BackingPiece]) -> list[BoardCard]:
    """Return the cards of one piece, size and hand: the upper, then each layer apart and overlaid.

    A backing without an upper has the cards of its layers only.
    """
    if any(piece.name == upper.name and piece.backing_only for piece in style.pieces):
        return [card for backing in backings for card in _backing_cards(style, backing, len(backings))]
    out = [_upper_card(style, upper)]
    for backing in backings:
        out += _backing_cards(style, backing, len(backings))
        out.append(_overlay_card(backing, len(backings)))
    return out


def _upper_card(style: Style, upper: UpperPiece) -> BoardCard:
    drawing = Drawing()
    draw_outline(drawing, upper.outline, pens.CUT, "upper")
    taken = draw_details(drawing, upper.notches, upper.marks, upper.drill_holes, upper.letterings)
    words = [
        *_names(upper),
        NameLine("UPPER, seen from its face", pens.BODY),
        NameLine(_quantity(style, upper), pens.BODY),
    ]
    letter(
        drawing, upper.outline, upper.pull_axis.axis_deg, [*words, NameLine(style.name, pens.SMALL)], taken
    )
    return _card(drawing, upper, "upper")


def _backing_cards(style: Style, backing: BackingPiece, layers: int) -> list[BoardCard]:
    """Return the cards that a backing is cut from: one of each part that butts against another or laps it."""
    if not backing.outlines:
        return []
    parts = cut_apart(backing)
    if len(parts) == 1:
        largest, count = _largest(backing), len(backing.outlines)
        own = _part(_given(backing, largest), largest, count) if backing.part_names else []
        return [_backing_card(style, backing, layers, own)]
    return [
        _backing_card(style, part, layers, _part(_given(part, 0), number, len(parts)))
        for number, part in enumerate(parts)
    ]


def _largest(backing: BackingPiece) -> int:
    return max(range(len(backing.outlines)), key=lambda number: backing.outlines[number].area_mm2)


def _backing_card(style: Style, backing: BackingPiece, layers: int, own: list[NameLine]) -> BoardCard:
    """Return one card of a backing; ``own`` says which part of the piece it is, or its largest part is."""
    upper = backing.upper
    drawing = Drawing()
    cloth = cloth_name(style, backing)
    largest = _largest(backing)
    taken = draw_details(drawing, backing.notches, backing.marks, backing.drill_holes, backing.letterings)
    for number, outline in enumerate(backing.outlines):
        draw_outline(drawing, outline, pens.BACKING, "backing")
        if number != largest:
            part = [*_names(upper), *_part(_given(backing, number), number, len(backing.outlines))]
            letter(drawing, outline, upper.pull_axis.axis_deg, part, taken)
    words = [
        *_names(upper),
        *own,
        NameLine(
            say("{0}, glue side up", _layer("BACKING", backing, layers)),
            pens.BODY,
            bold=True,
            colour=pens.TEAL,
        ),
        NameLine(_quantity(style, upper), pens.BODY),
        NameLine(say("{0} · {1}", cloth, style.name) if cloth else style.name, pens.SMALL),
    ]
    letter(drawing, backing.outlines[largest], upper.pull_axis.axis_deg, words, taken)
    return _card(drawing, upper, _layer("backing", backing, layers))


def _overlay_card(backing: BackingPiece, layers: int) -> BoardCard:
    upper = backing.upper
    drawing = Drawing()
    words = [*_names(upper), NameLine(_layer("backing on upper", backing, layers), pens.BODY)]
    draw_overlay(drawing, upper, backing, words)
    kinds = frozenset(edge.kind for ring in upper.edging.edges for edge in ring)
    gone = "" if backing.outlines else ": NO BACKING IS LEFT"
    return _card(drawing, upper, _layer("backing on upper", backing, layers) + gone, kinds)


def _card(
    drawing: Drawing, upper: UpperPiece, what: str, kinds: frozenset[EdgeKind] = frozenset()
) -> BoardCard:
    """Bring a drawing to the origin and write under it what it is."""
    x0, y0, x1, y1 = extent_mm(drawing)
    at = Drawing()
    foot = pens.TINY * 1.6
    at.place(drawing, _MARGIN_MM - x0, _MARGIN_MM + foot - y0)
    caption = say("{0} · {1} · {2} · {3}", upper.name, upper.size, upper.hand, what)
    at.text(_MARGIN_MM, _MARGIN_MM, caption, pens.TINY, colour=pens.GREY)
    _, _, right, _ = extent_mm(at)
    width = max(x1 - x0 + 2 * _MARGIN_MM, right + _MARGIN_MM)
    return BoardCard(upper.name, upper.size, upper.hand, at, width, y1 - y0 + foot + 2 * _MARGIN_MM, kinds)


def _names(upper: UpperPiece) -> list[NameLine]:
    return [
        NameLine(upper.name, pens.TITLE, bold=True),
        NameLine(say("{0} · {1}", upper.size, upper.hand.upper()), pens.HEADING, bold=True),
    ]


def _part(name: str, number: int, of: int) -> list[NameLine]:
    """Say the name of a part, where it has one, and which of how many it is."""
    count = NameLine(say("part {0} of {1}", number + 1, of), pens.SMALL)
    return [NameLine(name, pens.LABEL, bold=True), count] if name else [count]


def _given(backing: BackingPiece, number: int) -> str:
    return backing.part_names[number] if backing.part_names else ""


def _quantity(style: Style, upper: UpperPiece) -> str:
    try:
        count = style.piece(upper.name).per_shoe
    except KeyError:
        count = 1
    return say("cut {0} per pair in this hand", count)


def cloth_name(style: Style, backing: BackingPiece) -> str:
    """Return the name of the cloth a layer is cut from, '' where the style does not say."""
    try:
        layers = style.piece(backing.upper.name).layers
        return style.cloth(layers[backing.layer].cloth if backing.layer < len(layers) else "").name
    except KeyError:
        return ""


def _layer(word: str, backing: BackingPiece, layers: int) -> str:
    return say("{0}, layer {1}", word, backing.layer + 1) if layers > 1 else word
