"""A whole upper under the pull of lasting: where its throat goes alone, backed, and with the cloth turned.

The flat upper lies with the pull along x, toe at the right. Its heel end is held, its toe lasting edge is
pulled by the style's force per mm (common practice, no source: the machine's pincers pull the toe while the
heel band holds); side lasting edges are free or held. No last, no friction, no relaxation: a flat model of a
curved job. The strip test and the lasting trial decide.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from geometry.errors import SheetError
from geometry.piece import EdgeKind
from geometry.said import said
from geometry.stretch.field.membrane import Membrane, Supports, forces_of
from geometry.stretch.field.mesh import FieldMesh, Rim, mesh_of, rim_of
from geometry.stretch.field.wrinkles import compressed_share
from geometry.stretch.hold import Law, Material, settled_plies
from geometry.stretch.sheet import turned_stiffness

Array = NDArray[np.float64]
Case = Literal["alone", "backed", "turned"]
CASES: tuple[Case, ...] = ("alone", "backed", "turned")

SIZE_MM = 5.0
"""Side of an element: halved, the throat of the sample uppers moves by under 1 % (tests/geometry)."""

FACES = 0.5
"""A rim edge faces the toe (or heel) when its normal lies within 60 degrees of the pull (or against it)."""

HEEL_SHARE = 0.35
"""The heel end is looked for in this part of the length, from the heel. Common practice, no source."""

STIFF_SHEAR = 1e3
"""Shear counts as blocked when it is so many times as stiff: more changes nothing that is shown."""

OPEN_KINDS = (EdgeKind.FOLDED, EdgeKind.RAW)
"""Edges that hold nothing: the throat and the top line."""

PEAK_SHARE = 0.99
"""The largest strain told is that of this share of the area: corners of a plane model peak without end."""


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


@dataclass(frozen=True, eq=False)
class FieldCase:
    """What one case gives: each figure a range (shear blocked or stiff end, to shear free and soft end).

    ``throat_mm`` None: no line from heel to throat is drawn; ``side_mm`` None: no side lasting edge.
    ``moved_mm`` (n, 2) and ``strain`` (m, 3) are those of the best estimates, shear free.
    """

    case: Case
    throat_mm: tuple[float, float] | None
    vamp_mm: tuple[float, float]
    side_mm: tuple[float, float] | None
    median_strain: float
    peak_strain: float
    compressed_share: float
    moved_mm: Array
    strain: Array
    jump_n_per_mm: Array


@dataclass(frozen=True, eq=False)
class Field:
    """An upper's mesh and its cases."""

    mesh: FieldMesh
    rim: Rim
    cases: tuple[FieldCase, ...]

    def case(self, name: Case) -> FieldCase:
        """Return a case by its name."""
        return next(each for each in self.cases if each.case == name)


