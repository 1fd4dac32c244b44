"""A plane sheet under a pull, small strain: second-order triangles, assembled by scikit-fem.

Plane stress per width (N/mm); axis 1 of the frame lies along the pull. Relations as in ``sheet``; elements
common to the finite element method (from memory, checked in tests/published against closed forms).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import splu

from geometry.errors import SheetError
from geometry.said import said
from geometry.stretch.field.mesh import FieldMesh

Array = NDArray[np.float64]

VOIGT = ((0, 0), (0, 1), (0, 2), (1, 1), (1, 2), (2, 2))
"""Entries of a symmetric (3, 3) stiffness that are passed to the elements."""


@dataclass(frozen=True, eq=False)
class Supports:
    """Which boundary edges are held and which are pulled.

    ``held`` and ``pulled`` are (k, 2) pairs of point numbers of the mesh; ``held_across`` also keeps held
    edges from moving across the pull. ``forces_n_per_mm`` (k, 2): force per mm of each pulled edge.
    """

    held: NDArray[np.int64]
    pulled: NDArray[np.int64]
    forces_n_per_mm: Array
    held_across: bool = True


class Membrane:
    """A mesh of second-order triangles with its supports; factorised once for each stiffness."""

    def __init__(self, mesh: FieldMesh, supports: Supports) -> None:
        from skfem import Basis, ElementTriP2, ElementVector, MeshTri

        self.mesh = mesh
        self.supports = supports
        if not len(supports.held):
            raise SheetError("nothing holds the piece", remedy="say which edge is held")
        self._tri = MeshTri(mesh.points_mm.T.copy(), mesh.triangles.T.copy(), sort_t=False)
        self.basis = Basis(self._tri, ElementVector(ElementTriP2()), intorder=3)
        self._facet_of = {tuple(sorted(pair)): k for k, pair in enumerate(self._tri.facets.T.tolist())}

    def facets(self, pairs: NDArray[np.int64]) -> NDArray[np.int64]:
        """Return the numbers of boundary edges given by their points."""
        found = [self._facet_of.get(tuple(sorted(pair)), -1) for pair in pairs.tolist()]
        return np.array([k for k in found if k >= 0], dtype=np.int64)

    @cached_property
    def fixed(self) -> NDArray[np.int64]:
        """The degrees of freedom that do not move."""
        dofs = self.basis.get_dofs(self.facets(self.supports.held))
        along = np.concatenate([dofs.nodal["u^1"], dofs.facet["u^1"]])
        if self.supports.held_across:
            across = np.concatenate([dofs.nodal["u^2"], dofs.facet["u^2"]])
            return np.unique(np.concatenate([along, across]))
        point = int(self.supports.held[0, 0])
        return np.unique(np.append(along, self.basis.nodal_dofs[1, point]))

    @cached_property
    def load(self) -> Array:
        """The force on every degree of freedom."""
        from skfem import FacetBasis, LinearForm

        total = np.zeros(self.basis.N)
        pairs, forces = self.supports.pulled, self.supports.forces_n_per_mm
        facets = np.array([self._facet_of[tuple(sorted(pair))] for pair in pairs.tolist()], dtype=np.int64)
        if not len(facets):
            return total
        order = np.argsort(facets)
        basis = FacetBasis(self._tri, self.basis.elem, facets=facets[order], intorder=3)
        fx, fy = (forces[order][:, k][:, None] for k in range(2))

        def pull(v: Any, w: Any) -> Any:
            return fx * v[0] + fy * v[1]

        total += LinearForm(pull).assemble(basis)
        return total

    def stiffness(self, d_n_per_mm: Array) -> csc_matrix:
        """Return the stiffness matrix for (m, 3, 3) sheet stiffnesses, one an element."""
        from skfem import BilinearForm

        fields = {f"d{i}{j}": d_n_per_mm[:, i, j][:, None] for i, j in VOIGT}

        def energy(u: Any, v: Any, w: Any) -> Any:
            e, g = strain_of(u.grad), strain_of(v.grad)
            total = 0.0
            for i, j in VOIGT:
                both = g[i] * e[j] if i == j else g[i] * e[j] + g[j] * e[i]
                total = total + fields[f"d{i}{j}"] * both
            return total

        return csc_matrix(BilinearForm(energy).assemble(self.basis))

    def solve(self, d_n_per_mm: Array, load: Array | None = None) -> Array:
        """Return where every degree of freedom goes. Raises SheetError when the piece would float away."""
        matrix = self.stiffness(d_n_per_mm)
        free = np.setdiff1d(np.arange(self.basis.N), self.fixed)
        moved = np.zeros(self.basis.N)
        try:
            factor = splu(matrix[free][:, free])
        except RuntimeError as error:
            raise SheetError(
                said("the field cannot be solved ({0})", error), remedy="check that the piece hangs together"
            ) from None
        moved[free] = factor.solve((self.load if load is None else load)[free])
        if not np.isfinite(moved).all():
            raise SheetError("the field has no finite answer", remedy="check constants and supports")
        return moved

    def at_points(self, moved: Array) -> Array:
        """Return (n, 2) displacements of the mesh's points, mm."""
        return moved[self.basis.nodal_dofs[:2]].T

    def strains(self, moved: Array) -> Array:
        """Return (m, 3) mean strains of the triangles: along, across, shear."""
        gradient = self.basis.interpolate(moved).grad
        e = strain_of(gradient)
        weights = self.basis.dx
        return np.column_stack([(part * weights).sum(axis=1) / weights.sum(axis=1) for part in e])


def strain_of(gradient: Any) -> tuple[Any, Any, Any]:
    """Return (along, across, engineering shear) of a displacement gradient."""
    return gradient[0][0], gradient[1][1], gradient[0][1] + gradient[1][0]


def forces_of(d_n_per_mm: Array, strains: Array) -> Array:
    """Return (m, 3) membrane forces, N/mm, of mean strains."""
    return np.einsum("mij,mj->mi", d_n_per_mm, strains)
