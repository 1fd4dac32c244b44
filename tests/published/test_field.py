"""The plane model of a pulled sheet against closed forms and benchmarks of the literature.

Sources named at each check; values recomputed here where a formula gives them.
"""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from geometry.stretch.field.finite import solve_finite
from geometry.stretch.field.membrane import Membrane, Supports, forces_of
from geometry.stretch.field.mesh import FieldMesh, mesh_of, rim_of
from geometry.stretch.field.wrinkles import (
    compressed_share,
    principal,
    relaxed,
    solve_tension_field,
)
from geometry.stretch.sheet import Ply, Sheet, give, stack_stiffness, turned_stiffness

CLOTH = Sheet(e1_n_per_mm=90.0, e2_n_per_mm=25.0, g12_n_per_mm=6.0, nu12=0.2)
LEATHER = Sheet(e1_n_per_mm=14.0, e2_n_per_mm=9.0, g12_n_per_mm=4.0, nu12=0.3)


def isotropic(e: float, nu: float) -> np.ndarray:
    return e / (1 - nu**2) * np.array([[1, nu, 0], [nu, 1, 0], [0, 0, (1 - nu) / 2]])


def everywhere(mesh: FieldMesh, d: np.ndarray) -> np.ndarray:
    return np.broadcast_to(d, (len(mesh.triangles), 3, 3)).copy()


def supported(mesh, held, pulled, force, *, across=True) -> Supports:
    """``held`` and ``pulled`` choose rim edges by their middles; ``force`` (x, y) is per mm of edge."""
    rim = rim_of(mesh)
    x, y = rim.middles_mm.T
    at_held, at_pulled = held(x, y), pulled(x, y)
    forces = np.broadcast_to(np.asarray(force, dtype=float), (int(at_pulled.sum()), 2)).copy()
    return Supports(rim.pairs[at_held], rim.pairs[at_pulled], forces, held_across=across)


def strip(length=100.0, width=40.0, size=8.0, **supports):
    mesh = mesh_of(shapely.box(0, 0, length, width), [], size)
    held = supported(
        mesh,
        lambda x, y: x < 1e-6,
        lambda x, y: x > length - 1e-6,
        supports.pop("force", (2.0, 0.0)),
        across=False,
    )
    return Membrane(mesh, held)


def test_patch_a_uniform_strain_comes_out_exactly() -> None:
    """Patch test (Irons and Razzaque 1972, from memory): a uniform pull gives the same strain everywhere."""
    field = strip()
    d = everywhere(field.mesh, isotropic(50.0, 0.3))
    moved = field.solve(d)
    expected = np.linalg.solve(isotropic(50.0, 0.3), [2.0, 0.0, 0.0])
    assert np.abs(field.strains(moved) - expected).max() < 1e-10
    forces = forces_of(d, field.strains(moved))
    assert np.abs(forces - [2.0, 0.0, 0.0]).max() < 1e-8


@pytest.mark.parametrize("angle", [0.0, 15.0, 45.0, 90.0])
def test_a_rectangle_fully_backed_gives_what_the_hold_check_says(angle) -> None:
    """The laminate of the hold check (sheet.give, shear free), to a millionth."""
    plies = [Ply(LEATHER), Ply(CLOTH, angle)]
    field = strip(force=(1.5, 0.0))
    moved = field.solve(everywhere(field.mesh, stack_stiffness(plies)))
    strains = field.strains(moved)
    assert strains[:, 0] == pytest.approx(give(plies, 1.5).shear_free, rel=1e-6)
    assert strains[:, 2] == pytest.approx(give(plies, 1.5).shear, rel=1e-6, abs=1e-12)


