"""A sheet that cannot be pushed: where it would be, it wrinkles and carries nothing that way.

The lower bound beside the plain membrane, which pushes as well as it pulls. Where the smaller principal
force is negative its direction carries no force; where both are, the sheet is slack (tension field after
Wagner 1929 and Reissner 1938, from memory).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from geometry.stretch.field.membrane import Membrane, forces_of

Array = NDArray[np.float64]

ROUNDS = 12  # rounds in which slack directions are let go; the set no longer changes well before
LEFT = 1e-3
"""Share of its stiffness that a wrinkled direction keeps: the numbers need some."""


def principal(forces_n_per_mm: Array) -> tuple[Array, Array, Array]:
    """Return the larger and the smaller principal force, and the direction (radians) of the smaller."""
    nx, ny, nxy = forces_n_per_mm.T
    middle, half = (nx + ny) / 2.0, np.hypot((nx - ny) / 2.0, nxy)
    angle = 0.5 * np.arctan2(2.0 * nxy, nx - ny)
    return middle + half, middle - half, angle + np.pi / 2.0


def compressed_share(membrane: Membrane, d_n_per_mm: Array, moved: Array) -> float:
    """Return the share of the area that is pushed somewhere, 0 to 1."""
    _, least, _ = principal(forces_of(d_n_per_mm, membrane.strains(moved)))
    areas = membrane.mesh.areas_mm2
    return float(areas[least < -1e-9].sum() / areas.sum())


def solve_tension_field(membrane: Membrane, d_n_per_mm: Array) -> Array:
    """Return where every degree of freedom goes when no direction can be pushed."""
    now = d_n_per_mm
    moved = membrane.solve(now)
    for _ in range(ROUNDS):
        strains = membrane.strains(moved)
        most, least, angle = principal(forces_of(d_n_per_mm, strains))
        wrinkled, slack = (least < 0.0) & (most > 0.0), most <= 0.0
        wanted = d_n_per_mm.copy()
        wanted[wrinkled] = _without(d_n_per_mm[wrinkled], angle[wrinkled])
        wanted[slack] = LEFT * d_n_per_mm[slack]
        before, now = now, 0.5 * (now + wanted)  # half a step: elements that waver settle
        moved = membrane.solve(now)
        if float(np.abs(now - before).max()) < 1e-4 * float(np.abs(d_n_per_mm).max()):
            break
    return moved


def _without(d_n_per_mm: Array, angle: Array) -> Array:
    """The stiffness of sheets that carry no force in a direction: condensed out."""
    c, s = np.cos(angle), np.sin(angle)
    pick = np.column_stack([c * c, s * s, 2.0 * c * s])
    pressed = np.einsum("mij,mj->mi", d_n_per_mm, pick)
    whole = np.einsum("mi,mi->m", pick, pressed)
    reduced = d_n_per_mm - (1.0 - LEFT) * np.einsum("mi,mj->mij", pressed, pressed) / whole[:, None, None]
    return np.asarray(reduced)
