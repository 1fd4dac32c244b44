"""Upper piece -> backing piece: the outline inset edge by edge, each edge by its own setback.

How strips join is told in ``offset``. A setback of zero leaves its edge alone; a negative one
lets the backing run past the edge, by the same rules seen from outside. Where a strip and a
run-past compete, the strip wins: no backing lies nearer to an edge than its setback.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.backing.edges import check_edging, edge_points, is_straight, turn_deg
from geometry.backing.house_rules import DraftRules
from geometry.backing.knife import Cut, rounded, without_slivers
from geometry.backing.offset import Joints, Side, as_shape, cleaned, outer_strip, parts, strips, trimmed
from geometry.backing.partial import kept
from geometry.errors import BackingError
from geometry.findings import Finding, Severity
from geometry.outline import Outline
from geometry.piece import BackingPiece, Edging, Keep, Notch, UpperPiece
from geometry.said import said

Array = NDArray[np.float64]
Setbacks = tuple[tuple[float, ...], ...]


def setbacks_mm(edging: Edging, rules: DraftRules) -> Setbacks:
    """Return the setback of every edge: its own, else the house rule of its kind."""
    return tuple(
        tuple(rules.edge_rules[e.kind].setback_mm if e.setback_mm is None else e.setback_mm for e in ring)
        for ring in edging.edges
    )


def derive_backing(
    upper: UpperPiece, rules: DraftRules, *, keep: Keep | None = None, layer: int = 0
) -> BackingPiece:
    """Return the backing of an upper piece, with findings for whatever a person should look at.

    ``keep`` restricts it to a region or to one side of a cut line. Codes: BACKING_VANISHED,
    BACKING_SPLIT, SLIVER_REMOVED, MITRE_BEVELLED, SETBACK_STEP, SHORT_EDGE, CORNER_ROUNDED,
    NOTCH_DROPPED. Raises EdgeError when edges do not fit the outline, BackingError when the
    setbacks are no numbers or ``keep`` misses the piece.
    """
    check_edging(upper.outline, upper.edging, upper.name)
    setbacks = setbacks_mm(upper.edging, rules)
    if not all(np.isfinite(s) for ring in setbacks for s in ring):
        raise BackingError("a setback is not a number", remedy="enter it in mm", piece=upper.name)
    polygon = upper.outline.polygon
    if not polygon.is_valid:
        raise BackingError(
            said("the outline crosses itself ({0})", shapely.is_valid_reason(polygon)),
            remedy="redraw it there",
            piece=upper.name,
        )
    report = _Report(upper)
    joints = Joints()
    shape = inset(upper.outline, upper.edging, setbacks, rules, joints)
    report.joints(joints)
    report.short_edges(setbacks)
    if keep is not None:
        shape = kept(shape, polygon, keep, upper.name)
    changed = keep is not None or any(s for ring in setbacks for s in ring)
    if changed or rules.knife_radius_mm > 0.0:
        found = [p for p in parts(shape) if p.area > tolerances.CRUMB_MM2]
        found, slivers = without_slivers(found, rules.sliver_mm)
        report.cuts(
            "SLIVER_REMOVED", slivers, said("narrower than {0} mm cannot be cut", f"{rules.sliver_mm:g}")
        )
        if rules.knife_radius_mm > 0.0:
            found, tips = rounded(found, rules.knife_radius_mm, rules.chord_mm, rules.corner_deg)
            report.cuts(
                "CORNER_ROUNDED",
                tips,
                said(
                    "outer corners rounded to {0} mm or as far as there is room",
                    f"{rules.knife_radius_mm:g}",
                ),
            )
        outlines = [Outline.of_polygon(p) for p in sorted(found, key=_order)]
    else:
        outlines = [upper.outline]
    report.count(outlines)
    notches = report.notches(outlines, setbacks, partial=keep is not None)
    return BackingPiece(upper, tuple(outlines), setbacks, layer, notches, tuple(report.findings))


def inset(
    outline: Outline, edging: Edging, setbacks: Setbacks, rules: DraftRules, joints: Joints | None = None
) -> BaseGeometry:
    """Return the outline's region less its setbacks."""
    polygon = outline.polygon
    region: BaseGeometry = polygon
    joints = Joints() if joints is None else joints
    setbacks = tuple(tuple(0.0 if abs(s) < tolerances.SAME_POINT_MM else s for s in r) for r in setbacks)
    flat = [s for ring in setbacks for s in ring]
    sides = _sides(outline, edging, setbacks)
    if min(flat) < 0.0:
        past = _run_past(region, sides, flat, rules, joints)
        wide = [side for side, s in zip(sides, flat, strict=True) if s > 0.0]
        if wide:  # no backing within the setback, on either side of the edge
            past = past.difference(shapely.union_all([outer_strip(side) for side in wide]))
        flaps = as_shape(parts(past))
        region = shapely.union(region, flaps, grid_size=tolerances.GRID_MM)  # no hairs between them
    if max(flat) > 0.0:
        _, region = strips(region, sides, rules.mitre_limit, joints)
    found = parts(cleaned(region))
    if min(flat) < 0.0:  # what runs past an edge hangs on the piece, or is nothing
        found = [p for p in found if p.intersection(polygon).area > tolerances.CRUMB_MM2]
    return as_shape(found)


