"""What is drawn on a piece, taken along: to another place of the drawing, or to the piece's mirror image.

A place in the open moves with the piece's frame. A place at an edge stays at its edge: walked the other way
on the image, so that its stretch, its share and its shift along the edge change ends, its distance stays. A
setback that changes along an edge changes ends with it; a word is turned so that it can be read.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np

from app.style.drafting.where import ground_of, in_frame
from app.style.model import LayerData, PieceData, Points, Style
from app.style.saved.drawn import (
    AtEdgeData,
    BandData,
    BesideData,
    CutData,
    InFrameData,
    PlaceData,
    RegionData,
    ReliefDrawn,
    SplitData,
    WordDrawn,
    places_in,
    with_places,
)
from geometry import tolerances
from geometry.drawn.ground import Ground
from geometry.symmetry.reflection import Reflection

LETTER_SHARE = 0.6
"""About so wide is a letter to its height: only where the mirrored word begins depends on it."""


def shifted(value: Any, change: Callable[[Points], Points]) -> Any:
    """Return a drawn thing, or a tuple of them, with its places in the open moved by ``change``."""

    def place(old: PlaceData) -> PlaceData:
        if isinstance(old, AtEdgeData):
            return old
        return in_frame(change(((old.x_mm, old.y_mm),))[0])

    return with_places(value, place)


def bare_ground(style: Style, piece: PieceData) -> Ground:
    """Return the ground of a piece by its outline and edges alone, nothing drawn on it."""
    bare = piece.model_copy(update={"details": (), "layers": (), "twin": "", "cut_as": {}})
    return ground_of(style.model_copy(update={"pieces": (bare,)}), bare.name)


class Mirrored:
    """Takes what is drawn on ``piece`` to ``image``, the piece it is mirrored to, or one nearly so."""

    def __init__(
        self, style: Style, piece: PieceData, image: PieceData, mirror: Reflection, *, exact: bool
    ) -> None:
        self._mirror, self._exact = mirror, exact
        drawn = (piece.details, [layer.cuts + layer.changes + layer.splits for layer in piece.layers])
        kept = any(isinstance(place, AtEdgeData) for place in places_in((drawn[0], *drawn[1])))
        # only places at edges need to know how the outlines run
        self._grounds = (bare_ground(style, piece), bare_ground(style, image)) if kept else None

    def layer(self, layer: LayerData) -> LayerData:
        """Return a layer with what is drawn on it, the keep of older files too."""
        keep = layer.keep
        if keep is not None:
            points = tuple(self._rounded(x, y) for x, y in self._mirror.points(keep.points_mm).tolist())
            side = None if keep.side_mm is None else self._rounded(*self._mirror.point(keep.side_mm))
            keep = keep.model_copy(update={"points_mm": points, "side_mm": side})
        made = {name: tuple(map(self.thing, getattr(layer, name))) for name in ("cuts", "changes", "splits")}
        return layer.model_copy(update={"keep": keep, **made})

    def thing(self, drawn: Any) -> Any:
        """Return the image of one drawn thing."""
        match drawn:
            case CutData() | SplitData():
                line = self.thing(drawn.line)
                if isinstance(drawn, CutData):
                    return drawn.model_copy(update={"line": line, "side": self.place(drawn.side)})
                if not isinstance(line, BesideData):  # left of it stays left of it
                    line = line.model_copy(update={"places": line.places[::-1]})
                return drawn.model_copy(update={"line": line})
            case RegionData():
                return drawn.model_copy(update={"area": self.thing(drawn.area)})
            case BesideData() | BandData() | ReliefDrawn():
                ends = {"start": self.place(drawn.stop), "stop": self.place(drawn.start)}
                return drawn.model_copy(update=ends)
            case WordDrawn():
                return self._word(drawn)
            case _:
                return with_places(drawn, self.place)

    def place(self, old: PlaceData) -> PlaceData:
        """Return the image of a place."""
        if isinstance(old, InFrameData):
            return in_frame(self._mirror.point((old.x_mm, old.y_mm)))
        assert self._grounds is not None
        here, there = self._grounds
        start, stop = (self._vertex(here, there, old.ring, vertex) for vertex in (old.stop, old.start))
        made = old.model_copy(
            update={"start": start, "stop": stop, "share": 1.0 - old.share, "aside_mm": -old.aside_mm + 0.0}
        )
        if not self._exact:
            return made
        spot = self._mirror.point(tuple(here.point(old.laid()).tolist()))
        if math.dist(spot, there.point(made.laid())) <= tolerances.SAME_POINT_MM:
            return made
        # at a vertex: the segment that it was kept by is another one when walked the other way
        found = there.place_at(old.ring, start, stop, spot)
        return made.model_copy(
            update={"share": found.share, "inward_mm": found.inward_mm, "aside_mm": found.aside_mm}
        )

    def _vertex(self, here: Ground, there: Ground, ring: int, vertex: int) -> int:
        old, new = here.upper.outline.rings_mm[ring], there.upper.outline.rings_mm[ring]
        if self._exact:
            return (len(old) - vertex) % len(old)
        return int(np.hypot(*(new - self._mirror.points(old[vertex])[0]).T).argmin())

    def _word(self, word: WordDrawn) -> WordDrawn:
        """Return a word in the mirror image of its room, read the way that is nearer to the old one."""
        angle, wide = math.radians(word.angle_deg), LETTER_SHARE * word.height_mm * len(word.text)
        turned = self._mirror.angle_deg(word.angle_deg)
        over = word.height_mm * np.array([-math.sin(angle), math.cos(angle)])
        ahead = wide * np.array([math.cos(angle), math.sin(angle)])
        on = abs(_turn_deg(turned, word.angle_deg)) <= 90.0
        shift, new_angle = (over, turned) if on else (ahead, turned + 180.0)
        if isinstance(word.at, InFrameData):
            spot = np.array([word.at.x_mm, word.at.y_mm])
        else:
            assert self._grounds is not None
            spot = self._grounds[0].point(word.at.laid())
        at = in_frame(self._mirror.point(tuple((spot + shift).tolist())))
        return word.model_copy(update={"at": at, "angle_deg": round(_turn_deg(new_angle, 0.0), 6) + 0.0})

    @staticmethod
    def _rounded(x: float, y: float) -> tuple[float, float]:
        place = in_frame((x, y))
        return round(place.x_mm, 4) + 0.0, round(place.y_mm, 4) + 0.0


def _turn_deg(to_deg: float, from_deg: float) -> float:
    """Return the turn from one heading to another, in (-180, 180]."""
    turn = (to_deg - from_deg) % 360.0
    return turn - 360.0 if turn > 180.0 else turn
