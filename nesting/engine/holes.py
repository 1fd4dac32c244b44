"""Small pieces laid in the holes of large ones, before anything else is decided.

A large piece and what lies in its hole become one item, so that every engine can lay it, and are
taken apart again in the end. Greedy: the largest piece that still fits, as far down and left in
the hole as it goes (Nofit regions, so every gap is kept).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from geometry.outline import Outline, rotation
from nesting.contact.nofit import nofit
from nesting.items import Item
from nesting.lay import Lay, Placement
from nesting.problem import LayProblem


@dataclass(frozen=True)
class _Filling:
    """What lies in a piece's holes: (item id, turn, x, y) relative to the piece unturned."""

    host: str
    pieces: tuple[tuple[str, float, float, float], ...]


class FilledHoles:
    """A problem with its holes filled, and the way back.

    ``problem`` is what is left to lay: ``Lay``s of it become lays of the original by ``whole``.
    """

    def __init__(self, problem: LayProblem) -> None:
        self.original = problem
        self._fillings: dict[str, _Filling] = {}
        self.problem = problem
        hosts = [item for item in problem.items if item.outline.holes_mm and item.demand]
        if problem.use_holes and hosts:
            self._fill(sorted(hosts, key=lambda item: -item.outline.area_mm2))

    def whole(self, lay: Lay) -> Lay:
        """Return a lay of the filled problem as a lay of the original one."""
        if not self._fillings:
            return lay
        placements: list[Placement] = []
        for at in lay.placements:
            filling = self._fillings.get(at.item_id)
            if filling is None:
                placements.append(at)
                continue
            placements.append(replace(at, item_id=filling.host))
            matrix = rotation(at.turn_deg)
            for item_id, turn, x, y in filling.pieces:
                dx, dy = matrix @ (x, y)
                placements.append(
                    Placement(item_id, (turn + at.turn_deg) % 360.0, at.x_mm + dx, at.y_mm + dy)
                )
        return replace(lay, placements=tuple(placements))

    def _fill(self, hosts: list[Item]) -> None:
        problem = self.original
        left = {item.id: item.demand for item in problem.items}
        for pin in problem.pinned:
            left[pin.item_id] -= 1
        clusters: list[Item] = []
        for host in hosts:
            while left[host.id] > 0:
                filling = self._filling_of(host, left)
                if not filling:
                    break
                used = {item_id: sum(p[0] == item_id for p in filling) for item_id, *_ in filling}
                times = min(left[host.id], *(left[i] // n for i, n in used.items()))
                cluster_id = f"{host.id} filled {len(self._fillings) + 1}"
                while cluster_id in left:
                    cluster_id += "'"
                self._fillings[cluster_id] = _Filling(host.id, tuple(filling))
                clusters.append(replace(host, id=cluster_id, demand=times))
                left[host.id] -= times
                for item_id, n in used.items():
                    left[item_id] -= n * times
        for pin in problem.pinned:
            left[pin.item_id] += 1
        if not clusters:
            return
        items = tuple(replace(item, demand=left[item.id]) for item in problem.items)
        self.problem = replace(problem, items=(*items, *clusters))

    def _filling_of(self, host: Item, left: dict[str, int]) -> list[tuple[str, float, float, float]]:
        """Return a greedy filling of one copy of ``host`` from what is left to lay."""
        room = max(Polygon(hole).area for hole in host.outline.holes_mm)
        small = [
            item
            for item in self.original.items
            if item.id != host.id and left[item.id] > 0 and item.outline.area_mm2 < room
        ]
        filling: list[tuple[str, float, float, float]] = []
        inside: list[Outline] = []
        for item in sorted(small, key=lambda item: -item.outline.area_mm2):
            taken = 0
            while taken < left[item.id]:
                found = self._place_in(host, item, inside)
                if found is None:
                    break
                turn, x, y = found
                filling.append((item.id, turn, x, y))
                inside.append(item.outline.turned(turn).moved(x, y))
                taken += 1
        return filling

    def _place_in(self, host: Item, item: Item, inside: list[Outline]) -> tuple[float, float, float] | None:
        gap = self.original.gap_mm
        for turn in self._turns_within(host, item):
            turned = item.outline.turned(turn)
            free = [
                Polygon(ring)
                for polygon in nofit(host.outline, turned, gap).polygons
                for ring in polygon.interiors
            ]
            if not free:
                continue
            region = shapely.union_all(free)
            for other in inside:
                region = shapely.difference(region, nofit(other, turned, gap).region)
            points = shapely.get_coordinates(region)
            if len(points):
                x, y = points[np.lexsort((points[:, 1], points[:, 0]))[0]]
                return turn, float(x), float(y)
        return None

    def _turns_within(self, host: Item, item: Item) -> tuple[float, ...]:
        """Return the turns of ``item`` inside ``host`` unturned that stay allowed whichever way
        the host is turned."""
        if item.turns_deg is None:
            return (0.0, 90.0, 180.0, 270.0)
        if host.turns_deg is None:
            return ()
        allowed = {round(turn % 360.0, 6) for turn in item.turns_deg}
        return tuple(
            turn
            for turn in item.turns_deg
            if all(round((turn + way) % 360.0, 6) in allowed for way in host.turns_deg)
        )