class FieldModel:
    """The mesh and supports of an upper, made once; asked for any turn of its backing."""

    def __init__(self, upper: FieldUpper, size_mm: float = SIZE_MM) -> None:
        if not upper.pieces:
            raise SheetError("there is no piece to pull", remedy="choose a piece")
        if not (np.isfinite(upper.pull_n_per_mm) and upper.pull_n_per_mm > 0):
            raise SheetError(
                said("a pull of {0} N/mm", f"{upper.pull_n_per_mm:g}"), remedy="it must be greater than zero"
            )
        self.upper = upper
        regions = [piece.region for piece in upper.pieces]
        lines = [*regions, *(layer.region for piece in upper.pieces for layer in piece.layers)]
        domain = _largest(shapely.union_all(regions))
        self.mesh = mesh_of(domain, [line for line in lines if not line.is_empty], size_mm)
        self.rim = rim_of(self.mesh)
        self.kinds = _kinds(self.rim, upper.pieces)
        self.supports = _supports(self.rim, self.kinds, upper)
        self.membrane = Membrane(self.mesh, self.supports)
        middles = self.mesh.middles_mm
        self._on_piece = [_inside(piece.region, middles) for piece in upper.pieces]
        self._on_layer = [
            [_inside(layer.region, middles) for layer in piece.layers] for piece in upper.pieces
        ]

    def stiffness(self, case: Case, law: Callable[[Material], Law], turn_deg: float = 0.0) -> Array:
        """Return (m, 3, 3) stiffnesses: every sheet that covers a triangle, at its share of the pull."""
        count = len(self.mesh.triangles)
        total = np.zeros((count, 3, 3))
        for piece, covers, layers in zip(self.upper.pieces, self._on_piece, self._on_layer, strict=True):
            stacks = np.zeros(count, dtype=np.int64)
            for k, on in enumerate(layers):
                stacks += np.where(on, 1 << k, 0) if case != "alone" else 0
            for stack in np.unique(stacks[covers]).tolist():
                behind = [layer for k, layer in enumerate(piece.layers) if stack >> k & 1]
                turned = [layer.material.turned(turn_deg) for layer in behind]
                laws = [law(material) for material in (piece.upper, *turned)]
                plies = settled_plies(laws, self.upper.pull_n_per_mm)
                stiff = sum(turned_stiffness(ply.sheet, ply.angle_deg) for ply in plies)
                total[covers & (stacks == stack)] += stiff
        return total

    def solve_case(self, case: Case, turn_deg: float = 0.0) -> FieldCase:
        """Solve one case as well as the materials are known."""
        turn = turn_deg + (90.0 if case == "turned" else 0.0)
        best_d = self.stiffness(case, lambda m: m.best, turn)
        best = self.membrane.solve(best_d)
        found = [self._figures(best), self._figures(self.membrane.solve(blocked(best_d)))]
        for which in ("stiff", "soft"):
            laws = {id(getattr(m, which)[0]) for m in self._materials()}
            if laws - {id(m.best) for m in self._materials()}:
                law = _first(which)
                found.append(self._figures(self.membrane.solve(self.stiffness(case, law, turn))))
        strains = self.membrane.strains(best)
        largest = _largest_strain(strains)
        median, peak = _weighted(largest, self.mesh.areas_mm2, (0.5, PEAK_SHARE))
        return FieldCase(
            case,
            _span([f[0] for f in found]),
            _span([f[1] for f in found]) or (0.0, 0.0),
            _span([f[2] for f in found]),
            median,
            peak,
            compressed_share(self.membrane, best_d, best),
            self.membrane.at_points(best),
            strains,
            forces_of(best_d, strains),
        )

    def solve(self, tell: Callable[[str], None] = lambda text: None) -> Field:
        """Solve all cases; ``tell`` hears which one is at work."""
        cases = []
        for case in CASES:
            tell(case)
            cases.append(self.solve_case(case))
        return Field(self.mesh, self.rim, tuple(cases))

    def sweep(self, turns_deg: Sequence[float]) -> list[tuple[float, FieldCase]]:
        """Return the backed case with the cloth turned by each angle."""
        return [(turn, self.solve_case("backed", turn)) for turn in turns_deg]

    def _materials(self) -> list[Material]:
        return [
            material
            for piece in self.upper.pieces
            for material in (piece.upper, *(layer.material for layer in piece.layers))
        ]

    def _figures(self, moved: Array) -> tuple[float | None, float, float | None]:
        """Return what the throat, the toe end and the side edges move along the pull, mm."""
        at = self.membrane.at_points(moved)
        held = at[np.unique(self.supports.held), 0].mean()
        toe = at[np.unique(self.supports.pulled), 0].mean() - held
        throat = None
        if self.upper.throat_mm is not None:
            a, b = (self._nearest(point) for point in self.upper.throat_mm)
            throat = float(at[b, 0] - at[a, 0])
        side = self._side_points()
        return throat, float(toe), float(at[side, 0].mean() - held) if len(side) else None

    def _nearest(self, point: tuple[float, float]) -> int:
        return int(np.hypot(*(self.mesh.points_mm - point).T).argmin())

    def _side_points(self) -> NDArray[np.int64]:
        side = (self.kinds == EdgeKind.LASTING) & (np.abs(self.rim.normals[:, 0]) <= FACES)
        return np.unique(self.rim.pairs[side])


def blocked(d_n_per_mm: Array) -> Array:
    """Return stiffnesses with shear blocked: no skew, and none that a pull could cause."""
    stiff = d_n_per_mm.copy()
    stiff[:, :2, 2] = stiff[:, 2, :2] = 0.0
    stiff[:, 2, 2] *= STIFF_SHEAR
    return stiff


def halved(upper: FieldUpper, size_mm: float = SIZE_MM) -> tuple[FieldCase, FieldCase]:
    """Return the backed case with elements of a size and of half of it: how far the mesh matters."""
    return FieldModel(upper, size_mm).solve_case("backed"), FieldModel(upper, size_mm / 2).solve_case(
        "backed"
    )


def without_backing(upper: FieldUpper) -> FieldUpper:
    """Return an upper with its backing left out."""
    return replace(upper, pieces=tuple(replace(piece, layers=()) for piece in upper.pieces))


