"""The pieces of an upper as drawn, as marked, and the backing derived from them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from geometry.defaults import LETTERS_MM, NOTCH_DEPTH_MM
from geometry.edge_kinds import EdgeKind
from geometry.findings import Finding
from geometry.outline import Outline, Ring

Hand = Literal["left", "right"]


@dataclass(frozen=True)
class Notch:
    """A nick in the boundary; ``angle_deg`` points into the material, counter-clockwise from +x."""

    x_mm: float
    y_mm: float
    angle_deg: float = 0.0
    depth_mm: float = NOTCH_DEPTH_MM.value
    width_mm: float = 0.0
    kind: Literal["slit", "v", "t", "castle", "check", "u"] = "slit"


@dataclass(frozen=True)
class DrillHole:
    """A hole to be marked or punched inside a piece."""

    x_mm: float
    y_mm: float
    diameter_mm: float = 0.0


@dataclass(frozen=True, eq=False)
class Mark:
    """A line drawn inside a piece, not cut but for a ``slit``; a ``lap`` shows how far a neighbour reaches.

    ``points_mm`` is (n, 2).
    """

    points_mm: Ring
    kind: Literal["line", "sew", "grade-reference", "stripe", "plaid", "slit", "lap"] = "line"
    closed: bool = False


@dataclass(frozen=True)
class Lettering:
    """A word on a piece: its foot starts at (x, y), read along ``angle_deg``; ``height_mm`` of a capital."""

    x_mm: float
    y_mm: float
    text: str
    height_mm: float = LETTERS_MM.value
    angle_deg: float = 0.0


@dataclass(frozen=True)
class PullAxis:
    """The heel-to-toe line on a piece, undirected: ``axis_deg`` in (-90, 90], CCW from +x."""

    axis_deg: float
    source: Literal["grain line", "symmetry", "longest direction", "assembly", "person"]
    confirmed: bool = False


@dataclass(frozen=True)
class DrawnPiece:
    """A piece as read from a drawing, in mm, in the drawing's frame.

    ``turn_points_mm`` are points where the drawing says that an edge ends; ``quantity`` is the
    text of the drawing as it stands ("1,1" may mean right,left: the user is asked).
    """

    name: str
    outline: Outline
    size: str = ""
    notches: tuple[Notch, ...] = ()
    marks: tuple[Mark, ...] = ()
    drill_holes: tuple[DrillHole, ...] = ()
    turn_points_mm: tuple[tuple[float, float], ...] = ()
    texts: tuple[str, ...] = ()
    quantity: str = ""
    pull_axis: PullAxis | None = None
    layer: str = ""


@dataclass(frozen=True)
class Edge:
    """A stretch of a ring between two break points.

    ``setback_mm`` / ``allowance_mm``: None takes the house rule of the kind. Positive setback =
    backing shorter. ``allowance_mm`` is the width added outside the net line (lasting margin,
    fold, underlay), which grading keeps constant. ``setback_end_mm``: the setback at the edge's end
    where it changes along the edge, in proportion to the length walked.
    """

    kind: EdgeKind
    setback_mm: float | None = None
    allowance_mm: float | None = None
    confirmed: bool = False
    setback_end_mm: float | None = None


@dataclass(frozen=True)
class Edging:
    """The edges of every ring of an outline (outer ring first, then the holes).

    ``breaks[r]`` are vertex indices of ring r, ascending; edge k of ring r runs from
    ``breaks[r][k]`` to ``breaks[r][k + 1]`` (cyclic) in the ring's own direction. A ring with a
    single break has a single edge that runs all the way round.
    """

    breaks: tuple[tuple[int, ...], ...]
    edges: tuple[tuple[Edge, ...], ...]


@dataclass(frozen=True)
class UpperPiece:
    """A drawn piece with its edges and pull axis: all that a backing is derived from."""

    name: str
    size: str
    hand: Hand
    outline: Outline
    edging: Edging
    pull_axis: PullAxis
    notches: tuple[Notch, ...] = ()
    marks: tuple[Mark, ...] = ()
    drill_holes: tuple[DrillHole, ...] = ()
    letterings: tuple[Lettering, ...] = ()


@dataclass(frozen=True, eq=False)
class Keep:
    """Where a partial backing stays.

    ``points_mm`` (n, 2): with ``closed`` a region that the backing stays inside (outside where
    ``inside`` is False); otherwise a cut line across the piece, and the backing stays on the side of
    ``side_mm``.
    """

    points_mm: Ring
    closed: bool
    side_mm: tuple[float, float] | None = None
    inside: bool = True


@dataclass(frozen=True, eq=False)
class SplitLine:
    """A line that divides a backing. ``names``: the part to its left, the part to its right.

    Each part reaches ``overlap_mm`` / 2 past the line. ``notches`` notches on each part stand one over
    the other when the parts lie assembled. ``part`` names the part of an earlier split that is divided,
    '' every part that the line crosses.
    """

    points_mm: Ring
    names: tuple[str, str]
    overlap_mm: float = 0.0
    notches: int = 2
    part: str = ""


@dataclass(frozen=True, eq=False)
class Shaping:
    """What a person drew on a backing, in the frame, size and hand of its piece.

    ``joined``: pieces that lie against this one, backed with it in one. ``changes``: open lines, each in
    place of the stretch of the derived outline between its ends. In this order: joined, keeps, changes,
    splits.
    """

    keeps: tuple[Keep, ...] = ()
    changes: tuple[Ring, ...] = ()
    splits: tuple[SplitLine, ...] = ()
    joined: tuple[UpperPiece, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing was drawn."""
        return not (self.keeps or self.changes or self.splits or self.joined)


NO_SHAPING = Shaping()


@dataclass(frozen=True)
class BackingPiece:
    """The backing of one upper piece in the same frame; ``outlines`` is empty if it vanished.

    ``setbacks_mm`` are those at the start of each edge, ``end_setbacks_mm`` at its end. ``part_names``
    has a name for each outline, '' where nobody gave one; ``changes`` are the
    stretches changed by hand, ``joined`` the pieces that it backs beside its own.
    """

    upper: UpperPiece
    outlines: tuple[Outline, ...]
    setbacks_mm: tuple[tuple[float, ...], ...]
    layer: int = 0
    notches: tuple[Notch, ...] = ()
    findings: tuple[Finding, ...] = field(default=())
    end_setbacks_mm: tuple[tuple[float, ...], ...] = ()
    part_names: tuple[str, ...] = ()
    marks: tuple[Mark, ...] = ()
    drill_holes: tuple[DrillHole, ...] = ()
    letterings: tuple[Lettering, ...] = ()
    changes: tuple[Mark, ...] = ()
    joined: tuple[str, ...] = ()

    def part_name(self, number: int) -> str:
        """Return the name of a part: the one given, else 'part 2' and so on, '' of the first."""
        given = self.part_names[number] if number < len(self.part_names) else ""
        return given or (f"part {number + 1}" if number else "")

    @property
    def area_mm2(self) -> float:
        """Net area of all parts."""
        return sum(outline.area_mm2 for outline in self.outlines)
