"""How short a lay could be at best: bounds on its length, each with its name.

Proven, for any layout under the problem's rules:

``area``            net area of the pieces over the width between the margins.
``area with gap``   the same for pieces grown by half the gap, which may not overlap either; the
                    grown pieces may reach half a gap beyond the margins and the ends.
``longest piece``   the longest piece, turned as it may be so that it takes least length.
``widest pieces``   pieces wider than half the width lie one behind the other along the roll where
                    they share a line along it; their shortest common chord adds up.

What the best lattice found takes without any edge is not a bound: that it is the densest is not proven.
"""

from __future__ import annotations

import numpy as np
from shapely.geometry import LineString, Polygon

from geometry.outline import Outline, rotation
from nesting.items import Item
from nesting.lay import Bound
from nesting.problem import LayProblem


def lower_bound(problem: LayProblem) -> Bound:
    """Return proven lower bounds on the length of any lay of the problem, end margins included."""
    ends = 2.0 * problem.end_margin_mm
    width = problem.roll.usable_width_mm - 2.0 * problem.edge_margin_mm
    values = {"area": problem.net_area_mm2 / width + ends}
    gap = problem.gap_mm
    if gap > 0.0:
        values["area with gap"] = grown_area_mm2(problem, gap) / (width + gap) - gap + ends
    longest = 0.0
    stacked = 0.0
    stacked_pieces = 0
    for item in problem.items:
        if not item.demand:
            continue
        longest = max(longest, _least_extent_mm(item))
        if item.turns_deg is None or item.turn_tolerance_deg:
            continue  # how high a piece reaches then depends on its angle: nothing is claimed
        outlines = [item.outline.turned(t) for t in item.turns_deg]
        chord = min(_middle_chord_mm(o, width) for o in outlines)
        if chord > 0.0:
            stacked += item.demand * chord
            stacked_pieces += item.demand
    values["longest piece"] = longest + ends
    if stacked_pieces:
        values["widest pieces"] = stacked + (stacked_pieces - 1) * gap + ends
    return Bound(values)


def grown_area_mm2(problem: LayProblem, gap_mm: float) -> float:
    """Return the area of all pieces grown by half a gap, which may not overlap either."""
    grown = 0.0
    for item in problem.items:
        if item.demand:
            # an inscribed polygon of the rounded corners: never larger than the truth
            whole = item.outline.polygon if problem.use_holes else Polygon(item.outline.ring_mm)
            grown += item.demand * whole.buffer(gap_mm / 2.0, quad_segs=4).area
    return grown


def _least_extent_mm(item: Item) -> float:
    """Least length along the roll over all angles an item may be turned to.

    As a convex outline turns, its extent is least at an end of the range or with an edge square to
    it: between such angles the extent is a chord's length times a cosine, which has no minimum inside
    (rotating calipers; Toussaint 1983, from memory).
    """
    ring = np.asarray(item.outline.polygon.convex_hull.exterior.coords)
    edges = np.diff(ring, axis=0)
    square = np.degrees(np.pi / 2.0 - np.arctan2(edges[:, 1], edges[:, 0]))
    if item.turns_deg is None:
        angles = square.tolist()
    else:
        granted = item.turn_tolerance_deg
        angles = [turn + end for turn in item.turns_deg for end in (-granted, granted)]
        for turn in item.turns_deg:
            off = (square - turn + 90.0) % 180.0 - 90.0
            angles += (turn + off[np.abs(off) <= granted]).tolist()
    return min(float(np.ptp(ring @ rotation(angle)[0])) for angle in angles)


def _middle_chord_mm(outline: Outline, width_mm: float) -> float:
    """Shortest material on the middle line of the roll over all places across it, 0 when the piece can
    keep off it. Every piece that always meets the middle line shares it with all others that do."""
    low, high = outline.bbox_mm[1], outline.bbox_mm[3]
    height = high - low
    if height <= width_mm / 2.0:
        return 0.0
    # lowest place: low at 0, the line at width/2 above it; highest: high at width
    first, last = low + (width_mm / 2.0 - (width_mm - height)), low + width_mm / 2.0
    first, last = max(first, low), min(last, high)
    polygon = outline.polygon
    left, _, right, _ = polygon.bounds
    shortest = np.inf
    # chords are concave or convex between vertices: take both sides of each vertex level too
    levels = np.unique(np.clip(np.concatenate([r[:, 1] for r in outline.rings_mm]), first, last))
    levels = np.unique(np.concatenate([levels, [first, last]]))
    nudge = 1e-9 * max(height, 1.0)
    for y in np.concatenate([levels - nudge, levels + nudge]):
        y = min(max(y, first), last)
        cut = polygon.intersection(LineString([(left - 1.0, y), (right + 1.0, y)]))
        shortest = min(shortest, cut.length)
    return float(shortest)
