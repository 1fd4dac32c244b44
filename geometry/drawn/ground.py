"""A piece in one size as the ground on which drawn things come to lie, and back from a point to a place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon

from geometry import tolerances
from geometry.backing.bands import Joints, Side, band
from geometry.backing.offset import parts
from geometry.drawn.places import Area, AtEdge, Beside, Course, InFrame, Line, Place
from geometry.errors import BackingError
from geometry.outline import Outline, Ring
from geometry.piece import UpperPiece
from geometry.said import said

Array = NDArray[np.float64]
STEPS = 24
"""Chords per span of a smooth line: over 100 mm that turn by 90 degrees they lie within CHORD_MM."""


@dataclass(frozen=True, eq=False)
class Ground:
    """A piece in one size and in the hand drawn.

    ``frame`` takes points of the base size's frame to this size's; ``vertex`` a vertex of a ring of the base
    size to the vertex of the same ring here.
    """

    upper: UpperPiece
    net: Outline
    frame: Callable[[Array], Array]
    vertex: Callable[[int, int], int]

    # -- from places to points --------------------------------------------------------------------
    def point(self, place: Place) -> Array:
        """Return the point (2,) of a place; raises BackingError for a place at no stretch of the outline."""
        if isinstance(place, InFrame):
            found: Array = self.frame(np.array([[place.x_mm, place.y_mm]]))[0]
            return found
        k, t = self._at(place)
        ring = self.upper.outline.rings_mm[place.ring]
        a, step = ring[k], ring[(k + 1) % len(ring)] - ring[k]
        heading = step / max(float(np.hypot(*step)), 1e-12)
        inward = np.array([-heading[1], heading[0]])
        spot: Array = a + t * step + place.inward_mm * inward + place.aside_mm * heading
        return spot

    def inward_deg(self, place: AtEdge) -> float:
        """Return the direction from a place at an edge square into the material."""
        k, _ = self._at(place)
        ring = self.upper.outline.rings_mm[place.ring]
        step = ring[(k + 1) % len(ring)] - ring[k]
        return float(np.degrees(np.arctan2(step[0], -step[1])))

    def line(self, line: Line) -> Ring:
        """Return the points (n, 2) of a line; a closed one without its first point at the end."""
        if isinstance(line, Beside):
            return self._beside(line)
        points = np.array([self.point(place) for place in line.places])
        if line.smooth and len(points) > 2:
            points = _spline(points, closed=line.closed)
        if line.closed and line.rounded_mm > 0.0:
            points = self._rounded(points, line.rounded_mm)
        points.flags.writeable = False
        return points

    def area(self, area: Area) -> Ring:
        """Return the ring of a region."""
        if isinstance(area, Course):
            return self.line(area)
        stretch = self.stretch(area.start, area.stop)
        shape = band(Side(stretch, area.far_mm, 0, False), tolerances.MITRE_LIMIT, Joints())
        if area.near_mm > 0.0:
            shape = shape.difference(
                band(Side(stretch, area.near_mm, 0, False), tolerances.MITRE_LIMIT, Joints())
            )
        found = parts(shape.intersection(self.upper.outline.polygon))
        if not found:
            raise BackingError(
                "the band along the edge has no width", remedy="give it a width", piece=self.upper.name
            )
        largest = max(found, key=lambda p: float(p.area))
        if largest.interiors:
            raise BackingError(
                "the band along the edge closes to a ring",
                remedy="draw it in two pieces, or end it before it meets itself",
                piece=self.upper.name,
            )
        return _ring(largest)

    def stretch(self, start: AtEdge, stop: AtEdge, *, net: bool = False) -> Ring:
        """Return the points of the outline from one place at it to another, in the ring's direction."""
        if start.ring != stop.ring:
            raise BackingError(
                "a line parallel to the outline begins on one ring and ends on another",
                remedy="choose both ends on one outline",
                piece=self.upper.name,
            )
        ring = (self.net if net else self.upper.outline).rings_mm[start.ring]
        n = len(ring)
        (k0, t0), (k1, t1) = self._at(start), self._at(stop)
        first = ring[k0] + t0 * (ring[(k0 + 1) % n] - ring[k0])
        last = ring[k1] + t1 * (ring[(k1 + 1) % n] - ring[k1])
        count = (k1 - k0) % n
        if count == 0 and t1 <= t0:
            count = n
        between = [ring[(k0 + i) % n] for i in range(1, count + 1)]
        points = np.array([first, *between, last])
        step = np.hypot(*np.diff(points, axis=0).T)
        return np.concatenate([points[:1], points[1:][step > tolerances.SAME_POINT_MM]])

    # -- from points to places --------------------------------------------------------------------
    def place_at(self, ring: int, start: int, stop: int, xy_mm: tuple[float, float]) -> AtEdge:
        """Return the place of a point at the stretch of a ring between two vertices, exactly.

        (Of the base size: places are kept by its vertices.)
        """
        points = self.upper.outline.rings_mm[ring]
        index = self._stretch_vertices(ring, start, stop)
        a = points[index[:-1]]
        step = points[index[1:]] - a
        here = np.asarray(xy_mm, dtype=np.float64)
        square = np.maximum(np.einsum("ij,ij->i", step, step), 1e-300)
        t = np.clip(np.einsum("ij,ij->i", here - a, step) / square, 0.0, 1.0)
        foot = a + t[:, None] * step
        i = int(np.hypot(*(foot - here).T).argmin())
        along = self._net_lengths(ring, index)
        share = float((along[i] + t[i] * (along[i + 1] - along[i])) / along[-1])
        share = min(max(share, 0.0), 1.0)
        k, u = self._at(AtEdge(ring, start, stop, share))  # the very segment that it will be found at again
        ahead = points[(k + 1) % len(points)] - points[k]
        heading = ahead / max(float(np.hypot(*ahead)), 1e-12)
        off = here - points[k] - u * ahead
        inward, aside = float(off[1] * heading[0] - off[0] * heading[1]), float(off @ heading)
        return AtEdge(
            ring,
            start,
            stop,
            share,
            inward if abs(inward) > tolerances.SAME_POINT_MM else 0.0,
            aside if abs(aside) > tolerances.SAME_POINT_MM else 0.0,
        )

    # -- how --------------------------------------------------------------------------------------
    def _at(self, place: AtEdge) -> tuple[int, float]:
        """Return the segment of the ring that a place lies at, and its share of that segment."""
        if not 0 <= place.ring < len(self.upper.outline.rings_mm):
            raise BackingError(
                said("something is drawn at ring {0}, which the piece does not have", place.ring),
                remedy="remove it and draw it again",
                piece=self.upper.name,
            )
        index = self._stretch_vertices(place.ring, place.start, place.stop)
        along = self._net_lengths(place.ring, index)
        target = place.share * along[-1]
        i = int(np.clip(np.searchsorted(along, target, side="right") - 1, 0, len(index) - 2))
        while i > 0 and along[i + 1] - along[i] <= tolerances.SAME_POINT_MM:
            i -= 1
        length = max(float(along[i + 1] - along[i]), 1e-12)
        return int(index[i]), float(np.clip((target - along[i]) / length, 0.0, 1.0))

    def _stretch_vertices(self, ring: int, start: int, stop: int) -> NDArray[np.int64]:
        n = len(self.upper.outline.rings_mm[ring])
        first, last = self.vertex(ring, start), self.vertex(ring, stop)
        count = (last - first - 1) % n + 1
        return np.arange(first, first + count + 1) % n

    def _net_lengths(self, ring: int, index: NDArray[np.int64]) -> Array:
        """Return the net length before each vertex of a stretch; the cut one where the net has none."""
        for outline in (self.net, self.upper.outline):
            step = np.diff(outline.rings_mm[ring][index], axis=0)
            along = np.append(0.0, np.cumsum(np.hypot(step[:, 0], step[:, 1])))
            if along[-1] > tolerances.SAME_POINT_MM:
                break
        return along

    def _beside(self, line: Beside) -> Ring:
        stretch = LineString(self.stretch(line.start, line.stop, net=line.from_net))
        if line.inward_mm == 0.0:
            moved = stretch
        else:
            moved = stretch.offset_curve(
                line.inward_mm, join_style="mitre", mitre_limit=tolerances.MITRE_LIMIT
            )
        if moved.geom_type != "LineString":
            merged = shapely.line_merge(moved)
            moved = max(
                getattr(merged, "geoms", [merged]), key=lambda g: float(g.length), default=LineString()
            )
        if moved.is_empty or moved.length <= tolerances.SAME_POINT_MM:
            raise BackingError(
                said("no line can be drawn {0} mm inside the edge", f"{line.inward_mm:g}"),
                remedy="make the distance smaller",
                piece=self.upper.name,
            )
        points = np.asarray(moved.simplify(tolerances.GRID_MM).coords, dtype=np.float64)
        points.flags.writeable = False
        return points

    def _rounded(self, points: Array, radius_mm: float) -> Array:
        shape = Polygon(points)
        if not shape.is_valid:
            return points  # reported where it is used as a region
        steps = max(
            int(np.ceil(np.pi / 4.0 / np.arccos(1.0 - tolerances.CHORD_MM / 8.0 / max(radius_mm, 0.1)))), 4
        )
        small = shape.buffer(-radius_mm, join_style="mitre")
        large = small.buffer(2.0 * radius_mm, quad_segs=steps).buffer(-radius_mm, quad_segs=steps)
        found = parts(large)
        if len(found) != 1 or small.is_empty:
            raise BackingError(
                said("the region is too small for corners of {0} mm", f"{radius_mm:g}"),
                remedy="make the radius smaller",
                piece=self.upper.name,
            )
        return _ring(found[0])


