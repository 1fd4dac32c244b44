"""Large strain: total Lagrangian, orthotropic St. Venant-Kirchhoff sheet, the load in steps.

Green's strain and the second Piola-Kirchhoff force per width; Newton's method for each step (Bathe, Finite
Element Procedures, ch. 6, from memory; checked against the uniaxial closed form in tests/published).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from geometry.errors import SheetError
from geometry.stretch.field.membrane import VOIGT, Membrane

Array = NDArray[np.float64]

STEPS = (1, 4, 16)
"""The load is put on at once; where that does not settle, in more and more steps."""
ROUNDS = 20  # Newton rounds of a step at the most; one that has not settled by then is taken smaller
WILD = 3.0
"""A step that throws a point this many times the length of the piece does not settle any more."""
SETTLED = 1e-8
"""A step is solved when the forces left over are this share of the load."""


def solve_finite(
    membrane: Membrane,
    d_n_per_mm: Array,
    *,
    steps: Sequence[int] = STEPS,
    cancelled: Callable[[], bool] = lambda: False,
) -> Array:
    """Return where every degree of freedom goes under the whole load, dead in direction.

    Raises SheetError when no number of steps settles (a sheet that is pushed flat, say), or when cancelled.
    """
    for number in steps:
        moved = _in_steps(membrane, d_n_per_mm, number, cancelled)
        if moved is not None:
            return moved
    raise SheetError("large strain does not settle", remedy="lower the pull or check the constants")


def _in_steps(
    membrane: Membrane, d_n_per_mm: Array, steps: int, cancelled: Callable[[], bool]
) -> Array | None:
    """Newton's method in this many steps of the load; None when one of them does not settle."""
    free, guide = membrane.free, membrane.guide
    moved = np.zeros(membrane.basis.N)
    guiding = 0.0
    size = float(np.linalg.norm(membrane.load[free])) or 1.0
    for step in range(1, steps + 1):
        target = membrane.load * step / steps
        for _ in range(ROUNDS):
            if cancelled():
                raise SheetError("stopped before the field was solved", remedy="start it again")
            tangent, inner = _tangent(membrane, d_n_per_mm, moved)
            left, aside = (target - inner)[free], 0.0
            if guide is not None:
                left, aside = left + guiding * guide[free], float(guide @ moved)
            if float(np.linalg.norm(left)) <= SETTLED * size:
                break
            try:
                stride, force = membrane.step(tangent, left, aside)
            except SheetError:
                return None
            moved[free] += stride
            guiding += force
            if float(np.abs(moved).max()) > WILD * membrane.extent_mm:
                return None
        else:
            return None
    return moved


def _tangent(membrane: Membrane, d_n_per_mm: Array, moved: Array) -> tuple[Any, Array]:
    from skfem import BilinearForm, LinearForm

    known = membrane.basis.interpolate(moved)
    fields = {(i, j): d_n_per_mm[:, i, j][:, None] for i, j in VOIGT}
    stiff = {**fields, **{(j, i): value for (i, j), value in fields.items()}}

    def green(gradient: Any, other: Any) -> tuple[Any, Any, Any]:
        """The variation of Green's strain at displacement gradient ``gradient``."""
        (a, b), (c, d) = gradient
        (p, q), (r, s) = other
        return (
            p + a * p + c * r,
            s + b * q + d * s,
            q + r + a * q + b * p + c * s + d * r,
        )

    (a, b), (c, d) = known.grad
    strain = (
        a + 0.5 * (a * a + c * c),
        d + 0.5 * (b * b + d * d),
        b + c + a * b + c * d,
    )
    force = tuple(sum(stiff[(i, j)] * strain[j] for j in range(3)) for i in range(3))

    def inner(v: Any, w: Any) -> Any:
        g = green(known.grad, v.grad)
        return sum(force[i] * g[i] for i in range(3))

    def tangent(u: Any, v: Any, w: Any) -> Any:
        gu, gv = green(known.grad, u.grad), green(known.grad, v.grad)
        total = sum(stiff[(i, j)] * gv[i] * gu[j] for i in range(3) for j in range(3))
        (p, q), (r, s) = u.grad
        (x, y), (z, t) = v.grad
        total = total + force[0] * (p * x + r * z) + force[1] * (q * y + s * t)
        return total + force[2] * (p * y + q * x + r * t + s * z)

    return BilinearForm(tangent).assemble(membrane.basis), LinearForm(inner).assemble(membrane.basis)
