"""Restricted grading: allowances off, net outline scaled, the same allowances on again.

The affine grade acts on the *net* outline, along and across the pull axis. Allowances (lasting
margin, folds, underlays, seams) keep their width in every size, punched holes their size.
Vertices keep their numbers, so the edging carries over as it is.

Each vertex of the cut outline is its net vertex plus a displacement that depends only on the
headings of its two segments and the allowances of their edges; parallel segments stay parallel
through both steps, which is what makes allowances exact and the grade reversible (but for
vertices that a large grade would carry past a corner, see ``_in_order``).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry import tolerances
from geometry.backing.edges import check_edging
from geometry.backing.house_rules import DraftRules
from geometry.errors import SizeError
from geometry.outline import Outline, Ring, rotation
from geometry.piece import Edging, Mark, Notch, UpperPiece
from geometry.said import said

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
        _net_ring(ring.tobytes(), widths.astype(np.float64).tobytes())
        for ring, widths in zip(upper.outline.rings_mm, _widths(upper, rules), strict=True)
    ]
    return Outline(rings[0], tuple(rings[1:]))


@lru_cache(maxsize=256)
def _net_ring(points: bytes, allowances: bytes) -> Ring:
    """Return a ring less its allowances; a drag of a setback asks for the same one each time."""
    ring, widths = np.frombuffer(points).reshape(-1, 2), np.frombuffer(allowances)
    return _frozen(ring + _displacement(ring, widths, _stepped(ring, widths).tolist()))


@dataclass(frozen=True, eq=False)
class Ready:
    """What of a piece's grade is the same for every size: its net outline, and what is found on its rings."""

    net: Outline
    widths: tuple[Array, ...]
    stepped: tuple[tuple[int, ...], ...]
    notches: tuple[tuple[int, int, float], ...]


def ready_to_grade(upper: UpperPiece, rules: DraftRules) -> Ready:
    """Return what ``grade_piece`` needs of a piece in every size, found once."""
    widths = tuple(_widths(upper, rules))
    rings = upper.outline.rings_mm
    return Ready(
        net_outline(upper, rules),
        widths,
        tuple(tuple(_stepped(ring, wide).tolist()) for ring, wide in zip(rings, widths, strict=True)),
        tuple(_place(notch, upper.outline) for notch in upper.notches),
    )


@dataclass(frozen=True, eq=False)
class Frame:
    """Where a point of the base size's frame lies in another size: scaled about a centre that stays."""

    scale: Array
    centre_mm: Array

    def __call__(self, points: Array) -> Array:
        moved: Array = (points - self.centre_mm) @ self.scale.T + self.centre_mm
        return moved


def grade_frame(upper: UpperPiece, rules: DraftRules, factors: tuple[float, float]) -> Frame:
    """Return the frame by which ``grade_piece`` scales the net outline and the marks."""
    return _frame(upper, net_outline(upper, rules), factors, None)


def _frame(
    upper: UpperPiece, net: Outline, factors: tuple[float, float], about_mm: tuple[float, float] | None
) -> Frame:
    along, across = factors
    if not (np.isfinite(along) and np.isfinite(across) and along > 0.0 and across > 0.0):
        raise SizeError(
            said("cannot grade by {0} x {1}", f"{along:g}", f"{across:g}"),
            remedy="check the sizes",
            piece=upper.name,
        )
    turn = rotation(upper.pull_axis.axis_deg)
    scale = turn @ np.diag([along, across]) @ turn.T
    if about_mm is None:
        inside = net.ring_mm @ turn  # coordinates along and across the axis
        return Frame(scale, (inside.min(axis=0) + inside.max(axis=0)) / 2.0 @ turn.T)
    return Frame(scale, np.array(about_mm, dtype=np.float64))


