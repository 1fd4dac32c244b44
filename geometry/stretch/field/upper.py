"""A whole upper under the pull of lasting: where its throat goes alone, backed, and with the cloth turned.

The flat upper lies with the pull along x, toe at the right; ``supports`` says what holds it and what pulls.
No last, no friction, no relaxation: a flat model of a curved job. The strip test and the lasting trial
decide.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.edge_kinds import EdgeKind
from geometry.errors import SheetError
from geometry.said import said
from geometry.stretch.field.answers import CASES, Case, Field, FieldCase, Motion, Range, span_of, strains_over
from geometry.stretch.field.finite import solve_finite
from geometry.stretch.field.membrane import Membrane, forces_of
from geometry.stretch.field.mesh import inner_edges, mesh_of, rim_of
from geometry.stretch.field.peel import LayerEdge, layer_edge, peel_places
from geometry.stretch.field.supports import rim_kinds, side_edges, supports_of
from geometry.stretch.field.wrinkles import compressed_share, solve_tension_field
from geometry.stretch.hold import Law, Material, settled_plies
from geometry.stretch.sheet import turned_stiffness

Array = NDArray[np.float64]
Bools = NDArray[np.bool_]

SIZE_MM = 5.0
"""Side of an element, halved until the throat moves by less than SETTLED_SHARE (at most to LEAST_SIZE_MM)."""

LEAST_SIZE_MM = 1.25  # smaller elements take longer than anyone waits
SETTLED_SHARE = 0.01  # far below what the strips leave open

MOST_STRAIN = 1.0
"""No upper is stretched to twice its length: beyond, a constant or the pull is mistyped."""

STIFF_SHEAR = 1e3
"""Shear counts as blocked when it is this many times as stiff: more changes nothing that is shown."""


@dataclass(frozen=True, eq=False)
class FieldLayer:
    """A backing layer: where it lies, and what it is made of, seen from the pull."""

    region: shapely.Geometry
    material: Material


@dataclass(frozen=True, eq=False)
class FieldPiece:
    """A piece of the upper in the pull's frame. ``edges`` are (kind, points (n, 2) mm)."""

    name: str
    region: shapely.Geometry
    edges: tuple[tuple[EdgeKind, Array], ...]
    upper: Material
    layers: tuple[FieldLayer, ...]


@dataclass(frozen=True, eq=False)
class FieldUpper:
    """Pieces joined where they lie on each other; ``throat_mm`` runs from heel to throat, if it is drawn."""

    pieces: tuple[FieldPiece, ...]
    pull_n_per_mm: float
    throat_mm: tuple[tuple[float, float], tuple[float, float]] | None = None
    sides_held: bool = False
    pincers: bool = False


def _going() -> bool:
    return False


