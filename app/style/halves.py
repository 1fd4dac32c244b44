"""Half patterns: a piece with a centre edge is half of what is cut, until it is unfolded."""

from __future__ import annotations

from app.errors import HalfPatternError
from app.style.model import PieceData, Style
from geometry.edge_kinds import EdgeKind
from geometry.findings import Finding, Severity

ADVICE = (
    "unfold it (Draft desk: Unfold over the centre line; command: stayply piece STYLE unfold), "
    "or give the edge the kind it has if it is cut there"
)


def is_half(piece: PieceData) -> bool:
    """Whether the piece goes on beyond an edge of it: its centre edge is a fold line."""
    return any(edge.kind is EdgeKind.CENTRE for edge in piece.edges)


def half_findings(style: Style) -> tuple[Finding, ...]:
    """Return an error for every half pattern: it cannot be laid or issued as it stands."""
    return tuple(
        Finding(
            code="HALF_PATTERN",
            severity=Severity.ERROR,
            message="has a centre edge: it is half a pattern, and its other half is missing",
            done="lays and boards of the style are refused",
            advice=ADVICE,
            piece=piece.name,
        )
        for piece in style.pieces
        if is_half(piece)
    )


def refuse_halves(style: Style, pieces: tuple[str, ...] | None = None) -> None:
    """Raise HalfPatternError when one of these pieces (None: of all) is half a pattern.

    Two halves laid as a left and a right would be cut apart along the fold.
    """
    for piece in style.pieces:
        if is_half(piece) and (pieces is None or piece.name in pieces):
            raise HalfPatternError(
                "has a centre edge: it is half a pattern, and its other half is missing",
                remedy=ADVICE,
                piece=piece.name,
            )
