"""What a style file holds. Frozen; unknown fields survive a round trip.

Coordinates are mm, y up, in the drawing's frame; every size of a piece has its own outline in
the same frame, and edges are marked on the base size's outline.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from app.defaults import workshop
from app.style.saved.base import Coordinate, Model, Point, Points
from app.style.saved.constants import SheetConstants
from app.style.saved.drawn import CourseData, DetailData, KeepDrawn, SplitData
from geometry.defaults import KNIFE_RADIUS_MM, NOTCH_DEPTH_MM
from geometry.edge_kinds import EdgeKind
from geometry.piece import Hand
from geometry.tolerances import CHORD_MM, CORNER_DEG
from nesting.defaults import END_LOSS_MM

FORMAT = "stayply-style"
VERSION = 1  # of the format

Money = Annotated[Decimal, BeforeValidator(lambda v: str(v) if isinstance(v, int | float) else v)]

__all__ = [
    "Coordinate",
    "Model",
    "Point",
    "Points",
    "SheetConstants",
]
"""Asked for here by all that works on a style."""


class NotchData(Model):
    """A notch of a piece."""

    x_mm: float
    y_mm: float
    angle_deg: float = 0.0
    depth_mm: float = NOTCH_DEPTH_MM.value
    width_mm: float = 0.0
    kind: Literal["slit", "v", "t", "castle", "check", "u"] = "slit"


class MarkData(Model):
    """A line drawn inside a piece."""

    points_mm: Points
    kind: Literal["line", "sew", "grade-reference", "stripe", "plaid", "slit", "lap"] = "line"
    closed: bool = False


class DrillData(Model):
    """A drill hole inside a piece."""

    x_mm: float
    y_mm: float
    diameter_mm: float = 0.0


class SizeDrawing(Model):
    """A piece in one size, as drawn."""

    outline_mm: Points
    holes_mm: tuple[Points, ...] = ()
    notches: tuple[NotchData, ...] = ()
    marks: tuple[MarkData, ...] = ()
    drill_holes: tuple[DrillData, ...] = ()
    turn_points_mm: Points = ()


class EdgeData(Model):
    """An edge from vertex ``start`` of ring ``ring`` (0 = outer) of the base drawing to the
    next edge's start on the same ring. None takes the house rule of the kind. ``setback_end_mm``: the
    setback at the edge's end where it changes along the edge."""

    ring: int = 0
    start: int
    kind: EdgeKind
    setback_mm: float | None = None
    allowance_mm: float | None = None
    confirmed: bool = False
    setback_end_mm: float | None = None


class KeepData(Model):
    """Where a partial backing stays: inside a closed region, or on one side of a cut line."""

    points_mm: Points
    closed: bool
    side_mm: Point | None = None


class LayerData(Model):
    """One layer of backing on a piece; ``cloth`` is a cloth's id, '' the style's first cloth.

    What is drawn on it: ``cuts`` (lines and regions) that it ends at, beside ``keep``; ``changes``,
    stretches changed by hand; ``splits`` into parts; ``joins``, pieces backed with this one in one.
    """

    cloth: str = ""
    keep: KeepData | None = None
    cuts: tuple[KeepDrawn, ...] = ()
    changes: tuple[CourseData, ...] = ()
    splits: tuple[SplitData, ...] = ()
    joins: tuple[str, ...] = ()


class PullAxisData(Model):
    """The pull axis of a piece."""

    axis_deg: float = Field(gt=-90.0, le=90.0)
    source: Literal["grain line", "symmetry", "longest direction", "assembly", "person"]
    confirmed: bool = False


class HoldLine(Model):
    """The stretch of a piece, heel to throat, over which its give is judged."""

    from_mm: Point
    to_mm: Point
    limit_mm: float | None = None


class HoldChain(Model):
    """Pieces that the pull stretches one after another, heel to throat: what they give adds up.

    Each counts over its own hold line; one without a line leaves the chain unjudged.
    """

    name: str
    pieces: tuple[str, ...]
    limit_mm: float | None = None


Grading = Literal["both", "length", "width", "none"]
"""Restricted grading of a piece: along its pull axis, across it, both, or not at all."""


