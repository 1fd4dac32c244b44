"""Small upper pieces for the tests of this folder."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from geometry.backing.house_rules import DraftRules
from geometry.edge_kinds import EdgeKind
from geometry.outline import Outline
from geometry.piece import Edge, Edging, PullAxis, UpperPiece

RULES = DraftRules()
L_SHAPE = [(0, 0), (100, 0), (100, 50), (50, 50), (50, 100), (0, 100)]


def upper(points, setbacks, breaks=None, holes=(), hole_setbacks=(), axis_deg=0.0) -> UpperPiece:
    """A piece with one edge a setback; breaks at every vertex unless given; one edge a hole."""
    outline = Outline.make(points, holes)
    first = tuple(range(len(outline.ring_mm))) if breaks is None else tuple(breaks)
    edges = tuple(Edge(EdgeKind.RAW, float(s), 0.0, True) for s in setbacks)
    rest = tuple((Edge(EdgeKind.RAW, float(s), 0.0, True),) for s in hole_setbacks)
    return UpperPiece(
        name="piece",
        size="37",
        hand="left",
        outline=outline,
        edging=Edging((first, *((0,) for _ in holes)), (edges, *rest)),
        pull_axis=PullAxis(axis_deg, "person", True),
    )


def rectangle(width, height) -> list[tuple[float, float]]:
    return [(0, 0), (width, 0), (width, height), (0, height)]


def circle(radius, count, centre=(0.0, 0.0)) -> NDArray[np.float64]:
    angle = np.linspace(0, 2 * np.pi, count, endpoint=False)
    return np.stack([np.cos(angle), np.sin(angle)], axis=1) * radius + centre


def smooth(count: int, waves: ArrayLike, phases: ArrayLike) -> NDArray[np.float64]:
    """A smooth outline with hollows: a circle of 60 mm with waves of 2, 3, 4... to the round."""
    angle = np.linspace(0, 2 * np.pi, count, endpoint=False)
    radius = 60.0 + sum(
        w * np.cos(k * angle + p) for k, (w, p) in enumerate(zip(waves, phases, strict=True), start=2)
    )
    return np.stack([1.5 * radius * np.cos(angle), radius * np.sin(angle)], axis=1)


def codes(findings) -> set[str]:
    return {finding.code for finding in findings}
