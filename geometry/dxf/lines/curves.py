"""One entity of a drawing -> polylines, never further from the true curve than asked.

Curves are sampled from their own definition: a detour over Bezier curves costs up to 0.27 mm
at a radius of 1 m. All results are (n, 3) in the coordinates of the entity's own space (WCS,
or the block it stands in).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from ezdxf.entities import DXFEntity
from ezdxf.entities.boundary_paths import (
    ArcEdge,
    EdgePath,
    EllipseEdge,
    LineEdge,
    PolylinePath,
    SplineEdge,
)
from ezdxf.math import OCS, BSpline, bulge_to_arc
from numpy.typing import NDArray

from geometry import tolerances

Points = NDArray[np.float64]

_STEP = math.radians(tolerances.ARC_STEP_DEG)


class BadEntity(Exception):
    """An entity that has no usable shape; the text says why."""


@dataclass(frozen=True, eq=False)
class Flat:
    """A polyline (n, 3); ``closed``: the last point joins the first."""

    points: Points
    closed: bool


def flatten(entity: DXFEntity, distance: float) -> list[Flat]:
    """Return the polylines of an entity, none further than ``distance`` from its curve.

    Raises BadEntity when it has no usable shape. Kinds without curves give an empty list.
    """
    maker = _MAKERS.get(entity.dxftype())
    if maker is None:
        return []
    try:
        flats = maker(entity, distance)
    except BadEntity:
        raise
    except Exception as error:  # a damaged entity makes the library fail in its own ways
        raise BadEntity(str(error)[:100] or type(error).__name__) from None
    return [_checked(flat) for flat in flats]


def _checked(flat: Flat) -> Flat:
    points = flat.points
    if not np.isfinite(points).all() or np.abs(points).max(initial=0.0) > tolerances.FAR_AWAY:
        raise BadEntity("a coordinate is not a finite number")
    if len(points) == 2 and not (points[0] == points[1]).all():
        return Flat(points, False)
    keep = np.ones(len(points), dtype=bool)
    keep[1:] = (np.diff(points, axis=0) != 0.0).any(axis=1)
    points = points[keep]
    closed = flat.closed
    if len(points) > 2:
        size = float(np.ptp(points, axis=0).max())
        if np.abs(points[0] - points[-1]).max() <= 1e-9 * max(size, 1e-300):
            points, closed = points[:-1], True
    if len(points) < 2:
        raise BadEntity("it has no length")
    if closed and len(points) < 3:
        closed = False  # there and back along one line
    return Flat(points, closed)


def arc_points(
    centre: tuple[float, float], radius: float, start: float, sweep: float, distance: float
) -> Points:
    """Return points (n, 2) on an arc, ends included; ``start`` and ``sweep`` in radians.

    The chord error of a step t is r (1 - cos(t / 2)).
    """
    ratio = min(1.0, distance / radius)
    step = min(_STEP, 2.0 * math.acos(1.0 - ratio))
    count = max(1, math.ceil(abs(sweep) / step - 1e-9))
    if count > tolerances.MAX_VERTICES:
        raise BadEntity("its radius is out of all proportion")
    angles = start + np.linspace(0.0, sweep, count + 1)
    return np.stack([centre[0] + radius * np.cos(angles), centre[1] + radius * np.sin(angles)], axis=1)


def with_bulges(points: Points, bulges: Points, closed: bool, distance: float) -> Points:
    """Return (n, 2) points with every bulged segment turned into its arc."""
    if not np.isfinite(points).all() or not np.isfinite(bulges).all():
        raise BadEntity("a coordinate is not a finite number")
    if not bulges.any():
        return points
    parts: list[Points] = []
    count = len(points)
    for i in range(count):
        j = (i + 1) % count
        parts.append(points[i : i + 1])
        if bulges[i] == 0.0 or (j == 0 and not closed) or (points[i] == points[j]).all():
            continue
        centre, _, _, radius = bulge_to_arc(tuple(points[i]), tuple(points[j]), float(bulges[i]))
        sweep = 4.0 * math.atan(float(bulges[i]))
        start = math.atan2(points[i][1] - centre.y, points[i][0] - centre.x)
        parts.append(arc_points((centre.x, centre.y), radius, start, sweep, distance)[1:-1])
    return np.concatenate(parts)


def _to_wcs(points: Points, elevation: float, extrusion: object) -> Points:
    """Lift 2D points of an object coordinate system into the entity's space."""
    lifted = np.column_stack([points, np.full(len(points), elevation)])
    ocs = OCS(extrusion)
    if not ocs.transform:
        return lifted
    axes = np.array([tuple(ocs.ux), tuple(ocs.uy), tuple(ocs.uz)])
    return lifted @ axes


