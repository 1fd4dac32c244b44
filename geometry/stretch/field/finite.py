"""Large strain: total Lagrangian, orthotropic St. Venant-Kirchhoff sheet, the load in steps.

Green's strain and the second Piola-Kirchhoff force per width; Newton's method for each step (Bathe, Finite
Element Procedures, ch. 6, from memory; checked against the uniaxial closed form in tests/published).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import splu

from geometry.errors import SheetError
from geometry.stretch.field.membrane import VOIGT, Membrane

Array = NDArray[np.float64]

STEPS = 4  # load steps: enough that each settles on the sample uppers
ROUNDS = 25  # Newton rounds of a step at the most; one that has not settled by then is refused
SETTLED = 1e-8
"""A step is solved when the forces left over are this share of the load."""


def solve_finite(
    membrane: Membrane,
    d_n_per_mm: Array,
    *,
    steps: int = STEPS,
    cancelled: Callable[[], bool] = lambda: False,
) -> Array:
    """Return where every degree of freedom goes under the whole load, dead in direction.

    Raises SheetError when a step does not settle (a sheet that is pushed flat, say), or when cancelled.
    """
    free = np.setdiff1d(np.arange(membrane.basis.N), membrane.fixed)
    moved = np.zeros(membrane.basis.N)
    full = membrane.load
    size = float(np.linalg.norm(full[free])) or 1.0
    for step in range(1, steps + 1):
        target = full * step / steps
        for _ in range(ROUNDS):
            if cancelled():
                raise SheetError("stopped before the field was solved", remedy="start it again")
            tangent, inner = _tangent(membrane, d_n_per_mm, moved)
            left = (target - inner)[free]
            if float(np.linalg.norm(left)) <= SETTLED * size:
                break
            moved[free] += splu(csc_matrix(tangent)[free][:, free]).solve(left)
            if not np.isfinite(moved).all():
                raise SheetError("the sheet gives way under the pull", remedy="check its constants")
        else:
            raise SheetError("large strain does not settle", remedy="lower the pull or check the constants")
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
