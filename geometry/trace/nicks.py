"""Notches along a traced edge: narrow nicks taken out of the outline and told as notches."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Point, Polygon

from geometry.piece import Notch

Array = NDArray[np.float64]

WIDEST_MM = 4.5
"""A nick with a wider mouth is shape, not a notch (common practice, no source)."""

LEAST_DEPTH_MM, MOST_DEPTH_MM = 1.5, 9.0
"""A shallower nick is a ragged edge; a deeper one is a slit of the pattern (common practice, no source)."""

BESIDE_MM = 1.2
"""The outline is led straight over a nick from this far beside it: its lips are rounded in a picture."""

SLIVER_MM = 0.2
"""Half the width of what hangs on a gap as a sliver along the edge: an edge in a picture is never quite
straight, and closing it fills its hollows too."""

V_SHARE = 0.75
"""Narrower than this share at its lower half, a notch is a V: its tip is sharper than a picture shows."""


def without_notches(ring_mm: Array) -> tuple[Array, tuple[Notch, ...]]:
    """Return a card's outer ring with its nicks bridged, and the nicks as notches.

    A nick is what lies outside the card, narrow and deep, when gaps of up to WIDEST_MM are closed.
    """
    card = Polygon(ring_mm)
    if not card.is_valid:  # the sides of a narrow nick, each followed to the other's edge
        card = max(shapely.get_parts(card.buffer(0.0)), key=lambda part: float(part.area), default=card)
    calm = card.simplify(0.08)  # mitres on the steps of pixels would stand off
    reach = WIDEST_MM / 2.0
    closed = calm.buffer(reach, join_style="mitre").buffer(-reach, join_style="mitre")
    ring, found = ring_mm, []
    gaps = closed.difference(calm).buffer(-SLIVER_MM).buffer(SLIVER_MM)
    for part in shapely.get_parts(gaps):
        if part.geom_type != "Polygon" or part.area < LEAST_DEPTH_MM / 2.0:
            continue
        bridged, notch = _bridged(ring, part)
        if notch is not None:
            ring = bridged
            found.append(notch)
    return ring, tuple(found)


def _bridged(ring: Array, gap: Polygon) -> tuple[Array, Notch | None]:
    """Return a ring led straight over a gap, and the gap as a notch, None where it is none."""
    far = int(np.hypot(*(ring - gap.centroid.coords[0]).T).argmax())
    ring = np.roll(ring, -far, axis=0)
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    near = shapely.distance(shapely.points(ring), gap) <= 0.1
    first, last = along[near].min() - BESIDE_MM, along[near].max() + BESIDE_MM
    if last - first > 2.0 * (MOST_DEPTH_MM + WIDEST_MM):
        return ring, None
    inside = (along > first) & (along < last)
    a, b = ring[inside][0], ring[inside][-1]
    way = (b - a) / max(float(np.hypot(*(b - a))), 1e-9)
    inward = np.array([-way[1], way[0]]) * (1.0 if Polygon(ring).exterior.is_ccw else -1.0)
    run, deep = (ring[inside] - a) @ way, (ring[inside] - a) @ inward
    depth = float(deep.max())
    if not LEAST_DEPTH_MM <= depth <= MOST_DEPTH_MM:
        return ring, None
    upper, lower = 0.3 * depth, 0.65 * depth
    wide, narrow = (float(np.ptp(run[deep >= level])) for level in (upper, lower))
    v = narrow < V_SHARE * wide
    slope = (wide - narrow) / (lower - upper) if v else 0.0
    width = wide + slope * upper
    if width > WIDEST_MM or width > 2.5 * depth:
        return ring, None
    depth = upper + wide / slope if v else depth
    middle = a + float(np.ptp(run[deep >= upper]) / 2.0 + run[deep >= upper].min()) * way
    tip = ring[inside][deep >= 0.85 * deep.max()]
    tip_mm = (tip.min(axis=0) + tip.max(axis=0)) / 2.0
    angle = float(np.degrees(np.arctan2(*(tip_mm - middle)[::-1])))
    x, y = float(middle[0]), float(middle[1])
    notch = Notch(x, y, angle, round(depth, 2), round(width, 2), "v" if v else "castle")
    return ring[~inside], notch


def on_outline(notches: tuple[Notch, ...], ring_mm: Array) -> tuple[Notch, ...]:
    """Return notches set on the outline as it was fitted."""
    line = LineString(np.vstack([ring_mm, ring_mm[:1]]))
    feet = [line.interpolate(line.project(Point(n.x_mm, n.y_mm))) for n in notches]
    return tuple(replace(n, x_mm=foot.x, y_mm=foot.y) for n, foot in zip(notches, feet, strict=True))
