"""The pull over an upper: backed it gives less than alone, turned more than backed; nothing is guessed."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import shapely

from geometry.edge_kinds import EdgeKind
from geometry.errors import SheetError
from geometry.stretch.field.answers import Motion
from geometry.stretch.field.mesh import mesh_of, rim_of
from geometry.stretch.field.upper import (
    SETTLED_SHARE,
    FieldLayer,
    FieldModel,
    FieldPiece,
    FieldUpper,
    settled_model,
)
from geometry.stretch.hold import Section, check_hold, fixed
from geometry.stretch.sheet import Sheet

LEATHER = fixed(Sheet(14.0, 9.0, 4.0, 0.3))
CLOTH = fixed(Sheet(90.0, 25.0, 6.0, 0.2))
HORSESHOE = shapely.Polygon(
    [
        (0, 0),
        (80, 8),
        (110, 30),
        (120, 60),
        (110, 90),
        (80, 112),
        (0, 120),
        (0, 90),
        (50, 80),
        (62, 60),
        (50, 40),
        (0, 30),
    ]
)


def edges_of(shape, kinds):
    """One edge a side of the ring, its kind by ``kinds(middle)``."""
    ring = np.array(shape.exterior.coords)
    return tuple((kinds((a + b) / 2.0), np.array([a, b])) for a, b in pairwise(ring))


def vamp_kind(middle):
    x, y = middle
    if x < 1.0:
        return EdgeKind.UNDERLAY
    return EdgeKind.FOLDED if 29.0 < y < 91.0 and x < 63.0 else EdgeKind.LASTING


def vamp(*layers, shape=HORSESHOE, **options) -> FieldUpper:
    piece = FieldPiece("Vamp", shape, edges_of(shape, vamp_kind), LEATHER, layers)
    return FieldUpper((piece,), 1.0, ((2.0, 15.0), (61.0, 60.0)), **options)


BACKED = FieldLayer(HORSESHOE.buffer(-5.0), CLOTH)


def test_alone_gives_most_backed_least_and_turned_between() -> None:
    field = FieldModel(vamp(BACKED)).solve()
    alone, backed, turned = (field.case(name) for name in ("alone", "backed", "turned"))
    assert alone.throat_mm[0] > turned.throat_mm[1] > turned.throat_mm[0] > backed.throat_mm[1]
    assert alone.vamp_mm[0] > turned.vamp_mm[0] > backed.vamp_mm[0] > 0
    for case in field.cases:
        assert case.throat_mm[0] <= case.throat_mm[1] and 0.0 <= case.compressed_share <= 1.0
        assert np.isfinite(case.moved_mm).all()


def test_a_rectangle_fully_backed_is_the_hold_checks_laminate() -> None:
    box = shapely.box(0, 0, 100, 40)

    def kinds(middle):
        return {0.0: EdgeKind.SEAM, 100.0: EdgeKind.LASTING}.get(float(middle[0]), EdgeKind.RAW)

    piece = FieldPiece("Strap", box, edges_of(box, kinds), LEATHER, (FieldLayer(box, CLOTH),))
    case = FieldModel(FieldUpper((piece,), 1.0)).solve_case("backed")
    hold = check_hold(LEATHER, [CLOTH], [Section(100.0, (0,))], 1.0)
    # its heel end is clamped across too, so it gives a little less than a strip that may draw in
    assert hold.low_mm * 0.97 < case.vamp_mm[1] <= hold.high_mm * 1.001


def test_elements_are_halved_until_the_throat_moves_by_under_one_per_cent() -> None:
    model = settled_model(vamp(BACKED), size_mm=20.0)
    assert model.size_mm < 20.0, "elements of 20 mm are too coarse for it"
    assert model.throat_change_share is not None and model.throat_change_share < SETTLED_SHARE
    finer = FieldModel(vamp(BACKED), model.size_mm / 2.0)
    assert model.best_throat_mm() == pytest.approx(finer.best_throat_mm(), rel=2.0 * SETTLED_SHARE)


def test_the_sweep_runs_from_backed_to_turned() -> None:
    model = FieldModel(vamp(BACKED))
    sweep = dict(model.sweep((0.0, 90.0)))
    assert sweep[0.0] == pytest.approx(model.solve_case("backed").throat_mm)
    assert sweep[90.0] == pytest.approx(model.solve_case("turned").throat_mm)


def test_another_cloth_is_asked_of_the_same_mesh() -> None:
    """A cloth twice as stiff every way gives less, and as much as a model made for it."""
    stiffer = FieldLayer(BACKED.region, fixed(Sheet(180.0, 50.0, 12.0, 0.2)))
    model = FieldModel(vamp(BACKED))
    other = model.with_cloths(vamp(stiffer))
    assert other.mesh is model.mesh
    assert other.best_throat_mm() < model.best_throat_mm()
    assert other.best_throat_mm() == pytest.approx(FieldModel(vamp(stiffer)).best_throat_mm())


def test_large_strain_gives_less_and_a_sheet_that_cannot_be_pushed_more() -> None:
    """St. Venant-Kirchhoff stiffens as it is pulled; what may not be pushed bears less (Pipkin 1986)."""
    case = FieldModel(vamp(BACKED)).solve_case("backed", large=True)
    assert isinstance(case.large, Motion) and isinstance(case.wrinkled, Motion)
    assert 0.6 * case.best.vamp_mm < case.large.vamp_mm < case.best.vamp_mm
    assert case.wrinkled.vamp_mm >= case.best.vamp_mm
    assert case.unsettled == ()


def test_the_pulled_edge_is_not_let_swing_aside() -> None:
    """A strap cut on the slant would swing aside under a pull along it; the pincers do not let it."""
    strap = shapely.Polygon([(0, 0), (100, 30), (100, 60), (0, 30)])

    def kinds(middle):
        return {0.0: EdgeKind.SEAM, 100.0: EdgeKind.LASTING}.get(float(middle[0]), EdgeKind.RAW)

    model = FieldModel(FieldUpper((FieldPiece("Strap", strap, edges_of(strap, kinds), LEATHER, ()),), 1.0))
    moved = model.membrane.solve(model.stiffness("alone", lambda material: material.best))
    aside = model.membrane.guide @ moved
    assert abs(aside) < 1e-9 * np.abs(moved).max()
    assert np.abs(model.membrane.at_points(moved)[np.unique(model.supports.pulled), 1]).max() > 0.01


def test_a_seam_at_the_toe_end_is_pulled_by_the_piece_sewn_on() -> None:
    """A vamp that ends at a toe cap's seam between two lasting edges is pulled over its whole toe end."""

    def cap_seam(middle):
        return EdgeKind.SEAM if middle[0] > 109.0 else vamp_kind(middle)

    piece = FieldPiece("Vamp", HORSESHOE, edges_of(HORSESHOE, cap_seam), LEATHER, ())
    with_cap = FieldModel(FieldUpper((piece,), 1.0))
    assert with_cap.membrane.whole_pull_n == pytest.approx(FieldModel(vamp()).membrane.whole_pull_n)


