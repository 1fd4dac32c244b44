"""Where a backing is likely to peel: how much force the glue passes at the edge of each layer.

Within a layer upper and cloth share the pull; at the layer's edge all that the cloth carries towards it
must go back into the upper through the glue, on a strip a few mm wide. With a perfect bond that is a jump:
the force per mm of edge N n of the layer just inside it, n across the edge. Its part along the edge is the
jump of shear. Shear lag after Volkersen 1938 (from memory) says that the glue's stress there goes with this
force; how much a bond bears is for the peel test to say.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.stretch.field.mesh import FieldMesh, InnerEdges

Array = NDArray[np.float64]

WINDOW_MM = 10.0
"""Forces are means over this much of the edge: the force in a single element at a corner has no limit."""

APART_MM = 25.0  # nearer to each other they are one place to look at
MOST = 5  # as many as a person looks at
WORTH_SHARE = 0.5
"""At most MOST places are told, APART_MM from each other, each with this share of the largest force."""

STRETCH_SHARE = 0.75
"""A place reaches as far along the edge as the force stays above this share of its own."""


@dataclass(frozen=True, eq=False)
class LayerEdge:
    """The inner edge of a layer, in order along its outline.

    ``points_mm`` (k, 2, 2): its elements' edges; ``force_n_per_mm`` (k, 2): across and along each, means
    over WINDOW_MM; ``along_mm`` (k,): their places along ring ``ring`` (k,) of the layer.
    """

    piece: str
    layer: int
    points_mm: Array
    force_n_per_mm: Array
    ring: NDArray[np.int64]
    along_mm: Array


@dataclass(frozen=True, eq=False)
class PeelPlace:
    """A stretch of a layer's edge where the glue passes much force.

    ``at_mm`` is where it passes most, in the pull's frame; ``stretch_mm`` (k, 2, 2) the edges of elements
    that belong to it, ``length_mm`` long together; ``force_n_per_mm`` what the
    glue passes per mm of edge, ``shear_n_per_mm`` the part of it along the edge. ``layer`` counts from 1.
    """

    piece: str
    layer: int
    at_mm: tuple[float, float]
    length_mm: float
    force_n_per_mm: float
    shear_n_per_mm: float
    stretch_mm: Array


def layer_edge(
    piece: str,
    layer: int,
    region: shapely.Geometry,
    mesh: FieldMesh,
    inner: InnerEdges,
    inside: NDArray[np.bool_],
    forces_n_per_mm: Array,
) -> LayerEdge | None:
    """Return the edge of a layer within the upper, with what the glue passes there; None without any.

    ``inside`` (m,) says which triangles the layer covers, ``forces_n_per_mm`` (m, 3) what it carries there.
    """
    one, two = inner.sides.T
    at_edge = inside[one] != inside[two]
    if not at_edge.any():
        return None
    pairs = inner.pairs[at_edge]
    own = np.where(inside[one], one, two)[at_edge]
    points = mesh.points_mm[pairs]
    way = points[:, 1] - points[:, 0]
    lengths = np.hypot(*way.T)
    away = np.column_stack([way[:, 1], -way[:, 0]]) / lengths[:, None]
    outside = ((points.mean(axis=1) - mesh.middles_mm[own]) * away).sum(axis=1)
    away *= np.where(outside >= 0.0, 1.0, -1.0)[:, None]
    along = np.column_stack([-away[:, 1], away[:, 0]])
    nx, ny, nxy = forces_n_per_mm[own].T
    passed = np.column_stack([nx * away[:, 0] + nxy * away[:, 1], nxy * away[:, 0] + ny * away[:, 1]])
    split = np.column_stack([(passed * away).sum(axis=1), (passed * along).sum(axis=1)])
    rings = [ring for part in shapely.get_parts(region) for ring in (part.exterior, *part.interiors)]
    middles = shapely.points(points.mean(axis=1))
    which = np.argmin([shapely.distance(ring, middles) for ring in rings], axis=0)
    place = np.array([rings[r].project(m) for r, m in zip(which.tolist(), middles, strict=True)])
    order = np.lexsort((place, which))
    reach = np.array([rings[r].length for r in which.tolist()])
    mean = _means(split[order], lengths[order], which[order], place[order], reach[order])
    return LayerEdge(piece, layer, points[order], mean, which[order], place[order])


def peel_places(edges: Sequence[LayerEdge]) -> tuple[PeelPlace, ...]:
    """Return the places with the largest forces of all layers, the largest first."""
    largest = max((float(np.hypot(*edge.force_n_per_mm.T).max()) for edge in edges), default=0.0)
    found: list[PeelPlace] = []
    for edge in edges:
        size = np.hypot(*edge.force_n_per_mm.T)
        middles = edge.points_mm.mean(axis=1)
        lengths = np.hypot(*(edge.points_mm[:, 1] - edge.points_mm[:, 0]).T)
        open_yet = size >= WORTH_SHARE * largest
        while open_yet.any() and largest > 0.0:
            top = int(np.argmax(np.where(open_yet, size, -1.0)))
            near = np.hypot(*(middles - middles[top]).T) <= APART_MM
            stretch = near & (size >= STRETCH_SHARE * size[top]) & (edge.ring == edge.ring[top])
            x, y = middles[top]
            found.append(
                PeelPlace(
                    edge.piece,
                    edge.layer,
                    (float(x), float(y)),
                    float(lengths[stretch].sum()),
                    float(size[top]),
                    float(abs(edge.force_n_per_mm[top, 1])),
                    edge.points_mm[stretch],
                )
            )
            open_yet &= ~near
    return tuple(sorted(found, key=lambda place: -place.force_n_per_mm)[:MOST])


def _means(values: Array, lengths: Array, ring: NDArray[np.int64], place: Array, reach: Array) -> Array:
    """Means over WINDOW_MM along each ring, weighted by length; rings are closed."""
    apart = np.abs(place[:, None] - place[None, :])
    apart = np.minimum(apart, reach[:, None] - apart)
    weight = ((apart <= WINDOW_MM / 2.0) & (ring[:, None] == ring[None, :])) * lengths[None, :]
    weight[np.arange(len(place)), np.arange(len(place))] = lengths
    return np.asarray((weight @ values) / weight.sum(axis=1, keepdims=True))
