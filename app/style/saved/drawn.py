"""Things drawn on a piece and its backings, as the style file keeps them: relative to the piece.

What a place is relative to, and what grading does with it, is described in ``geometry.drawn.places``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Annotated, Any, Literal, Protocol

from pydantic import Field

from app.style.saved.base import Coordinate, Model
from geometry.defaults import LETTERS_MM, NOTCH_DEPTH_MM, RELIEF_WIDTH_MM
from geometry.drawn import details, shapes
from geometry.drawn.places import AtEdge, Band, Beside, Course, InFrame

Width = Annotated[float, Field(ge=0.0, le=2000.0)]
On = Literal["upper", "backing", "both"]


class InFrameData(Model):
    """A place in the open piece, in the base drawing's frame."""

    x_mm: Coordinate
    y_mm: Coordinate

    def laid(self) -> InFrame:
        """As geometry takes it."""
        return InFrame(self.x_mm, self.y_mm)


class AtEdgeData(Model):
    """A place at the stretch of a ring from vertex ``start`` to vertex ``stop`` of the base drawing."""

    ring: int = Field(default=0, ge=0)
    start: int = Field(ge=0)
    stop: int = Field(ge=0)
    share: float = Field(ge=0.0, le=1.0)
    inward_mm: Coordinate = 0.0
    aside_mm: Coordinate = 0.0

    def laid(self) -> AtEdge:
        """As geometry takes it."""
        return AtEdge(self.ring, self.start, self.stop, self.share, self.inward_mm, self.aside_mm)


PlaceData = AtEdgeData | InFrameData


class CourseData(Model):
    """A line through places."""

    what: Literal["course"] = "course"
    places: tuple[PlaceData, ...] = Field(min_length=2)
    smooth: bool = False
    closed: bool = False
    rounded_mm: Width = 0.0

    def laid(self) -> Course:
        """As geometry takes it."""
        return Course(tuple(place.laid() for place in self.places), self.smooth, self.closed, self.rounded_mm)


class BesideData(Model):
    """A line beside the outline."""

    what: Literal["beside"]
    start: AtEdgeData
    stop: AtEdgeData
    inward_mm: Coordinate
    from_net: bool = False

    def laid(self) -> Beside:
        """As geometry takes it."""
        return Beside(self.start.laid(), self.stop.laid(), self.inward_mm, self.from_net)


class BandData(Model):
    """A region along the outline."""

    what: Literal["band"]
    start: AtEdgeData
    stop: AtEdgeData
    far_mm: Width
    near_mm: Width = 0.0

    def laid(self) -> Band:
        """As geometry takes it."""
        return Band(self.start.laid(), self.stop.laid(), self.far_mm, self.near_mm)


LineData = Annotated[CourseData | BesideData, Field(discriminator="what")]
AreaData = Annotated[CourseData | BandData, Field(discriminator="what")]


class CutData(Model):
    """A line that ends a backing, which stays on the side of ``side``."""

    what: Literal["line"]
    line: LineData
    side: PlaceData

    def laid(self) -> shapes.CutLine:
        """As geometry takes it."""
        return shapes.CutLine(self.line.laid(), self.side.laid())


class RegionData(Model):
    """A closed shape that a backing stays inside, or outside."""

    what: Literal["region"]
    area: AreaData
    inside: bool = True

    def laid(self) -> shapes.Region:
        """As geometry takes it."""
        return shapes.Region(self.area.laid(), self.inside)


class SplitData(Model):
    """A line that divides a backing; ``names`` of the parts to its left and right."""

    line: LineData
    names: tuple[str, str]
    overlap_mm: Width = 0.0
    notches: int = Field(default=2, ge=0, le=50)
    part: str = ""

    def laid(self) -> shapes.Split:
        """As geometry takes it."""
        return shapes.Split(self.line.laid(), self.names, self.overlap_mm, self.notches, self.part)


class NotchDrawn(Model):
    """A notch at a place of the outline."""

    what: Literal["notch"]
    at: AtEdgeData
    kind: Literal["slit", "v", "t", "castle", "check", "u"] = "slit"
    depth_mm: Width = NOTCH_DEPTH_MM.value
    width_mm: Width = 0.0
    on: On = "both"

    def laid(self) -> details.EdgeNotch:
        """As geometry takes it."""
        return details.EdgeNotch(self.at.laid(), self.kind, self.depth_mm, self.width_mm, self.on)


