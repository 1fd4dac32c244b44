"""What is drawn on a half pattern, on the whole piece: itself and its mirror image.

What runs up to the centre line goes on over it into its own image as one thing; what does not is there twice.
A layer that does not reach the centre line becomes two layers, one on each side. A split beside the
centre line becomes two: the part between them keeps its name, the others are told apart. A word stays
where it is, once.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import count
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon

from app.style.drafting.where import in_frame
from app.style.edits import EditError
from app.style.model import LayerData, PieceData, Style
from app.style.pieces import piece_backings
from app.style.saved.drawn import (
    AtEdgeData,
    BandData,
    BesideData,
    CourseData,
    CutData,
    InFrameData,
    PlaceData,
    RegionData,
    ReliefDrawn,
    SplitData,
    WordDrawn,
    with_places,
)
from app.style.whole.drawn_along import bare_ground
from geometry import tolerances
from geometry.backing.partial import run_on, sides_of
from geometry.drawn.places import AtEdge
from geometry.said import said
from geometry.symmetry.reflection import Reflection

Array = NDArray[np.float64]
REACHES_MM = 0.5
"""A backing that ends this near to the centre line, where its setback is nothing, reaches it."""

Along = BesideData | BandData | ReliefDrawn


class Unfolded:
    """Takes what is drawn on ``half`` to ``whole``, unfolded over ``line`` (its two ends).

    Raises EditError, which names the thing, for what cannot lie on both halves.
    """

    def __init__(self, style: Style, half: PieceData, whole: PieceData, line: Array) -> None:
        self._name, self._whole, self._line = half.name, whole, line
        self._mirror = Reflection.across(*line)
        way = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
        self._inward = np.array([-way[1], way[0]])  # the half lies left of its own centre edge
        self._here, self._there = bare_ground(style, half), bare_ground(style, whole)
        self._backings = lambda: piece_backings(style, half.name, style.size_run.base, half.hand)

    def layers(
        self, number: int, layer: LayerData, keep: Callable[[LayerData], LayerData]
    ) -> list[LayerData]:
        """Return the layers that one becomes; ``keep`` unfolds the partial backing of older files."""
        if not (layer.cuts or layer.changes or layer.splits):
            return [keep(layer)]
        centre = LineString(self._line)
        outlines = self._backings()[number].outlines
        if all(outline.polygon.distance(centre) > REACHES_MM for outline in outlines):
            if layer.keep is not None:
                self._refuse("{0}: a partial backing does not reach the centre line")
            return [
                layer.model_copy(
                    update={
                        name: tuple(self._thing(each, image) for each in getattr(layer, name))
                        for name in ("cuts", "changes", "splits")
                    }
                )
                for image in (False, True)
            ]
        made: dict[str, Any] = {
            name: tuple(part for each in getattr(layer, name) for part in self.over(each))
            for name in ("cuts", "changes")
        }
        made["splits"] = self._splits(layer.splits)
        return [keep(layer).model_copy(update=made)]

    def over(self, drawn: Any) -> list[Any]:
        """Return what one drawn thing becomes on the whole piece."""
        match drawn:
            case CutData(line=line) if (joined := self._joined(self._run_up(line))) is not None:
                return [drawn.model_copy(update={"line": joined, "side": self._place(drawn.side, False)})]
            case RegionData(area=area) if (joined := self._joined(area)) is not None:
                return [drawn.model_copy(update={"area": joined})]
            case CourseData() if (joined := self._joined(drawn)) is not None:
                return [joined]
            case ReliefDrawn() if (joined := self._joined(drawn)) is not None:
                return [joined]
            case WordDrawn():
                return [self._thing(drawn, False)]
            case CutData() | RegionData() | CourseData() | ReliefDrawn():
                return [self._thing(drawn, False), self._thing(drawn, True)]
        if hasattr(drawn, "line"):  # a slit or a mark
            return [drawn.model_copy(update={"line": line}) for line in self.over(drawn.line)]
        own = self._thing(drawn, False)  # a notch or a hole
        return (
            [own] if self._off(self._here.point(drawn.at.laid())) <= 0.0 else [own, self._thing(drawn, True)]
        )

    def _splits(self, splits: Sequence[SplitData]) -> tuple[SplitData, ...]:
        """Return the splits of a layer that lies on both sides of the centre line, in their order.

        ``central`` are the names of parts that touch it, and are one part on the whole piece; a part beside
        it has an image with a name of its own.
        """
        taken = {name for split in splits for name in split.names}
        central, images = {""}, {"": ""}
        made: list[SplitData] = []
        for split in splits:
            divides_middle = split.part in central
            joined = self._joined(self._run_up(split.line)) if divides_middle else None
            if joined is not None:
                made.append(split.model_copy(update={"line": joined}))
                central |= set(split.names)
                images |= {name: name for name in split.names}
                continue
            middle = split.names[self._middle_side(split)] if divides_middle else None
            for name in split.names:
                images[name] = name if name == middle else _another(name, taken)
            if middle is None:
                part = images[split.part]
            else:
                part = middle if split.part else ""
                central.add(middle)
            update = {"names": tuple(images[name] for name in split.names), "part": part}
            made += [self._thing(split, False), self._thing(split, True).model_copy(update=update)]
        return tuple(made)

    def _middle_side(self, split: SplitData) -> int:
        """Return which side of a split's line the centre line lies on: 0 left, 1 right."""
        sides = sides_of(self._here.line(split.line.laid()), self._here.upper.outline.polygon, self._name)
        centre = LineString(self._line)
        return int(np.argmax([side.intersection(centre).length for side in sides]))

    def _run_up(self, line: Any) -> Any:
        """Return the line of a cut or split, drawn on to the centre line where it runs on to it."""
        points = self._here.line(line.laid())
        if min(self._off(point) for point in points) <= 0.0:
            return line
        ran = shapely.get_coordinates(run_on(points, self._here.upper.outline.polygon, self._name))
        centre = LineString(self._line)
        meets = [LineString(part).intersection(centre) for part in (ran[:2], ran[-2:])]
        if all(meet.is_empty for meet in meets):
            return line
        if not isinstance(line, CourseData) or (line.smooth and len(line.places) > 2):
            self._refuse("{0}: a drawn line ends short of the centre line")
        start, end = ([in_frame(meet.coords[0])] if not meet.is_empty else [] for meet in meets)
        return line.model_copy(update={"places": (*start, *line.places, *end)})

    # -- one thing, here or as its image ------------------------------------------------------------
    def _thing(self, drawn: Any, image: bool) -> Any:
        match drawn:
            case CutData() | SplitData():
                update = {"line": self._thing(drawn.line, image)}
                if isinstance(drawn, CutData):
                    update["side"] = self._place(drawn.side, image)
                elif image and isinstance(drawn.line, CourseData):  # left of it stays left of it
                    line = update["line"]
                    update["line"] = line.model_copy(update={"places": line.places[::-1]})
                return drawn.model_copy(update=update)
            case RegionData():
                return drawn.model_copy(update={"area": self._thing(drawn.area, image)})
            case BesideData() | BandData() | ReliefDrawn():
                start, stop = self._place(drawn.start, image), self._place(drawn.stop, image)
                ends = {"start": stop, "stop": start} if image else {"start": start, "stop": stop}
                return drawn.model_copy(update=ends)
        return with_places(drawn, lambda place: self._place(place, image))

    def _place(self, place: PlaceData, image: bool) -> PlaceData:
        spot = self._here.point(place.laid())
        if image:
            spot = self._mirror.points(spot)[0]
        if isinstance(place, InFrameData):
            return in_frame((float(spot[0]), float(spot[1])))
        foot = self._here.point(place.model_copy(update={"inward_mm": 0.0, "aside_mm": 0.0}).laid())
        return self._at_edge(self._mirror.points(foot)[0] if image else foot, spot, place.inward_mm)

    def _at_edge(self, foot: Array, spot: Array, inward_mm: float) -> AtEdgeData:
        """Return the place of ``spot`` at the edge of the whole piece that ``foot`` lies on."""
        starts: dict[int, list[int]] = {}
        for edge in self._whole.edges:
            starts.setdefault(edge.ring, []).append(edge.start)
        edges = [
            (ring, start, held[(k + 1) % len(held)])
            for ring, held in ((ring, sorted(held)) for ring, held in starts.items())
            for k, start in enumerate(held)
        ]
        at = (float(foot[0]), float(foot[1]))
        found = [self._there.place_at(*edge, at) for edge in edges]
        best = min(found, key=lambda p: p.inward_mm**2 + p.aside_mm**2)
        made = AtEdge(best.ring, best.start, best.stop, best.share, inward_mm)
        here = (float(spot[0]), float(spot[1]))
        if math.dist(self._there.point(made), here) > tolerances.SAME_POINT_MM:
            made = self._there.place_at(best.ring, best.start, best.stop, here)
        return AtEdgeData.model_validate(vars(made))

    # -- over the centre line ---------------------------------------------------------------------
    def _joined(self, line: Any) -> Any:
        """Return a line or area that runs up to the centre line joined with its image, else None."""
        if isinstance(line, Along):
            return self._joined_along(line)
        if line.closed:
            return self._joined_area(line)
        return self._joined_course(line)

    def _joined_along(self, along: Along) -> Along | None:
        on = [
            self._off(self._here.point(end.model_copy(update={"inward_mm": 0.0, "aside_mm": 0.0}).laid()))
            <= 0.0
            for end in (along.start, along.stop)
        ]
        if all(on):
            self._refuse("{0}: something runs along the outline from the centre line back to it")
        if not any(on):
            return None
        kept = along.stop if on[0] else along.start
        own, image = self._place(kept, False), self._place(kept, True)
        ends = {"start": image, "stop": own} if on[0] else {"start": own, "stop": image}
        return along.model_copy(update=ends)

    def _joined_course(self, course: CourseData) -> CourseData | None:
        points = self._here.line(course.laid())
        off = np.array([self._off(point) for point in points])
        if off.min() > 0.0:
            return None
        places = course.places
        if off[0] < off[-1]:
            places = places[::-1]
        free = [place for place in places if self._off(self._here.point(place.laid())) > 0.0]
        if not free or (off[0] <= 0.0 and off[-1] <= 0.0) or len(self._crossing(points)) != 1:
            self._refuse("{0}: a drawn line meets the centre line more than once")
        (meet,) = self._crossing(points)
        own = [self._place(place, False) for place in free]
        image = [self._place(place, True) for place in reversed(free)]
        both = [*own, in_frame((float(meet[0]), float(meet[1]))), *image]
        if off[0] < off[-1]:  # in the direction it was drawn in: left of it stays left
            both = both[::-1]
        return course.model_copy(update={"places": tuple(both)})

    def _crossing(self, points: Array) -> Array:
        """Return where a line meets the centre line: its end where it stops there, else the crossing."""
        way = self._line[1] - self._line[0]
        far = LineString([self._line[0] - 1e3 * way, self._line[1] + 1e3 * way])
        ends = [point for point in (points[0], points[-1]) if abs(self._off(point) + TOUCH_MM) <= TOUCH_MM]
        if ends:
            return np.array([far.interpolate(far.project(shapely.Point(end))).coords[0] for end in ends])
        return shapely.get_coordinates(LineString(points).intersection(far))

    def _joined_area(self, area: CourseData) -> CourseData | None:
        ring = self._here.line(area.laid())
        if min(self._off(point) for point in ring) > 0.0:
            return None
        both = shapely.union(Polygon(ring).buffer(0), Polygon(self._mirror.points(ring)).buffer(0))
        if not isinstance(both, Polygon) or both.interiors:
            self._refuse("{0}: a region meets the centre line more than once")
        corners = shapely.get_coordinates(shapely.orient_polygons(both).exterior)[:-1].tolist()
        places = tuple(in_frame((x, y)) for x, y in corners)
        return CourseData(places=places, closed=True)

    def _off(self, point: Array) -> float:
        """Return how far a point lies inside the half, less what counts as on the centre line (mm)."""
        return float((np.asarray(point) - self._line[0]) @ self._inward) - TOUCH_MM

    def _refuse(self, what: str) -> Any:
        raise EditError(said(what, self._name), remedy="take it away first, and draw it again afterwards")


def _another(name: str, taken: set[str]) -> str:
    """Return a name for the image of a part, and take it."""
    made = next(each for k in count(2) if (each := f"{name} {k}") not in taken)
    taken.add(made)
    return made


TOUCH_MM = 0.05
"""A thing that ends this near to the centre line ends on it: our own choice, no source."""