def _line(entity: DXFEntity, _distance: float) -> list[Flat]:
    ends = np.array([tuple(entity.dxf.start), tuple(entity.dxf.end)], dtype=np.float64)
    return [Flat(ends, False)]


def _circle(entity: DXFEntity, distance: float) -> list[Flat]:
    radius = _radius(entity)
    centre = entity.dxf.center
    points = arc_points((centre.x, centre.y), radius, 0.0, math.tau, distance)[:-1]
    return [Flat(_to_wcs(points, centre.z, entity.dxf.extrusion), True)]


def _arc(entity: DXFEntity, distance: float) -> list[Flat]:
    radius = _radius(entity)
    centre = entity.dxf.center
    start = math.radians(entity.dxf.start_angle % 360.0)
    turn = (entity.dxf.end_angle - entity.dxf.start_angle) % 360.0
    sweep = math.radians(turn) or math.tau
    points = arc_points((centre.x, centre.y), radius, start, sweep, distance)
    full = turn == 0.0
    return [Flat(_to_wcs(points[:-1] if full else points, centre.z, entity.dxf.extrusion), full)]


def _radius(entity: DXFEntity) -> float:
    radius = float(entity.dxf.radius)
    if not math.isfinite(radius):
        raise BadEntity("a coordinate is not a finite number")
    if radius <= 0.0:
        raise BadEntity(f"its radius is {radius:g}")
    return radius


def _ellipse(entity: DXFEntity, distance: float) -> list[Flat]:
    return [_ellipse_flat(entity.construction_tool(), distance)]  # type: ignore[attr-defined]


def _ellipse_flat(tool: object, distance: float) -> Flat:
    """Sample an ellipse evenly in its parameter.

    Within a step t the chord error is below a (1 - cos(t / 2)), a the long half axis: an
    ellipse is the affine image of a circle.
    """
    centre = np.array(tuple(tool.center))  # type: ignore[attr-defined]
    major = np.array(tuple(tool.major_axis))  # type: ignore[attr-defined]
    minor = np.array(tuple(tool.minor_axis))  # type: ignore[attr-defined]
    long_half = float(np.linalg.norm(major))
    if not long_half > 0.0 or not float(np.linalg.norm(minor)) > 0.0:
        raise BadEntity("one of its axes has no length")
    start = float(tool.start_param)  # type: ignore[attr-defined]
    end = float(tool.end_param)  # type: ignore[attr-defined]
    sweep = (end - start) % math.tau
    full = min(sweep, math.tau - sweep) < 1e-9
    angles = arc_points((0.0, 0.0), long_half, start, math.tau if full else sweep, distance) / long_half
    points = centre + angles[:, :1] * major + angles[:, 1:] * minor
    return Flat(points[:-1] if full else points, full)


def _spline(entity: DXFEntity, distance: float) -> list[Flat]:
    controls = np.array([tuple(p) for p in entity.control_points], dtype=np.float64)  # type: ignore[attr-defined]
    closed = bool(entity.closed)  # type: ignore[attr-defined]
    if len(controls):
        degree = int(entity.dxf.degree)
        knots = np.array(entity.knots, dtype=np.float64)  # type: ignore[attr-defined]
        weights = np.array(entity.weights, dtype=np.float64)  # type: ignore[attr-defined]
        if len(knots) == 0 and len(controls) > degree:
            knots = np.array(BSpline(controls, order=degree + 1).knots())
    elif entity.fit_point_count() >= 2:  # type: ignore[attr-defined]
        if not np.isfinite([tuple(p) for p in entity.fit_points]).all():  # type: ignore[attr-defined]
            raise BadEntity("a coordinate is not a finite number")
        tool = entity.construction_tool()  # type: ignore[attr-defined]
        controls = np.array([tuple(p) for p in tool.control_points])
        degree, knots, weights = tool.order - 1, np.array(tool.knots()), np.array(tool.weights())
    else:
        raise BadEntity("it has neither control points nor fit points")
    return [Flat(spline_points(controls, knots, weights, degree, distance), closed and len(controls) > 2)]


