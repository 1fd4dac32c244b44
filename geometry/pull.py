"""The pull axis of a piece: proposed from the drawing, confirmed by a person."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry import tolerances
from geometry.findings import Finding, Severity
from geometry.outline import Outline
from geometry.piece import DrawnPiece, PullAxis, UpperPiece
from geometry.said import said


def undirected_deg(angle_deg: float) -> float:
    """Return the angle of an undirected line in (-90, 90]."""
    turned = angle_deg % 180.0
    return turned - 180.0 if turned > 90.0 else turned


def axis_between_deg(a_deg: float, b_deg: float) -> float:
    """Return the angle between two undirected lines, in [0, 90]."""
    return abs(undirected_deg(a_deg - b_deg))


def propose_axis(drawn: DrawnPiece) -> PullAxis:
    """Propose the heel-to-toe axis of a piece: never confirmed.

    In this order: the grain line of the file; the one axis of symmetry of the outline (a vamp
    is pulled along it); the longest direction, the long side of the smallest rectangle round
    the piece. The last two are common practice, no source.
    """
    if drawn.pull_axis is not None:
        return replace(drawn.pull_axis, confirmed=False)
    symmetry = symmetry_axis_deg(drawn.outline)
    if symmetry is not None:
        return PullAxis(symmetry, "symmetry")
    return PullAxis(longest_direction_deg(drawn.outline), "longest direction")


def symmetry_axis_deg(outline: Outline) -> float | None:
    """Return the direction of the outline's axis of symmetry, None unless it has exactly one.

    An axis of symmetry goes through the centroid along a principal axis of area (a property of
    every plane figure); both are tried by folding the piece over. The fold may miss by
    SYMMETRY_SHARE of the area, which is what hand drawing leaves.
    """
    polygon = outline.polygon
    centre = np.array(polygon.centroid.coords[0])
    found = []
    for axis_deg in _principal_deg(outline, centre):
        away = np.radians(2.0 * axis_deg)
        fold = np.array([[np.cos(away), np.sin(away)], [np.sin(away), -np.cos(away)]])
        image = shapely.transform(polygon, lambda p, m=fold: (p - centre) @ m.T + centre)
        missed = shapely.make_valid(image).symmetric_difference(shapely.make_valid(polygon)).area
        if missed < tolerances.SYMMETRY_SHARE * polygon.area:
            found.append(axis_deg)
    return undirected_deg(round(found[0], 6)) if len(found) == 1 else None


def longest_direction_deg(outline: Outline) -> float:
    """Return the direction of the long side of the smallest rectangle round an outline."""
    box = np.asarray(outline.polygon.minimum_rotated_rectangle.exterior.coords)
    sides = np.diff(box, axis=0)
    long = sides[int(np.hypot(*sides.T).argmax())]
    return undirected_deg(round(float(np.degrees(np.arctan2(long[1], long[0]))), 6))


def axis_deviations(pieces: Sequence[UpperPiece], limit_deg: float) -> tuple[Finding, ...]:
    """Flag pieces drawn in assembled position whose axis leaves the common one.

    The common axis is the one with the smallest sum of angles to all others (a median, so that
    one stray piece does not shift it). Fewer than two pieces have nothing to compare.
    """
    if len(pieces) < 2:
        return ()
    axes = [piece.pull_axis.axis_deg for piece in pieces]
    common = min(axes, key=lambda a: (sum(axis_between_deg(a, b) for b in axes), abs(a)))
    findings = []
    for piece in pieces:
        off = axis_between_deg(piece.pull_axis.axis_deg, common)
        if off > limit_deg + 1e-9:
            findings.append(
                Finding(
                    code="AXIS_DEVIATES",
                    severity=Severity.WARNING,
                    message=said(
                        "pull axis {0} deg is {1} deg off the common axis of the assembled pieces ({2} deg)",
                        f"{piece.pull_axis.axis_deg:.1f}",
                        f"{off:.1f}",
                        f"{common:.1f}",
                    ),
                    advice="turn the axis onto the common one, or confirm that this one is pulled otherwise",
                    piece=piece.name,
                    size=piece.size,
                    where_mm=(_centre(piece.outline),),
                )
            )
    return tuple(findings)


def _principal_deg(outline: Outline, centre: NDArray[np.float64]) -> tuple[float, float]:
    """Return the two principal directions of area (second moments of triangles about the centroid)."""
    moments = np.zeros((2, 2))
    for ring in outline.rings_mm:
        a = ring - centre
        b = np.roll(a, -1, axis=0)
        double = a[:, 0] * b[:, 1] - b[:, 0] * a[:, 1]
        outer = np.einsum("ni,nj->nij", a, a) + np.einsum("ni,nj->nij", b, b)
        cross = np.einsum("ni,nj->nij", a, b)
        moments += np.einsum("n,nij->ij", double, 2 * outer + cross + cross.transpose(0, 2, 1)) / 24.0
    _, vectors = np.linalg.eigh(moments)
    minor, major = (float(np.degrees(np.arctan2(v[1], v[0]))) for v in vectors.T)
    return major, minor


def _centre(outline: Outline) -> tuple[float, float]:
    point = outline.polygon.centroid
    return float(point.x), float(point.y)
