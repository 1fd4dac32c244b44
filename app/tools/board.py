"""What lies on the drawing board, and what is near a point of it. Millimetres, y up."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from app.style.model import HoldLine
from geometry.backing.edges import edge_points
from geometry.edge_kinds import EdgeKind
from geometry.outline import Outline
from geometry.piece import Edge, UpperPiece

EdgeName = tuple[int, int]
Points = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class BoardEdge:
    """An edge as drawn: ``name`` is (ring, start vertex); ``setback_mm`` is the one in force."""

    name: EdgeName
    edge: Edge
    setback_mm: float
    points_mm: Points

    @property
    def kind(self) -> EdgeKind:
        """Its kind."""
        return self.edge.kind

    @property
    def middle_setback_mm(self) -> float:
        """The setback in the middle of the edge, halfway between its ends where it changes along it."""
        end = self.edge.setback_end_mm
        return self.setback_mm if end is None else (self.setback_mm + end) / 2.0

    @property
    def length_mm(self) -> float:
        """Length along the edge."""
        return float(np.hypot(*np.diff(self.points_mm, axis=0).T).sum())

    def point_at(self, share: float) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return the point at ``share`` of the length, and the unit normal into the material."""
        steps = np.diff(self.points_mm, axis=0)
        lengths = np.hypot(*steps.T)
        along = np.concatenate([[0.0], np.cumsum(lengths)])
        target = along[-1] * share
        k = int(np.clip(np.searchsorted(along, target, side="right") - 1, 0, len(steps) - 1))
        length = max(float(lengths[k]), 1e-12)
        t = (target - along[k]) / length
        x, y = self.points_mm[k] + t * steps[k]
        dx, dy = steps[k] / length
        return (float(x), float(y)), (-float(dy), float(dx))  # material lies to the left


