"""A run as tests of dies and bands take it: two pieces in two sizes, both hands."""

import numpy as np

from geometry.outline import Outline
from nesting.items import Item
from nesting.problem import LayProblem
from nesting.roll import Roll


def crescent(scale: float) -> Outline:
    outer = [(np.cos(t) * 40, np.sin(t) * 52) for t in np.linspace(np.pi / 2, 3 * np.pi / 2, 17)]
    inner = [(np.cos(t) * 14, np.sin(t) * 34) for t in np.linspace(3 * np.pi / 2, np.pi / 2, 9)]
    return Outline.make(np.array([*outer, *inner]) * scale)


def wedge(scale: float) -> Outline:
    return Outline.make(np.array([[0, 0], [60, 6], [66, 20], [30, 34], [2, 22]]) * scale)


def order(pairs: int = 8) -> LayProblem:
    """Two pieces in two sizes, both hands: the crescent is the same die for left and right."""
    items = []
    for size, scale in (("38", 1.0), ("39", 1.03)):
        for name, shape in (("crescent", crescent(scale)), ("wedge", wedge(scale))):
            items.append(Item(f"{name} {size} left", shape, pairs, hand="left"))
            items.append(Item(f"{name} {size} right", shape.mirrored(), pairs, hand="right"))
    return LayProblem(Roll(500.0), tuple(items), gap_mm=2.0, edge_margin_mm=3.0, end_margin_mm=5.0)