def base_ground(upper: UpperPiece, net: Outline) -> Ground:
    """Return the ground of the size that things are drawn on."""
    return Ground(upper, net, lambda points: points, lambda ring, vertex: vertex)


def _ring(polygon: Polygon) -> Ring:
    points = np.asarray(shapely.orient_polygons(polygon).exterior.coords, dtype=np.float64)[:-1]
    points.flags.writeable = False
    return points


def _spline(points: Array, *, closed: bool) -> Array:
    """Return a cubic spline through points, natural at its ends, in the chord lengths as parameter.

    The second derivatives at the points solve the usual three-term equations (any text on numerical
    analysis, from memory), here as a full matrix: a person draws some ten points, not thousands.
    """
    knots = np.concatenate([points, points[:1]]) if closed else points
    wide = np.maximum(np.hypot(*np.diff(knots, axis=0).T), 1e-9)
    slope = np.diff(knots, axis=0) / wide[:, None]
    n = len(knots) - 1
    matrix, right = np.eye(n + 1), np.zeros((n + 1, 2))
    for i in range(1, n):
        matrix[i, i - 1 : i + 2] = wide[i - 1], 2.0 * (wide[i - 1] + wide[i]), wide[i]
        right[i] = 6.0 * (slope[i] - slope[i - 1])
    if closed:
        matrix[0] = 0.0
        matrix[0, [0, 1, n - 1]] = 2.0 * (wide[-1] + wide[0]), wide[0], wide[-1]
        right[0] = 6.0 * (slope[0] - slope[-1])
        matrix[n, [0, n]] = -1.0, 1.0
    bend = np.linalg.solve(matrix, right)
    t = np.linspace(0.0, 1.0, STEPS, endpoint=False)[None, :, None]
    h = wide[:, None, None]
    low, high = 1.0 - t, t
    drawn = low * knots[:-1, None] + high * knots[1:, None]
    drawn = drawn + h**2 / 6.0 * ((low**3 - low) * bend[:-1, None] + (high**3 - high) * bend[1:, None])
    flat: Array = drawn.reshape(-1, 2)
    return flat if closed else np.concatenate([flat, knots[-1:]])