@dataclass(frozen=True, eq=False)
class BoardPiece:
    """An upper piece in its own frame, and where the board shows it.

    The board point of a piece point is ``(x, y) + offset_mm``; when ``flipped`` (glue side up) the
    piece is first mirrored left-right about the middle of its box. ``hold_line``: its two ends in the
    piece's frame, heel and throat, where it has one and it is shown. ``rims_mm``: the rings of its backings;
    ``lines_mm``: lines drawn on upper and backings.
    """

    upper: UpperPiece
    edges: tuple[BoardEdge, ...]
    offset_mm: tuple[float, float] = (0.0, 0.0)
    flipped: bool = False
    hold_line: tuple[tuple[float, float], tuple[float, float]] | None = None
    rims_mm: tuple[Points, ...] = ()
    lines_mm: tuple[Points, ...] = ()

    @property
    def name(self) -> str:
        """Name of the piece."""
        return self.upper.name

    @property
    def outline(self) -> Outline:
        """Outline in the piece's frame."""
        return self.upper.outline

    @property
    def middle_mm(self) -> tuple[float, float]:
        """Middle of the box, in the piece's frame: where the pull axis turns."""
        x0, y0, x1, y1 = self.outline.bbox_mm
        return (x0 + x1) / 2, (y0 + y1) / 2

    @property
    def axis_half_mm(self) -> float:
        """Half the length at which the pull axis is drawn: it ends inside the piece's box."""
        x0, y0, x1, y1 = self.outline.bbox_mm
        angle = np.radians(self.upper.pull_axis.axis_deg)
        c, s = abs(float(np.cos(angle))), abs(float(np.sin(angle)))
        reach = min((x1 - x0) / 2 / max(c, 1e-9), (y1 - y0) / 2 / max(s, 1e-9))
        return max(0.62 * reach, 6.0)

    def to_board(self, xy_mm: tuple[float, float]) -> tuple[float, float]:
        """Return the board point of a piece point."""
        x, y = xy_mm
        if self.flipped:
            x = 2 * self.middle_mm[0] - x
        return x + self.offset_mm[0], y + self.offset_mm[1]

    def to_piece(self, xy_mm: tuple[float, float]) -> tuple[float, float]:
        """Return the piece point of a board point."""
        x, y = xy_mm[0] - self.offset_mm[0], xy_mm[1] - self.offset_mm[1]
        return (2 * self.middle_mm[0] - x, y) if self.flipped else (x, y)

    def axis_ends_mm(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Return the two ends of the pull axis as drawn, on the board."""
        (cx, cy), half = self.middle_mm, self.axis_half_mm
        angle = np.radians(self.upper.pull_axis.axis_deg)
        dx, dy = half * float(np.cos(angle)), half * float(np.sin(angle))
        return self.to_board((cx - dx, cy - dy)), self.to_board((cx + dx, cy + dy))

    def edge(self, name: EdgeName) -> BoardEdge | None:
        """Return the edge of that name, if there is one."""
        return next((edge for edge in self.edges if edge.name == name), None)

    def contains(self, board_mm: tuple[float, float]) -> bool:
        """Whether a board point lies on the piece (holes are not the piece)."""
        return bool(shapely.contains_xy(self.outline.polygon, *self.to_piece(board_mm)))


def board_piece(
    upper: UpperPiece,
    setbacks_mm: dict[EdgeKind, float],
    offset_mm: tuple[float, float] = (0.0, 0.0),
    *,
    flipped: bool = False,
    hold_line: HoldLine | None = None,
    rims_mm: tuple[Points, ...] = (),
    lines_mm: tuple[Points, ...] = (),
) -> BoardPiece:
    """Return an upper piece for the board; ``setbacks_mm`` are the house rules' by kind."""
    edges = []
    for ring, (breaks, ring_edges) in enumerate(zip(upper.edging.breaks, upper.edging.edges, strict=True)):
        for k, (start, edge) in enumerate(zip(breaks, ring_edges, strict=True)):
            setback = setbacks_mm[edge.kind] if edge.setback_mm is None else edge.setback_mm
            points = edge_points(upper.outline, upper.edging, ring, k)
            edges.append(BoardEdge((ring, start), edge, setback, points))
    ends = None if hold_line is None else (hold_line.from_mm, hold_line.to_mm)
    return BoardPiece(upper, tuple(edges), offset_mm, flipped, ends, rims_mm, lines_mm)


@dataclass(frozen=True, eq=False)
class Board:
    """All pieces shown."""

    pieces: tuple[BoardPiece, ...] = ()

    def piece(self, name: str) -> BoardPiece | None:
        """Return the piece of that name, if it is shown."""
        return next((piece for piece in self.pieces if piece.name == name), None)

    def piece_at(self, xy_mm: tuple[float, float]) -> BoardPiece | None:
        """Return the smallest piece under a point."""
        hits = [piece for piece in self.pieces if piece.contains(xy_mm)]
        return min(hits, key=lambda piece: piece.outline.area_mm2, default=None)

    def edge_near(
        self, xy_mm: tuple[float, float], reach_mm: float, prefer: str = ""
    ) -> tuple[BoardPiece, BoardEdge] | None:
        """Return the edge nearest to a point within reach; among equals one of piece ``prefer``."""
        best: tuple[float, BoardPiece, BoardEdge] | None = None
        for piece in self.pieces:
            here = piece.to_piece(xy_mm)
            for edge in piece.edges:
                away = distance_to_line(edge.points_mm, here) * (1.0 if piece.name != prefer else 0.8)
                if away <= reach_mm and (best is None or away < best[0]):
                    best = away, piece, edge
        return None if best is None else (best[1], best[2])

    def break_near(
        self, xy_mm: tuple[float, float], reach_mm: float, piece: str
    ) -> tuple[BoardPiece, EdgeName] | None:
        """Return the break point of ``piece`` nearest to a point within reach."""
        shown = self.piece(piece)
        if shown is None or not shown.edges:
            return None
        here = shown.to_piece(xy_mm)
        edge = min(shown.edges, key=lambda e: _away(e.points_mm[0], here))
        return (shown, edge.name) if _away(edge.points_mm[0], here) <= reach_mm else None

    def axis_end_near(self, xy_mm: tuple[float, float], reach_mm: float, piece: str) -> BoardPiece | None:
        """Return ``piece`` if one end of its drawn pull axis is within reach."""
        shown = self.piece(piece)
        if shown is None:
            return None
        near = any(_away(np.array(end), xy_mm) <= reach_mm for end in shown.axis_ends_mm())
        return shown if near else None

    def edges_touching(self, box_mm: tuple[float, float, float, float], piece: str) -> tuple[EdgeName, ...]:
        """Return the edges of ``piece`` that touch a box (min x, min y, max x, max y)."""
        shown = self.piece(piece)
        if shown is None:
            return ()
        corners = [shown.to_piece((box_mm[0], box_mm[1])), shown.to_piece((box_mm[2], box_mm[3]))]
        (ax, ay), (bx, by) = corners
        area = shapely.box(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by))
        return tuple(e.name for e in shown.edges if shapely.LineString(e.points_mm).intersects(area))

    def snap_points(self, piece: str = "") -> list[tuple[float, float]]:
        """Return all vertices shown, on the board (of one piece if named): a measure snaps to them."""
        return [
            shown.to_board((float(x), float(y)))
            for shown in self.pieces
            if not piece or shown.name == piece
            for ring in shown.outline.rings_mm
            for x, y in ring
        ]


