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
    ``guided``: the pulled edges do not move across the pull in the mean.
    """

    held: NDArray[np.int64]
    pulled: NDArray[np.int64]
    forces_n_per_mm: Array
    held_across: bool = True
    guided: bool = False


class Membrane:
    """A mesh of second-order triangles with its supports; factorised once for each stiffness."""

    def __init__(self, mesh: FieldMesh, supports: Supports) -> None:
        from skfem import Basis, ElementTriP2, ElementVector, MeshTri

        self.mesh = mesh
        self.supports = supports
        if not len(supports.held):
            raise SheetError("nothing holds the piece", remedy="state which edge is held")
        self._tri = MeshTri(mesh.points_mm.T.copy(), mesh.triangles.T.copy(), sort_t=False)
        self.basis = Basis(self._tri, ElementVector(ElementTriP2()), intorder=3)
        self._facet_of = {tuple(sorted(pair)): k for k, pair in enumerate(self._tri.facets.T.tolist())}

    @property
    def extent_mm(self) -> float:
        """The longer side of the mesh."""
        return float(np.ptp(self.mesh.points_mm, axis=0).max())

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
    def free(self) -> NDArray[np.int64]:
        """The degrees of freedom that move."""
        return np.setdiff1d(np.arange(self.basis.N), self.fixed)

    @cached_property
    def load(self) -> Array:
        """The force on every degree of freedom."""
        return self._on_pulled(self.supports.forces_n_per_mm)

    @property
    def whole_pull_n(self) -> float:
        """The force along the pull on all pulled edges together."""
        along = np.concatenate([self.basis.nodal_dofs[0], self.basis.facet_dofs[0]])
        return float(self.load[along].sum())

    @cached_property
    def guide(self) -> Array | None:
        """What keeps the pulled edges from moving aside: a force across each mm of them, or None."""
        if not self.supports.guided:
            return None
        across = self._on_pulled(np.tile([0.0, 1.0], (len(self.supports.pulled), 1)))
        size = float(np.linalg.norm(across[self.free]))
        return across / size if size > 0.0 else None

    def _on_pulled(self, forces: Array) -> Array:
        """Return the forces on every degree of freedom that (k, 2) forces per mm of pulled edge are."""
        from skfem import FacetBasis, LinearForm

        total = np.zeros(self.basis.N)
        pairs = self.supports.pulled
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
        """Return the stiffness matrix for sheet stiffnesses: (m, 3, 3), one per element, or (m, q, 3, 3)."""
        from skfem import BilinearForm

        each = d_n_per_mm[:, None] if d_n_per_mm.ndim == 3 else d_n_per_mm
        fields = {(i, j): each[..., i, j] for i, j in VOIGT}

        def energy(u: Any, v: Any, w: Any) -> Any:
            e, g = strain_of(u.grad), strain_of(v.grad)
            total = 0.0
            for i, j in VOIGT:
                both = g[i] * e[j] if i == j else g[i] * e[j] + g[j] * e[i]
                total = total + fields[(i, j)] * both
            return total

        return csc_matrix(BilinearForm(energy).assemble(self.basis))

    def inner(self, forces_n_per_mm: Array) -> Array:
        """Return the forces on every degree of freedom that (m, q, 3) forces in the sheet balance."""
        from skfem import LinearForm

        nx, ny, nxy = np.moveaxis(forces_n_per_mm, -1, 0)

        def work(v: Any, w: Any) -> Any:
            ex, ey, g = strain_of(v.grad)
            return nx * ex + ny * ey + nxy * g

        return np.asarray(LinearForm(work).assemble(self.basis))

    def solve(self, d_n_per_mm: Array, load: Array | None = None) -> Array:
        """Return where every degree of freedom goes. Raises SheetError when the piece would float away."""
        moved = np.zeros(self.basis.N)
        load = self.load if load is None else load
        moved[self.free], _ = self.step(self.stiffness(d_n_per_mm), load[self.free], 0.0)
        return moved

    def step(self, matrix: csc_matrix, load: Array, aside: float) -> tuple[Array, float]:
        """Return how the free degrees of freedom move under ``load``, and the guide's force.

        ``aside`` is how far the guide's edges lie aside already. Raises SheetError when nothing holds.
        """
        free = self.free
        try:
            factor = splu(
                csc_matrix(matrix)[free][:, free],
                permc_spec="MMD_AT_PLUS_A",
                diag_pivot_thresh=0.0,
                options={"SymmetricMode": True},
            )
        except RuntimeError as error:
            raise SheetError(
                said("the field cannot be solved ({0})", error), remedy="check that the piece is in one part"
            ) from None
        moved = factor.solve(load)
        force = 0.0
        if self.guide is not None:
            way = factor.solve(self.guide[free])
            force = -(aside + float(self.guide[free] @ moved)) / float(self.guide[free] @ way)
            moved = moved + force * way
        if not np.isfinite(moved).all():
            raise SheetError("the field has no finite answer", remedy="check constants and supports")
        return moved, force

    def at_points(self, moved: Array) -> Array:
        """Return (n, 2) displacements of the mesh's points, mm."""
        return moved[self.basis.nodal_dofs[:2]].T

    def at_places(self, moved: Array, places_mm: Array) -> Array:
        """Return (n, 2) displacements at any places; one outside is taken at the nearest element's rim."""
        which, corners = self.mesh.locate(places_mm)
        p, q, r = corners.T
        weights = [p * (2 * p - 1), q * (2 * q - 1), r * (2 * r - 1), 4 * p * q, 4 * q * r, 4 * p * r]
        nodes = self.basis.nodal_dofs[:, self._tri.t[:, which]]
        sides = self.basis.facet_dofs[:, self._tri.t2f[:, which]]
        known = moved[np.concatenate([nodes[:2], sides[:2]], axis=1)]
        return np.asarray((known * np.stack(weights)[None]).sum(axis=1).T)

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