def test_cooks_membrane() -> None:
    """R.D. Cook (1974): tip 23.96 for E = 1, nu = 1/3, unit load (value of the literature, from memory)."""
    shape = shapely.Polygon([(0, 0), (48, 44), (48, 60), (0, 44)])
    mesh = mesh_of(shape, [], 2.0)
    field = Membrane(
        mesh, supported(mesh, lambda x, y: x < 1e-6, lambda x, y: x > 48 - 1e-6, (0.0, 1.0 / 16.0))
    )
    moved = field.at_points(field.solve(everywhere(mesh, isotropic(1.0, 1.0 / 3.0))))
    tip = np.hypot(*(mesh.points_mm - (48.0, 52.0)).T).argmin()
    assert mesh.points_mm[tip] == pytest.approx((48.0, 52.0), abs=1.1)
    right = np.flatnonzero(mesh.points_mm[:, 0] > 48 - 1e-6)
    middle = np.interp(
        52.0, *zip(*sorted(zip(mesh.points_mm[right, 1], moved[right, 1], strict=True)), strict=True)
    )
    assert middle == pytest.approx(23.96, rel=0.005)


def hole_in_plate(d: np.ndarray, size=4.0):
    """A wide plate with a hole of radius 10 pulled along x; the quarter of it, by symmetry."""
    far, radius = 200.0, 10.0
    circle = shapely.Point(0, 0).buffer(radius, quad_segs=64)
    quarter = shapely.box(0, 0, far, far).difference(circle)
    rings = [
        shapely.Point(0, 0).buffer(radius * k, quad_segs=64).intersection(quarter)
        for k in (1.06, 1.15, 1.4, 2.0)
    ]
    mesh = mesh_of(quarter, rings, size)
    rim = rim_of(mesh)
    x, y = rim.middles_mm.T
    pulled = rim.pairs[x > far - 1e-6]
    supports = Supports(rim.pairs[x < 1e-6], pulled, np.tile([1.0, 0.0], (len(pulled), 1)), held_across=False)
    field = Membrane(mesh, supports)
    across = field.basis.get_dofs(field.facets(rim.pairs[y < 1e-6]))
    along = field.basis.get_dofs(field.facets(rim.pairs[x < 1e-6]))
    field.__dict__["fixed"] = np.unique(
        np.concatenate([along.nodal["u^1"], along.facet["u^1"], across.nodal["u^2"], across.facet["u^2"]])
    )
    moved = field.solve(everywhere(mesh, d))
    forces = forces_of(everywhere(mesh, d), field.strains(moved))
    middles = mesh.middles_mm
    near = np.flatnonzero((np.hypot(*middles.T) < radius * 1.4) & (middles[:, 0] < 1.6))
    distance = middles[near, 1]
    # carried to the rim of the hole by a straight line through the nearest elements
    slope, top = np.polyfit(distance - radius, forces[near, 0], 2)[-2:]
    return float(top), slope


def test_a_plate_with_a_hole_bears_three_times_the_pull_beside_it() -> None:
    """G. Kirsch (1898): 3 for a wide isotropic plate (200 : 10 here, finite width adds under 1 %)."""
    top, _ = hole_in_plate(isotropic(50.0, 0.3))
    assert top == pytest.approx(3.0, rel=0.06)


def test_an_orthotropic_plate_with_a_hole() -> None:
    """S.G. Lekhnitskii, Anisotropic Plates: K = 1 + sqrt(2 (sqrt(E1/E2) - nu12) + E1/G12) (from memory)."""
    sheet = Sheet(60.0, 30.0, 14.0, 0.25)
    expected = 1.0 + np.sqrt(2.0 * (np.sqrt(2.0) - 0.25) + 60.0 / 14.0)
    top, _ = hole_in_plate(sheet.stiffness)
    assert top == pytest.approx(expected, rel=0.08)