def spline_points(controls: Points, knots: Points, weights: Points, degree: int, distance: float) -> Points:
    """Sample a (rational) B-spline over its domain [knots[degree], knots[n]].

    Outside that domain the basis does not add up to one: evaluating an unclamped closed spline
    from its first knot gives a curve that starts at the origin. Each Bezier arc lies in the hull of its
    control points, so it is halved until these say that no point of it, a tip between two samples
    included, leaves the chord by more than ``distance``.
    """
    count = len(controls)
    if degree < 1 or count <= degree:
        raise BadEntity(f"{count} control points are too few for degree {degree}")
    if len(knots) != count + degree + 1:
        raise BadEntity(f"it has {len(knots)} knots where {count + degree + 1} are needed")
    if len(weights) and (len(weights) != count or not (weights > 0.0).all()):
        raise BadEntity("its weights do not fit its control points")
    if not (np.isfinite(controls).all() and np.isfinite(knots).all()):
        raise BadEntity("a coordinate is not a finite number")
    if (np.diff(knots) < 0.0).any() or not knots[count] > knots[degree]:
        raise BadEntity("its knots do not ascend")
    if degree > tolerances.MAX_DEGREE:
        raise BadEntity(f"its degree is {degree}")
    full = np.column_stack([controls, np.ones(count)])
    if len(weights):
        full = full * weights[:, None]
    limit = min(distance, 2e-4 * float(np.ptp(controls, axis=0).max()) or distance)
    arcs = _bezier_arcs(full, knots, degree)
    # the distance from a chord is a convex function, so on an arc it is at most the weighted mean of its
    # control points' distances, the two ends having none: (1 - t)^n + t^n >= 2^(1 - n) is theirs
    share = 1.0 if len(weights) else 1.0 - 2.0 ** (1 - degree)
    for _ in range(tolerances.MAX_HALVINGS):
        controls_of = arcs[..., :3] / arcs[..., 3:]
        off = np.max([_off_chord(part, controls_of[0], controls_of[-1]) for part in controls_of], axis=0)
        wide = share * off > 0.999 * limit
        if not wide.any():
            return np.concatenate([controls_of[0], controls_of[-1][-1:]])
        if arcs.shape[1] + wide.sum() > tolerances.MAX_VERTICES:
            break
        arcs = _halved(arcs, wide)
    raise BadEntity("it is out of all proportion")


def _bezier_arcs(controls: Points, knots: Points, degree: int) -> Points:
    """Return the Bezier control points (degree + 1, arcs, 4) of a spline's knot spans.

    They are the spline's blossom at i times the span's end and degree - i times its start (L. Ramshaw,
    'Blossoms are polar forms', Computer Aided Geometric Design 6, 1989), worked out by de Boor's steps.
    """
    spans = np.arange(degree, len(controls))
    spans = spans[knots[spans + 1] > knots[spans]]
    begin, end = knots[spans], knots[spans + 1]
    arcs = np.empty((degree + 1, len(spans), controls.shape[1]))
    for ends in range(degree + 1):
        part = [controls[spans - degree + k] for k in range(degree + 1)]
        for r in range(1, degree + 1):
            at = end if r <= ends else begin
            for k in range(degree, r - 1, -1):
                low, high = knots[spans - degree + k], knots[spans + 1 - r + k]
                share = ((at - low) / (high - low))[:, None]
                part[k] = (1.0 - share) * part[k - 1] + share * part[k]
        arcs[ends] = part[degree]
    return arcs


def _halved(arcs: Points, wide: NDArray[np.bool_]) -> Points:
    """Return the arcs with the wide ones cut in halves (de Casteljau), in their order."""
    part = arcs[:, wide]
    left, right = np.empty_like(part), np.empty_like(part)
    for step in range(len(arcs)):
        left[step], right[-1 - step] = part[0], part[-1]
        part = 0.5 * (part[:-1] + part[1:])
    places = np.cumsum(1 + wide) - 1  # of each arc's last half
    halved = np.empty((len(arcs), len(wide) + int(wide.sum()), arcs.shape[2]))
    halved[:, places[~wide]] = arcs[:, ~wide]
    halved[:, places[wide] - 1], halved[:, places[wide]] = left, right
    return halved


