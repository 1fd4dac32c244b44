"""Mistakes that show only when several pieces, sizes or hands are looked at together.

They are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise

import numpy as np
import shapely

from geometry import tolerances
from geometry.backing.edges import edge_points, even_distance
from geometry.backing.offset import as_shape
from geometry.checks.drafting import lines_of, middle_of
from geometry.findings import Finding, Severity
from geometry.outline import Outline
from geometry.piece import BackingPiece, DrawnPiece, UpperPiece
from geometry.said import said


def check_assembled(backings: Sequence[BackingPiece]) -> tuple[Finding, ...]:
    """Return where edges of two backings lie one above the other, for pieces drawn assembled.

    Two thicknesses that end on one line show through the upper; RIDGE_APART_MM keeps them
    apart. Pieces must be of one hand and size, in the frame of the assembled upper.
    """
    findings = []
    for a, b in combinations([x for x in backings if x.outlines], 2):
        shape_a, shape_b = (as_shape([o.polygon for o in x.outlines]) for x in (a, b))
        if a.upper.name == b.upper.name and a.layer == b.layer:
            continue
        over = a.upper.outline.polygon.intersection(b.upper.outline.polygon)
        if over.area < tolerances.CRUMB_MM2:
            continue
        near = shape_b.boundary.buffer(tolerances.RIDGE_APART_MM)
        ridge = shape_a.boundary.intersection(near).intersection(over)
        lines = [g for g in lines_of(ridge) if g.length > tolerances.RIDGE_LENGTH_MM]
        if lines:
            findings.append(
                Finding(
                    code="EDGES_STACKED",
                    severity=Severity.WARNING,
                    message=said(
                        "the backing's edge lies over that of {0} for {1} mm",
                        b.upper.name,
                        f"{sum(g.length for g in lines):.0f}",
                    ),
                    advice=said(
                        "set one of them back {0} mm or more further, or pink its edge: two edges on "
                        "one line show as a ridge",
                        f"{tolerances.RIDGE_APART_MM:g}",
                    ),
                    piece=a.upper.name,
                    size=a.upper.size,
                    where_mm=tuple(middle_of(g) for g in lines),
                )
            )
    return tuple(findings)


def check_sizes(uppers: Sequence[UpperPiece]) -> tuple[Finding, ...]:
    """Return what looks wrong in the drawn sizes of one piece, given from small to large.

    SIZES_OUT_OF_ORDER: a larger size has the smaller area. ALLOWANCE_GRADED: a sew line stands
    at another distance from its edge than in the size before.
    """
    findings = []
    for smaller, larger in pairwise(uppers):
        if larger.outline.area_mm2 < smaller.outline.area_mm2:
            findings.append(
                Finding(
                    code="SIZES_OUT_OF_ORDER",
                    severity=Severity.WARNING,
                    message=said(
                        "size {0} ({1} mm2) is smaller than size {2} ({3} mm2)",
                        larger.size,
                        f"{larger.outline.area_mm2:.0f}",
                        smaller.size,
                        f"{smaller.outline.area_mm2:.0f}",
                    ),
                    advice="check the size names in the drawing",
                    piece=larger.name,
                    size=larger.size,
                )
            )
        before, after = (_sewn_mm(u) for u in (smaller, larger))
        changed = [e for e in before.keys() & after.keys() if abs(before[e] - after[e]) > tolerances.SEW_MM]
        if changed:
            r, k = min(changed)
            findings.append(
                Finding(
                    code="ALLOWANCE_GRADED",
                    severity=Severity.WARNING,
                    message=said(
                        "a seam allowance of {0} mm in size {1} is {2} mm in size {3}",
                        f"{before[r, k]:.1f}",
                        smaller.size,
                        f"{after[r, k]:.1f}",
                        larger.size,
                    ),
                    advice="allowances are the same in every size: grade the net outline and add them after",
                    piece=larger.name,
                    size=larger.size,
                    where_mm=tuple(
                        middle_of(shapely.LineString(edge_points(larger.outline, larger.edging, *e)))
                        for e in sorted(changed)
                    ),
                )
            )
    return tuple(findings)


def check_hands(left: DrawnPiece, right: DrawnPiece) -> tuple[Finding, ...]:
    """Return what is wrong where both hands of a piece are drawn.

    HANDS_ALIKE: one is a copy of the other, not its mirror image; the glue lies on one side, and a
    left backing turned over is no right one. BOTH_HANDS: they are mirror images, as they should
    be, and either alone would do: the other hand of every piece is made by mirroring. Nothing of
    a piece that is its own mirror image.
    """
    same = _apart(left.outline, right.outline)
    mirrored = min(_apart(turned, right.outline) for turned in _mirrors(left.outline))
    if same < tolerances.SYMMETRY_SHARE and same < mirrored - tolerances.SYMMETRY_SHARE:
        return (
            Finding(
                code="HANDS_ALIKE",
                severity=Severity.ERROR,
                message=said("{0} is drawn as a copy of {1}, not as its mirror image", right.name, left.name),
                advice=(
                    "draw one hand only and let the other be mirrored; "
                    "the glue side does not allow turning over"
                ),
                piece=right.name,
                size=right.size,
            ),
        )
    if mirrored < tolerances.SYMMETRY_SHARE <= same:
        return (
            Finding(
                code="BOTH_HANDS",
                severity=Severity.QUESTION,
                message=said("{0} is the mirror image of {1}: both hands are drawn", right.name, left.name),
                done="both are kept, and each would be cut left and right",
                advice=said("take {0} out of the style: the other hand is made by mirroring", right.name),
                piece=right.name,
                size=right.size,
            ),
        )
    return ()


def _mirrors(outline: Outline) -> tuple[Outline, ...]:
    """The mirror image in the positions in which it is usually drawn: flipped down, or flipped over."""
    image = outline.mirrored()
    return image, image.turned(180.0)


def _apart(a: Outline, b: Outline) -> float:
    """Return the share of area by which two outlines differ when laid centre on centre."""
    there, here = (shapely.make_valid(o.polygon) for o in (a, b))
    shift = np.array(here.centroid.coords[0]) - there.centroid.coords[0]
    moved = shapely.transform(there, lambda p: p + shift)
    return float(moved.symmetric_difference(here).area / here.area)


def _sewn_mm(upper: UpperPiece) -> dict[tuple[int, int], float]:
    """Return the distance of the sew line from every edge that has one."""
    found = {}
    for r, ring in enumerate(upper.edging.edges):
        for k in range(len(ring)):
            points = edge_points(upper.outline, upper.edging, r, k)
            for mark in upper.marks:
                if mark.kind == "sew" and len(mark.points_mm) > 1:
                    distance = even_distance(points, mark.points_mm)
                    if distance is not None:
                        found[r, k] = distance
    return found
