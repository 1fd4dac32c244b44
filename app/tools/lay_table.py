"""A lay on the cutting table: what lies where, what is under a point, what comes too close."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.outline import Outline
from geometry.pull import undirected_deg
from nesting.contact.slide import slide
from nesting.lay import Placement
from nesting.problem import LayProblem
from nesting.verify.spacing import beyond_mm, on_regions, too_close

TOLERANCE_MM = 0.01


@dataclass(frozen=True)
class Clash:
    """Two pieces too close (``other`` is -1 for the roll's edge, -2 for a flaw), by how many mm."""

    index: int
    other: int
    amount_mm: float
    overlap: bool


@dataclass(frozen=True, eq=False)
class LayTable:
    """Placements of a problem; geometry is made when first asked for and kept."""

    problem: LayProblem
    placements: tuple[Placement, ...]

    @cached_property
    def polygons(self) -> NDArray[np.object_]:
        """Placed outlines, one per placement."""
        shapes: dict[tuple[str, float], shapely.Polygon] = {}
        made = np.empty(len(self.placements), dtype=object)
        for i, at in enumerate(self.placements):
            made[i] = _placed(self.problem, at, shapes)
        return made

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Index of the polygons."""
        return shapely.STRtree(self.polygons)

    def changed_to(self, placements: tuple[Placement, ...]) -> LayTable:
        """Return the table of other placements; the outlines of those that did not move are shared."""
        table = LayTable(self.problem, placements)
        if len(placements) == len(self.placements) and "polygons" in self.__dict__:
            shapes: dict[tuple[str, float], shapely.Polygon] = {}
            polygons = self.polygons.copy()
            for i, (new, old) in enumerate(zip(placements, self.placements, strict=True)):
                if new != old:
                    polygons[i] = _placed(self.problem, new, shapes)
            table.__dict__["polygons"] = polygons
        return table

    def moved_since(self, before: LayTable) -> list[int]:
        """Return the placements that lie otherwise than in ``before`` (all when their number differs)."""
        if len(before.placements) != len(self.placements):
            return list(range(len(self.placements)))
        pairs = zip(self.placements, before.placements, strict=True)
        return [i for i, (new, old) in enumerate(pairs) if new != old]

    def at(self, xy_mm: tuple[float, float]) -> int:
        """Return the placement under a point, -1 if none."""
        hits = self.tree.query(shapely.Point(xy_mm), predicate="intersects")
        return int(hits[-1]) if len(hits) else -1

    def in_box(self, box_mm: tuple[float, float, float, float]) -> tuple[int, ...]:
        """Return the placements that touch a box."""
        hits = self.tree.query(shapely.box(*box_mm), predicate="intersects")
        return tuple(sorted(int(i) for i in hits))

    def moved(self, indices: Iterable[int], dx_mm: float, dy_mm: float) -> tuple[Placement, ...]:
        """Return the placements with some of them moved."""
        chosen = set(indices)
        return tuple(
            replace(at, x_mm=at.x_mm + dx_mm, y_mm=at.y_mm + dy_mm) if i in chosen else at
            for i, at in enumerate(self.placements)
        )

    def clashes(self, indices: Sequence[int], dx_mm: float = 0.0, dy_mm: float = 0.0) -> list[Clash]:
        """Return what some pieces come too close to when they are moved by (dx, dy).

        Only pieces near the moved ones are looked at; the rules are those of ``nesting.verify``.
        """
        if not len(indices):
            return []
        chosen = set(indices)
        moved = [shapely.transform(self.polygons[i], lambda p: p + (dx_mm, dy_mm)) for i in indices]
        near: set[int] = set()
        gap = max(self.problem.gap_mm, TOLERANCE_MM)
        for polygon in moved:
            near.update(int(k) for k in self.tree.query(polygon, predicate="dwithin", distance=gap))
        others = sorted(near - chosen)
        group = np.empty(len(moved) + len(others), dtype=object)
        group[:] = [*moved, *(self.polygons[k] for k in others)]
        names = [*indices, *others]
        count = len(moved)
        found = []
        overlaps, shortfalls = too_close(group, self.problem.gap_mm)
        for pairs, overlap in ((overlaps, True), (shortfalls, False)):
            found += [Clash(names[i], names[j], mm, overlap) for i, j, mm in pairs if i < count]
        roll, margin = self.problem.roll, self.problem.edge_margin_mm
        far = np.inf if roll.length_mm is None else roll.length_mm - self.problem.end_margin_mm
        boxes = shapely.bounds(group[:count])
        over = beyond_mm(boxes, self.problem.end_margin_mm, margin, far, roll.usable_width_mm - margin)
        found += [Clash(names[i], -1, float(mm), False) for i, mm in enumerate(over) if mm > TOLERANCE_MM]
        for i, _, mm in on_regions(group[:count], [flaw.ring_mm for flaw in roll.flaws]):
            found.append(Clash(names[i], -2, mm, True))
        return found

    def off_axis_deg(self, index: int) -> float:
        """Return by how many degrees a piece's pull axis is off the tight direction."""
        at = self.placements[index]
        axis = self.problem.by_id[at.item_id].pull_axis_deg + at.turn_deg
        return abs(undirected_deg(axis - self.problem.roll.tight_direction_deg))

    @cached_property
    def missing(self) -> dict[str, int]:
        """Pieces asked for that do not lie on the roll, by item: the side table."""
        laid = Counter(at.item_id for at in self.placements)
        return {
            item.id: item.demand - laid[item.id] for item in self.problem.items if item.demand > laid[item.id]
        }

    @cached_property
    def length_mm(self) -> float:
        """Length of roll that the placements take."""
        return self.problem.length_of_mm(self.placements)

    @cached_property
    def yield_share(self) -> float:
        """Area of the pieces that lie on the roll over usable width times length."""
        counts = Counter(at.item_id for at in self.placements)
        area = sum(self.problem.by_id[item].outline.area_mm2 * count for item, count in counts.items())
        length = self.length_mm
        return area / (length * self.problem.roll.usable_width_mm) if length > 0 else 0.0


def turned(table: LayTable, indices: Iterable[int], by_deg: float) -> tuple[Placement, ...]:
    """Return the placements with some pieces turned counter-clockwise about the middles of their boxes."""
    made = list(table.placements)
    for i in set(indices):
        at = table.placements[i]
        x, y = _middle(table.polygons[i])
        turn = round((at.turn_deg + by_deg) % 360.0, 6)
        bx0, by0, bx1, by1 = table.problem.by_id[at.item_id].outline.turned(turn).bbox_mm
        made[i] = replace(at, turn_deg=turn, x_mm=x - (bx0 + bx1) / 2, y_mm=y - (by0 + by1) / 2)
    return tuple(made)


def slid(
    table: LayTable,
    indices: Iterable[int],
    way: tuple[float, float],
    way_deg: float,
    given_up: Callable[[], bool] = lambda: False,
) -> tuple[Placement, ...]:
    """Return the placements with some slid until they touch, the foremost first.

    ``way`` is the direction as a unit vector, ``way_deg`` as an angle; once ``given_up``, the rest stays.
    """
    dx, dy = way
    placements = list(table.placements)
    for i in sorted(indices, key=lambda i: -(dx * placements[i].x_mm + dy * placements[i].y_mm)):
        if given_up():
            break
        far = slide(table.problem, placements, i, way_deg)
        at = placements[i]
        placements[i] = replace(at, x_mm=at.x_mm + dx * far, y_mm=at.y_mm + dy * far)
    return tuple(placements)


def swapped(table: LayTable, a: int, b: int) -> tuple[Placement, ...]:
    """Return the placements with two pieces in each other's place, middle on middle."""
    made = list(table.placements)
    middles = [_middle(table.polygons[i]) for i in (a, b)]
    for i, here, there in ((a, middles[0], middles[1]), (b, middles[1], middles[0])):
        at = table.placements[i]
        made[i] = replace(at, x_mm=at.x_mm + there[0] - here[0], y_mm=at.y_mm + there[1] - here[1])
    return tuple(made)


def put_back(
    table: LayTable, item_id: str, middle_mm: tuple[float, float] | None = None
) -> tuple[Placement, ...]:
    """Return the placements with one piece of the side table on the roll again.

    It lies with its middle at ``middle_mm``, or after the last piece at the lower margin.
    """
    problem = table.problem
    item = problem.by_id[item_id]
    turn = item.turns_deg[0] if item.turns_deg else 0.0
    x0, y0, x1, y1 = item.outline.turned(turn).bbox_mm
    if middle_mm is not None:
        x, y = middle_mm[0] - (x0 + x1) / 2, middle_mm[1] - (y0 + y1) / 2
    else:
        last = max(
            (float(p.bounds[2]) for p in table.polygons), default=problem.end_margin_mm - problem.gap_mm
        )
        x, y = last + problem.gap_mm - x0, problem.edge_margin_mm - y0
    return (*table.placements, Placement(item_id, turn, x, y))


def outline_key(at: Placement) -> tuple[str, float]:
    """Return what two placements share when they are drawn with the same path."""
    return at.item_id, at.turn_deg


def turned_outline(problem: LayProblem, key: tuple[str, float]) -> Outline:
    """Return the outline of an item at a turn, about its own origin."""
    return problem.by_id[key[0]].outline.turned(key[1])


def _placed(
    problem: LayProblem, at: Placement, shapes: dict[tuple[str, float], shapely.Polygon]
) -> shapely.Polygon:
    key = outline_key(at)
    if key not in shapes:
        shapes[key] = turned_outline(problem, key).polygon
    return shapely.transform(shapes[key], lambda p: p + (at.x_mm, at.y_mm))


def _middle(polygon: shapely.Polygon) -> tuple[float, float]:
    x0, y0, x1, y1 = polygon.bounds
    return (x0 + x1) / 2, (y0 + y1) / 2