def test_a_stopped_model_says_so() -> None:
    with pytest.raises(SheetError, match="stopped"):
        settled_model(vamp(BACKED), cancelled=lambda: True)


def test_places_within_an_element_move_as_second_order_shapes_say() -> None:
    """At the corners the values of the points; under a uniform pull straight between them."""
    box = shapely.box(0, 0, 100, 40)

    def kinds(middle):
        return {0.0: EdgeKind.SEAM, 100.0: EdgeKind.LASTING}.get(float(middle[0]), EdgeKind.RAW)

    model = FieldModel(FieldUpper((FieldPiece("Strap", box, edges_of(box, kinds), LEATHER, ()),), 1.0))
    moved = model.membrane.solve(model.stiffness("alone", lambda material: material.best))
    points = model.mesh.points_mm[::7]
    assert model.membrane.at_places(moved, points) == pytest.approx(
        model.membrane.at_points(moved)[::7], abs=1e-9
    )
    near, far = model.membrane.at_places(moved, np.array([[50.0, 20.0], [60.0, 20.0]]))
    assert far[0] - near[0] == pytest.approx(10.0 / LEATHER.best(1.0).sheet.e1_n_per_mm, rel=1e-2)


def test_held_sides_move_less_and_pincers_pull_as_much_in_all() -> None:
    free, held = FieldModel(vamp(BACKED)), FieldModel(vamp(BACKED, sides_held=True))
    assert held.solve_case("backed").throat_mm[1] < free.solve_case("backed").throat_mm[1]
    gripped = FieldModel(vamp(BACKED, pincers=True))
    assert gripped.membrane.load.sum() == pytest.approx(free.membrane.load.sum(), rel=1e-9)


