"""The pieces as the board takes them; one that did not change is made once, not at every refresh."""

from __future__ import annotations

from app.style.model import HoldLine
from app.tools.board import BoardPiece, board_piece
from geometry.edge_kinds import EdgeKind
from geometry.piece import BackingPiece, UpperPiece

Place = tuple[float, float]


class OnBoard:
    """Remembers the last board piece of each name, and what it was made of."""

    def __init__(self) -> None:
        self._made: dict[str, tuple[tuple[object, ...], tuple[object, ...], BoardPiece]] = {}

    def piece(
        self,
        upper: UpperPiece,
        backings: tuple[BackingPiece, ...],
        setbacks_mm: dict[EdgeKind, float],
        at_mm: Place,
        flipped: bool,
        line: HoldLine | None,
    ) -> BoardPiece:
        """Return an upper piece for the board, with the lines that points snap to."""
        same, alike = (upper, *backings), (setbacks_mm, at_mm, flipped, line)
        held = self._made.get(upper.name)
        if (
            held is not None
            and len(held[0]) == len(same)
            and all(a is b for a, b in zip(held[0], same, strict=True))
            and held[1] == alike
        ):
            return held[2]
        marks = (*upper.marks, *(mark for backing in backings for mark in backing.marks))
        made = board_piece(
            upper,
            setbacks_mm,
            at_mm,
            flipped=flipped,
            hold_line=line,
            rims_mm=tuple(r for b in backings for outline in b.outlines for r in outline.rings_mm),
            lines_mm=tuple(mark.points_mm for mark in marks if not mark.closed),
        )
        self._made[upper.name] = (same, alike, made)
        return made
