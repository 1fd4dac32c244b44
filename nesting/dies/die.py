"""Dies: shapes that are cut alike, whatever they are called.

A symmetric toe cap is the same die for left and right; two items that differ by a move or a half
turn are one die. Engines place dies; items are dealt out to the places afterwards.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from nesting.contact.touch import without_doubles
from nesting.items import Item
from nesting.lay import Placement
from nesting.problem import LayProblem

Array = NDArray[np.float64]

SAME_MM = 0.06
"""Outlines whose boundaries stay this close are one die, shaped as what they cover together: left
and right of a symmetric piece flatten to different points within the chord error (0.05 mm)."""


@dataclass(frozen=True)
class Member:
    """An item cut with a die: pose k of the die is the item turned by ``turns_deg[k]``, whose box
    centre then lies at ``centres_mm[k]`` from its origin."""

    item_id: str
    demand: int
    turns_deg: tuple[float, ...]
    centres_mm: tuple[tuple[float, float], ...]


@dataclass(frozen=True, eq=False)
class Die:
    """A shape: its poses as rings about their box centres (outer rings only), and who is cut with it."""

    rings_mm: tuple[Array, ...]
    area_mm2: float
    members: tuple[Member, ...]

    @property
    def demand(self) -> int:
        """Pieces asked for with this die."""
        return sum(m.demand for m in self.members)

    @property
    def size_mm(self) -> tuple[float, float]:
        """Extent along and across the roll."""
        low, high = self.rings_mm[0].min(axis=0), self.rings_mm[0].max(axis=0)
        return float(high[0] - low[0]), float(high[1] - low[1])


def dies_of(problem: LayProblem) -> tuple[Die, ...]:
    """Return the dies of a problem, in the order of its items.

    Pinned pieces are taken off the demand. An item free to turn is laid as given or half turned.
    """
    left = {item.id: item.demand for item in problem.items}
    for pin in problem.pinned:
        left[pin.item_id] -= 1
    found: list[tuple[list[Array], float, list[Member]]] = []
    for item in problem.items:
        if left[item.id] <= 0:
            continue
        poses = _poses(item)
        own_mm2, most_apart_mm2 = item.outline.area_mm2, SAME_MM * item.outline.polygon.length
        for rings, area_mm2, members in found:
            if abs(area_mm2 - own_mm2) > most_apart_mm2:
                continue
            match = _match([p[1] for p in poses], rings)
            if match is not None:
                members.append(_member(item, left[item.id], [poses[k] for k in match]))
                rings[:] = _covering(rings, [poses[k][1] for k in match])
                break
        else:
            found.append(([p[1] for p in poses], own_mm2, [_member(item, left[item.id], poses)]))
    return tuple(Die(tuple(rings), area, tuple(members)) for rings, area, members in found)


def dealt(dies: tuple[Die, ...], places: list[tuple[int, int, float, float]]) -> tuple[Placement, ...]:
    """Return placements for places ``(die, pose, x, y)``: members take their turn along the roll,
    each until its demand is met. Raises ValueError when a die has more places than demand."""
    order = sorted(range(len(places)), key=lambda k: (places[k][2], places[k][3]))
    left = [[m.demand for m in die.members] for die in dies]
    done: list[Placement] = []
    for k in order:
        d, pose, x, y = places[k]
        try:
            which = next(i for i, n in enumerate(left[d]) if n > 0)
        except StopIteration:
            raise ValueError("more places than pieces") from None
        left[d][which] -= 1
        m = dies[d].members[which]
        cx, cy = m.centres_mm[pose]
        done.append(Placement(m.item_id, m.turns_deg[pose], x - cx, y - cy))
    return tuple(done)


def _poses(item: Item) -> list[tuple[float, Array, tuple[float, float]]]:
    turns = item.turns_deg if item.turns_deg is not None else (0.0, 180.0)
    poses = []
    for turn in turns:
        ring = np.asarray(item.outline.turned(turn).ring_mm)
        centre = (ring.min(axis=0) + ring.max(axis=0)) / 2.0
        poses.append((turn, without_doubles(ring - centre), (float(centre[0]), float(centre[1]))))
    return poses


def _member(item: Item, demand: int, poses: list[tuple[float, Array, tuple[float, float]]]) -> Member:
    return Member(item.id, demand, tuple(p[0] for p in poses), tuple(p[2] for p in poses))


def _match(mine: list[Array], theirs: list[Array]) -> list[int] | None:
    """For each of their poses the one of mine that covers the same ground, or None."""
    if len(mine) != len(theirs):
        return None
    order = []
    for ring in theirs:
        hit = next((k for k, r in enumerate(mine) if k not in order and alike(r, ring)), None)
        if hit is None:
            return None
        order.append(hit)
    return order


def _covering(rings: list[Array], others: list[Array]) -> list[Array]:
    """Rings that cover both, pose by pose; half turns of each other stay exactly so."""
    turned = len(rings) == 2 and np.array_equal(rings[1], -rings[0])
    done: list[Array] = []
    for a, b in zip(rings, others, strict=True):
        if a.shape == b.shape and np.array_equal(a, b):
            done.append(a)
            continue
        if turned and done:
            done.append(-done[0])
            continue
        whole = Polygon(a).union(Polygon(b))
        ring = np.asarray(whole.exterior.coords)[:-1]
        done.append(without_doubles(ring[::-1] if not whole.exterior.is_ccw else ring))
    return done


def alike(a: Array, b: Array) -> bool:
    """Whether two rings about their box centres are one die."""
    if np.abs(np.ptp(a, axis=0) - np.ptp(b, axis=0)).max() > SAME_MM:
        return False
    if a.shape == b.shape and np.abs(a - b).max() <= SAME_MM:
        return True
    one, two = Polygon(a), Polygon(b)
    return (
        abs(one.area - two.area) < SAME_MM * one.length
        and shapely.hausdorff_distance(one.exterior, two.exterior) <= SAME_MM
    )
