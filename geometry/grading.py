"""Restricted grading: allowances off, net outline scaled, the same allowances on again.

The affine grade acts on the *net* outline, along and across the pull axis. Allowances (lasting
margin, folds, underlays, seams) keep their width in every size, punched holes their size.
Vertices keep their numbers, so the edging carries over as it is.

Each vertex of the cut outline is its net vertex plus a displacement that depends only on the
headings of its two segments and the allowances of their edges; parallel segments stay parallel
through both steps, which is what makes allowances exact and the grade reversible.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from geometry import tolerances
from geometry.edges import check_edging
from geometry.errors import SizeError
from geometry.house_rules import DraftRules
from geometry.outline import Outline, Ring, rotation
from geometry.piece import Edging, Mark, Notch, UpperPiece

Array = NDArray[np.float64]


def edge_allowances_mm(edging: Edging, rules: DraftRules) -> tuple[tuple[float, ...], ...]:
    """Return the allowance of every edge: its own, else the house rule of its kind."""
    return tuple(
        tuple(
            rules.edge_rules[e.kind].allowance_mm if e.allowance_mm is None else e.allowance_mm for e in ring
        )
        for ring in edging.edges
    )


def net_outline(upper: UpperPiece, rules: DraftRules) -> Outline:
    """Return the outline without its allowances, vertex for vertex.

    The net outline of a lasting edge is its feather line. Where an allowance is wider than a
    hollow curve's radius the net outline crosses itself; it is a line to grade by, not a piece.
    """
    check_edging(upper.outline, upper.edging, upper.name)
    rings = [
        ring + _displacement(ring, widths)
        for ring, widths in zip(upper.outline.rings_mm, _widths(upper, rules), strict=True)
    ]
    return Outline(_frozen(rings[0]), tuple(_frozen(r) for r in rings[1:]))


def grade_piece(
    upper: UpperPiece,
    rules: DraftRules,
    factors: tuple[float, float],
    *,
    size: str | None = None,
    about_mm: tuple[float, float] | None = None,
) -> UpperPiece:
    """Return the piece graded by ``factors`` = (along, across) its pull axis.

    ``about_mm`` is the point that stays where it is: the middle of the net outline unless given
    (pieces drawn assembled need a common one). ``size`` names the new size. Raises SizeError
    when a factor is not positive.
    """
    along, across = factors
    if not (np.isfinite(along) and np.isfinite(across) and along > 0.0 and across > 0.0):
        raise SizeError(f"cannot grade by {along:g} x {across:g}", remedy="check the sizes", piece=upper.name)
    net = net_outline(upper, rules)
    turn = rotation(upper.pull_axis.axis_deg)
    scale = turn @ np.diag([along, across]) @ turn.T
    if about_mm is None:
        inside = net.ring_mm @ turn  # coordinates along and across the axis
        centre = (inside.min(axis=0) + inside.max(axis=0)) / 2.0 @ turn.T
    else:
        centre = np.array(about_mm, dtype=np.float64)

    def grown(points: Array) -> Array:
        moved: Array = (points - centre) @ scale.T + centre
        return moved

    rings = []
    for r, (ring, widths) in enumerate(zip(upper.outline.rings_mm, _widths(upper, rules), strict=True)):
        if r > 0 and float((ring.max(axis=0) - ring.min(axis=0)).max()) <= tolerances.PUNCHED_MM:
            middle = (ring.min(axis=0) + ring.max(axis=0)) / 2.0
            rings.append(ring + grown(middle[None])[0] - middle)
            continue
        graded = grown(net.rings_mm[r]) - _displacement(ring, widths, scale)
        heading = (np.roll(ring, -1, axis=0) - ring) @ scale.T
        rings.append(_in_order(graded, upper.edging.breaks[r], heading))
    outline = Outline(_frozen(rings[0]), tuple(_frozen(r) for r in rings[1:]))
    return replace(
        upper,
        size=upper.size if size is None else size,
        outline=outline,
        notches=tuple(_carried(n, upper.outline, outline) for n in upper.notches),
        marks=tuple(Mark(_frozen(grown(m.points_mm)), m.kind, m.closed) for m in upper.marks),
        drill_holes=tuple(
            replace(d, x_mm=float(x), y_mm=float(y))
            for d, (x, y) in ((d, grown(np.array([d.x_mm, d.y_mm]))) for d in upper.drill_holes)
        ),
    )


def _widths(upper: UpperPiece, rules: DraftRules) -> list[Array]:
    """Return the allowance of every segment of every ring (segment i starts at vertex i)."""
    widths = []
    allowances = edge_allowances_mm(upper.edging, rules)
    for ring, breaks, values in zip(upper.outline.rings_mm, upper.edging.breaks, allowances, strict=True):
        edge_of = np.searchsorted(breaks, np.arange(len(ring)), side="right") - 1
        widths.append(np.array(values)[edge_of])  # -1: before the first break lies the last edge
    return widths


def _displacement(ring: Ring, widths: Array, scale: Array | None = None) -> Array:
    """Return what leads from every vertex inwards to its net vertex, (n, 2).

    ``scale`` turns the segments' headings first (the grade). Normally the two offset lines at a
    vertex meet; where neighbouring edges of different allowance run on smoothly they do not,
    and the vertex goes straight in by the wider allowance while the narrower edge's first
    segment makes the transition and gives no heading to its other end.
    """
    step = np.roll(ring, -1, axis=0) - ring
    length = np.hypot(step[:, 0], step[:, 1])
    for i in np.flatnonzero(length <= tolerances.SAME_POINT_MM):
        step[i] = step[i - 1]  # a doubled vertex goes where its twin goes
    if scale is not None:
        step = step @ scale.T
    normal = np.stack([-step[:, 1], step[:, 0]], axis=1) / np.hypot(step[:, 0], step[:, 1])[:, None]
    before, wide_before = np.roll(normal, 1, axis=0), np.roll(widths, 1)
    cosine = np.einsum("ij,ij->i", before, normal)
    sine = before[:, 0] * normal[:, 1] - before[:, 1] * normal[:, 0]
    out = np.zeros_like(step)
    jump = widths != wide_before
    even = ~jump
    mitre = (before + normal) / np.maximum(1.0 + cosine, 0.05)[:, None]
    out[even] = (mitre * widths[:, None])[even]
    reach = np.hypot(step[:, 0], step[:, 1])
    reach = np.minimum(reach, np.roll(reach, 1))
    n = len(step)
    for i in np.flatnonzero(jump):
        # p . before = wide_before and p . normal = widths: where the two offset lines meet
        along = (widths[i] - wide_before[i] * cosine[i]) / sine[i] if abs(sine[i]) > 1e-9 else np.inf
        heading = np.array([before[i, 1], -before[i, 0]])
        corner = abs(sine[i]) > _CORNER_SINE or cosine[i] < 0.0
        if corner or 0.25 * abs(widths[i] - wide_before[i]) < reach[i] * abs(sine[i]):
            out[i] = wide_before[i] * before[i] + -along * heading
        elif abs(wide_before[i]) > abs(widths[i]):
            out[i] = wide_before[i] * before[i]
            after = (i + 1) % n
            if not jump[after]:
                out[after] = widths[after] * normal[after]
        else:
            out[i] = widths[i] * normal[i]
            ahead = (i - 1) % n
            if not jump[ahead]:
                out[ahead] = wide_before[ahead] * before[ahead]
    return out


_CORNER_SINE = float(np.sin(np.radians(tolerances.CORNER_DEG)))


def _in_order(ring: Array, breaks: tuple[int, ...], heading: Array) -> Array:
    """Return a graded ring whose vertices next to a corner do not lie behind it.

    A vertex nearer to a corner than the allowance that crosses its edge there can be overtaken
    by the corner; it then goes into the corner. ``heading`` is that of every segment.
    """
    ring, n = ring.copy(), len(ring)
    for b in breaks:
        for way in (1, -1):
            along = heading[b] if way == 1 else -heading[b - 1]
            i = (b + way) % n
            while i not in breaks and float((ring[i] - ring[b]) @ along) <= 0.0:
                ring[i] = ring[b]
                i = (i + way) % n
    return ring


def _carried(notch: Notch, base: Outline, graded: Outline) -> Notch:
    """Return a notch at the same place of the same segment of the graded outline."""
    point = np.array([notch.x_mm, notch.y_mm])
    best = (np.inf, 0, 0, 0.0)
    for r, ring in enumerate(base.rings_mm):
        step = np.roll(ring, -1, axis=0) - ring
        t = np.clip(
            np.einsum("ij,ij->i", point - ring, step) / np.maximum(np.einsum("ij,ij->i", step, step), 1e-300),
            0.0,
            1.0,
        )
        away = np.hypot(*(ring + t[:, None] * step - point).T)
        i = int(away.argmin())
        best = min(best, (float(away[i]), r, i, float(t[i])))
    _, r, i, share = best
    (a, step), (new_a, new_step) = (_segment(o.rings_mm[r], i) for o in (base, graded))
    turn = float(np.degrees(np.arctan2(new_step[1], new_step[0]) - np.arctan2(step[1], step[0])))
    off = rotation(turn) @ (point - a - share * step)
    x, y = new_a + share * new_step + off
    return replace(notch, x_mm=float(x), y_mm=float(y), angle_deg=notch.angle_deg + turn)


def _segment(ring: Ring, i: int) -> tuple[Array, Array]:
    return ring[i], ring[(i + 1) % len(ring)] - ring[i]


def _frozen(points: Array) -> Ring:
    points = np.array(points, dtype=np.float64)
    points.flags.writeable = False
    return points