def _off_chord(points: Points, begin: Points, end: Points) -> Points:
    """Distance of each point from its chord."""
    chord = end - begin
    length2 = np.maximum((chord**2).sum(axis=1), 1e-300)
    share = np.clip(((points - begin) * chord).sum(axis=1) / length2, 0.0, 1.0)
    return np.asarray(np.linalg.norm(points - begin - share[:, None] * chord, axis=1))


def _lwpolyline(entity: DXFEntity, distance: float) -> list[Flat]:
    values = np.array(entity.lwpoints.values, dtype=np.float64).reshape(-1, 5)  # type: ignore[attr-defined]
    if len(values) < 2:
        raise BadEntity(f"it has {len(values)} of the two points a line needs")
    closed = bool(entity.closed)  # type: ignore[attr-defined]
    points = with_bulges(values[:, :2], values[:, 4], closed, distance)
    return [Flat(_to_wcs(points, float(entity.dxf.elevation), entity.dxf.extrusion), closed)]


def _polyline(entity: DXFEntity, distance: float) -> list[Flat]:
    if entity.is_polygon_mesh or entity.is_poly_face_mesh:  # type: ignore[attr-defined]
        raise BadEntity("it is a mesh, not a line")
    vertices = [v for v in entity.vertices if not int(v.dxf.flags) & 16]  # type: ignore[attr-defined]
    if len(vertices) < 2:  # (16: the frame of a fitted spline is no part of the curve)
        raise BadEntity(f"it has {len(vertices)} of the two points a line needs")
    closed = bool(entity.is_closed)  # type: ignore[attr-defined]
    points = np.array([tuple(v.dxf.location) for v in vertices], dtype=np.float64)
    if entity.is_3d_polyline:  # type: ignore[attr-defined]
        return [Flat(points, closed)]
    bulges = np.array([float(v.dxf.bulge) for v in vertices])
    flat = with_bulges(points[:, :2], bulges, closed, distance)
    return [Flat(_to_wcs(flat, float(entity.dxf.elevation.z), entity.dxf.extrusion), closed)]


def _hatch(entity: DXFEntity, distance: float) -> list[Flat]:
    """The boundary paths of a hatch; edge paths come as one polyline an edge, in order."""
    flats: list[Flat] = []
    elevation = float(entity.dxf.elevation.z)
    for path in entity.paths:  # type: ignore[attr-defined]
        if isinstance(path, PolylinePath):
            values = np.array(path.vertices, dtype=np.float64).reshape(-1, 3)
            if len(values) > 2:
                points = with_bulges(values[:, :2], values[:, 2], True, distance)
                flats.append(Flat(_to_wcs(points, elevation, entity.dxf.extrusion), True))
        elif isinstance(path, EdgePath):
            for points, closed in _edge_points(path, distance):
                flats.append(Flat(_to_wcs(points, elevation, entity.dxf.extrusion), closed))
    return flats


def _edge_points(path: EdgePath, distance: float) -> Iterable[tuple[Points, bool]]:
    for edge in path.edges:
        if isinstance(edge, LineEdge):
            yield np.array([tuple(edge.start), tuple(edge.end)], dtype=np.float64), False
        elif isinstance(edge, ArcEdge):
            start, end = math.radians(edge.start_angle), math.radians(edge.end_angle)
            sweep = (end - start) % math.tau or math.tau
            points = arc_points((edge.center.x, edge.center.y), edge.radius, start, sweep, distance)
            full = sweep == math.tau
            yield (points[:-1] if full else points), full
        elif isinstance(edge, EllipseEdge):
            flat = _ellipse_flat(edge.construction_tool(), distance)
            yield flat.points[:, :2], flat.closed
        elif isinstance(edge, SplineEdge):
            tool = edge.construction_tool()
            controls = np.array([tuple(p) for p in tool.control_points])
            knots, weights = np.array(tool.knots()), np.array(tool.weights())
            yield spline_points(controls, knots, weights, tool.order - 1, distance)[:, :2], False


_MAKERS = {
    "LINE": _line,
    "CIRCLE": _circle,
    "ARC": _arc,
    "ELLIPSE": _ellipse,
    "SPLINE": _spline,
    "LWPOLYLINE": _lwpolyline,
    "POLYLINE": _polyline,
    "HATCH": _hatch,
}