def grade_piece(
    upper: UpperPiece,
    rules: DraftRules,
    factors: tuple[float, float],
    *,
    size: str | None = None,
    about_mm: tuple[float, float] | None = None,
    ready: Ready | None = None,
) -> UpperPiece:
    """Return the piece graded by ``factors`` = (along, across) its pull axis.

    ``about_mm`` is the point that stays where it is: the middle of the net outline unless given
    (pieces drawn assembled need a common one). ``size`` names the new size; ``ready`` is what
    ``ready_to_grade`` gave for this very piece, where many sizes are graded. Raises SizeError
    when a factor is not positive or the graded outline crosses itself.
    """
    ready = ready or ready_to_grade(upper, rules)
    net = ready.net
    grown = _frame(upper, net, factors, about_mm)
    scale = grown.scale
    rings = []
    for r, (ring, widths) in enumerate(zip(upper.outline.rings_mm, ready.widths, strict=True)):
        if r > 0 and float((ring.max(axis=0) - ring.min(axis=0)).max()) <= tolerances.PUNCHED_MM:
            middle = (ring.min(axis=0) + ring.max(axis=0)) / 2.0
            rings.append(ring + grown(middle[None])[0] - middle)
            continue
        graded = grown(net.rings_mm[r]) - _displacement(ring, widths, ready.stepped[r], scale)
        graded = _blended(graded, ring, widths, ready.stepped[r], upper.edging.breaks[r], scale)
        rings.append(_in_order(graded, ring, upper.edging.breaks[r], scale))
    outline = Outline(_frozen(rings[0]), tuple(_frozen(r) for r in rings[1:]))
    if upper.outline.polygon.is_valid and not outline.polygon.is_valid:
        raise SizeError(
            said(
                "graded to {0} the outline crosses itself ({1})",
                size or "this size",
                shapely.is_valid_reason(outline.polygon),
            ),
            remedy="check the allowances there, or draw this size",
            piece=upper.name,
        )
    return replace(
        upper,
        size=upper.size if size is None else size,
        outline=outline,
        notches=tuple(
            _carried(n, at, upper.outline, outline)
            for n, at in zip(upper.notches, ready.notches, strict=True)
        ),
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


def _displacement(ring: Ring, widths: Array, stepped: Sequence[int], scale: Array | None = None) -> Array:
    """Return what leads from every vertex inwards to its net vertex, (n, 2).

    ``scale`` turns the segments' headings first (the grade). Normally the two offset lines at a
    vertex meet; where neighbouring edges of different allowance run on smoothly they do not,
    and the vertex goes straight in by the wider allowance.
    """
    before, normal, wide_before = _sides(ring, widths, scale)
    cosine, sine = _turns(before, normal)
    mitre = (before + normal) / np.maximum(1.0 + cosine, 0.05)[:, None]
    out: Array = mitre * widths[:, None]
    for i in np.flatnonzero(widths != wide_before).tolist():
        if i in stepped:
            first = abs(wide_before[i]) > abs(widths[i])
            out[i] = wide_before[i] * before[i] if first else widths[i] * normal[i]
            continue
        # p . before = wide_before and p . normal = widths: where the two offset lines meet
        heading = np.array([before[i, 1], -before[i, 0]])
        along = (wide_before[i] * cosine[i] - widths[i]) / sine[i]
        out[i] = wide_before[i] * before[i] + along * heading
    return out


def _sides(ring: Ring, widths: Array, scale: Array | None = None) -> tuple[Array, Array, Array]:
    """Return the inward normals of the segments into and out of every vertex, and the width before."""
    step = _ahead(ring) - ring
    for i in np.flatnonzero(np.hypot(step[:, 0], step[:, 1]) <= tolerances.SAME_POINT_MM):
        step[i] = step[i - 1]  # a doubled vertex goes where its twin goes
    if scale is not None:
        step = step @ scale.T
    normal = np.stack([-step[:, 1], step[:, 0]], axis=1) / np.hypot(step[:, 0], step[:, 1])[:, None]
    return _behind(normal), normal, _behind(widths)


def _turns(before: Array, normal: Array) -> tuple[Array, Array]:
    return np.einsum("ij,ij->i", before, normal), before[:, 0] * normal[:, 1] - before[:, 1] * normal[:, 0]


def _stepped(ring: Ring, widths: Array) -> NDArray[np.int64]:
    """Return the vertices where the allowance changes on a smooth outline, so that the net line steps.

    At a corner the two net lines meet. At a slight turn they meet far off; that serves only
    where the segments are long enough to stay in order through a grade of a quarter.
    """
    before, normal, wide_before = _sides(ring, widths)
    cosine, sine = _turns(before, normal)
    length = np.hypot(*(_ahead(ring) - ring).T)
    shortest = np.minimum(length, _behind(length))
    corner = (np.abs(sine) > np.sin(np.radians(tolerances.SMOOTH_DEG))) | (cosine < 0.0)
    met = corner | (0.25 * np.abs(widths - wide_before) < shortest * np.abs(sine))
    return np.flatnonzero((widths != wide_before) & ~met)


def _blended(
    graded: Array,
    ring: Ring,
    widths: Array,
    stepped: Sequence[int],
    breaks: tuple[int, ...],
    scale: Array,
) -> Array:
    """Return a graded ring without the jogs that a stepped net line would put into the outline.

    Graded, the two sides of such a place no longer meet: the step grew, the allowances did not.
    The wider allowance stays exact; the narrower edge is led over to it within BLEND_LENGTHS
    times the jog.
    """
    if not stepped:
        return graded
    graded, n = graded.copy(), len(ring)
    before, normal, wide_before = _sides(ring, widths)
    new_before, new_normal, _ = _sides(ring, widths, scale)
    for i in stepped:
        ahead = abs(wide_before[i]) > abs(widths[i])  # the narrower edge starts here
        wide, narrow = (wide_before[i], widths[i]) if ahead else (widths[i], wide_before[i])
        old = wide * (before if ahead else normal)[i] - narrow * (normal if ahead else before)[i]
        new = (
            wide * (new_before if ahead else new_normal)[i]
            - narrow * (new_normal if ahead else new_before)[i]
        )
        jog = scale @ old - new
        reach = tolerances.BLEND_LENGTHS * float(np.hypot(*jog))
        way, away, k = (1 if ahead else -1), 0.0, i
        while True:
            after = (k + way) % n
            away += float(np.hypot(*(ring[after] - ring[k])))
            if away >= reach or after in breaks:
                break
            graded[after] += jog * (1.0 - away / reach)
            k = after
    return graded


def _in_order(ring: Array, base: Ring, breaks: tuple[int, ...], scale: Array) -> Array:
    """Return a graded ring whose vertices near a corner are spread as they were in ``base``.

    A vertex nearer to a corner than the allowance that crosses its edge there has its net place
    beyond the net corner, and a large grade would carry it past the corner itself. Such vertices
    are set on the graded line again, at their old share of the way to the next sound vertex.
    """
    ring, n = ring.copy(), len(ring)
    for b in breaks:
        for way in (1, -1):
            near = (b + way) % n
            step = base[near] - base[b]
            along = scale @ step
            along = along / np.hypot(*along)
            if near in breaks or (ring[near] - ring[b]) @ along > 0.3 * np.hypot(*step):
                continue  # as it mostly is
            at = [(b + way * i) % n for i in range(1, n)]
            at = at[: next((i for i, v in enumerate(at) if v in breaks), len(at))]
            away = np.cumsum(np.hypot(*np.diff(base[[b, *at]], axis=0).T))
            sound = (ring[at] - ring[b]) @ along > 0.3 * away
            first = int(sound.argmax())
            if not sound.any():
                continue
            last = min(int(np.searchsorted(away, 2.0 * away[first - 1])), len(at) - 1)
            line = ring[[b, *at[first : last + 1]]]
            length = np.append(0.0, np.cumsum(np.hypot(*np.diff(line, axis=0).T)))
            target = away[:last] / away[last] * length[-1]
            ring[at[:last]] = np.stack([np.interp(target, length, line[:, i]) for i in (0, 1)], axis=1)
    return ring


def _place(notch: Notch, base: Outline) -> tuple[int, int, float]:
    """Return where a notch sits: ring, segment, and the share of it that lies before."""
    point = np.array([notch.x_mm, notch.y_mm])
    best = (np.inf, 0, 0, 0.0)
    for r, ring in enumerate(base.rings_mm):
        step = _ahead(ring) - ring
        t = np.clip(
            np.einsum("ij,ij->i", point - ring, step) / np.maximum(np.einsum("ij,ij->i", step, step), 1e-300),
            0.0,
            1.0,
        )
        away = np.hypot(*(ring + t[:, None] * step - point).T)
        i = int(away.argmin())
        best = min(best, (float(away[i]), r, i, float(t[i])))
    return best[1:]


def _carried(notch: Notch, place: tuple[int, int, float], base: Outline, graded: Outline) -> Notch:
    """Return a notch at the same place of the same segment of the graded outline."""
    point = np.array([notch.x_mm, notch.y_mm])
    r, i, share = place
    (a, step), (new_a, new_step) = (_segment(o.rings_mm[r], i) for o in (base, graded))
    turn = float(np.degrees(np.arctan2(new_step[1], new_step[0]) - np.arctan2(step[1], step[0])))
    off = rotation(turn) @ (point - a - share * step)
    x, y = new_a + share * new_step + off
    return replace(notch, x_mm=float(x), y_mm=float(y), angle_deg=notch.angle_deg + turn)


def _segment(ring: Ring, i: int) -> tuple[Array, Array]:
    return ring[i], ring[(i + 1) % len(ring)] - ring[i]


def _ahead(values: Array) -> Array:
    """Return the value after each, round a ring (``np.roll`` takes ten times as long for rings of shoes)."""
    return np.concatenate([values[1:], values[:1]])


def _behind(values: Array) -> Array:
    """Return the value before each, round a ring."""
    return np.concatenate([values[-1:], values[:-1]])


def _frozen(points: Array) -> Ring:
    points = np.array(points, dtype=np.float64)
    points.flags.writeable = False
    return points
