"""The shape of a lay.json, validated (format 1), and the problem and lay it stands for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal

import numpy as np
from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, Strict, ValidationError

from geometry.errors import GeometryError
from geometry.outline import Outline, Ring, as_ring
from geometry.said import said
from nesting.errors import LayFileError
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem
from nesting.roll import Flaw, Roll

FORMAT = "stayply-lay"
VERSION = 1  # of the format


FARTHEST_MM = 1e7
"""No roll is 10 km long; beyond that coordinates are damage, and squares of them overflow."""


def _on_earth(points: Any) -> Any:
    for point in points:
        if not (abs(point[0]) <= FARTHEST_MM and abs(point[1]) <= FARTHEST_MM):
            raise ValueError("a coordinate is not a number that a roll has")
    return points


Number = Annotated[float, Strict()]  # a text or a truth value is not a number, whatever it looks like
Count = Annotated[int, Strict(), Field(ge=0)]
Points = Annotated[list[tuple[Number, Number]], Field(min_length=3), AfterValidator(_on_earth)]
Name = Annotated[str, BeforeValidator(lambda v: str(v) if isinstance(v, int) else v)]


class _Model(BaseModel):
    model_config = ConfigDict(frozen=True, extra="allow", allow_inf_nan=False, populate_by_name=True)


class RollData(_Model):
    """The roll as the lay sees it."""

    usable_width_mm: Number = Field(gt=0)
    tight_direction_deg: Number | None = None
    width_mm: Number | None = None
    length_mm: Number | None = None
    flaws_mm: list[Points] = Field(default_factory=list)


class ItemData(_Model):
    """What was asked for."""

    id: Name
    outline_mm: Points
    holes_mm: list[Points] = Field(default_factory=list)
    demand: Count
    turns_deg: list[Number] | None = None
    turn_tolerance_deg: Number = Field(default=0.0, ge=0)
    pull_axis_deg: Number = 0.0
    piece: Name = ""
    size: Name = ""
    hand: str = ""


class PinData(_Model):
    """Where a piece was pinned by hand."""

    item: Name
    rotation_deg: Number
    x_mm: Number
    y_mm: Number


class PlacedPiece(_Model):
    """One piece as it lies."""

    piece: Name
    size: Name = ""
    hand: str = ""
    pull_axis_deg: Number | None = None
    rotation_deg: Number = 0.0
    outline_mm: Points
    holes_mm: list[Points] = Field(default_factory=list)
    item: Name = ""
    x_mm: Number = 0.0
    y_mm: Number = 0.0
    pinned: bool = False

    @property
    def name(self) -> str:
        """Piece, size and hand in words."""
        return " ".join(part for part in (self.piece, self.size, self.hand) if part)

    @property
    def ring(self) -> Ring:
        """The outer ring, counter-clockwise."""
        return as_ring(self.outline_mm, ccw=True)

    @property
    def holes(self) -> tuple[Ring, ...]:
        """The holes, clockwise."""
        return tuple(as_ring(hole, ccw=False) for hole in self.holes_mm)


class ProblemDocument(_Model):
    """What was asked: roll, items, limits."""

    roll: RollData
    gap_mm: Number = Field(ge=0)
    edge_margin_mm: Number = 0.0
    end_margin_mm: Number = 0.0
    use_holes: bool = True
    items: list[ItemData] = Field(default_factory=list)
    pins: list[PinData] = Field(default_factory=list)
    name: str = ""


class LayDocument(ProblemDocument):
    """A whole lay.json."""

    format: str
    version: int
    length_mm: Number = Field(ge=0)
    net_area_mm2: Number | None = None
    stated_yield: Number | None = Field(default=None, alias="yield")
    placements: list[PlacedPiece]
    plies: Annotated[int, Strict(), Field(ge=1)] = 1
    mode: Literal["face-up", "face-to-face"] | None = None
    hands: list[str] | None = None
    pairs: dict[str, Count] | None = None
    pairs_cut: dict[str, Count] | None = None
    turn_tolerance_deg: Number | None = None
    lower_bound_mm: dict[str, Number] = Field(default_factory=dict)
    above_bound: Number | None = None
    engine: str = ""
    seed: int = 0
    budget: str = ""
    stopped: str = ""
    seconds: Number = 0.0


def document_of(doc: Mapping[str, Any], *, file: str = "") -> LayDocument:
    """Return the validated document; raises LayFileError with the place of the first error."""
    if not isinstance(doc, Mapping) or doc.get("format") != FORMAT:
        raise LayFileError("this is not a lay made by this program", remedy="give a lay.json", file=file)
    version = doc.get("version")
    if isinstance(version, int) and version > VERSION:
        raise LayFileError(
            said("the lay has format version {0}, this program reads up to {1}", version, VERSION),
            remedy="update the program",
            file=file,
        )
    try:
        lay = LayDocument.model_validate(dict(doc))
        for at in lay.placements:
            _ = at.ring, at.holes
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(str(part) for part in first["loc"])
        raise LayFileError(
            said("{0}: {1}", place, first["msg"]), remedy="make the lay again", file=file
        ) from None
    except GeometryError as error:
        raise LayFileError(
            said("a placement: {0}", error.message), remedy="make the lay again", file=file
        ) from None
    if lay.items:
        known = {item.id for item in lay.items}
        lay = lay.model_copy(
            update={"placements": [at if at.item else _with_item(at, known) for at in lay.placements]}
        )
    return lay


def _with_item(at: PlacedPiece, known: set[str]) -> PlacedPiece:
    """Name the item of a placement that does not say: by its piece's name."""
    return at.model_copy(update={"item": at.piece}) if at.piece in known else at


def problem_of(lay: ProblemDocument) -> LayProblem:
    """Return the problem that a document's items and limits state; raises LayFileError."""
    try:
        items = tuple(
            Item(
                id=item.id,
                outline=Outline.make(item.outline_mm, item.holes_mm),
                demand=item.demand,
                turns_deg=None if item.turns_deg is None else tuple(item.turns_deg),
                pull_axis_deg=item.pull_axis_deg,
                turn_tolerance_deg=item.turn_tolerance_deg,
                piece=item.piece,
                size=item.size,
                hand=item.hand,
            )
            for item in lay.items
        )
    except GeometryError as error:
        raise LayFileError(said("an item: {0}", error.message), remedy="make the lay again") from None
    return LayProblem(
        roll=Roll(
            usable_width_mm=lay.roll.usable_width_mm,
            tight_direction_deg=lay.roll.tight_direction_deg or 0.0,
            width_mm=lay.roll.width_mm,
            length_mm=lay.roll.length_mm,
            flaws=tuple(Flaw(np.asarray(ring, dtype=np.float64)) for ring in lay.roll.flaws_mm),
        ),
        items=items,
        gap_mm=lay.gap_mm,
        edge_margin_mm=lay.edge_margin_mm,
        end_margin_mm=lay.end_margin_mm,
        pinned=tuple(Placement(p.item, p.rotation_deg, p.x_mm, p.y_mm, pinned=True) for p in lay.pins),
        use_holes=lay.use_holes,
        name=lay.name,
    )


def lay_of(lay: LayDocument) -> Lay:
    """Return the lay that a document holds (its items must be listed)."""
    return Lay(
        placements=tuple(
            Placement(at.item, at.rotation_deg, at.x_mm, at.y_mm, pinned=at.pinned) for at in lay.placements
        ),
        length_mm=lay.length_mm,
        engine=lay.engine,
        seed=lay.seed,
        budget=lay.budget,
        stopped=lay.stopped,
        seconds=lay.seconds,
    )
