"""Segments of an outline and the pieces made of them, in mm, y up."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.interpolate import BSpline, make_interp_spline

from geometry.edge_kinds import EdgeKind

Points = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Segment:
    """A smooth stretch of an outline through ``through_mm`` (n, 2): one edge, of one kind.

    ``form``: ``line`` joins the points straight, ``arc`` is the circle through three points,
    ``curve`` a cubic spline through all of them (leaving along ``leave`` and arriving along
    ``arrive`` where these directions are given). ``chords`` fixes how many chords stand for it, so
    that all sizes of a piece have the same vertices.
    """

    kind: EdgeKind
    through_mm: Points
    form: Literal["line", "arc", "curve"] = "curve"
    leave: tuple[float, float] | None = None
    arrive: tuple[float, float] | None = None
    allowance_mm: float = 0.0
    setback_mm: float | None = None
    chords: int | None = None

    def spline(self) -> BSpline:
        """The cubic spline of a ``curve``, over 0..1."""
        p = self.through_mm
        step = np.sqrt(np.hypot(*np.diff(p, axis=0).T))  # centripetal: no loops between near points
        u = np.concatenate([[0.0], np.cumsum(step)]) / step.sum()
        length = float(np.hypot(*np.diff(p, axis=0).T).sum())
        ends = []
        for direction in (self.leave, self.arrive):
            if direction is None:
                ends.append([(2, np.zeros(2))])
            else:
                d = np.asarray(direction) / np.hypot(*direction)
                ends.append([(1, d * length)])
        if len(p) == 3 and self.leave is None and self.arrive is None:
            return make_interp_spline(u, p, k=2)
        return make_interp_spline(u, p, k=3, bc_type=(ends[0], ends[1]))

    def arc(self) -> tuple[Points, float, float, float]:
        """(centre, radius, start angle, sweep) of an ``arc``; radians, sweep positive CCW."""
        a, b, c = self.through_mm
        m = np.array([b - a, c - b])
        centre = np.linalg.solve(m, np.array([(b @ b - a @ a) / 2, (c @ c - b @ b) / 2]))
        start, middle, end = (np.arctan2(*(p - centre)[::-1]) for p in (a, b, c))
        sweep = (end - start) % (2 * np.pi)
        if (middle - start) % (2 * np.pi) > sweep:
            sweep -= 2 * np.pi
        return centre, float(np.hypot(*(a - centre))), float(start), float(sweep)

    def sampled(self, chord_mm: float = 0.05) -> Points:
        """Points on the segment from its first to its last point, within ``chord_mm`` of it."""
        if self.form == "line":
            return self.through_mm
        if self.chords:
            return self.at(np.linspace(0.0, 1.0, self.chords + 1))
        count = 8
        while True:
            fine = self.at(np.linspace(0.0, 1.0, 2 * count + 1))
            off = np.hypot(*(fine[1::2] - (fine[0:-1:2] + fine[2::2]) / 2).T).max()
            if off <= chord_mm:
                return fine[::2]
            count = int(np.ceil(count * max(1.1, (off / chord_mm) ** 0.5)))

    def at(self, u: NDArray[np.float64]) -> Points:
        """Points at parameters 0..1."""
        if self.form == "arc":
            centre, radius, start, sweep = self.arc()
            angle = start + sweep * u
            return centre + radius * np.column_stack([np.cos(angle), np.sin(angle)])
        return np.asarray(self.spline()(u))

    def _outward(self, k: int) -> Points:
        """Unit normal out of the material at control point ``k``."""
        p = self.through_mm
        if self.form == "line":
            d = p[-1] - p[0]
        else:
            u = np.linspace(0.0, 1.0, 401)
            fine = self.at(u)
            i = int(np.argmin(np.hypot(*(fine - p[k]).T)))
            d = fine[min(i + 1, 400)] - fine[max(i - 1, 0)]
        return np.array([d[1], -d[0]]) / np.hypot(*d)


def line(kind: str, *points: tuple[float, float], **more: Any) -> Segment:
    """A straight segment."""
    return Segment(EdgeKind(kind), np.array(points, dtype=float), "line", **more)


def arc(kind: str, *points: tuple[float, float], **more: Any) -> Segment:
    """A circular segment through three points."""
    return Segment(EdgeKind(kind), np.array(points, dtype=float), "arc", **more)


def curve(kind: str, *points: tuple[float, float], **more: Any) -> Segment:
    """A spline segment through points."""
    return Segment(EdgeKind(kind), np.array(points, dtype=float), "curve", **more)


@dataclass(frozen=True, eq=False)
class DrawnShape:
    """A piece as we draw it: a closed chain of segments, counter-clockwise.

    ``nicks`` are (segment, parameter) places of notches; ``mirror_segment`` the segment that is
    the mirror line of a half piece; ``label_mm`` where its name begins, ``shift_mm`` where the
    piece lies on the sheet; ``lines`` are inner lines, ``drills`` drill holes, ``cutouts``
    ellipses (x, y, half width, half height), ``style`` what the style file needs to know.
    """

    name: str
    segments: tuple[Segment, ...]
    axis_deg: float = 0.0
    nicks: tuple[tuple[int, float], ...] = ()
    mirror_segment: int | None = None
    lines: tuple[Segment, ...] = ()
    drills: tuple[tuple[float, float], ...] = ()
    cutouts: tuple[tuple[float, float, float, float], ...] = ()
    label_mm: tuple[float, float] = (0.0, 0.0)
    shift_mm: tuple[float, float] = (0.0, 0.0)
    per_shoe: int = 1
    style: dict[str, Any] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for this, following in zip(self.segments, self.segments[1:] + self.segments[:1], strict=True):
            gap = np.hypot(*(this.through_mm[-1] - following.through_mm[0]))
            if gap > 1e-9:
                raise ValueError(f"{self.name}: segments are {gap:.3f} mm apart")

    def ring(self, chord_mm: float = 0.05) -> Points:
        """The outline's vertices, counter-clockwise, closing vertex not repeated."""
        return np.concatenate([s.sampled(chord_mm)[:-1] for s in self.segments])

    def unfolded(self) -> DrawnShape:
        """The whole piece of a half piece; any other piece is returned as it is."""
        if self.mirror_segment is None:
            return self
        k = self.mirror_segment
        a, b = self.segments[k].through_mm[[0, -1]]
        along = (b - a) / np.hypot(*(b - a))
        flip = 2 * np.outer(along, along) - np.eye(2)

        def mirrored(segment: Segment) -> Segment:
            def turned(d: tuple[float, float] | None) -> tuple[float, float] | None:
                return None if d is None else tuple(-flip @ np.asarray(d))

            return replace(
                segment,
                through_mm=((segment.through_mm - a) @ flip.T + a)[::-1],
                leave=turned(segment.arrive),
                arrive=turned(segment.leave),
            )

        half = self.segments[k + 1 :] + self.segments[:k]
        return replace(self, segments=half + tuple(mirrored(s) for s in reversed(half)), mirror_segment=None)

    def graded(self, along: float, across: float) -> DrawnShape:
        """The piece in another size: stretched along and across its axis, allowances kept.

        Control points move with the net line: where an edge carries an allowance a, its points
        are drawn back by what stretching would have added to a (to first order in the stretch).
        """
        axis = np.radians(self.axis_deg)
        u = np.array([np.cos(axis), np.sin(axis)])
        v = np.array([-u[1], u[0]])
        stretch = along * np.outer(u, u) + across * np.outer(v, v)
        count = len(self.segments)
        moved = []
        for i, segment in enumerate(self.segments):
            before, after = self.segments[i - 1], self.segments[(i + 1) % count]
            points = []
            for j, p in enumerate(segment.through_mm):
                pulls = [(segment, j)]
                if j == 0:
                    pulls.append((before, len(before.through_mm) - 1))
                elif j == len(segment.through_mm) - 1:
                    pulls.append((after, 0))
                rows = [(s._outward(k), s.allowance_mm) for s, k in pulls]
                normals = np.array([n for n, _ in rows])
                excess = np.array([a * (n @ stretch @ n - 1.0) for n, a in rows])
                back = np.linalg.lstsq(normals, -excess, rcond=None)[0]
                points.append(stretch @ p + back)
            moved.append(
                replace(
                    segment,
                    through_mm=np.array(points),
                    leave=None if segment.leave is None else tuple(stretch @ segment.leave),
                    arrive=None if segment.arrive is None else tuple(stretch @ segment.arrive),
                    chords=None if segment.form == "line" else len(segment.sampled(0.04)) - 1,
                )
            )
        drills = tuple((float(x), float(y)) for x, y in (stretch @ np.array(d) for d in self.drills))
        return replace(self, segments=tuple(moved), drills=drills)

    def nick_at(self, nick: tuple[int, float]) -> tuple[Points, Points]:
        """(point on the boundary, unit vector into the material) of a notch."""
        segment, u = self.segments[nick[0]], nick[1]
        if segment.form == "line":
            a, b = segment.through_mm[0], segment.through_mm[-1]
            point, along = a + (b - a) * u, b - a
        else:
            near = segment.at(np.array([max(0.0, u - 1e-4), u, min(1.0, u + 1e-4)]))
            point, along = near[1], near[2] - near[0]
        along = along / np.hypot(*along)
        return point, np.array([-along[1], along[0]])