class PieceData(Model):
    """An upper piece: its drawings by size, its edges, its pull axis, its backing.

    ``hand`` is the hand drawn; ``per_shoe`` how many a shoe needs; the other hand is the mirror
    image. ``layers`` empty = not backed. ``details`` are notches, slits, holes, marks and words drawn on
    it. ``assembled``: drawn where it lies in the upper, so its axis can be compared with its
    neighbours'. ``twin`` names the piece that is the mirror image of this
    one and is kept like it ('' = none). ``backing_only``: no upper is cut, the outline is the backing's own.
    ``grading`` says along what a size without a drawing grows; ``cut_as`` names, for a size, the size whose
    shape is cut for it.
    """

    name: str
    drawings: dict[str, SizeDrawing]
    hand: Hand = "left"
    per_shoe: int = Field(default=1, ge=1)
    edges: tuple[EdgeData, ...] = ()
    pull_axis: PullAxisData
    layers: tuple[LayerData, ...] = (LayerData(),)
    assembled: bool = False
    hold_line: HoldLine | None = None
    note: str = ""
    details: tuple[DetailData, ...] = ()
    twin: str = ""
    backing_only: bool = False
    grading: Grading = "both"
    cut_as: dict[str, str] = Field(default_factory=dict)


class PressSetting(Model):
    """How the backing is fused, as the supplier's sheet says; ``source`` names that sheet."""

    temperature_c: float | None = None
    seconds: float | None = None
    pressure_mpa: float | None = None
    source: str = ""


INVENTED_READING = "invented reading"
"""The note of a reading that nobody took: what rests on it is called an example, never tested."""


class StretchReading(Model):
    """One strip pulled: extension at a load (or several), at an angle from the roll's length
    (an upper material's strip: from the pull axis). ``narrowings_mm``: how much narrower it got."""

    angle_deg: float
    width_mm: float = Field(gt=0)
    gauge_mm: float = Field(gt=0)
    loads_n: tuple[float, ...]
    extensions_mm: tuple[float, ...]
    narrowings_mm: tuple[float, ...] = ()
    note: str = ""


class FlawData(Model):
    """A region of the roll to keep clear of, in roll coordinates (x along, y across)."""

    ring_mm: Points
    note: str = ""


class ClothData(Model):
    """A reinforcement fabric. ``tight_direction_deg``: 0 along the roll, 90 across.

    ``register_revision`` is the revision of the register's card that this is a copy of, 0 where it
    never was: filing it again is refused when the card has changed since.
    """

    id: str
    name: str
    fibre: str = ""
    weave: str = ""
    mass_g_per_m2: float | None = None
    thickness_mm: float | None = None
    glue: str = ""
    coated_side: Literal["face", "back"] = "back"
    width_mm: float = Field(gt=0)
    usable_width_mm: float = Field(gt=0)
    roll_length_m: float | None = None
    tight_direction_deg: float = Field(default=0.0, gt=-90.0, le=90.0)
    how_known: Literal["tested", "supplier", "assumed", "example"] = "assumed"
    one_way: bool = False
    price_per_m: Money | None = None
    currency: str = "EUR"
    press: PressSetting = PressSetting()
    tests: tuple[StretchReading, ...] = ()
    sheet: SheetConstants | None = None
    flaws: tuple[FlawData, ...] = ()
    lot: str = ""
    note: str = ""
    register_revision: int = Field(default=0, ge=0)


class UpperMaterial(Model):
    """The upper material whose give the backing must hold; axis 1 lies along the pull axis."""

    name: str = ""
    thickness_mm: float | None = None
    tests: tuple[StretchReading, ...] = ()
    sheet: SheetConstants | None = None
    register_revision: int = Field(default=0, ge=0)


class EdgeRuleData(Model):
    """A house rule for an edge kind."""

    setback_mm: float
    allowance_mm: float = 0.0
    reason: str = ""