class FieldModel:
    """The mesh and supports of an upper, made once; asked for any turn of its backing.

    ``cancelled`` is asked before every solution: where it says yes, SheetError ends the work.
    """

    def __init__(
        self, upper: FieldUpper, size_mm: float = SIZE_MM, cancelled: Callable[[], bool] = _going
    ) -> None:
        if not upper.pieces:
            raise SheetError("there is no piece to pull", remedy="choose a piece")
        if not (np.isfinite(upper.pull_n_per_mm) and upper.pull_n_per_mm > 0):
            raise SheetError(
                said("a pull of {0} N/mm", f"{upper.pull_n_per_mm:g}"), remedy="it must be greater than zero"
            )
        self.upper = upper
        self.size_mm = size_mm
        self.throat_change_share: float | None = None
        self._cancelled = cancelled
        regions = [piece.region for piece in upper.pieces]
        lines = [*regions, *(layer.region for piece in upper.pieces for layer in piece.layers)]
        domain = _largest(shapely.union_all(regions))
        self.mesh = mesh_of(domain, [line for line in lines if not line.is_empty], size_mm)
        self.rim = rim_of(self.mesh)
        self.kinds = rim_kinds(self.rim, [edge for piece in upper.pieces for edge in piece.edges])
        self.supports = supports_of(
            self.rim, self.kinds, upper.pull_n_per_mm, sides_held=upper.sides_held, pincers=upper.pincers
        )
        self.membrane = Membrane(self.mesh, self.supports)
        self._inner = inner_edges(self.mesh)
        middles = self.mesh.middles_mm
        self._on_piece = [_inside(piece.region, middles) for piece in upper.pieces]
        self._on_layer = [
            [_inside(layer.region, middles) for layer in piece.layers] for piece in upper.pieces
        ]

    def with_cloths(self, upper: FieldUpper) -> FieldModel:
        """Return the same model for an upper of the same outlines on other cloths: without meshing again."""
        other = copy.copy(self)
        other.upper = upper
        return other

    @property
    def zones(self) -> NDArray[np.int64]:
        """(m,) numbers of the triangles by the sheets that cover them."""
        covers = [*self._on_piece, *(on for layers in self._on_layer for on in layers)]
        _, numbers = np.unique(np.column_stack(covers), axis=0, return_inverse=True)
        return np.asarray(numbers, dtype=np.int64).reshape(-1)

    def stiffness(self, case: Case, law: Callable[[Material], Law], turn_deg: float = 0.0) -> Array:
        """Return (m, 3, 3) stiffnesses: every sheet that covers a triangle, at its share of the pull."""
        uppers, layers = self._sheets(case, law, turn_deg)
        return uppers + sum((stiff for piece in layers for stiff in piece), np.zeros_like(uppers))

    def _sheets(
        self, case: Case, law: Callable[[Material], Law], turn_deg: float
    ) -> tuple[Array, list[list[Array]]]:
        """Return the stiffness of the upper, and of every layer of every piece, (m, 3, 3) each."""
        count = len(self.mesh.triangles)
        uppers = np.zeros((count, 3, 3))
        all_layers: list[list[Array]] = []
        for piece, covers, layers in zip(self.upper.pieces, self._on_piece, self._on_layer, strict=True):
            stacks = np.zeros(count, dtype=np.int64)
            for k, on in enumerate(layers):
                stacks += np.where(on, 1 << k, 0) if case != "alone" else 0
            of_layers = [np.zeros((count, 3, 3)) for _ in piece.layers]
            for stack in np.unique(stacks[covers]).tolist():
                here = covers & (stacks == stack)
                behind = [k for k in range(len(piece.layers)) if stack >> k & 1]
                turned = [piece.layers[k].material.turned(turn_deg) for k in behind]
                laws = [law(material) for material in (piece.upper, *turned)]
                plies = settled_plies(laws, self.upper.pull_n_per_mm)
                stiff = [turned_stiffness(ply.sheet, ply.angle_deg) for ply in plies]
                uppers[here] += stiff[0]
                for k, of_layer in zip(behind, stiff[1:], strict=True):
                    of_layers[k][here] += of_layer
            all_layers.append(of_layers)
        return uppers, all_layers

    def solve_case(self, case: Case, turn_deg: float = 0.0, *, large: bool = False) -> FieldCase:
        """Solve one case as well as the materials are known; ``large``: with the second level too."""
        turn = turn_deg + (90.0 if case == "turned" else 0.0)
        uppers, layers = self._sheets(case, _best, turn)
        best_d = uppers + sum((stiff for piece in layers for stiff in piece), np.zeros_like(uppers))
        best = self._solve(best_d)
        found = [self.motion(best), self.motion(self._solve(blocked(best_d)))]
        for which in ("stiff", "soft"):
            laws = {id(getattr(m, which)[0]) for m in self._materials()}
            if laws - {id(m.best) for m in self._materials()}:
                found.append(self.motion(self._solve(self.stiffness(case, _first(which), turn))))
        strains = self.membrane.strains(best)
        over = strains_over(strains, self.mesh.areas_mm2)
        if over.median_strain > MOST_STRAIN:
            raise SheetError(
                said(
                    "the piece would give more than its own length under {0} N/mm",
                    f"{self.upper.pull_n_per_mm:g}",
                ),
                remedy="check the pull and the constants of upper and cloth, in N per mm of width",
            )
        edges = self._edges(layers, strains)
        solved = FieldCase(
            case,
            span_of([f.throat_mm for f in found]),
            span_of([f.vamp_mm for f in found]) or (0.0, 0.0),
            span_of([f.side_mm for f in found]),
            found[0],
            over,
            compressed_share(self.membrane, best_d, best, self.upper.pull_n_per_mm),
            self.membrane.at_points(best),
            strains,
            edges,
            peel_places(edges),
        )
        return self._second_level(solved, best_d) if large else solved

    def _second_level(self, case: FieldCase, best_d: Array) -> FieldCase:
        """Return a case with large strain and tension field beside the plain answer."""
        ways: dict[str, Callable[[], Array]] = {
            "large strain": lambda: solve_finite(self.membrane, best_d, cancelled=self._cancelled),
            "tension field": lambda: solve_tension_field(self.membrane, best_d, cancelled=self._cancelled),
        }
        found: dict[str, Motion | None] = {}
        for name, way in ways.items():
            self._ask_on()
            try:
                found[name] = self.motion(way())
            except SheetError:
                self._ask_on()
                found[name] = None
        unsettled = tuple(name for name, motion in found.items() if motion is None)
        return replace(
            case, large=found["large strain"], wrinkled=found["tension field"], unsettled=unsettled
        )

    def best_throat_mm(self, case: Case = "backed") -> float:
        """Return how far the throat moves (without one the toe end), best estimates, shear free."""
        motion = self.motion(self._solve(self.stiffness(case, _best, 90.0 if case == "turned" else 0.0)))
        return motion.vamp_mm if motion.throat_mm is None else motion.throat_mm

    def solve(self, tell: Callable[[str], None] = lambda text: None, *, large: bool = False) -> Field:
        """Solve all cases; ``tell`` is called with the name of the case at work."""
        cases = []
        for case in CASES:
            tell(case)
            cases.append(self.solve_case(case, large=large))
        return Field(self.mesh, self.rim, self.zones, tuple(cases), self.size_mm, self.throat_change_share)

    def sweep(self, turns_deg: Sequence[float]) -> list[tuple[float, Range | None]]:
        """Return the throat of the backed case with the cloth turned by each angle."""
        return [(turn, self.solve_case("backed", turn).throat_mm) for turn in turns_deg]

    def motion(self, moved: Array) -> Motion:
        """Return what throat, toe end and side edges move along the pull."""
        at = self.membrane.at_points(moved)
        held = float(at[np.unique(self.supports.held), 0].mean())
        toe = float(at[np.unique(self.supports.pulled), 0].mean()) - held
        throat = None
        if self.upper.throat_mm is not None:
            heel, end = self.membrane.at_places(moved, np.array(self.upper.throat_mm))[:, 0].tolist()
            throat = end - heel
        side = np.unique(self.rim.pairs[side_edges(self.rim, self.kinds)])
        return Motion(throat, toe, float(at[side, 0].mean()) - held if len(side) else None)

    def _edges(self, layers: Sequence[Sequence[Array]], strains: Array) -> tuple[LayerEdge, ...]:
        found = []
        for piece, on_layers, stiff in zip(self.upper.pieces, self._on_layer, layers, strict=True):
            for k, (layer, on, d) in enumerate(zip(piece.layers, on_layers, stiff, strict=True)):
                if d.any():
                    carried = forces_of(d, strains)
                    edge = layer_edge(piece.name, k + 1, layer.region, self.mesh, self._inner, on, carried)
                    found += [] if edge is None else [edge]
        return tuple(found)

    def _solve(self, d_n_per_mm: Array) -> Array:
        self._ask_on()
        return self.membrane.solve(d_n_per_mm)

    def _ask_on(self) -> None:
        if self._cancelled():
            raise SheetError("stopped before the field was solved", remedy="start it again")

    def _materials(self) -> list[Material]:
        return [
            material
            for piece in self.upper.pieces
            for material in (piece.upper, *(layer.material for layer in piece.layers))
        ]


