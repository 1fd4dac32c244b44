"""Edges that are sewn together: paired, and measured against each other in every size.

What is sewn is the net line: lengths are taken along it, allowances off.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.style.edits import EditError
from app.style.model import SeamData, Style
from app.style.pieces import upper_piece
from app.style.whole.adding import piece_of
from app.style.whole.measures import EdgeMeasure, edge_measures
from geometry.edge_kinds import EdgeKind
from geometry.findings import Finding, Severity
from geometry.said import said

SewnEdge = tuple[str, int, int]
SEAM_MM = 1.0
"""Two sewn edges may differ by this much beside the ease that is meant (common practice, no source)."""

MOST_EASE_MM = 100.0
"""More than this is no ease: the edges are not those that are sewn (common practice, no source)."""

LIKE_SHARE = 0.03
"""Edges whose lengths differ by no more than this share are proposed as a seam: our own choice, no source."""

SEWN = ({EdgeKind.SEAM}, {EdgeKind.UNDERLAY, EdgeKind.OVERLAY})
"""Kinds that are sewn to each other: closed seams, and an underlay to the overlay above it."""


@dataclass(frozen=True)
class SeamMeasure:
    """A seam in a size, by the lengths of both net lines."""

    seam: SeamData
    size: str
    first_mm: float
    second_mm: float

    @property
    def difference_mm(self) -> float:
        """How much longer the first edge is."""
        return self.first_mm - self.second_mm

    @property
    def off_mm(self) -> float:
        """How far the difference is from the ease that is meant."""
        return self.difference_mm - self.seam.ease_mm

    @property
    def fits(self) -> bool:
        """Whether the two can be sewn as they are meant."""
        return abs(self.off_mm) <= SEAM_MM


def sew(style: Style, first: SewnEdge, second: SewnEdge, ease_mm: float = 0.0) -> Style:
    """Say that two edges are sewn together, or set the ease of a seam that is there.

    Raises EditError for an edge that is not there, one sewn to itself, one that is sewn already, and an ease
    out of reason.
    """
    for edge in (first, second):
        _check(style, edge)
    if first == second:
        raise EditError("an edge cannot be sewn to itself", remedy="choose two edges")
    kept = [seam for seam in style.seams if {seam.first, seam.second} != {first, second}]
    for seam in kept:
        for edge in (first, second):
            if edge in (seam.first, seam.second):
                other = seam.second if edge == seam.first else seam.first
                raise EditError(
                    said("the edge of {0} is sewn to {1} already", edge[0], other[0]),
                    remedy="remove that seam first",
                )
    if not abs(ease_mm) <= MOST_EASE_MM:  # no number at all is refused too
        raise EditError(
            said("an ease of {0} mm", f"{ease_mm:g}"), remedy=said("give {0} mm at most", f"{MOST_EASE_MM:g}")
        )
    made = SeamData(first=first, second=second, ease_mm=ease_mm)
    return style.model_copy(update={"seams": (*kept, made)})


def unsew(style: Style, first: SewnEdge, second: SewnEdge) -> Style:
    """Take a seam apart; raises EditError when the two edges are not sewn together."""
    kept = tuple(seam for seam in style.seams if {seam.first, seam.second} != {first, second})
    if len(kept) == len(style.seams):
        raise EditError(
            said("{0} and {1} are not sewn there", first[0], second[0]), remedy="choose a seam of the list"
        )
    return style.model_copy(update={"seams": kept})


def measure_seams(style: Style, size: str) -> tuple[SeamMeasure, ...]:
    """Return every seam in a size; one whose edge is gone is left out (``lost_seams`` names it)."""
    known: dict[str, dict[tuple[int, int], EdgeMeasure]] = {}

    def net_mm(edge: SewnEdge) -> float:
        name = edge[0]
        if name not in known:
            upper = upper_piece(style, name, style.size_run.base, style.piece(name).hand)
            here = upper_piece(style, name, size, style.piece(name).hand)
            # edges keep their order from size to size, not their vertices
            known[name] = {
                (base.ring, base.start): measured
                for base, measured in zip(
                    edge_measures(style, upper), edge_measures(style, here), strict=True
                )
            }
        return known[name][edge[1], edge[2]].net_mm

    lost = lost_seams(style)
    return tuple(
        SeamMeasure(seam, size, net_mm(seam.first), net_mm(seam.second))
        for seam in style.seams
        if seam not in lost
    )


def lost_seams(style: Style) -> tuple[SeamData, ...]:
    """Return the seams of which an edge is no longer there: its break point was moved or removed."""
    return tuple(seam for seam in style.seams if not all(_there(style, e) for e in (seam.first, seam.second)))


def propose_seams(style: Style) -> tuple[SeamMeasure, ...]:
    """Return pairs of edges that look sewn together and are not paired yet, the best match first.

    Of two pieces each, both of a kind that is sewn, of nearly the same net length; each edge once.
    """
    base = style.size_run.base
    taken = {edge for seam in style.seams for edge in (seam.first, seam.second)}
    edges: list[tuple[SewnEdge, EdgeMeasure]] = []
    for piece in style.pieces:
        if not piece.edges or piece.backing_only:
            continue
        for edge in edge_measures(style, upper_piece(style, piece.name, base, piece.hand)):
            name = (piece.name, edge.ring, edge.start)
            if edge.ring == 0 and name not in taken:
                edges.append((name, edge))
    pairs = []
    for i, (first, a) in enumerate(edges):
        for second, b in edges[i + 1 :]:
            if first[0] == second[0] or {a.kind, b.kind} not in SEWN:
                continue
            share = abs(a.net_mm - b.net_mm) / max(a.net_mm, b.net_mm)
            if share <= LIKE_SHARE:
                pairs.append((share, first, second, a.net_mm, b.net_mm))
    found = []
    for _, first, second, a_mm, b_mm in sorted(pairs):
        if first not in taken and second not in taken:
            taken |= {first, second}
            found.append(SeamMeasure(SeamData(first=first, second=second), base, a_mm, b_mm))
    return tuple(found)


def seam_findings(style: Style, size: str) -> tuple[Finding, ...]:
    """Return a warning for every seam that does not fit in a size, and one for every seam that is lost."""
    found = [
        Finding(
            code="SEAM_DIFFERS",
            severity=Severity.WARNING,
            message=said(
                "sewn to {0}: {1} mm against {2} mm, {3} mm off what is intended",
                m.seam.second[0],
                f"{m.first_mm:.1f}",
                f"{m.second_mm:.1f}",
                f"{m.off_mm:+.1f}",
            ),
            advice="correct one of the edges, or enter the ease that is intended",
            piece=m.seam.first[0],
            size=size,
        )
        for m in measure_seams(style, size)
        if not m.fits
    ]
    found += [
        Finding(
            code="SEAM_LOST",
            severity=Severity.QUESTION,
            message=said("an edge of its seam with {0} is no longer there", seam.second[0]),
            advice="pair the edges again",
            piece=seam.first[0],
        )
        for seam in lost_seams(style)
    ]
    return tuple(found)


def _there(style: Style, edge: SewnEdge) -> bool:
    pieces = [piece for piece in style.pieces if piece.name == edge[0]]
    return bool(pieces) and any((e.ring, e.start) == edge[1:] for e in pieces[0].edges)


def _check(style: Style, edge: SewnEdge) -> None:
    piece_of(style, edge[0])
    if not _there(style, edge):
        raise EditError(said("{0}: there is no such edge", edge[0]), remedy="choose an edge on the board")