def test_a_cantilever_bends_as_timoshenko_says() -> None:
    """S.P. Timoshenko: P L^3 / (3 E I) + P L / (G A 5/6), E I and G A of a strip (from memory)."""
    length, depth, e, nu, p = 100.0, 10.0, 1000.0, 0.3, 1.0
    mesh = mesh_of(shapely.box(0, 0, length, depth), [], 2.5)
    field = Membrane(
        mesh, supported(mesh, lambda x, y: x < 1e-6, lambda x, y: x > length - 1e-6, (0.0, p / depth))
    )
    moved = field.at_points(field.solve(everywhere(mesh, isotropic(e, nu))))
    end = moved[mesh.points_mm[:, 0] > length - 1e-6, 1].mean()
    inertia, shear = depth**3 / 12.0, e / (2 * (1 + nu)) * depth * 5.0 / 6.0
    assert end == pytest.approx(p * length**3 / (3 * e * inertia) + p * length / shear, rel=0.01)


def test_turned_as_a_whole_nothing_is_strained() -> None:
    """A rigid turn by 37 degrees: Green's strain, and so every inner force, stays zero."""
    field = strip()
    angle = np.radians(37.0)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]]) - np.eye(2)
    places = field.basis.doflocs
    moved = np.zeros(field.basis.N)
    for k, name in enumerate(("u^1", "u^2")):
        dofs = field.basis.get_dofs(elements=True)
        mine = np.concatenate([dofs.nodal[name], dofs.facet[name]])
        moved[mine] = turn[k] @ places[:, mine]
    from geometry.stretch.field.finite import _tangent

    _, inner = _tangent(field, everywhere(field.mesh, LEATHER.stiffness), moved)
    assert np.abs(inner).max() < 1e-9


def test_a_strip_pulled_far_follows_the_closed_form() -> None:
    """St. Venant-Kirchhoff in one direction, sides free: N = E1 s (s^2 - 1) / 2 for a stretch s."""
    pull = 2.0
    field = strip(force=(pull, 0.0))
    moved = field.at_points(solve_finite(field, everywhere(field.mesh, LEATHER.stiffness)))
    stretch = 1.0 + moved[field.mesh.points_mm[:, 0] > 100.0 - 1e-6, 0].mean() / 100.0
    roots = np.roots([LEATHER.e1_n_per_mm / 2.0, 0.0, -LEATHER.e1_n_per_mm / 2.0, -pull])
    expected = float(roots[np.isreal(roots)].real.max())
    assert stretch == pytest.approx(expected, rel=1e-6)
    assert expected - 1.0 < pull / LEATHER.e1_n_per_mm, "it stiffens: less than the straight law"


def test_small_and_large_strain_agree_on_a_small_pull() -> None:
    field = strip(force=(1e-4, 0.0))
    d = everywhere(field.mesh, turned_stiffness(CLOTH, 20.0))
    small, large = field.solve(d), solve_finite(field, d, steps=(1,))
    assert np.abs(small - large).max() < 1e-4 * np.abs(small).max()


def test_left_is_the_mirror_image_of_right() -> None:
    shape = shapely.Polygon([(0, 0), (90, 5), (80, 50), (30, 60), (-5, 30)])
    found = []
    for sign in (1.0, -1.0):
        mirrored = shapely.transform(shape, lambda xy, s=sign: xy * (1.0, s))
        mesh = mesh_of(mirrored, [], 5.0)
        rim = rim_of(mesh)
        pulled = rim.normals[:, 0] > 0.5
        forces = np.column_stack([rim.normals[pulled, 0], np.zeros(int(pulled.sum()))])
        field = Membrane(mesh, Supports(rim.pairs[rim.normals[:, 0] < -0.5], rim.pairs[pulled], forces))
        moved = field.at_points(field.solve(everywhere(mesh, turned_stiffness(CLOTH, sign * 25.0))))
        tip = np.hypot(*(mesh.points_mm - (80.0, sign * 50.0)).T).argmin()
        found.append(moved[tip] * (1.0, sign))
    assert found[0] == pytest.approx(found[1], rel=2e-2)


