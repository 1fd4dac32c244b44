"""Closed loops -> sound rings, and which ring lies in which.

A loop that crosses itself is shown, not repaired silently; two loops drawn over each other are
one. Rings at even nesting depth are outlines, at odd depth cut-outs of the ring around them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from geometry import tolerances
from geometry.dxf.lines.curves import Points
from geometry.dxf.lines.effort import crossings, spend
from geometry.dxf.lines.join import Gap
from geometry.findings import Finding, Severity
from geometry.outline import ring_area_mm2
from geometry.said import said


@dataclass(frozen=True, eq=False)
class Loop:
    """A closed loop (n, 2) in mm with where it was drawn.

    ``part`` numbers the parts of an outline that crosses itself, and ``crossed`` is the place of that
    outline's finding among those of ``Sound``; both are 0 and -1 for any other.
    """

    points: Points
    layer: str
    scope: tuple[int, ...]
    kinds: tuple[str, ...]
    gaps: tuple[Gap, ...] = ()
    face: bool = False
    part: int = 0
    crossed: int = -1

    @property
    def area_mm2(self) -> float:
        """Enclosed area, not signed."""
        return abs(ring_area_mm2(self.points))

    @property
    def place_mm(self) -> tuple[float, float]:
        """The middle of its box."""
        low, high = self.points.min(axis=0), self.points.max(axis=0)
        return float((low[0] + high[0]) / 2), float((low[1] + high[1]) / 2)

    @property
    def is_hatch(self) -> bool:
        """Whether it only bounds a filled area."""
        return set(self.kinds) == {"HATCH"}


@dataclass
class Sound:
    """Simple rings, lines that ran there and back, what was dropped and said."""

    loops: list[Loop]
    spikes: list[tuple[Loop, Points]]
    specks: list[Loop]
    doubles: list[Loop]
    findings: list[Finding]


def sound(loops: list[Loop], chord_mm: float) -> Sound:
    """Return simple, distinct rings of the loops."""
    result = Sound([], [], [], [], [])
    for loop in loops:
        _split_crossings(loop, result)
    if result.loops:
        longest = max(float(np.ptp(loop.points, axis=0).max()) for loop in result.loops)
        small = [loop for loop in result.loops if loop.area_mm2 < tolerances.SPECK_MM2]
        crowd = len(small) >= tolerances.SPECK_CROWD and longest >= tolerances.PLAUSIBLE_PIECE_MM[0]
        keep: list[Loop] = []
        for loop in result.loops:
            speck = _is_speck(loop, longest) or (crowd and loop.area_mm2 < tolerances.SPECK_MM2)
            (result.specks if speck else keep).append(loop)
        result.loops = keep
    result.loops, result.doubles = _distinct(result.loops, 2.0 * chord_mm + tolerances.SAME_CURVE_MM)
    return result


def _is_speck(loop: Loop, longest_mm: float) -> bool:
    """Tell whether a ring is a hair: thinner than can be cut, and than drawn."""
    length = float(np.hypot(*(np.roll(loop.points, -1, axis=0) - loop.points).T).sum())
    width = 2.0 * loop.area_mm2 / length if length else 0.0
    return width < min(tolerances.HAIR_MM, 2e-4 * longest_mm)


def _split_crossings(loop: Loop, result: Sound) -> None:
    spend(60.0 + 2.0 * len(loop.points))
    polygon = Polygon(loop.points)
    if polygon.is_valid:
        result.loops.append(loop)
        return
    spend(20.0 * max(crossings([loop.points], closed=True) - len(loop.points), 1) ** 1.6)
    made = shapely.make_valid(polygon)
    parts = shapely.get_parts(made).tolist()
    spikes_before = len(result.spikes)
    areas = [p for part in parts for p in shapely.get_parts(part).tolist() if p.geom_type == "Polygon"]
    for part in parts:
        for line in shapely.get_parts(part).tolist():
            if line.geom_type == "LineString" and line.length > tolerances.SAME_CURVE_MM:
                result.spikes.append((loop, np.asarray(line.coords)[:, :2]))
    if not areas:
        result.specks.append(loop)
        return
    areas.sort(key=lambda p: p.area, reverse=True)
    total = sum(p.area for p in areas)
    places = _crossing_places(polygon, areas)
    lobes = [p for p in areas if p.area > tolerances.LOBE_SHARE * total]
    turned = abs(abs(ring_area_mm2(loop.points)) - total) > 0.02 * total  # a part runs the other way round
    if len(lobes) == 1 and not turned:
        lost = max(total - lobes[0].area, abs(abs(ring_area_mm2(loop.points)) - total))
        if total > lobes[0].area or len(result.spikes) == spikes_before:
            result.findings.append(
                Finding(
                    code="SMALL_CROSSING",
                    severity=Severity.WARNING,
                    message=said("an outline on layer {0} crosses itself at {1}", loop.layer, _spots(places)),
                    done=said("small loops of {0} mm2 in all taken off", f"{lost:.2g}"),
                    advice="check these places in the drawing",
                    where_mm=places,
                )
            )
    else:
        result.findings.append(
            Finding(
                code="SELF_CROSSING",
                severity=Severity.ERROR,
                message=said(
                    "an outline on layer {0} crosses or touches itself at {1}", loop.layer, _spots(places)
                ),
                done=said("shown as {0} parts", len(lobes))
                if len(lobes) > 1
                else "shown by its outer border",
                advice="redraw the outline so that it does not cross itself",
                where_mm=places,
            )
        )
    lobes.sort(key=lambda p: p.bounds)  # from the left, so that a name tells which it is
    for number, lobe in enumerate(lobes, start=1):
        part = number if len(lobes) > 1 else 0
        crossed = len(result.findings) - 1 if part else -1
        for ring in (lobe.exterior, *lobe.interiors):
            points = np.asarray(ring.coords)[:-1, :2]
            result.loops.append(replace(loop, points=points, part=part, crossed=crossed))


def _crossing_places(polygon: Polygon, areas: list[Polygon]) -> tuple[tuple[float, float], ...]:
    """Where lobes touch, else the one place the library names."""
    places: list[tuple[float, float]] = []
    for i, a in enumerate(areas[:20]):
        for b in areas[i + 1 : 20]:
            shared = shapely.intersection(a.boundary, b.boundary)
            touching = [g.centroid for g in shapely.get_parts(shared) if not g.is_empty]
            places += [(round(at.x, 6), round(at.y, 6)) for at in touching]
    if not places:
        inside = shapely.is_valid_reason(polygon).partition("[")[2].rstrip("]").split()
        if len(inside) >= 2:
            places = [(float(inside[0]), float(inside[1]))]
    return tuple(dict.fromkeys(places))


def _spots(places: tuple[tuple[float, float], ...]) -> str:
    shown = ", ".join(f"({x:.2f}, {y:.2f})" for x, y in places[:4])
    return shown + (f" and {len(places) - 4} more places" if len(places) > 4 else "")


def _distinct(loops: list[Loop], tolerance: float) -> tuple[list[Loop], list[Loop]]:
    """Drop rings drawn over another; of a filled area and a drawn line the line stays."""
    if not loops:
        return [], []
    order = sorted(range(len(loops)), key=lambda i: (loops[i].is_hatch, i))
    bounds = np.array([[*lo.points.min(axis=0), *lo.points.max(axis=0)] for lo in loops])
    boxes = shapely.box(*bounds.T)
    tree = shapely.STRtree(boxes)
    kept = np.zeros(len(loops), dtype=bool)
    doubles: list[Loop] = []
    for i in order:
        near = tree.query(boxes[i])
        spend(20.0 + 0.1 * len(near))
        reach = min(tolerance, 0.01 * float((bounds[i, 2:] - bounds[i, :2]).max()))
        alike = near[kept[near] & (np.abs(bounds[near] - bounds[i]).max(axis=1) <= reach)]
        if any(_same_ring(loops[i], loops[int(k)], reach) for k in alike):
            doubles.append(loops[i])
        else:
            kept[i] = True
    return [loop for loop, keep in zip(loops, kept, strict=True) if keep], doubles


def drawn_twice(outer: Loop, inner: Loop) -> bool:
    """Tell whether the band between two rings is too narrow to be a piece: one outline, drawn twice."""
    length = float(np.hypot(*(np.roll(outer.points, -1, axis=0) - outer.points).T).sum())
    limit = min(tolerances.BAND_MM, 0.005 * float(np.ptp(outer.points, axis=0).max()))
    return (outer.area_mm2 - inner.area_mm2) / length < limit


def _same_ring(a: Loop, b: Loop, tolerance: float) -> bool:
    spend(0.01 * len(a.points) * len(b.points))
    one = shapely.LinearRing(a.points)
    other = shapely.LinearRing(b.points)
    return bool(shapely.hausdorff_distance(one, other) <= tolerance)


@dataclass(frozen=True)
class Nested:
    """For every ring its depth and the ring it is a cut-out of (-1 for outlines)."""

    depth: tuple[int, ...]
    parent: tuple[int, ...]
    crossing: tuple[tuple[int, int], ...]
    stacked: tuple[tuple[int, int], ...] = ()
    """(outer, inner) that fill most of each other but stand in different blocks: sizes, say."""


def nest(loops: list[Loop]) -> Nested:
    """Find out which ring lies in which.

    A ring counts as inside when all but a thousandth of its area is; two rings that only partly
    overlap are neither inside the other and are reported.
    """
    polygons = np.array([Polygon(loop.points) for loop in loops], dtype=object)
    areas = shapely.area(polygons)
    sizes = shapely.get_num_coordinates(polygons)
    tree = shapely.STRtree(polygons)
    inside: list[list[int]] = [[] for _ in loops]
    crossing: list[tuple[int, int]] = []
    stacked: list[tuple[int, int]] = []
    shapely.prepare(polygons)
    for i, polygon in enumerate(polygons):
        for k in tree.query(polygon):
            k = int(k)
            if k == i or (areas[k], k) <= (areas[i], i):
                continue
            spend(15.0 + 0.3 * sizes[i])
            if _stacked(loops[k], loops[i], areas[i] / areas[k]) and polygon.intersects(polygons[k]):
                stacked.append((k, i))
                continue
            if shapely.contains_properly(polygons[k], polygon):
                inside[i].append(k)
                continue
            if not shapely.intersects(polygons[k], polygon):
                continue
            spend(2.0 * (sizes[i] + sizes[k]))
            share = shapely.area(shapely.intersection(polygons[k], polygon)) / areas[i]
            if share > 0.999:
                inside[i].append(k)
            elif share > 0.001:
                crossing.append((k, i))
    depth = tuple(len(around) for around in inside)
    parent = tuple(
        min((k for k in inside[i] if depth[k] % 2 == 0), key=lambda k: areas[k], default=-1)
        if depth[i] % 2
        else -1
        for i in range(len(loops))
    )
    return Nested(depth, parent, tuple(crossing), tuple(stacked))


def _stacked(outer: Loop, inner: Loop, share: float) -> bool:
    """Tell whether two rings of different placed blocks lie over each other like two sizes."""
    return share > 0.5 and bool(outer.scope) and bool(inner.scope) and outer.scope[0] != inner.scope[0]
