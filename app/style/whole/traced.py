"""Card patterns that were traced from a picture, into a style that is there or into a new one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from app.style.model import Style
from app.style.new import new_style
from app.style.rules_store import load_rules
from app.style.whole.adding import add_drawn
from geometry.piece import DrawnPiece
from geometry.sizing.sizes import SizeSystem

if TYPE_CHECKING:  # the reader of drawings is loaded when cards are taken
    from geometry.dxf.read import ReadDrawing


def add_traced(style: Style, cards: Sequence[DrawnPiece]) -> tuple[Style, tuple[str, ...]]:
    """Add cards as pieces of the base size, edges and axes proposed; raises EditError as ``add_drawn``."""
    return add_drawn(style, _drawing(cards))


def traced_style(
    cards: Sequence[DrawnPiece], *, name: str, source: str, base: str, system: SizeSystem = "paris"
) -> Style:
    """Return a style of cards that are patterns of size ``base``; raises as ``new_style``."""
    style, _ = new_style(
        _drawing(cards), name=name, rules=load_rules(), source=source, base=base, system=system
    )
    return style


def _drawing(cards: Sequence[DrawnPiece]) -> ReadDrawing:
    from geometry.dxf.read import ReadDrawing

    return ReadDrawing(tuple(cards), (), (), "mm", "person", ())
