"""The other hand of a piece: its mirror image across the x axis."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from geometry.outline import Outline, Ring
from geometry.piece import (
    DrillHole,
    Edge,
    Edging,
    Keep,
    Lettering,
    Mark,
    Notch,
    PullAxis,
    Shaping,
    SplitLine,
    UpperPiece,
)
from geometry.pull import undirected_deg


def mirrored_piece(upper: UpperPiece) -> UpperPiece:
    """Return the piece of the other hand: y -> -y, a pull axis of +a becomes -a.

    Mirroring twice gives the piece back exactly.
    """
    return replace(
        upper,
        hand="right" if upper.hand == "left" else "left",
        outline=upper.outline.mirrored(),
        edging=mirrored_edging(upper.edging, upper.outline),
        pull_axis=mirrored_axis(upper.pull_axis),
        notches=tuple(mirrored_notch(n) for n in upper.notches),
        marks=tuple(mirrored_mark(m) for m in upper.marks),
        drill_holes=tuple(mirrored_drill_hole(d) for d in upper.drill_holes),
        letterings=tuple(mirrored_lettering(t) for t in upper.letterings),
    )


def mirrored_edging(edging: Edging, outline: Outline) -> Edging:
    """Return the edging of ``outline.mirrored()``, where vertex i of n has become (n - i) % n.

    The edge from break k to break k + 1 is walked the other way there, from the image of
    break k + 1 to the image of break k.
    """
    breaks, edges = [], []
    for ring, old_breaks, old_edges in zip(outline.rings_mm, edging.breaks, edging.edges, strict=True):
        n = len(ring)
        pairs = sorted(((n - old_breaks[(k + 1) % len(old_breaks)]) % n, k) for k in range(len(old_breaks)))
        breaks.append(tuple(b for b, _ in pairs))
        edges.append(tuple(turned_edge(old_edges[k]) for _, k in pairs))
    return Edging(tuple(breaks), tuple(edges))


def turned_edge(edge: Edge) -> Edge:
    """Return the edge walked the other way: a setback that changes along it does so from the other end."""
    if edge.setback_end_mm is None:
        return edge
    return replace(edge, setback_mm=edge.setback_end_mm, setback_end_mm=edge.setback_mm)


def mirrored_axis(axis: PullAxis) -> PullAxis:
    """Return the axis on the other hand."""
    return replace(axis, axis_deg=undirected_deg(-axis.axis_deg))


def mirrored_notch(notch: Notch) -> Notch:
    """Return the notch on the other hand."""
    return replace(notch, y_mm=-notch.y_mm, angle_deg=-notch.angle_deg)


def mirrored_keep(keep: Keep) -> Keep:
    """Return the region or cut line of a partial backing on the other hand."""
    side = None if keep.side_mm is None else (keep.side_mm[0], -keep.side_mm[1])
    return replace(keep, points_mm=_flipped(keep.points_mm), side_mm=side)


def mirrored_shaping(shaping: Shaping) -> Shaping:
    """Return what is drawn on a backing on the other hand."""
    return Shaping(
        keeps=tuple(mirrored_keep(keep) for keep in shaping.keeps),
        changes=tuple(_flipped(line) for line in shaping.changes),
        splits=tuple(mirrored_split(split) for split in shaping.splits),
        joined=tuple(mirrored_piece(piece) for piece in shaping.joined),
    )


def mirrored_split(split: SplitLine) -> SplitLine:
    """Return a split on the other hand; walked the other way, so that left of it stays left of it."""
    return replace(split, points_mm=_flipped(split.points_mm[::-1]))


def mirrored_drill_hole(hole: DrillHole) -> DrillHole:
    """Return a drill hole on the other hand."""
    return replace(hole, y_mm=-hole.y_mm)


def mirrored_lettering(word: Lettering) -> Lettering:
    """Return a word on the other hand, where the mirror image of its room lies; it stays readable."""
    angle = math.radians(word.angle_deg)
    x = word.x_mm - word.height_mm * math.sin(angle)
    y = -word.y_mm - word.height_mm * math.cos(angle)
    return replace(word, x_mm=x, y_mm=y, angle_deg=-word.angle_deg)


def mirrored_mark(mark: Mark) -> Mark:
    """Return the drawn line on the other hand."""
    return replace(mark, points_mm=_flipped(mark.points_mm))


def _flipped(points: Ring) -> Ring:
    flipped = np.asarray(points) * (1.0, -1.0)
    flipped.flags.writeable = False
    return flipped
