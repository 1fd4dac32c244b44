"""Upper piece -> backing piece: the outline inset edge by edge, each edge by its own setback.

How strips join is described in ``offset``. A setback of zero leaves its edge alone; a negative one
lets the backing run past the edge, by the same rules seen from outside. Where a strip and a
run-past compete, the strip wins: no backing lies nearer to an edge than its setback.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.backing.bands import Joints, Side, outer_strip
from geometry.backing.changed import changed
from geometry.backing.edges import check_edging, edge_points, is_straight, turn_deg
from geometry.backing.house_rules import DraftRules
from geometry.backing.joined import joined_inset
from geometry.backing.knife import rounded, without_slivers
from geometry.backing.offset import as_shape, cleaned, parts, strips, trimmed
from geometry.backing.partial import kept
from geometry.backing.report import Report
from geometry.backing.splits import Part, divided
from geometry.errors import BackingError
from geometry.outline import Outline
from geometry.piece import NO_SHAPING, BackingPiece, Edging, Shaping, UpperPiece
from geometry.said import said

Setbacks = tuple[tuple[float, ...], ...]


def setbacks_mm(edging: Edging, rules: DraftRules) -> Setbacks:
    """Return the setback of every edge, at its start: its own, else the house rule of its kind."""
    return tuple(
        tuple(rules.edge_rules[e.kind].setback_mm if e.setback_mm is None else e.setback_mm for e in ring)
        for ring in edging.edges
    )


def end_setbacks_mm(edging: Edging, rules: DraftRules) -> Setbacks:
    """Return the setback of every edge at its end, the same as at its start unless it changes along it."""
    return tuple(
        tuple(s if e.setback_end_mm is None else e.setback_end_mm for e, s in zip(ring, starts, strict=True))
        for ring, starts in zip(edging.edges, setbacks_mm(edging, rules), strict=True)
    )


def derive_backing(
    upper: UpperPiece, rules: DraftRules, *, shaping: Shaping = NO_SHAPING, layer: int = 0
) -> BackingPiece:
    """Return the backing of an upper piece, with findings for whatever a person should look at.

    ``shaping`` is what was drawn on it: cut lines, regions, stretches changed by hand, splits, pieces
    joined to it. Codes: BACKING_VANISHED, BACKING_SPLIT, SLIVER_REMOVED, MITRE_BEVELLED, SETBACK_STEP,
    STEEP_TAPER, SHORT_EDGE, CORNER_ROUNDED, NOTCH_DROPPED, CHANGED_BY_HAND, CHANGE_TOO_NEAR,
    CHANGE_LEFT_OUT, SPLIT_MISSES, JOIN_APART, JOIN_EDGE_HALF. Raises EdgeError when edges do not fit the
    outline, BackingError when the setbacks are not numbers or a cut line or region misses the piece.
    """
    check_edging(upper.outline, upper.edging, upper.name)
    setbacks, ends = setbacks_mm(upper.edging, rules), end_setbacks_mm(upper.edging, rules)
    if not all(np.isfinite(s) for ring in (*setbacks, *ends) for s in ring):
        raise BackingError("a setback is not a number", remedy="enter it in mm", piece=upper.name)
    polygon = upper.outline.polygon
    if not polygon.is_valid:
        raise BackingError(
            said("the outline crosses itself ({0})", shapely.is_valid_reason(polygon)),
            remedy="redraw it there",
            piece=upper.name,
        )
    report = Report(upper)
    joints = Joints()
    if shaping.joined:
        shape, polygon = joined_inset(upper, shaping.joined, rules, joints, report, inset)
    else:
        shape = inset(upper.outline, upper.edging, setbacks, rules, joints, ends)
    report.joints(joints)
    report.short_edges(setbacks)
    report.tapers(setbacks, ends)
    for keep in shaping.keeps:
        shape = kept(shape, polygon, keep, upper.name)
    if shaping.changes:
        shape = changed(shape, shaping.changes, upper, setbacks, ends, report)
    made = [Part("", shape)]
    for split in shaping.splits:
        made = divided(made, split, polygon, report)
    touched = not shaping.empty or any(s for ring in (*setbacks, *ends) for s in ring)
    if touched or rules.knife_radius_mm > 0.0:
        named = _cuttable(made, rules, report)
    else:
        named = [("", upper.outline)]
    if not named:
        report.count([])
    outlines = [outline for _, outline in named]
    partial = bool(shaping.keeps or shaping.splits)
    notches = report.notches(outlines, (*setbacks, *ends), partial=partial)
    return BackingPiece(
        upper,
        tuple(outlines),
        setbacks,
        layer,
        (*notches, *(notch for part in made for notch in part.notches)),
        tuple(report.findings),
        ends,
        tuple(name for name, _ in named) if shaping.splits else (),
        tuple(mark for part in made for mark in part.marks),
        changes=tuple(report.changes),
        joined=tuple(piece.name for piece in shaping.joined),
    )


def _cuttable(made: Sequence[Part], rules: DraftRules, report: Report) -> list[tuple[str, Outline]]:
    """Return the outlines that a knife can cut, each with the name of its part, largest first in a part."""
    named: list[tuple[str, Outline]] = []
    for part in made:
        found = [p for p in parts(part.shape) if p.area > tolerances.CRUMB_MM2]
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
        outlines = [Outline.of_polygon(polygon) for polygon in sorted(found, key=_order)]
        if len(outlines) > 1:
            report.count(outlines)
        for number, outline in enumerate(outlines):
            named.append((part.name if not number or not part.name else f"{part.name} {number + 1}", outline))
    return named


def inset(
    outline: Outline,
    edging: Edging,
    setbacks: Setbacks,
    rules: DraftRules,
    joints: Joints | None = None,
    ends: Setbacks | None = None,
) -> BaseGeometry:
    """Return the outline's region less its setbacks (``ends``: at the ends of the edges, where other)."""
    polygon = outline.polygon
    region: BaseGeometry = polygon
    joints = Joints() if joints is None else joints
    setbacks, ends = _without_nothing(setbacks), _without_nothing(ends or setbacks)
    sides = _sides(outline, edging, setbacks, ends)
    flat = [s for ring in (*setbacks, *ends) for s in ring]
    if min(flat) < 0.0:
        past = _run_past(region, sides, flat, rules, joints)
        wide = [side for side in sides if side.widest_mm > 0.0]
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
        replace(side.turned(before[i], inside_out=True), corner=sides[before[i]].corner)
        for i, side in enumerate(sides)
    ]
    flaps, _ = strips(outside, turned, rules.mitre_limit, joints)
    return trimmed(flaps, turned)


def _without_nothing(setbacks: Setbacks) -> Setbacks:
    """Return the setbacks, NaN and infinity replaced by zero."""
    return tuple(tuple(0.0 if abs(s) < tolerances.SAME_POINT_MM else s for s in r) for r in setbacks)


def _sides(outline: Outline, edging: Edging, setbacks: Setbacks, ends: Setbacks) -> list[Side]:
    sides: list[Side] = []
    for r, breaks in enumerate(edging.breaks):
        first, count = len(sides), len(breaks)
        for k in range(count):
            points = edge_points(outline, edging, r, k)
            sides.append(Side(points, setbacks[r][k], first + (k + 1) % count, False, ends[r][k]))
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
