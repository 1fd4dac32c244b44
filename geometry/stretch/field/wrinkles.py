"""A sheet that cannot be pushed: where it would be, it wrinkles and carries nothing that way.

The lower bound of what the sheets bear, beside the plain membrane, which pushes as well as it pulls. The
relaxed energy of a membrane (Pipkin 1986, from memory; tension field after Wagner 1929 and Reissner 1938):
where the plain forces push nowhere the sheet is taut; where no direction is stretched it is slack; else it
acts as strips along the one direction t in which strips under the same strain would hold most energy,

    W = (v.e)^2 / (2 v.S v),   v = (c^2, s^2, c s),   S the compliance.

That energy is convex, so Newton's method with a line search finds the one answer.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_matrix

from geometry.errors import SheetError
from geometry.stretch.field.membrane import Membrane, forces_of, strain_of

Array = NDArray[np.float64]

ROUNDS = 30  # the sample uppers that settle need fewer
SETTLED = 1e-5
"""Rounds end when the next stride would gain this share of the work of the pull: places then lie within
a third of a per cent of where they go."""
LEFT = (0.2, 0.05)
"""Share of its plain stiffness that a sheet keeps in every direction, taken away step by step: leather bears
some push before it folds (common practice, no source), and the method needs it numerically."""
LOOKS = 5  # more looks along a stride cost as much as the next stride
SLOPE_LEFT = 0.3
"""Along each stride the energy is looked at this often, until its slope is this share of what it was."""
PUSHED_SHARE = 0.02
"""A place counts as pushed beyond this share of the pull: less lies within the error of an element."""
ANGLES = 36  # every 5 deg, near enough for Newton's method
SHARPENED = 3
"""Directions looked at for the strips, and steps of Newton's method from the best of them."""


def principal(forces_n_per_mm: Array) -> tuple[Array, Array]:
    """Return the larger and the smaller principal force of (..., 3) forces."""
    nx, ny, nxy = np.moveaxis(forces_n_per_mm, -1, 0)
    middle, half = (nx + ny) / 2.0, np.hypot((nx - ny) / 2.0, nxy)
    return middle + half, middle - half


def compressed_share(membrane: Membrane, d_n_per_mm: Array, moved: Array, pull_n_per_mm: float) -> float:
    """Return the share of the area that is pushed somewhere, 0 to 1."""
    _, least = principal(forces_of(d_n_per_mm, membrane.strains(moved)))
    areas = membrane.mesh.areas_mm2
    return float(areas[least < -PUSHED_SHARE * pull_n_per_mm].sum() / areas.sum())


def solve_tension_field(
    membrane: Membrane, d_n_per_mm: Array, *, cancelled: Callable[[], bool] = lambda: False
) -> Array:
    """Return where every degree of freedom goes when no direction can be pushed.

    Raises SheetError when it does not settle (an upper that only its push keeps in place), or when cancelled.
    """
    moved = membrane.solve(d_n_per_mm)
    compliance = np.asarray(np.linalg.inv(d_n_per_mm), dtype=np.float64)
    plain = membrane.stiffness(d_n_per_mm)
    for left in LEFT:
        found = _settled(membrane, d_n_per_mm, compliance, plain, left, moved, cancelled)
        if found is None:
            raise SheetError("the tension field does not settle", remedy="use the plain answer")
        moved = found
    return moved


def _settled(
    membrane: Membrane,
    d_n_per_mm: Array,
    compliance: Array,
    plain: csc_matrix,
    left: float,
    moved: Array,
    cancelled: Callable[[], bool],
) -> Array | None:
    """Newton's method from ``moved`` on the energy of which the plain sheet has a share of ``left``."""
    free, guide, load = membrane.free, membrane.guide, membrane.load
    held = left * plain

    def unbalanced(at: Array) -> tuple[Array, Array]:
        strain = np.stack(strain_of(membrane.basis.interpolate(at).grad), axis=-1)
        force, tangent = relaxed(strain, d_n_per_mm, compliance)[1:]
        over = (load - (1.0 - left) * membrane.inner(force) - held @ at)[free]
        if guide is not None:  # what the guide bears is no force left over
            over = over - float(guide[free] @ over) * guide[free]
        return over, tangent

    over, tangent = unbalanced(moved)
    for _ in range(ROUNDS):
        if cancelled():
            raise SheetError("stopped before the field was solved", remedy="start it again")
        aside = 0.0 if guide is None else float(guide @ moved)
        stride = np.zeros_like(moved)
        stride[free], _ = membrane.step((1.0 - left) * membrane.stiffness(tangent) + held, over, aside)
        share, low, high = 1.0, 0.0, np.inf
        began = float(over @ stride[free])
        if abs(began) <= SETTLED * float(load @ moved):
            return moved
        for _ in range(LOOKS):  # the energy is convex: its slope along the stride falls throughout
            over, tangent = unbalanced(moved + share * stride)
            slope = float(over @ stride[free])
            if abs(slope) <= SLOPE_LEFT * abs(began):
                break
            low, high = (share, high) if slope > 0.0 else (low, share)
            share = 2.0 * share if high == np.inf else 0.5 * (low + high)
        moved = moved + share * stride
    return None


