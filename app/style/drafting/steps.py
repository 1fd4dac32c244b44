"""A step of the setback on a smooth stretch: the two edges along which it could run instead."""

from __future__ import annotations

import math
from dataclasses import dataclass

from app.style.drafting.where import piece_of
from app.style.edits import EdgeName
from app.style.model import Style
from app.style.pieces import draft_rules, drawn_piece, edging_of
from geometry.backing.derive import end_setbacks_mm, setbacks_mm
from geometry.edge_kinds import EdgeKind

AT_BREAK_MM = 1.0
"""A step farther from every break point comes of something drawn, not of two edges that meet."""


@dataclass(frozen=True)
class StepChoice:
    """One way round a step: the setback of ``edge`` runs from ``from_mm`` at its start to ``to_mm``."""

    edge: EdgeName
    kind: EdgeKind
    from_mm: float
    to_mm: float


def step_choices(style: Style, piece: str, at_mm: tuple[float, float]) -> tuple[StepChoice, ...]:
    """Return the edges that meet at a step, the one that ends there and the one that begins.

    ``at_mm`` is the place that the finding names, on the piece as drawn or on its mirror image. Along the
    first the setback runs on to what the second begins with, along the second from what the first ends
    with. Nothing is offered where one edge runs all the way round, or where no step is left.
    """
    data = piece_of(style, piece)
    outline = drawn_piece(data, style.size_run.base).outline
    edging = edging_of(data, outline)
    rules = draft_rules(style)
    starts, ends = setbacks_mm(edging, rules), end_setbacks_mm(edging, rules)
    x, y = at_mm
    near = [
        (min(math.dist(ring_mm[vertex], (x, y)), math.dist(ring_mm[vertex], (x, -y))), r, k)
        for r, ring_mm in enumerate(outline.rings_mm)
        for k, vertex in enumerate(edging.breaks[r])
    ]
    far, r, k = min(near)
    before = k - 1
    if far > AT_BREAK_MM or len(edging.breaks[r]) < 2 or starts[r][k] == ends[r][before]:
        return ()
    return tuple(
        StepChoice((r, edging.breaks[r][at]), edging.edges[r][at].kind, first, last)
        for at, first, last in (
            (before, starts[r][before], starts[r][k]),
            (k, ends[r][before], ends[r][k]),
        )
    )