def _run_past(
    region: BaseGeometry, sides: Sequence[Side], flat: Sequence[float], rules: DraftRules, joints: Joints
) -> BaseGeometry:
    """Return what negative setbacks add: strips of the outside, its edges walked the other way."""
    over = 2.0 * tolerances.RUN_ON_LIMIT * -min(flat)
    low_x, low_y, high_x, high_y = region.bounds
    outside = shapely.box(low_x - over, low_y - over, high_x + over, high_y + over).difference(region)
    before = {side.following: i for i, side in enumerate(sides)}
    turned = [
        Side(side.points[::-1], -side.setback_mm, before[i], sides[before[i]].corner)
        for i, side in enumerate(sides)
    ]
    flaps, _ = strips(outside, turned, rules.mitre_limit, joints)
    return trimmed(flaps, turned)


def _sides(outline: Outline, edging: Edging, setbacks: Setbacks) -> list[Side]:
    sides: list[Side] = []
    for r, breaks in enumerate(edging.breaks):
        first, count = len(sides), len(breaks)
        for k in range(count):
            points = edge_points(outline, edging, r, k)
            sides.append(Side(points, setbacks[r][k], first + (k + 1) % count, False))
    return [replace(s, corner=_is_corner(s, sides[s.following])) for s in sides]


def _is_corner(side: Side, other: Side) -> bool:
    """Whether two edges meet at a corner, rather than on a smooth outline.

    (Asked of whole edges, not of the vertices near by, so that all sizes of a piece are answered
    alike.)
    """
    turn = abs(turn_deg(side.points, other.points))
    if turn > tolerances.SMOOTH_DEG or turn < tolerances.STRAIGHT_DEG:
        return turn > tolerances.SMOOTH_DEG
    return is_straight(side.points) and is_straight(other.points)


def _order(polygon: Polygon) -> tuple[float, float, float]:
    """Largest part first; equal ones from left to right, so that the same input gives the same output."""
    return -round(polygon.area, 6), polygon.bounds[0], polygon.bounds[1]