def relaxed(strain: Array, d_n_per_mm: Array, compliance: Array) -> tuple[Array, Array, Array]:
    """Return energy (m, q), force (m, q, 3) and tangent stiffness (m, q, 3, 3) of a sheet that wrinkles.

    ``strain`` (m, q, 3) at q points of m triangles, whose stiffness and compliance are (m, 3, 3).
    """
    plain = np.einsum("mij,mqj->mqi", d_n_per_mm, strain)
    _, least = principal(plain)
    energy = 0.5 * (plain * strain).sum(axis=-1)
    force = plain.copy()
    tangent = np.broadcast_to(d_n_per_mm[:, None], (*strain.shape, 3)).copy()
    ex, ey, g = np.moveaxis(strain, -1, 0)
    longest = (ex + ey) / 2.0 + np.hypot((ex - ey) / 2.0, g / 2.0)
    pushed = least < 0.0
    slack = pushed & (longest <= 0.0)
    energy[slack], force[slack], tangent[slack] = 0.0, 0.0, 0.0
    strips = pushed & ~slack
    if strips.any():
        owner = np.nonzero(strips)[0]
        energy[strips], force[strips], tangent[strips] = _strips(strain[strips], compliance[owner])
    return energy, force, tangent


def _strips(strain: Array, compliance: Array) -> tuple[Array, Array, Array]:
    """Energy, force and tangent of (n, 3) strains where the sheet acts as strips in the best direction."""
    every = np.arange(ANGLES) * np.pi / ANGLES
    v = np.column_stack([np.cos(every) ** 2, np.sin(every) ** 2, np.cos(every) * np.sin(every)])
    along = strain @ v.T
    give = np.einsum("ki,nij,kj->nk", v, compliance, v)
    angle = every[np.argmax(np.where(along > 0.0, along**2 / give, -1.0), axis=1)]
    for _ in range(SHARPENED):
        slope, bend = _derivatives(angle, strain, compliance)[:2]
        step = np.where(bend < 0.0, -slope / np.where(bend < 0.0, bend, -1.0), 0.0)
        angle = angle + np.clip(step, -np.pi / ANGLES, np.pi / ANGLES)
    _, bend, v1, along1, give1, mixed = _derivatives(angle, strain, compliance)
    force = (along1 / give1)[:, None] * v1
    tangent = np.einsum("ni,nj->nij", v1, v1) / give1[:, None, None]
    sharp = bend < 0.0
    tangent[sharp] -= np.einsum("ni,nj->nij", mixed[sharp], mixed[sharp]) / bend[sharp][:, None, None]
    return 0.5 * along1**2 / give1, force, tangent


def _derivatives(angle: Array, strain: Array, s: Array) -> tuple[Array, Array, Array, Array, Array, Array]:
    """First and second derivative of the strips' energy by their angle, and what they are made of."""
    cos, sin = np.cos(angle), np.sin(angle)
    v = np.column_stack([cos * cos, sin * sin, cos * sin])
    v1 = np.column_stack([-2.0 * cos * sin, 2.0 * cos * sin, cos * cos - sin * sin])
    v2 = np.column_stack([-2.0 * v1[:, 2], 2.0 * v1[:, 2], -4.0 * cos * sin])
    a, a1, a2 = ((each * strain).sum(axis=1) for each in (v, v1, v2))
    sv, sv1 = (np.einsum("nij,nj->ni", s, each) for each in (v, v1))
    b, b1 = (v * sv).sum(axis=1), 2.0 * (v1 * sv).sum(axis=1)
    b2 = 2.0 * ((v2 * sv).sum(axis=1) + (v1 * sv1).sum(axis=1))
    slope = a * a1 / b - a * a * b1 / (2.0 * b * b)
    bend = (
        (a1 * a1 + a * a2) / b - 2.0 * a * a1 * b1 / b**2 - a * a * b2 / (2.0 * b**2) + a * a * b1**2 / b**3
    )
    mixed = (a1[:, None] * v + a[:, None] * v1) / b[:, None] - (a * b1 / b**2)[:, None] * v
    return slope, bend, v, a, b, mixed
