"""A stretch of the derived outline changed by hand: an exception on top of it, checked and reported."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
import shapely.ops
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.backing.bands import Side, tapered
from geometry.backing.edges import edge_points
from geometry.backing.offset import as_shape, cleaned, parts
from geometry.backing.report import Report, Setbacks
from geometry.findings import Severity
from geometry.outline import Ring
from geometry.piece import Mark, UpperPiece
from geometry.said import said


def changed(
    shape: BaseGeometry,
    lines: Sequence[Ring],
    upper: UpperPiece,
    setbacks: Setbacks,
    ends: Setbacks,
    report: Report,
) -> BaseGeometry:
    """Return ``shape`` with each line in place of the stretch of its boundary between the line's ends.

    The ends go to the nearest points of the boundary; of the two ways round it the line replaces the one
    that changes less of the shape. What then lies nearer to an edge of the upper than its setback is
    reported with the distance that is left (CHANGE_TOO_NEAR); a line that leaves no sound outline is left
    out.
    """
    for line in lines:
        made = _replaced(shape, line)
        if made is None:
            report.add(
                "CHANGE_LEFT_OUT",
                Severity.WARNING,
                "a stretch changed by hand leaves no sound outline",
                [(float(line[0][0]), float(line[0][1]))],
                done="left out",
                advice="draw it again, or undo it",
            )
            continue
        added = [p for p in parts(made.difference(shape)) if p.area > tolerances.CRUMB_MM2]
        moved = float(shapely.hausdorff_distance(made.boundary, shape.boundary))
        middle = LineString(line).interpolate(0.5, normalized=True)
        report.add(
            "CHANGED_BY_HAND",
            Severity.NOTE,
            said("a stretch is changed by hand, by up to {0} mm", f"{moved:.1f}"),
            [(middle.x, middle.y)],
            done="kept in every size",
            advice="undo it where the derived outline will do",
        )
        _too_near(added, upper, setbacks, ends, report)
        report.changes.append(Mark(np.asarray(line, dtype=np.float64)))
        shape = made
    return shape


def _replaced(shape: BaseGeometry, line: Ring) -> BaseGeometry | None:
    """Return the shape with its stretch replaced; None where nothing sound comes of it."""
    found = parts(shape)
    if not found or len(line) < 2:
        return None
    start, end = Point(line[0]), Point(line[-1])
    at = min(range(len(found)), key=lambda i: float(found[i].boundary.distance(start)))
    polygon = found[at]
    rings = [polygon.exterior, *polygon.interiors]
    r = min(range(len(rings)), key=lambda i: float(rings[i].distance(start) + rings[i].distance(end)))
    ring = rings[r]
    a, b = float(ring.project(start)), float(ring.project(end))
    if abs(a - b) < tolerances.SAME_POINT_MM:
        return None
    low, high = min(a, b), max(a, b)
    inner = shapely.ops.substring(ring, low, high)
    outer = _joined(shapely.ops.substring(ring, high, ring.length), shapely.ops.substring(ring, 0.0, low))
    way = list(line[1:-1]) if a < b else list(line[1:-1][::-1])
    candidates = [
        [*inner.coords, *way[::-1]],  # keeps the stretch from low to high, goes back along the line
        [*outer, *way],
    ]
    made = []
    for points in candidates:
        ring_made = Polygon(points) if len(points) >= 3 else Polygon()
        if not ring_made.is_valid or ring_made.is_empty:
            continue
        new = _with_ring(polygon, r, ring_made)
        if new is not None:
            made.append(new)
    if not made:
        return None
    best = min(made, key=lambda p: float(p.symmetric_difference(polygon).area))
    return cleaned(as_shape([*found[:at], best, *found[at + 1 :]]))


def _joined(first: LineString, second: LineString) -> list[tuple[float, float]]:
    a, b = list(first.coords), list(second.coords)
    return [*a, *b[1:]] if len(b) > 1 else a


def _with_ring(polygon: Polygon, r: int, ring: Polygon) -> Polygon | None:
    shell = ring.exterior if r == 0 else polygon.exterior
    holes = [ring.exterior if i + 1 == r else hole for i, hole in enumerate(polygon.interiors)]
    made = Polygon(shell, holes)
    return made if made.is_valid else None


def _too_near(
    added: Sequence[Polygon], upper: UpperPiece, setbacks: Setbacks, ends: Setbacks, report: Report
) -> None:
    """Report what was added by hand nearer to an edge than its setback."""
    worst: list[tuple[float, float, float, tuple[float, float]]] = []
    for r, ring in enumerate(setbacks):
        for k, first in enumerate(ring):
            side = Side(edge_points(upper.outline, upper.edging, r, k), first, 0, False, ends[r][k])
            points, widths = tapered(side)
            for part in added:
                for (ax, ay), (bx, by), low, high in zip(
                    points[:-1], points[1:], widths[:-1], widths[1:], strict=True
                ):
                    near = shapely.shortest_line(LineString([(ax, ay), (bx, by)]), part)
                    foot = Point(near.coords[0])
                    share = float(np.hypot(foot.x - ax, foot.y - ay)) / max(
                        float(np.hypot(bx - ax, by - ay)), 1e-12
                    )
                    asked = float(low + share * (high - low))
                    if near.length < asked - tolerances.SETBACK_MM:
                        worst.append((near.length - asked, near.length, asked, near.coords[1]))
    if worst:
        _, left, asked, where = min(worst)
        inside = upper.outline.polygon.covers(Point(where))
        words = (
            "a stretch changed by hand lies {0} mm from an edge whose setback is {1} mm"
            if inside or left == 0.0
            else "a stretch changed by hand lies {0} mm beyond an edge whose setback is {1} mm"
        )
        report.add(
            "CHANGE_TOO_NEAR",
            Severity.WARNING,
            said(words, f"{left:.1f}", f"{asked:.1f}"),
            [(float(where[0]), float(where[1]))],
            done="kept as drawn",
            advice="undo it, or make the setback smaller if the backing may lie there",
        )
