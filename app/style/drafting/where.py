"""From points and edges of the base size to places that grading carries."""

from __future__ import annotations

from typing import TypeVar

import numpy as np
from pydantic import BaseModel, ValidationError

from app.style.edits import EdgeName, EditError
from app.style.model import PieceData, Point, Style
from app.style.pieces import draft_rules, upper_piece
from app.style.saved.drawn import AtEdgeData, BandData, BesideData, CourseData, InFrameData, PlaceData
from app.style.saved.grounds import ground_of_base
from geometry.drawn.ground import Ground
from geometry.drawn.places import AtEdge
from geometry.said import said
from geometry.sizing.grading import edge_allowances_mm

Kept = TypeVar("Kept", bound=BaseModel)


def piece_of(style: Style, piece: str) -> PieceData:
    """Return a piece; raises EditError when there is none of that name."""
    try:
        return style.piece(piece)
    except KeyError:
        names = ", ".join(p.name for p in style.pieces)
        raise EditError(
            said("there is no piece called {0}", piece), remedy=said("its pieces are {0}", names)
        ) from None


def ground_of(style: Style, piece: str) -> Ground:
    """Return the ground of a piece in the base size and the hand drawn."""
    data = piece_of(style, piece)
    return ground_of_base(upper_piece(style, piece, style.size_run.base, data.hand), draft_rules(style))


def stretch_of(style: Style, piece: str, edge: EdgeName) -> tuple[int, int, int]:
    """Return (ring, start, stop) of an edge as marked now; raises EditError when there is no such edge."""
    ring, start = edge
    starts = sorted(e.start for e in piece_of(style, piece).edges if e.ring == ring)
    if start not in starts:
        known = ", ".join(map(str, starts)) or "none"
        raise EditError(
            said("{0}: there is no edge that starts at vertex {1} of ring {2}", piece, start, ring),
            remedy=said("its edges start at {0}", known),
        )
    return ring, start, starts[(starts.index(start) + 1) % len(starts)]


def valid(model: type[Kept], piece: str = "", **fields: object) -> Kept:
    """Return what is drawn as the style keeps it; raises EditError for a figure that cannot be."""
    try:
        return model.model_validate(fields)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        if isinstance(first["input"], int | float):
            told = said("{0} cannot be drawn: no such length fits a piece", f"{first['input']:g}")
        else:
            told = said("{0}: {1}", ".".join(str(step) for step in first["loc"]), first["msg"])
        message = said("{0}: {1}", piece, told) if piece else told
        raise EditError(message, remedy="give another value") from None


def in_frame(xy_mm: Point) -> InFrameData:
    """Return the place of a point in the open piece."""
    return valid(InFrameData, x_mm=round(float(xy_mm[0]), 6), y_mm=round(float(xy_mm[1]), 6))


def at_edge(style: Style, piece: str, edge: EdgeName, share: float, inward_mm: float = 0.0) -> AtEdgeData:
    """Return the place at a share of an edge's net length."""
    ring, start, stop = stretch_of(style, piece, edge)
    return valid(AtEdgeData, piece, ring=ring, start=start, stop=stop, share=share, inward_mm=inward_mm)


def stretch_places(
    style: Style, piece: str, edge: EdgeName, shares: tuple[float, float]
) -> tuple[AtEdgeData, AtEdgeData]:
    """Return the places between which something runs along an edge; raises EditError for no length."""
    first, last = (at_edge(style, piece, edge, share) for share in shares)
    if first.share >= last.share:
        raise EditError(
            said("{0}: the stretch along the edge ends before it begins", piece),
            remedy="give from_share less than to_share",
        )
    return first, last


def share_at(style: Style, piece: str, edge: EdgeName, along_mm: float) -> float:
    """Return the share of an edge's net length that lies before a length along it in the base size."""
    ring, start, stop = stretch_of(style, piece, edge)
    ground = ground_of(style, piece)
    line = ground.stretch(AtEdge(ring, start, stop, 0.0), AtEdge(ring, start, stop, 1.0), net=True)
    length = float(np.hypot(*np.diff(line, axis=0).T).sum())
    if not 0.0 <= along_mm <= length:
        raise EditError(
            said("{0}: the edge is {1} mm long", piece, f"{length:.1f}"),
            remedy=said("give 0 to {0} mm", f"{length:.1f}"),
        )
    return along_mm / length


def beside_outline(style: Style, piece: str, xy_mm: Point, edge: EdgeName | None = None) -> AtEdgeData:
    """Return the place of a point kept by an edge: the one named, else the nearest."""
    in_frame(xy_mm)  # a place that cannot be is refused before it is looked for
    ground = ground_of(style, piece)
    names = [edge] if edge is not None else [(e.ring, e.start) for e in piece_of(style, piece).edges]
    found = [ground.place_at(*stretch_of(style, piece, name), xy_mm) for name in names]
    if not found:
        raise EditError(said("{0} has no edges", piece), remedy="break its outline first")
    best = min(found, key=lambda p: p.inward_mm**2 + p.aside_mm**2)
    return valid(
        AtEdgeData,
        piece,
        ring=best.ring,
        start=best.start,
        stop=best.stop,
        share=best.share,
        inward_mm=best.inward_mm,
        aside_mm=best.aside_mm,
    )


def course(places: list[PlaceData], **how: object) -> CourseData:
    """Return a line through places."""
    if len(places) < 2:
        raise EditError("a line needs two points", remedy="give another")
    return valid(CourseData, "", places=tuple(places), **how)


def beside(
    style: Style,
    piece: str,
    edge: EdgeName,
    inward_mm: float,
    *,
    from_net: bool = False,
    shares: tuple[float, float] = (0.0, 1.0),
) -> BesideData:
    """Return the line beside an edge, from one share of its length to another."""
    first, last = stretch_places(style, piece, edge, shares)
    return valid(
        BesideData, piece, what="beside", start=first, stop=last, inward_mm=inward_mm, from_net=from_net
    )


def band(
    style: Style,
    piece: str,
    edge: EdgeName,
    far_mm: float,
    *,
    near_mm: float = 0.0,
    shares: tuple[float, float] = (0.0, 1.0),
) -> BandData:
    """Return the region along an edge between two distances from it."""
    if far_mm <= near_mm:
        raise EditError(
            said("{0}: a band of no width", piece), remedy="give its far side more than its near side"
        )
    first, last = stretch_places(style, piece, edge, shares)
    return valid(BandData, piece, what="band", start=first, stop=last, far_mm=far_mm, near_mm=near_mm)


def inner_side(
    style: Style, piece: str, edge: EdgeName, line: BesideData, *, inner: bool = True
) -> PlaceData:
    """Return a place on the side of a line beside an edge that lies away from the edge (or towards it)."""
    ring, start, _ = stretch_of(style, piece, edge)
    ground = ground_of(style, piece)
    allowance = 0.0
    if line.from_net:
        edging = ground.upper.edging
        k = edging.breaks[ring].index(start)
        allowance = edge_allowances_mm(edging, draft_rules(style))[ring][k]
    middle = (line.start.share + line.stop.share) / 2.0
    beyond = line.inward_mm + allowance + (SIDE_MM if inner else -SIDE_MM)
    return at_edge(style, piece, edge, middle, beyond)


SIDE_MM = 1.0
"""How far beside a line the point lies that says which side of it stays."""