def test_the_work_of_the_pull_is_the_energy_of_the_sheet() -> None:
    """Clapeyron: half the load times the way is the strain energy."""
    shape = shapely.box(0, 0, 100, 60).difference(shapely.Point(50, 30).buffer(12))
    mesh = mesh_of(shape, [], 6.0)
    field = Membrane(mesh, supported(mesh, lambda x, y: x < 1e-6, lambda x, y: x > 100 - 1e-6, (2.0, 0.3)))
    d = everywhere(mesh, turned_stiffness(CLOTH, 30.0))
    moved = field.solve(d)
    energy = 0.5 * moved @ (field.stiffness(d) @ moved)
    assert energy == pytest.approx(0.5 * field.load @ moved, rel=1e-9)


def test_smaller_elements_change_the_answer_less_and_less() -> None:
    ends = []
    for size in (16.0, 8.0, 4.0, 2.0):
        mesh = mesh_of(shapely.Polygon([(0, 0), (48, 44), (48, 60), (0, 44)]), [], size)
        field = Membrane(
            mesh, supported(mesh, lambda x, y: x < 1e-6, lambda x, y: x > 48 - 1e-6, (0.0, 1.0 / 16.0))
        )
        moved = field.at_points(field.solve(everywhere(mesh, isotropic(1.0, 1.0 / 3.0))))
        ends.append(moved[mesh.points_mm[:, 0] > 48 - 1e-6, 1].mean())
    steps = np.abs(np.diff(ends))
    assert steps[1] < steps[0] and steps[2] < steps[1]
    assert steps[2] / ends[-1] < 0.01


def test_a_sheet_that_cannot_be_pushed_gives_more_and_one_that_is_only_pulled_the_same() -> None:
    field = strip()
    d = everywhere(field.mesh, isotropic(50.0, 0.3))
    plain = field.solve(d)
    assert compressed_share(field, d, plain, 2.0) == 0.0
    assert np.abs(solve_tension_field(field, d) - plain).max() < 1e-9
    mesh = mesh_of(shapely.box(0, 0, 60, 30), [], 4.0)
    sheared = Membrane(mesh, supported(mesh, lambda x, y: x < 1e-6, lambda x, y: x > 60 - 1e-6, (0.3, 1.0)))
    d = everywhere(mesh, isotropic(50.0, 0.3))
    plain = sheared.solve(d)
    assert compressed_share(sheared, d, plain, 1.0) > 0.2
    assert sheared.load @ solve_tension_field(sheared, d) > 1.02 * (sheared.load @ plain)


@pytest.mark.parametrize("angle", [0.0, 20.0, 70.0])
def test_the_energy_of_a_wrinkled_sheet_is_the_least_over_all_wrinkles(angle) -> None:
    """A.C. Pipkin (1986, from memory): W(e) = min of (e + b).D(e + b) / 2 over wrinkles b that only shorten.

    The least is looked for here by brute force over wrinkles of any direction and size.
    """
    d = turned_stiffness(LEATHER, angle)
    rng = np.random.default_rng(3)
    strain = rng.normal(scale=0.05, size=(1, 40, 3))
    energy, force, _ = relaxed(strain, d[None], np.linalg.inv(d)[None])
    turns = np.linspace(0.0, np.pi, 3601)
    ways = np.column_stack([np.cos(turns) ** 2, np.sin(turns) ** 2, 2 * np.cos(turns) * np.sin(turns)])
    for e, w, n in zip(strain[0], energy[0], force[0], strict=True):
        # along each direction the best size of the wrinkle in closed form, or none
        size = np.maximum(-(ways @ d @ e) / np.einsum("ki,ij,kj->k", ways, d, ways), 0.0)
        wrinkled = e + size[:, None] * ways
        least = 0.5 * np.einsum("ki,ij,kj->k", wrinkled, d, wrinkled).min()
        assert w <= least + 1e-12
        _, smaller = principal(n)
        assert smaller >= -1e-9, "nothing is pushed"
        if w > 0.0:
            assert w == pytest.approx(least, rel=2e-2, abs=1e-6)