def spread_offsets(
    boxes_mm: list[tuple[float, float, float, float]], gap_mm: float = 24.0
) -> list[tuple[float, float]]:
    """Return how far to move each piece on the board so that no two boxes overlap.

    Boxes that stand clear of each other stay where the drawing has them; otherwise all are set
    in rows, tallest first.
    """
    if not boxes_mm or not _any_overlap(boxes_mm):
        return [(0.0, 0.0)] * len(boxes_mm)
    area = sum((b[2] - b[0] + gap_mm) * (b[3] - b[1] + gap_mm) for b in boxes_mm)
    row_mm = max(1.5 * area**0.5, *(b[2] - b[0] for b in boxes_mm))
    offsets = [(0.0, 0.0)] * len(boxes_mm)
    x = y = tallest = 0.0
    for index in sorted(range(len(boxes_mm)), key=lambda i: boxes_mm[i][1] - boxes_mm[i][3]):
        x0, y0, x1, y1 = boxes_mm[index]
        if x > 0 and x + (x1 - x0) > row_mm:
            x, y, tallest = 0.0, y - tallest - gap_mm, 0.0
        offsets[index] = (x - x0, y - y1)
        x += x1 - x0 + gap_mm
        tallest = max(tallest, y1 - y0)
    return offsets


def _any_overlap(boxes_mm: list[tuple[float, float, float, float]]) -> bool:
    return any(
        a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
        for i, a in enumerate(boxes_mm)
        for b in boxes_mm[i + 1 :]
    )


def nearest_vertex(piece: BoardPiece, ring: int, board_mm: tuple[float, float]) -> int:
    """Return the vertex of a ring nearest to a board point."""
    here = piece.to_piece(board_mm)
    return int(np.hypot(*(piece.outline.rings_mm[ring] - here).T).argmin())


def distance_to_line(points_mm: Points, xy_mm: tuple[float, float]) -> float:
    """Return the distance of a point from a polyline."""
    a, d = points_mm[:-1], np.diff(points_mm, axis=0)
    length2 = np.maximum(np.einsum("ij,ij->i", d, d), 1e-300)
    t = np.clip(np.einsum("ij,ij->i", np.asarray(xy_mm) - a, d) / length2, 0.0, 1.0)
    return float(np.hypot(*(a + t[:, None] * d - xy_mm).T).min())


def _away(point: Points, xy_mm: tuple[float, float]) -> float:
    return float(np.hypot(point[0] - xy_mm[0], point[1] - xy_mm[1]))