def settled_model(
    upper: FieldUpper, size_mm: float = SIZE_MM, cancelled: Callable[[], bool] = _going
) -> FieldModel:
    """Return the model with elements so small that halving them moved the throat by under SETTLED_SHARE.

    ``throat_change_share`` of the model is what the last halving changed; above SETTLED_SHARE only where
    LEAST_SIZE_MM is reached first.
    """
    coarse = FieldModel(upper, 2.0 * size_mm, cancelled).best_throat_mm()
    while True:
        model = FieldModel(upper, size_mm, cancelled)
        fine = model.best_throat_mm()
        model.throat_change_share = abs(fine - coarse) / max(abs(fine), 1e-12)
        if model.throat_change_share < SETTLED_SHARE or size_mm / 2.0 < LEAST_SIZE_MM:
            return model
        coarse, size_mm = fine, size_mm / 2.0


def blocked(d_n_per_mm: Array) -> Array:
    """Return stiffnesses with shear blocked: no skew, and none that a pull could cause."""
    stiff = d_n_per_mm.copy()
    stiff[:, :2, 2] = stiff[:, 2, :2] = 0.0
    stiff[:, 2, 2] *= STIFF_SHEAR
    return stiff


def _best(material: Material) -> Law:
    return material.best


def _first(which: str) -> Callable[[Material], Law]:
    def law(material: Material) -> Law:
        found: Law = getattr(material, which)[0]
        return found

    return law


def _inside(region: shapely.Geometry, points: Array) -> Bools:
    return np.asarray(shapely.contains_xy(region, points[:, 0], points[:, 1]))


def _largest(shape: shapely.Geometry) -> shapely.Geometry:
    """Pieces that only touch are closed over a hair; a piece that lies apart is not joined."""
    closed = shape.buffer(0.05, join_style="mitre").buffer(-0.05, join_style="mitre")
    parts = [part for part in shapely.get_parts(closed) if part.geom_type == "Polygon"]
    if not parts:
        raise SheetError("there is no area to pull", remedy="check the outline of the piece")
    return max(parts, key=lambda part: part.area)
