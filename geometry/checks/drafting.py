"""The mistakes that can be seen on the drawing board, each with its remedy.

They are common practice, no source, unless a check names one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
import shapely
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from geometry import tolerances
from geometry.backing.edges import edge_points
from geometry.backing.house_rules import DraftRules
from geometry.backing.offset import as_shape
from geometry.edge_kinds import EdgeKind
from geometry.findings import Finding, Severity
from geometry.piece import BackingPiece, Edge, UpperPiece
from geometry.said import said
from geometry.sizing.grading import edge_allowances_mm, net_outline

_FLUSH = {EdgeKind.SKIVED, EdgeKind.CENTRE}  # the backing belongs on these edges


def check(upper: UpperPiece, backing: BackingPiece, rules: DraftRules) -> tuple[Finding, ...]:
    """Return what a careful pattern maker would question about one piece and its backing.

    Findings of the derivation itself (vanished, split, slivers...) stand in ``backing.findings``
    and are not repeated. Codes: BACKING_STALE, KIND_UNCONFIRMED, AXIS_UNCONFIRMED,
    BACKING_TO_CUT_EDGE, BACKING_PAST_EDGE, ENDS_IN_FOLD, ON_FEATHER_LINE, FEATHER_UNKNOWN,
    NOT_CAUGHT_BY_STITCH, HARD_EDGE, BACKING_LARGER.
    """
    checks: tuple[Callable[[UpperPiece, BackingPiece, DraftRules], Iterator[Finding]], ...] = (
        _stale,
        _unconfirmed,
        _at_cut_edge,
        _in_fold,
        _feather_line,
        _stitch,
        _hard_edge,
        _larger,
    )
    return tuple(finding for one in checks for finding in one(upper, backing, rules))


def _stale(upper: UpperPiece, backing: BackingPiece, rules: DraftRules) -> Iterator[Finding]:
    same = backing.upper.outline == upper.outline and backing.upper.edging == upper.edging
    if not same:
        yield _finding(
            upper,
            "BACKING_STALE",
            Severity.ERROR,
            "the upper was changed after its backing was derived",
            "derive the backing again",
        )


def _unconfirmed(upper: UpperPiece, backing: BackingPiece, rules: DraftRules) -> Iterator[Finding]:
    open_edges = [(r, k) for r, k, edge in _edges(upper) if not edge.confirmed]
    if open_edges:
        yield _finding(
            upper,
            "KIND_UNCONFIRMED",
            Severity.QUESTION,
            said("edge kinds that are only suggestions: {0}", len(open_edges)),
            "choose the kind of each edge, and confirm it",
            [_edge_middle(upper, r, k) for r, k in open_edges],
        )
    if not upper.pull_axis.confirmed:
        yield _finding(
            upper,
            "AXIS_UNCONFIRMED",
            Severity.QUESTION,
            said(
                "the pull axis ({0} deg) is a proposal from the {1}",
                f"{upper.pull_axis.axis_deg:.1f}",
                upper.pull_axis.source,
            ),
            "compare it with the lasting pull, heel to toe, and confirm",
        )


def _at_cut_edge(upper: UpperPiece, backing: BackingPiece, rules: DraftRules) -> Iterator[Finding]:
    boundary = _boundary(backing)
    flush, past = [], []
    for r, k, edge in _edges(upper):
        setback = min(backing.setbacks_mm[r][k], backing.end_setbacks_mm[r][k])
        line = LineString(edge_points(upper.outline, upper.edging, r, k))
        if setback < 0.0:
            past.append(_edge_middle(upper, r, k))
        elif setback < tolerances.CUT_EDGE_MM and edge.kind not in _FLUSH and not _punched(upper, r):
            reached = boundary.intersection(line.buffer(tolerances.CUT_EDGE_MM, cap_style="flat"))
            if reached.length > 1.0:
                flush.append(_edge_middle(upper, r, k))
    if flush:
        yield _finding(
            upper,
            "BACKING_TO_CUT_EDGE",
            Severity.WARNING,
            said("edges on which the backing reaches the cut edge: {0}", len(flush)),
            "set it back: glue comes out on the press, folds get bulky, the cloth shows at a raw edge "
            "(garment interlinings: 3-4 mm, Vilumsone-Nemes p. 192)",
            flush,
        )
    if past:
        yield _finding(
            upper,
            "BACKING_PAST_EDGE",
            Severity.WARNING,
            said("edges on which the backing runs past the upper: {0}", len(past)),
            "only for work trimmed after fusing; cover the press so that no glue gets on it",
            past,
        )


def _in_fold(upper: UpperPiece, backing: BackingPiece, rules: DraftRules) -> Iterator[Finding]:
    allowances = edge_allowances_mm(upper.edging, rules)
    for r, k, edge in _edges(upper):
        inside = allowances[r][k] - backing.setbacks_mm[r][k]
        if edge.kind is EdgeKind.FOLDED and 0.0 < inside < 5.0:
            yield _finding(
                upper,
                "ENDS_IN_FOLD",
                Severity.WARNING,
                said("the backing ends {0} mm inside the turned part of a fold", f"{inside:.1f}"),
                "end it 0.5-1 mm before the fold line, or 5-6 mm past it to strengthen the fold",
                [_edge_middle(upper, r, k)],
            )


def _feather_line(upper: UpperPiece, backing: BackingPiece, rules: DraftRules) -> Iterator[Finding]:
    allowances = edge_allowances_mm(upper.edging, rules)
    boundary = _boundary(backing)
    net = None
    for r, k, edge in _edges(upper):
        if edge.kind is not EdgeKind.LASTING:
            continue
        if allowances[r][k] <= 0.0:
            yield _finding(
                upper,
                "FEATHER_UNKNOWN",
                Severity.QUESTION,
                "a lasting edge has no lasting allowance, so the feather line is not known",
                "enter the lasting allowance",
                [_edge_middle(upper, r, k)],
            )
            continue
        net = net or net_outline(upper, rules)
        feather = LineString(edge_points(net, upper.edging, r, k))
        close = boundary.intersection(feather.buffer(tolerances.FEATHER_CLEAR_MM, cap_style="flat"))
        lines = [g for g in lines_of(close) if g.length > tolerances.RIDGE_LENGTH_MM]
        if lines:
            yield _finding(
                upper,
                "ON_FEATHER_LINE",
                Severity.WARNING,
                said(
                    "the backing ends on the feather line for {0} mm", f"{sum(g.length for g in lines):.0f}"
                ),
                "end it 3-5 mm before the feather line, or 5-8 mm past it so that lasting holds it",
                [middle_of(g) for g in lines],
            )


def _stitch(upper: UpperPiece, backing: BackingPiece, rules: DraftRules) -> Iterator[Finding]:
    loose = [
        (r, k) for r, k, e in _edges(upper) if e.kind is EdgeKind.OVERLAY and backing.setbacks_mm[r][k] > 1.0
    ]
    if loose:
        yield _finding(
            upper,
            "NOT_CAUGHT_BY_STITCH",
            Severity.NOTE,
            said(
                "overlapping edges on which the backing ends inside a stitch 1.5-2 mm from the edge: {0}",
                len(loose),
            ),
            "set it back 1 mm at most if the stitch is to catch it",
            [_edge_middle(upper, r, k) for r, k in loose],
        )


def _hard_edge(upper: UpperPiece, backing: BackingPiece, rules: DraftRules) -> Iterator[Finding]:
    """A backing cut across the piece ends where no edge of the upper hides it."""
    reach = max(
        max((abs(s) for ring in (*backing.setbacks_mm, *backing.end_setbacks_mm) for s in ring), default=0.0),
        1.0,
    )
    edge = upper.outline.polygon.boundary
    near = edge.buffer(2.0 * reach)  # beyond any setback and all but the sharpest mitres
    across = [
        g for g in lines_of(_boundary(backing).difference(near)) if g.length > tolerances.RIDGE_LENGTH_MM
    ]
    if across:
        yield _finding(
            upper,
            "HARD_EDGE",
            Severity.NOTE,
            said("the backing ends within the piece for {0} mm", f"{sum(g.length for g in across):.0f}"),
            "on thin or smooth leather pink this edge, or lay it under a seam or another piece",
            [middle_of(g) for g in across],
        )


def _larger(upper: UpperPiece, backing: BackingPiece, rules: DraftRules) -> Iterator[Finding]:
    if backing.joined:
        return  # it backs more than its own upper
    if (
        shapely.union_all([o.polygon for o in backing.outlines]).area
        > upper.outline.area_mm2 + tolerances.CRUMB_MM2
    ):
        yield _finding(
            upper,
            "BACKING_LARGER",
            Severity.WARNING,
            said(
                "the backing ({0} mm2) is larger than its upper ({1} mm2)",
                f"{backing.area_mm2:.0f}",
                f"{upper.outline.area_mm2:.0f}",
            ),
            "check the negative setbacks",
        )


def _edges(upper: UpperPiece) -> Iterator[tuple[int, int, Edge]]:
    for r, ring in enumerate(upper.edging.edges):
        for k, edge in enumerate(ring):
            yield r, k, edge


def _punched(upper: UpperPiece, r: int) -> bool:
    ring = upper.outline.rings_mm[r]
    return r > 0 and float((ring.max(axis=0) - ring.min(axis=0)).max()) <= tolerances.PUNCHED_MM


def _boundary(backing: BackingPiece) -> BaseGeometry:
    return as_shape([o.polygon for o in backing.outlines]).boundary if backing.outlines else LineString()


def lines_of(shape: BaseGeometry) -> list[LineString]:
    """Return the stretches of line in a shape, joined where they meet."""
    merged = shapely.line_merge(shape) if not isinstance(shape, LineString) else shape
    return [g for g in getattr(merged, "geoms", [merged]) if isinstance(g, LineString)]


def middle_of(line: LineString) -> tuple[float, float]:
    """Return the point half way along a line."""
    point = line.interpolate(0.5, normalized=True)
    return float(point.x), float(point.y)


def _edge_middle(upper: UpperPiece, r: int, k: int) -> tuple[float, float]:
    return middle_of(LineString(edge_points(upper.outline, upper.edging, r, k)))


def _finding(
    upper: UpperPiece,
    code: str,
    severity: Severity,
    message: str,
    advice: str,
    where: Sequence[tuple[float, float]] = (),
) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        message=message,
        advice=advice,
        piece=upper.name,
        size=upper.size,
        where_mm=tuple((float(np.round(x, 6)), float(np.round(y, 6))) for x, y in where),
    )
