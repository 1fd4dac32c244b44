"""How an orthotropic sheet gives under a pull, alone or glued to others. Force per width, N/mm.

Plane stress, small strain, membrane only: bending of an unsymmetric stack, creep, slip and heat
set are left out. Relations: R.M. Jones, Mechanics of Composite Materials, ch. 2 and 4, and
A.K. Kaw, same title, ch. 2 and 4 (from memory, checked in tests/published); for fabrics per width
J. Kilby, J. Text. Inst. 54 (1963) T9 (cited at second hand).

No published measurement of leather with a fused cloth against angle was found: these are the
mechanics of two ideal sheets. The strip test and the lasting trial decide.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from geometry.errors import SheetError
from geometry.said import said

Matrix = NDArray[np.float64]
"""(3, 3): rows and columns are along x, across it, and (engineering) shear."""


@dataclass(frozen=True)
class Sheet:
    """Constants of an orthotropic sheet per width; axis 1 is its tight direction.

    Raises SheetError when a stiffness is not positive or nu12^2 >= E1/E2 (such a sheet would
    give off energy when pulled).
    """

    e1_n_per_mm: float
    e2_n_per_mm: float
    g12_n_per_mm: float
    nu12: float

    def __post_init__(self) -> None:
        for name, value in (("E1", self.e1_n_per_mm), ("E2", self.e2_n_per_mm), ("G12", self.g12_n_per_mm)):
            if not (np.isfinite(value) and value > 0):
                raise SheetError(
                    said("{0} is {1} N/mm", name, f"{value:g}"), remedy="it must be greater than zero"
                )
        if not np.isfinite(self.nu12) or self.nu12**2 >= self.e1_n_per_mm / self.e2_n_per_mm:
            raise SheetError(
                said(
                    "nu12 = {0} is impossible with E1/E2 = {1}",
                    f"{self.nu12:g}",
                    f"{self.e1_n_per_mm / self.e2_n_per_mm:.3g}",
                ),
                remedy="nu12 squared must be below E1/E2; measure it again or take 0.2",
            )

    @property
    def nu21(self) -> float:
        """Narrowing along axis 1 when pulled along axis 2: nu12 E2/E1."""
        return self.nu12 * self.e2_n_per_mm / self.e1_n_per_mm

    @property
    def compliance(self) -> Matrix:
        """Strain per force in the sheet's own axes, mm/N."""
        s12 = -self.nu12 / self.e1_n_per_mm
        return np.array(
            [
                [1 / self.e1_n_per_mm, s12, 0.0],
                [s12, 1 / self.e2_n_per_mm, 0.0],
                [0.0, 0.0, 1 / self.g12_n_per_mm],
            ]
        )

    @property
    def stiffness(self) -> Matrix:
        """Force per strain in the sheet's own axes, N/mm."""
        e1, e2, nu12 = self.e1_n_per_mm, self.e2_n_per_mm, self.nu12
        share = 1.0 / (1.0 - nu12 * self.nu21)
        q12 = nu12 * e2 * share
        return np.array([[e1 * share, q12, 0.0], [q12, e2 * share, 0.0], [0.0, 0.0, self.g12_n_per_mm]])


def turned_compliance(sheet: Sheet, angle_deg: float) -> Matrix:
    """Compliance seen in x, y when axis 1 lies at ``angle_deg`` counter-clockwise from x."""
    strain = _strain_turn(angle_deg)
    return strain @ sheet.compliance @ strain.T


def turned_stiffness(sheet: Sheet, angle_deg: float) -> Matrix:
    """Stiffness seen in x, y when axis 1 lies at ``angle_deg`` counter-clockwise from x."""
    back = _strain_turn(-angle_deg)  # the inverse of turning by the angle
    return back.T @ sheet.stiffness @ back


def _strain_turn(angle_deg: float) -> Matrix:
    """Matrix that turns strains (engineering shear) from the sheet's axes into x, y."""
    angle = np.radians(angle_deg)
    c, s = float(np.cos(angle)), float(np.sin(angle))
    return np.array([[c * c, s * s, -c * s], [s * s, c * c, c * s], [2 * c * s, -2 * c * s, c * c - s * s]])


def apparent_n_per_mm(sheet: Sheet, angle_deg: float) -> float:
    """Modulus that a strip test sees when axis 1 lies off the strip, shear free (the strip may skew)."""
    return float(1 / turned_compliance(sheet, angle_deg)[0, 0])


@dataclass(frozen=True)
class Ply:
    """A sheet in a stack; ``angle_deg`` is where its axis 1 lies, from the pull."""

    sheet: Sheet
    angle_deg: float = 0.0


def stack_stiffness(plies: Sequence[Ply]) -> Matrix:
    """A matrix of sheets glued together: force per width for the strain they share, N/mm."""
    if not plies:
        raise SheetError("there is no sheet to pull", remedy="give the upper material's constants")
    total: Matrix = np.zeros((3, 3))
    for ply in plies:
        total = total + turned_stiffness(ply.sheet, ply.angle_deg)
    return total


@dataclass(frozen=True)
class Give:
    """Extension along a pull, as a share of the length (0.02 = 2 %).

    ``shear_blocked`` and ``shear_free`` bound what a stack does: on the last it can shear partly.
    ``added`` is what adding the sheets' strip stiffnesses gives, never less than ``shear_free``:
    the figure a bench sum arrives at. ``shear`` is the skew (radians) if shear is free.
    """

    shear_blocked: float
    shear_free: float
    added: float
    shear: float


def give(plies: Sequence[Ply], pull_n_per_mm: float) -> Give:
    """Return the extension of a stack pulled along x; the sides may draw in freely.

    Raises SheetError when there is no sheet or the pull is not positive.
    """
    if not (np.isfinite(pull_n_per_mm) and pull_n_per_mm > 0):
        raise SheetError(
            said("a pull of {0} N/mm", f"{pull_n_per_mm:g}"), remedy="it must be greater than zero"
        )
    a = stack_stiffness(plies)
    free = np.linalg.solve(a, [pull_n_per_mm, 0.0, 0.0])
    blocked = np.linalg.solve(a[:2, :2], [pull_n_per_mm, 0.0])
    added = sum(apparent_n_per_mm(ply.sheet, ply.angle_deg) for ply in plies)
    return Give(float(blocked[0]), float(free[0]), pull_n_per_mm / added, float(free[2]))


def shares_n_per_mm(plies: Sequence[Ply], pull_n_per_mm: float) -> tuple[float, ...]:
    """Force along the pull that each sheet of a stack carries, shear free; they add up to the pull."""
    strain = np.linalg.solve(stack_stiffness(plies), [pull_n_per_mm, 0.0, 0.0])
    return tuple(float((turned_stiffness(ply.sheet, ply.angle_deg) @ strain)[0]) for ply in plies)
