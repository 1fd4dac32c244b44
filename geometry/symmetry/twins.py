"""The mirror image of one piece laid over another: how alike they are, and what lies where."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry import tolerances
from geometry.outline import Outline, Ring
from geometry.symmetry.reflection import Reflection

Array = NDArray[np.float64]
SAMPLES = 180
"""Points along a ring at which a twin is compared: every 3 mm of a quarter: our own choice, no source."""


@dataclass(frozen=True, eq=False)
class TwinFit:
    """How the mirror image of a piece lies on its twin.

    ``mirror`` takes points of the piece to the twin; ``away_mm`` is how far the outlines then part at most.
    ``vertices``: for each ring the vertex of the twin that each vertex of the piece comes to lie on, None
    where the two are drawn with other vertices.
    """

    mirror: Reflection
    away_mm: float
    vertices: tuple[tuple[int, ...], ...] | None

    @property
    def exact(self) -> bool:
        """Whether the twin is the mirror image itself, vertex for vertex."""
        return self.vertices is not None


def fit_twin(piece: Outline, twin: Outline) -> TwinFit:
    """Lay the mirror image of ``piece`` over ``twin`` where it fits best (least squares of the outer rings).

    Both rings are sampled evenly by length; every shift of the samples is tried, and the best turn for each
    is that of the orthogonal Procrustes problem in the plane (Schoenemann 1966), with a flip.
    """
    a, b = _sampled(piece.ring_mm * (1.0, -1.0))[::-1], _sampled(twin.ring_mm)
    ca, cb = a.mean(axis=0), b.mean(axis=0)
    x = (a - ca)[:, 0] + 1j * (a - ca)[:, 1]
    y = (b - cb)[:, 0] + 1j * (b - cb)[:, 1]
    fits = np.fft.ifft(np.fft.fft(y) * np.conj(np.fft.fft(x)))  # sum over the samples, for every shift
    turn = fits[int(np.abs(fits).argmax())]
    c, s = (turn / abs(turn)).real, (turn / abs(turn)).imag
    matrix = np.array([[c, s], [s, -c]])  # the flip y -> -y, then the turn
    middle = ca * (1.0, -1.0)
    mirror = Reflection(matrix, cb - matrix @ middle)
    vertices = _matched(mirror.points, piece, twin)
    if vertices is not None:
        finer = _refined(piece, twin, vertices[0])
        if _away_mm(finer, piece, twin) <= tolerances.TWIN_MM:
            return TwinFit(finer, _away_mm(finer, piece, twin), _matched(finer.points, piece, twin))
    return TwinFit(mirror, _away_mm(mirror, piece, twin), None)


def _away_mm(mirror: Reflection, piece: Outline, twin: Outline) -> float:
    image = mirror.outline(piece)
    return float(shapely.hausdorff_distance(image.polygon.boundary, twin.polygon.boundary))


def _refined(piece: Outline, twin: Outline, there: tuple[int, ...]) -> Reflection:
    """The same fit over matching vertices, which for an exact image is exact."""
    p, q = piece.ring_mm * (1.0, -1.0), twin.ring_mm[list(there)]
    cp, cq = p.mean(axis=0), q.mean(axis=0)
    x = (p - cp)[:, 0] + 1j * (p - cp)[:, 1]
    y = (q - cq)[:, 0] + 1j * (q - cq)[:, 1]
    turn = np.sum(y * np.conj(x))
    c, s = (turn / abs(turn)).real, (turn / abs(turn)).imag
    matrix = np.array([[c, s], [s, -c]])
    return Reflection(matrix, cq - matrix @ (cp * (1.0, -1.0)))


def _matched(
    onto: Callable[[Array], Array], piece: Outline, twin: Outline
) -> tuple[tuple[int, ...], ...] | None:
    """Return where each vertex comes to lie, None unless the rings are walked in step, mirrored."""
    if len(piece.rings_mm) != len(twin.rings_mm):
        return None
    found: list[tuple[int, ...]] = []
    for ring in piece.rings_mm:
        image = onto(ring)
        here = [r for r in twin.rings_mm if len(r) == len(ring)]
        if not here:
            return None
        target = min(here, key=lambda r: float(np.hypot(*(r.mean(axis=0) - image.mean(axis=0)))))
        n = len(ring)
        shift = int(np.hypot(*(target - image[0]).T).argmin())
        found.append(tuple((shift - i) % n for i in range(n)))
    return tuple(found)


def _sampled(ring: Ring | Array) -> Array:
    closed = np.concatenate([ring, ring[:1]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    at = np.linspace(0.0, along[-1], SAMPLES, endpoint=False)
    return np.stack([np.interp(at, along, closed[:, axis]) for axis in (0, 1)], axis=1)
