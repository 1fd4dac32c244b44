"""The turns in which an engine tries an item."""

from __future__ import annotations

import numpy as np
import shapely

from nesting.items import Item

FREE_TURNS_DEG = (0.0, 90.0, 180.0, 270.0)
"""Turns tried for a piece that may be turned freely, besides those that make it narrowest."""


def turns_of(item: Item) -> tuple[float, ...]:
    """Return the turns an engine without free rotation tries for an item."""
    if item.turns_deg is not None:
        return item.turns_deg
    box = np.asarray(shapely.minimum_rotated_rectangle(item.outline.polygon).exterior.coords)
    sides = np.diff(box[:3], axis=0)
    angle = float(np.degrees(np.arctan2(*sides[0][::-1])))
    lying = tuple((quarter - angle) % 360.0 for quarter in FREE_TURNS_DEG)
    return tuple(dict.fromkeys(FREE_TURNS_DEG + lying))


def granted_turns(item: Item) -> tuple[float, ...]:
    """Return the turns the search may use: those allowed, and steps of what is granted about each."""
    if item.turns_deg is None:
        return ()
    if item.turn_tolerance_deg == 0.0:
        return item.turns_deg
    steps = (0.0, -1.0, -0.5, 0.5, 1.0)
    return tuple(turn + step * item.turn_tolerance_deg for turn in item.turns_deg for step in steps)


def exact_turn(item: Item, turn_deg: float) -> float:
    """Return the turn in double precision that the library's single-precision one stands for."""
    if item.turns_deg is None:
        return turn_deg
    return min(granted_turns(item), key=lambda turn: abs((turn - turn_deg + 180.0) % 360.0 - 180.0))