def test_two_pieces_that_lap_are_joined_and_count_both_sheets() -> None:
    left, right = shapely.box(0, 0, 60, 40), shapely.box(52, 0, 110, 40)

    def kinds(middle):
        if middle[0] in (0.0, 110.0):
            return EdgeKind.LASTING
        return EdgeKind.UNDERLAY if 1.0 < middle[1] < 39.0 else EdgeKind.RAW

    pieces = tuple(
        FieldPiece(name, box, edges_of(box, kinds), LEATHER, ()) for name, box in (("A", left), ("B", right))
    )
    joined = FieldModel(FieldUpper(pieces, 1.0)).solve_case("alone")
    whole = shapely.box(0, 0, 110, 40)
    single = FieldPiece("C", whole, edges_of(whole, kinds), LEATHER, ())
    one = FieldModel(FieldUpper((single,), 1.0)).solve_case("alone")
    assert joined.vamp_mm[1] < one.vamp_mm[1], "8 mm of it are twice as thick"
    assert joined.vamp_mm[1] > 0.9 * one.vamp_mm[1]


@pytest.mark.parametrize(
    "shape",
    [
        HORSESHOE.difference(shapely.Point(90, 60).buffer(6)),  # a hole
        HORSESHOE.difference(shapely.box(95, 59.6, 121, 60.4)),  # a slit
        shapely.union(HORSESHOE, shapely.box(-40, 100, 2, 104)),  # a thin horn
    ],
)
def test_holes_slits_and_thin_horns_are_solved(shape) -> None:
    field = FieldModel(vamp(FieldLayer(shape.buffer(-4.0), CLOTH), shape=shape)).solve()
    assert all(np.isfinite(case.moved_mm).all() for case in field.cases)


def test_a_backing_in_two_parts_and_a_piece_without_any() -> None:
    parts = shapely.MultiPolygon([shapely.box(5, 3, 40, 28), shapely.box(70, 20, 105, 95)])
    case = FieldModel(vamp(FieldLayer(parts.intersection(HORSESHOE), CLOTH))).solve_case("backed")
    bare = FieldModel(vamp())
    assert bare.solve_case("backed").throat_mm == pytest.approx(bare.solve_case("alone").throat_mm)
    assert case.throat_mm[1] < bare.solve_case("alone").throat_mm[1]


def test_the_mesh_keeps_to_every_outline() -> None:
    inner = HORSESHOE.buffer(-5.0)
    mesh = mesh_of(HORSESHOE, [inner], 5.0)
    assert mesh.areas_mm2.sum() == pytest.approx(HORSESHOE.area, rel=1e-4)
    inside = shapely.contains_xy(inner, *mesh.middles_mm.T)
    assert mesh.areas_mm2[inside].sum() == pytest.approx(inner.area, rel=2e-3)
    rim = rim_of(mesh)
    assert rim.lengths_mm.sum() == pytest.approx(HORSESHOE.length, rel=1e-3)


@pytest.mark.parametrize(
    ("upper", "said"),
    [
        (FieldUpper((), 1.0), "no piece"),
        (FieldUpper(vamp().pieces, 0.0), "greater than zero"),
        (FieldUpper(vamp().pieces, float("nan")), "greater than zero"),
    ],
)
def test_what_cannot_be_asked_is_said(upper, said) -> None:
    with pytest.raises(SheetError, match=said):
        FieldModel(upper)


def test_a_shape_without_area_is_said() -> None:
    with pytest.raises(SheetError, match="no area"):
        mesh_of(shapely.Polygon(), [], 5.0)


def test_elements_are_smaller_beside_holes_and_hollow_corners_than_elsewhere() -> None:
    hole = shapely.Point(90, 60).buffer(6)
    mesh = mesh_of(HORSESHOE.difference(hole), [], 6.0)
    beside = np.hypot(*(mesh.middles_mm - (90.0, 60.0)).T) < 14.0
    far = np.hypot(*(mesh.middles_mm - (20.0, 15.0)).T) < 12.0
    assert np.median(mesh.areas_mm2[beside]) < 0.5 * np.median(mesh.areas_mm2[far])
    assert mesh.areas_mm2.sum() == pytest.approx(HORSESHOE.difference(hole).area, rel=1e-4)