class ReliefDrawn(Model):
    """Relief cuts along a curved folded edge."""

    what: Literal["relief"]
    start: AtEdgeData
    stop: AtEdgeData
    pitch_mm: float = Field(ge=1.0, le=500.0)
    depth_mm: Width
    width_mm: Width = RELIEF_WIDTH_MM.value
    kind: Literal["slit", "v", "t", "castle", "check", "u"] = "v"
    on: On = "upper"

    def laid(self) -> details.ReliefRow:
        """As geometry takes it."""
        return details.ReliefRow(
            self.start.laid(),
            self.stop.laid(),
            self.pitch_mm,
            self.depth_mm,
            self.width_mm,
            self.kind,
            self.on,
        )


class SlitDrawn(Model):
    """A line cut inside the piece."""

    what: Literal["slit"]
    line: CourseData
    on: On = "backing"

    def laid(self) -> details.Slit:
        """As geometry takes it."""
        return details.Slit(self.line.laid(), self.on)


class HoleDrawn(Model):
    """A drill hole."""

    what: Literal["drill"]
    at: PlaceData
    diameter_mm: Width = 0.0
    on: On = "both"

    def laid(self) -> details.Hole:
        """As geometry takes it."""
        return details.Hole(self.at.laid(), self.diameter_mm, self.on)


class MarkDrawn(Model):
    """A line drawn, not cut."""

    what: Literal["mark"]
    line: CourseData
    kind: Literal["line", "sew"] = "line"
    on: On = "upper"

    def laid(self) -> details.DrawnMark:
        """As geometry takes it."""
        return details.DrawnMark(self.line.laid(), self.kind, self.on)


class WordDrawn(Model):
    """A word on the piece."""

    what: Literal["text"]
    at: PlaceData
    text: str = Field(min_length=1, max_length=200)
    height_mm: float = Field(default=LETTERS_MM.value, gt=0.0, le=200.0)
    angle_deg: float = Field(default=0.0, ge=-360.0, le=360.0)
    on: On = "backing"

    def laid(self) -> details.Word:
        """As geometry takes it."""
        return details.Word(self.at.laid(), self.text, self.height_mm, self.angle_deg, self.on)


KeepDrawn = Annotated[CutData | RegionData, Field(discriminator="what")]
DetailData = Annotated[
    NotchDrawn | ReliefDrawn | SlitDrawn | HoleDrawn | MarkDrawn | WordDrawn, Field(discriminator="what")
]


class HasDrawn(Protocol):
    """A piece with things drawn on it."""

    @property
    def details(self) -> tuple[DetailData, ...]: ...

    @property
    def layers(self) -> tuple[Any, ...]: ...


def places_in(value: object) -> Iterator[PlaceData]:
    """Yield every place in a drawn thing, however deep."""
    if isinstance(value, AtEdgeData | InFrameData):
        yield value
    elif isinstance(value, Model):
        for name in type(value).model_fields:
            yield from places_in(getattr(value, name))
    elif isinstance(value, tuple):
        for part in value:
            yield from places_in(part)


def drawn_problems(piece: HasDrawn, vertices: Sequence[int]) -> Iterator[str]:
    """Yield what is wrong with the things drawn on a piece whose rings have this many vertices."""
    for place in places_in((piece.details, piece.layers)):
        if not isinstance(place, AtEdgeData):
            continue
        if place.ring >= len(vertices):
            yield f"something is drawn at ring {place.ring}, there are {len(vertices)}"
        elif max(place.start, place.stop) >= vertices[place.ring]:
            count = vertices[place.ring]
            yield f"something is drawn at vertex {max(place.start, place.stop)}, the ring has {count}"


def with_places(value: Any, change: Callable[[PlaceData], PlaceData]) -> Any:
    """Return a drawn thing, or a tuple of them, with every place in it changed."""
    if isinstance(value, AtEdgeData | InFrameData):
        return change(value)
    if isinstance(value, Model):
        parts = {name: getattr(value, name) for name in type(value).model_fields}
        made = {name: with_places(part, change) for name, part in parts.items()}
        return value.model_copy(update={name: new for name, new in made.items() if new is not parts[name]})
    if isinstance(value, tuple):
        return tuple(with_places(part, change) for part in value)
    return value


def rejoined(style: Any, old: str, new: str | None) -> Any:
    """Return a style whose layers are joined with piece ``new`` instead of ``old`` (None: no more)."""
    if not any(old in layer.joins for piece in style.pieces for layer in piece.layers):
        return style
    pieces = []
    for piece in style.pieces:
        layers = []
        for layer in piece.layers:
            names = tuple(new if name == old else name for name in layer.joins)
            joins = tuple(name for name in names if name is not None)
            layers.append(layer if joins == layer.joins else layer.model_copy(update={"joins": joins}))
        pieces.append(piece.model_copy(update={"layers": tuple(layers)}))
    return style.model_copy(update={"pieces": tuple(pieces)})