def _first(which: str) -> Callable[[Material], Law]:
    def law(material: Material) -> Law:
        found: Law = getattr(material, which)[0]
        return found

    return law


def _kinds(rim: Rim, pieces: Sequence[FieldPiece]) -> NDArray[np.object_]:
    """The edge kind of every rim edge: that of the nearest edge of any piece."""
    lines = [(kind, shapely.LineString(points)) for piece in pieces for kind, points in piece.edges]
    if not lines:
        return np.full(len(rim.pairs), EdgeKind.LASTING, dtype=object)
    tree = shapely.STRtree([line for _, line in lines])
    nearest = tree.nearest(shapely.points(rim.middles_mm))
    kinds = np.empty(len(rim.pairs), dtype=object)
    for k, index in enumerate(nearest.tolist()):
        kinds[k] = lines[index][0]
    return kinds


def _supports(rim: Rim, kinds: NDArray[np.object_], upper: FieldUpper) -> Supports:
    """Hold the heel end, pull the toe; raises SheetError where the piece shows neither."""
    facing = rim.normals[:, 0]
    x = rim.middles_mm[:, 0]
    low, high = float(x.min()), float(x.max())
    lasting = np.array([kind is EdgeKind.LASTING for kind in kinds])
    closed = np.array([kind not in OPEN_KINDS for kind in kinds])
    pulled = (facing > FACES) & lasting
    if not pulled.any():  # no toe lasting edge: its neighbour pulls it there
        pulled = (facing > FACES) & closed & (x > high - HEEL_SHARE * (high - low))
    held = (facing < -FACES) & closed & (x < low + HEEL_SHARE * (high - low))
    if not held.any():
        held = (facing < -FACES) & (x < low + HEEL_SHARE * (high - low))
    if upper.sides_held:
        held |= lasting & (np.abs(facing) <= FACES)
    if not pulled.any() or not held.any():
        what = "toe" if not pulled.any() else "heel"
        raise SheetError(said("no edge faces the {0}", what), remedy="check edge kinds and pull axis")
    share = _pincers(rim, pulled) if upper.pincers else np.ones(int(pulled.sum()))
    forces = np.zeros((int(pulled.sum()), 2))
    forces[:, 0] = upper.pull_n_per_mm * facing[pulled] * share
    return Supports(rim.pairs[held], rim.pairs[pulled], forces)


PINCERS = 5  # stretches of the toe that are gripped
PINCER_SHARE = 0.5
"""Pincers grip the toe in so many stretches, on this share of it (common practice, no source); the whole
pull is the same."""


def _pincers(rim: Rim, pulled: NDArray[np.bool_]) -> Array:
    y = rim.middles_mm[pulled, 1]
    place = (y - y.min()) / max(float(y.max() - y.min()), 1e-9) * PINCERS
    gripped = np.abs(place - np.floor(place) - 0.5) <= PINCER_SHARE / 2.0
    weight = rim.lengths_mm[pulled] * rim.normals[pulled, 0]
    return np.where(gripped, weight.sum() / max(float(weight[gripped].sum()), 1e-9), 0.0)


def _inside(region: shapely.Geometry, points: Array) -> NDArray[np.bool_]:
    return np.asarray(shapely.contains_xy(region, points[:, 0], points[:, 1]))


def _largest(shape: shapely.Geometry) -> shapely.Geometry:
    """Pieces that only touch are closed over a hair; a piece that lies apart is not joined."""
    closed = shape.buffer(0.05, join_style="mitre").buffer(-0.05, join_style="mitre")
    parts = [part for part in shapely.get_parts(closed) if part.geom_type == "Polygon"]
    if not parts:
        raise SheetError("there is no area to pull", remedy="check the outline of the piece")
    return max(parts, key=lambda part: part.area)


def _largest_strain(strains: Array) -> Array:
    ex, ey, g = strains.T
    return (ex + ey) / 2.0 + np.hypot((ex - ey) / 2.0, g / 2.0)


def _weighted(values: Array, weights: Array, shares: Sequence[float]) -> tuple[float, ...]:
    order = np.argsort(values)
    reached = np.cumsum(weights[order]) / weights.sum()
    places = [min(int(np.searchsorted(reached, share)), len(order) - 1) for share in shares]
    return tuple(float(values[order][place]) for place in places)


def _span(values: Sequence[float | None]) -> tuple[float, float] | None:
    known = [value for value in values if value is not None]
    return (min(known), max(known)) if known else None
