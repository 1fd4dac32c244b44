"""What the derivation of one backing reports: findings, and where the notches come to lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.backing.bands import Joints
from geometry.backing.edges import edge_points
from geometry.backing.knife import TakenOff
from geometry.backing.offset import as_shape
from geometry.findings import Finding, Severity
from geometry.outline import Outline
from geometry.piece import Mark, Notch, UpperPiece
from geometry.said import said

Setbacks = tuple[tuple[float, ...], ...]


class Report:
    """Gathers the findings of one piece."""

    def __init__(self, upper: UpperPiece) -> None:
        self.upper = upper
        self.findings: list[Finding] = []
        self.changes: list[Mark] = []

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
                said("sharp corners cut square at the setback's distance: {0}", len(joints.bevelled)),
                joints.bevelled,
                advice="look at the corner; a larger mitre limit keeps it pointed",
            )
        if joints.stepped:
            self.add(
                "SETBACK_STEP",
                Severity.NOTE,
                said("places where the setback changes on a smooth stretch: {0}", len(joints.stepped)),
                joints.stepped,
                done="stepped square to the edge",
                advice="move the break point to a corner, or let the setback run along an edge",
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
                said("edges shorter than their setback: {0}", len(where)),
                where,
                advice="look at the backing there; join the edge with its neighbour unless it is an edge",
            )

    def tapers(self, setbacks: Setbacks, ends: Setbacks) -> None:
        """Report setbacks that change along their edge faster than one in STEEP_TAPER."""
        where = []
        for r, ring in enumerate(setbacks):
            for k, (first, last) in enumerate(zip(ring, ends[r], strict=True)):
                points = edge_points(self.upper.outline, self.upper.edging, r, k)
                length = float(np.hypot(*np.diff(points, axis=0).T).sum())
                if abs(last - first) > tolerances.STEEP_TAPER * length:
                    where.append(tuple(points[len(points) // 2]))
        if where:
            self.add(
                "STEEP_TAPER",
                Severity.WARNING,
                said("setbacks that change along a short edge as if there were a corner: {0}", len(where)),
                where,
                done="taken as given",
                advice="break the edge, or bring the two values nearer to each other",
            )

    def cuts(self, code: str, found: Sequence[TakenOff], why: str) -> None:
        if found:
            self.add(
                code,
                Severity.NOTE,
                said(
                    "{0}: places {1}, total {2} mm2",
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
            place = onto(notch, lines, reach) if lines is not None else None
            if place is None:
                dropped.append((notch.x_mm, notch.y_mm))
            else:
                moved.append(replace(notch, x_mm=place[0], y_mm=place[1]))
        if dropped and outlines and not partial:
            self.add(
                "NOTCH_DROPPED",
                Severity.NOTE,
                said("notches of the upper without backing behind them: {0}", len(dropped)),
                dropped,
                done="left out on the backing",
            )
        return tuple(moved)


def onto(notch: Notch, lines: BaseGeometry, reach: float) -> tuple[float, float] | None:
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
