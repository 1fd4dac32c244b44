"""What a die cuts beside its outline, and when two dies cut the same or mirror each other."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from geometry.outline import rotation
from geometry.piece import Notch
from nesting.dies.die import Die, alike
from nesting.items import Item

Array = NDArray[np.float64]

NICK_MM = 0.5
"""Notches of two pieces that lie this close in a shared outline are one nick of the die."""

HOLE_MM = 0.06
"""Holes whose boundaries stay this close are one punch; as for outlines, above the chord error."""

Details = list[tuple[str, Array]]
"""Notches (as points) and holes (as rings) of a die, about the centre of its box."""


def details_of(die: Die, member: int, item: Item, notches: tuple[Notch, ...]) -> Details:
    """What the die of a member cuts beside its outline, as the die's first pose lies."""
    turn, centre = die.members[member].turns_deg[0], np.array(die.members[member].centres_mm[0])
    matrix = rotation(turn).T
    found: Details = [(n.kind, np.array([[n.x_mm, n.y_mm]]) @ matrix - centre) for n in notches]
    found += [("hole", np.asarray(hole) @ matrix - centre) for hole in item.outline.holes_mm]
    return found


def same_details(one: Details, other: Details) -> bool:
    """Whether two dies cut the same beside their outlines."""
    if len(one) != len(other):
        return False
    left = list(other)
    for kind, points in one:
        hit = next((k for k, (name, at) in enumerate(left) if name == kind and _near(kind, points, at)), None)
        if hit is None:
            return False
        left.pop(hit)
    return True


def _near(kind: str, a: Array, b: Array) -> bool:
    if kind == "hole":
        return bool(Polygon(a).exterior.hausdorff_distance(Polygon(b).exterior) <= HOLE_MM)
    return bool(np.hypot(*(a[0] - b[0])) <= NICK_MM)


def is_mirror(one: Die, other: Die) -> bool:
    """Whether a die is another's mirror image in the roll's length, in one of its poses."""
    return any(alike(_flipped(one.rings_mm[0]), ring) for ring in other.rings_mm)


def _flipped(points: Array) -> Array:
    return points[::-1] * (1.0, -1.0)


def mirrored_details(one: tuple[Die, Details], other: tuple[Die, Details]) -> bool:
    """Whether what one of two mirror images cuts beside its outline is the other's mirrored."""
    half = not alike(_flipped(one[0].rings_mm[0]), other[0].rings_mm[0])
    turn = -1.0 if half else 1.0
    return same_details([(kind, _flipped(points) * turn) for kind, points in one[1]], other[1])
