"""Is a placed outline the piece it says it is, which way is it turned, and is it its mirror image?

Read from the coordinates alone: the best rigid fit of one ring onto another (the plane
Procrustes problem; in complex numbers the turn is the argument of sum(conj(a) * b)).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from geometry.outline import Ring
from nesting.tolerances import VERIFY_MM


@dataclass(frozen=True)
class Fit:
    """The best rigid fit: turn in degrees, largest distance of a vertex left over, and how
    finely the turn can be read from these coordinates."""

    turn_deg: float
    left_over_mm: float
    reading_deg: float
    shift: complex = 0j

    @property
    def fits(self) -> bool:
        """Whether the two rings are the same shape within VERIFY_MM."""
        return self.left_over_mm <= VERIFY_MM


NO_FIT = Fit(0.0, float("inf"), 0.0)


def fit(given: Ring, placed: Ring) -> Fit:
    """Return the fit of ``given`` onto ``placed`` by turn and move; rings may start elsewhere."""
    if len(given) != len(placed):
        return NO_FIT
    a, b = _complex(given), _complex(placed)
    centre_a, centre_b = a.mean(), b.mean()
    a, b = a - centre_a, b - centre_b
    best = _fit_from(a, b, 0)
    if best.left_over_mm > VERIFY_MM:
        likeness = np.abs(np.fft.ifft(np.conj(np.fft.fft(a)) * np.fft.fft(b)))
        for step in np.argsort(-likeness)[:3]:
            best = min(best, _fit_from(a, b, int(step)), key=lambda f: f.left_over_mm)
    turn = np.exp(1j * np.radians(best.turn_deg))
    return Fit(best.turn_deg, best.left_over_mm, best.reading_deg, complex(centre_b - turn * centre_a))


def mirror_fit(given: Ring, placed: Ring) -> Fit:
    """Return the fit of the mirror image of ``given`` onto ``placed``."""
    image = np.concatenate([given[:1], given[:0:-1]]) * (1.0, -1.0)
    return fit(image, placed)


def holes_fit(given: Sequence[Ring], placed: Sequence[Ring], found: Fit) -> bool:
    """Whether the holes, moved by the outer ring's fit, are the holes as placed."""
    if len(given) != len(placed):
        return False
    turn = np.exp(1j * np.radians(found.turn_deg))
    left = [_complex(ring) for ring in placed]
    for ring in given:
        moved = turn * _complex(ring) + found.shift
        match = next((i for i, other in enumerate(left) if _same_ring(moved, other)), None)
        if match is None:
            return False
        del left[match]
    return True


def _same_ring(a: NDArray[np.complex128], b: NDArray[np.complex128]) -> bool:
    if len(a) != len(b):
        return False
    start = int(np.argmin(np.abs(b - a[0])))
    return bool(np.abs(np.roll(b, -start) - a).max() <= 2.0 * VERIFY_MM)


def _fit_from(a: NDArray[np.complex128], b: NDArray[np.complex128], step: int) -> Fit:
    b = np.roll(b, -step)
    turn = np.sum(np.conj(a) * b)
    size = float(np.sqrt(np.sum(np.abs(a) ** 2)))
    if turn == 0:
        return NO_FIT
    left_over = float(np.abs(b - turn / abs(turn) * a).max())
    return Fit(
        float(np.degrees(np.angle(turn))), left_over, float(np.degrees(left_over * np.sqrt(len(a)) / size))
    )


def _complex(ring: Ring) -> NDArray[np.complex128]:
    return ring[:, 0] + 1j * ring[:, 1]
