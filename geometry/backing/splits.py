"""A backing divided along a line: its parts butt, or overlap by a width, and carry notches that match."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Point
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.backing.partial import run_on, sides_of
from geometry.backing.report import Report
from geometry.findings import Severity
from geometry.piece import Mark, Notch, SplitLine
from geometry.said import said

ON_LINE_MM = 1e-3
"""A notch further from its part's edge stands beside it: a bend tighter than the overlap swallowed it."""


@dataclass(frozen=True, eq=False)
class Part:
    """A part of a backing with its name ('' = the whole), and what the splits put on it."""

    name: str
    shape: BaseGeometry
    notches: tuple[Notch, ...] = ()
    marks: tuple[Mark, ...] = ()


def divided(made: Sequence[Part], split: SplitLine, piece: BaseGeometry, report: Report) -> list[Part]:
    """Return the parts with those that the line crosses divided by it.

    Each of the two reaches half the overlap past the line, measured at right angles to it. Together
    they cover what they came from. A line that crosses nothing is reported (SPLIT_MISSES).
    """
    left, right = sides_of(split.points_mm, piece, report.upper.name)
    half = split.overlap_mm / 2.0 if split.overlap_mm > tolerances.SAME_POINT_MM else 0.0
    wide = [side.buffer(half, join_style="mitre") if half > 0.0 else side for side in (left, right)]
    line = run_on(split.points_mm, piece, report.upper.name)
    found: list[Part] = []
    crossed = False
    for part in made:
        shapes = [part.shape.intersection(side) for side in (left, right)]
        named = not split.part or split.part == part.name
        if not named or any(shape.area == 0.0 for shape in shapes):
            found.append(part)
            continue
        crossed = True
        both = [part.shape.intersection(side) for side in wide]
        along = _longest(line.intersection(part.shape))
        for number, shape in enumerate(both):
            sign = 1.0 if number == 0 else -1.0
            own = [n for n in part.notches if shape.distance(Point(n.x_mm, n.y_mm)) < ON_LINE_MM]
            notches = (*own, *_notches(along, shape, half, sign, split.notches))
            laps = (*part.marks, *_laps(wide[1 - number], both[number], half))
            found.append(Part(split.names[number], shape, notches, laps))
    if not crossed:
        where = tuple(split.points_mm[len(split.points_mm) // 2])
        report.add(
            "SPLIT_MISSES",
            Severity.WARNING,
            said("the line that splits {0} from {1} crosses no backing", *split.names),
            [(float(where[0]), float(where[1]))],
            done="left in one",
            advice="draw the line across the backing, or remove the split",
        )
    return found


def _notches(
    along: LineString | None, shape: BaseGeometry, half: float, sign: float, count: int
) -> Iterator[Notch]:
    """Yield evenly spaced notches on the edge of one part; those of both stand one over the other."""
    if along is None:
        return
    for i in range(count):
        at = along.length * (i + 1) / (count + 1)
        place, heading = _at(along, at)
        into = sign * np.array([-heading[1], heading[0]])
        foot = shapely.shortest_line(Point(place - half * into), shape.boundary)
        if foot.length > max(ON_LINE_MM, half):
            continue
        x, y = foot.coords[-1]
        angle = float(np.degrees(np.arctan2(into[1], into[0])))
        yield Notch(float(x), float(y), angle)


def _laps(other: BaseGeometry, shape: BaseGeometry, half: float) -> list[Mark]:
    """Return on one part the line that the edge of the other lies on when both are assembled."""
    if half == 0.0:
        return []
    edge = other.boundary.intersection(shape)
    lines = [g for g in getattr(edge, "geoms", [edge]) if isinstance(g, LineString) and g.length > half / 2]
    return [Mark(np.asarray(line.coords, dtype=np.float64), "lap") for line in lines]


def _longest(shape: BaseGeometry) -> LineString | None:
    merged = shapely.line_merge(shape) if shape.geom_type == "MultiLineString" else shape
    lines = [g for g in getattr(merged, "geoms", [merged]) if isinstance(g, LineString)]
    return max(lines, key=lambda g: float(g.length), default=None)


def _at(line: LineString, along: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the place at a length along a line, and the heading there."""
    points = np.asarray(line.coords)
    step = np.diff(points, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    ends = np.append(0.0, np.cumsum(length))
    k = int(np.clip(np.searchsorted(ends, along, side="right") - 1, 0, len(step) - 1))
    heading = step[k] / length[k]
    return points[k] + (along - ends[k]) * heading, heading