def bulges(segment: Segment) -> list[tuple[float, float, float]]:
    """(x, y, bulge) for every arc of the segment, its last point left out.

    A curve becomes a chain of biarcs with the curve's tangents at their ends (K.M. Bolton,
    Biarc curves, Computer-Aided Design 7 (1975); from memory).
    """
    if segment.form == "line":
        return [(float(x), float(y), 0.0) for x, y in segment.through_mm[:-1]]
    if segment.form == "arc":
        _, _, _, sweep = segment.arc()
        x, y = segment.through_mm[0]
        return [(float(x), float(y), float(np.tan(sweep / 4)))]
    spline = segment.spline()
    count = 3 * (len(segment.through_mm) - 1)
    u = np.linspace(0.0, 1.0, count + 1)
    points, tangents = spline(u), spline.derivative()(u)
    tangents /= np.hypot(*tangents.T)[:, None]
    out: list[tuple[float, float, float]] = []
    for p, q, s, t in zip(points, points[1:], tangents, tangents[1:], strict=False):
        v = q - p
        both = s + t
        opening = 2 * (1 - s @ t)
        if opening < 1e-9:
            d = v @ v / (4 * (v @ t))
        else:
            d = (-(v @ both) + np.sqrt((v @ both) ** 2 + opening * (v @ v))) / opening
        middle = (p + q + d * (s - t)) / 2
        out += [(*map(float, p), _bulge(s, middle - p)), (*map(float, middle), _bulge(-t, middle - q) * -1)]
    return out


def _bulge(tangent: ArrayLike, chord: ArrayLike) -> float:
    (tx, ty), (cx, cy) = np.asarray(tangent), np.asarray(chord)
    return float(np.tan(np.arctan2(tx * cy - ty * cx, tx * cx + ty * cy) / 2))
