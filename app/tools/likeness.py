"""Which edges of other pieces, or of the same piece, are the mirror image or the like of given ones.

Pieces are compared in a frame of their own: origin at the centroid, u along the pull axis. The
axis has no direction, so both ways round are tried and the better one counts.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from app.tools.board import BoardEdge, BoardPiece, EdgeName, Points

SAMPLES = 24
ALIKE_SHARE = 0.12
"""Edges are alike when, laid over each other, they lie on average no further apart than this share
of the piece's size (our own choice: outer and inner quarter of one shoe differ by less)."""

SAME_LENGTH_SHARE = 0.2
"""...and their lengths differ by no more than this share."""


def mirrored_edges(
    piece: BoardPiece, names: Iterable[EdgeName], others: Iterable[BoardPiece]
) -> dict[tuple[str, EdgeName], EdgeName]:
    """Return, for edges of ``piece``, their mirror images: {(piece, edge): edge it is like}.

    Looked for on the piece itself, across its pull axis, and on every other piece whose outline
    is like the mirror image of this one. An edge that is its own mirror image is left out.
    """
    return _matches(piece, list(names), [piece, *others], mirrored=True)


def similar_edges(
    piece: BoardPiece, names: Iterable[EdgeName], others: Iterable[BoardPiece]
) -> dict[tuple[str, EdgeName], EdgeName]:
    """Return edges of other pieces that lie like edges of ``piece`` on an outline like its own."""
    return _matches(piece, list(names), list(others), mirrored=False)


def _matches(
    piece: BoardPiece, names: list[EdgeName], others: list[BoardPiece], *, mirrored: bool
) -> dict[tuple[str, EdgeName], EdgeName]:
    found: dict[tuple[str, EdgeName], EdgeName] = {}
    sources = [edge for edge in piece.edges if edge.name in names]
    for other in others:
        best: tuple[float, dict[EdgeName, EdgeName]] | None = None
        for turn in (1.0, -1.0):
            flip = np.array([turn, -turn if mirrored else turn])
            far, matched = _laid_over(piece, sources, other, flip)
            if matched and (best is None or (-len(matched), far) < (-len(best[1]), best[0])):
                best = far, matched
        if best is not None:
            for target, source in best[1].items():
                if other is not piece or target not in names:
                    found[(other.name, target)] = source
    return found


def _laid_over(
    piece: BoardPiece, sources: list[BoardEdge], other: BoardPiece, flip: Points
) -> tuple[float, dict[EdgeName, EdgeName]]:
    """Lay ``piece``, flipped, over ``other``: mean distance of the pairs found, and the pairs."""
    limit = ALIKE_SHARE * other.outline.area_mm2**0.5
    targets = {edge.name: (_sampled(_framed(other, edge.points_mm)), edge.length_mm) for edge in other.edges}
    pairs: dict[EdgeName, tuple[float, EdgeName]] = {}
    for source in sources:
        line = _sampled(_framed(piece, source.points_mm) * flip)
        for name, (points, length) in targets.items():
            if source.name[0] != name[0] and 0 in (source.name[0], name[0]):
                continue  # an outer edge is never like an edge of a hole
            if abs(length - source.length_mm) > SAME_LENGTH_SHARE * max(length, source.length_mm):
                continue
            away = min(
                float(np.hypot(*(line - points).T).mean()), float(np.hypot(*(line[::-1] - points).T).mean())
            )
            if away <= limit and (name not in pairs or away < pairs[name][0]):
                pairs[name] = away, source.name
    mean = float(np.mean([away for away, _ in pairs.values()])) if pairs else 0.0
    return mean, {name: source for name, (_, source) in pairs.items()}


def _framed(piece: BoardPiece, points_mm: Points) -> Points:
    centre = piece.outline.polygon.centroid
    angle = np.radians(piece.upper.pull_axis.axis_deg)
    c, s = np.cos(angle), np.sin(angle)
    return (points_mm - (centre.x, centre.y)) @ np.array([[c, -s], [s, c]])


def _sampled(points: Points) -> Points:
    steps = np.hypot(*np.diff(points, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(steps)])
    at = np.linspace(0.0, along[-1], SAMPLES)
    return np.stack([np.interp(at, along, points[:, axis]) for axis in (0, 1)], axis=1)