class _Report:
    """Gathers the findings of one piece."""

    def __init__(self, upper: UpperPiece) -> None:
        self.upper = upper
        self.findings: list[Finding] = []

    def add(
        self,
        code: str,
        severity: Severity,
        message: str,
        where: Sequence[tuple[float, float]],
        done: str = "",
        advice: str = "",
    ) -> None:
        self.findings.append(
            Finding(
                code=code,
                severity=severity,
                message=message,
                done=done,
                advice=advice,
                piece=self.upper.name,
                size=self.upper.size,
                where_mm=tuple((float(x), float(y)) for x, y in where),
            )
        )

    def joints(self, joints: Joints) -> None:
        if joints.bevelled:
            self.add(
                "MITRE_BEVELLED",
                Severity.NOTE,
                said("{0} sharp corner(s) cut square at the setback's distance", len(joints.bevelled)),
                joints.bevelled,
                advice="look at the corner; a larger mitre limit keeps it pointed",
            )
        if joints.stepped:
            self.add(
                "SETBACK_STEP",
                Severity.NOTE,
                said("the setback changes on a smooth stretch in {0} place(s)", len(joints.stepped)),
                joints.stepped,
                done="stepped square to the edge",
                advice="move the break point to a corner if the step disturbs",
            )

    def short_edges(self, setbacks: Setbacks) -> None:
        where = []
        for r, ring in enumerate(setbacks):
            for k, setback in enumerate(ring):
                points = edge_points(self.upper.outline, self.upper.edging, r, k)
                if float(np.hypot(*np.diff(points, axis=0).T).sum()) < abs(setback):
                    where.append(tuple(points[len(points) // 2]))
        if where:
            self.add(
                "SHORT_EDGE",
                Severity.NOTE,
                said("{0} edge(s) shorter than their setback", len(where)),
                where,
                advice="look at the backing there; join the edge with its neighbour if it is no edge",
            )

    def cuts(self, code: str, found: Sequence[Cut], why: str) -> None:
        if found:
            self.add(
                code,
                Severity.NOTE,
                said(
                    "{0}: {1} place(s), {2} mm2 in all",
                    why,
                    len(found),
                    f"{sum(c.area_mm2 for c in found):.2f}",
                ),
                [c.at_mm for c in found],
                done="taken off",
            )

    def count(self, outlines: Sequence[Outline]) -> None:
        if not outlines:
            centre = self.upper.outline.polygon.representative_point()
            self.add(
                "BACKING_VANISHED",
                Severity.ERROR,
                "no backing is left: the setbacks are wider than the piece",
                [(centre.x, centre.y)],
                advice="make setbacks smaller, or mark the piece as not backed",
            )
        if len(outlines) > 1:
            places = [o.polygon.representative_point() for o in outlines]
            self.add(
                "BACKING_SPLIT",
                Severity.WARNING,
                said(
                    "the backing falls into {0} parts of {1} mm2",
                    len(outlines),
                    ", ".join(f"{o.area_mm2:.0f}" for o in outlines),
                ),
                [(p.x, p.y) for p in places],
                done="all parts kept",
                advice="make the setbacks at the neck smaller, or cut the parts one by one",
            )

    def notches(self, outlines: Sequence[Outline], setbacks: Setbacks, *, partial: bool) -> tuple[Notch, ...]:
        """Return the notches moved along their direction to the backing's own boundary.

        Those that a partial backing does not reach are left out; that is what it is for.
        """
        reach = max((abs(s) for ring in setbacks for s in ring), default=0.0) * 2.0 + 2.0
        lines = as_shape([o.polygon for o in outlines]).boundary if outlines else None
        moved, dropped = [], []
        for notch in self.upper.notches:
            place = _onto(notch, lines, reach) if lines is not None else None
            if place is None:
                dropped.append((notch.x_mm, notch.y_mm))
            else:
                moved.append(replace(notch, x_mm=place[0], y_mm=place[1]))
        if dropped and outlines and not partial:
            self.add(
                "NOTCH_DROPPED",
                Severity.NOTE,
                said("{0} notch(es) of the upper have no backing beside them", len(dropped)),
                dropped,
                done="left out on the backing",
            )
        return tuple(moved)


def _onto(notch: Notch, lines: BaseGeometry, reach: float) -> tuple[float, float] | None:
    """Return where a notch comes to lie on the backing: straight in (or out), else the nearest point."""
    point = np.array([notch.x_mm, notch.y_mm])
    way = np.array([np.cos(np.radians(notch.angle_deg)), np.sin(np.radians(notch.angle_deg))])
    start = shapely.Point(point)
    if lines.distance(start) <= tolerances.SETBACK_MM:
        return notch.x_mm, notch.y_mm
    hit = lines.intersection(shapely.LineString([point - reach * way, point + reach * way]))
    target = hit if not hit.is_empty else lines
    nearest = shapely.shortest_line(start, target)
    if nearest.length > reach:
        return None
    x, y = nearest.coords[-1]
    return float(x), float(y)