class HouseRules(Model):
    """The workshop's defaults as far as this style departs from the program's."""

    edge_rules: dict[EdgeKind, EdgeRuleData] = Field(default_factory=dict)
    corner_deg: float = CORNER_DEG
    chord_mm: float = CHORD_MM
    knife_radius_mm: float = KNIFE_RADIUS_MM.value
    gap_mm: float = workshop.GAP_MM.value
    edge_margin_mm: float = workshop.EDGE_MARGIN_MM.value
    end_margin_mm: float = workshop.END_MARGIN_MM.value
    end_loss_mm: float = END_LOSS_MM.value
    turn_tolerance_deg: float = workshop.TURN_TOLERANCE_DEG.value
    max_plies: int | None = None
    cutting_height_mm: float | None = None
    roll_end_percent: float = workshop.ROLL_END_PERCENT.value
    splice_percent: float = workshop.SPLICE_PERCENT.value
    reject_percent: float = workshop.REJECT_PERCENT.value


class SizeRun(Model):
    """The sizes of the style and how they follow from the base size.

    ``graded``: sizes without a drawing are graded from the base size; false = only drawn sizes.
    """

    system: Literal["paris", "uk", "us-men", "us-women", "mondopoint"] = "paris"
    base: str
    sizes: tuple[str, ...]
    base_girth_mm: float = workshop.BASE_GIRTH_MM.value
    graded: bool = True


class SeamData(Model):
    """Two edges that are sewn together, each as (piece, ring, start vertex) of the base drawing.

    ``ease_mm`` is how much longer the first is meant to be than the second.
    """

    first: tuple[str, int, int]
    second: tuple[str, int, int]
    ease_mm: float = 0.0


class PlannedLay(Model):
    """What a run plan needs of a lay that was opened out of it: ``pairs`` in a ply, in ``plies``.

    ``name`` is the lay's in the plan; ``room_mm`` how long the table lets it be; ``reason`` why it may break
    a hold limit ('' = it may not).
    """

    name: str
    cloth: str
    pairs: dict[str, int]
    plies: int = Field(ge=1)
    mode: Literal["face-up", "face-to-face"] = "face-up"
    room_mm: float
    reason: str = ""


class LayData(Model):
    """A lay kept with the style: what is laid, on which cloth, and where each piece lies.

    ``placements`` are [item, turn, x, y, pinned], the item named as ``app.lay.job.problem_of``
    names it; pieces asked for but not placed lie on the side table. ``stale`` says why the placements
    no longer belong to the pieces ('' = they do): such a lay is not issued until it is laid again.
    ``engine`` to ``began_from`` tell how it was found, as ``nesting.lay.Lay`` does.
    ``planned`` is set of a lay opened out of a run plan.
    """

    name: str
    cloth: str = ""
    pairs: dict[str, int] = Field(default_factory=dict)
    mode: Literal["face-up", "face-to-face"] = "face-up"
    width_mm: float | None = None
    gap_mm: float | None = None
    max_length_mm: float | None = None
    placements: tuple[tuple[str, float, float, float, bool], ...] = ()
    engine: str = ""
    seed: int = 0
    budget: str = ""
    stopped: str = ""
    seconds: float = 0.0
    searched_s: float = 0.0
    began_from: str = ""
    stale: str = ""
    planned: PlannedLay | None = None


class Style(Model):
    """One shoe model. ``order`` is the pairs ordered by size; empty = no order was given yet.

    ``locked_lays`` were worked on by hand and given back to the run plan, which keeps them as they are.
    """

    format: Literal["stayply-style"] = "stayply-style"
    version: int = VERSION
    name: str
    description: str = ""
    size_run: SizeRun
    pieces: tuple[PieceData, ...]
    cloths: tuple[ClothData, ...]
    upper_material: UpperMaterial = UpperMaterial()
    rules: HouseRules = HouseRules()
    pull_n_per_mm: float = Field(default=workshop.PULL_N_PER_MM.value, gt=0)
    hold_chains: tuple[HoldChain, ...] = ()
    drawing: str = ""
    lays: tuple[LayData, ...] = ()
    locked_lays: tuple[LayData, ...] = ()
    seams: tuple[SeamData, ...] = ()
    order: dict[str, int] = Field(default_factory=dict)
    note: str = ""

    def piece(self, name: str) -> PieceData:
        """Return the piece of that name; raises KeyError."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(name)

    def cloth(self, cloth_id: str = "") -> ClothData:
        """Return the cloth of that id ('' = the first); raises KeyError."""
        for cloth in self.cloths:
            if cloth.id == cloth_id or not cloth_id:
                return cloth
        raise KeyError(cloth_id)
