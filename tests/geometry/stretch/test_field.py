"""The pull over an upper: backed it gives less than alone, turned more than backed; nothing is guessed."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import shapely

from geometry.errors import SheetError
from geometry.piece import EdgeKind
from geometry.stretch.field.mesh import mesh_of, rim_of
from geometry.stretch.field.upper import FieldLayer, FieldModel, FieldPiece, FieldUpper, halved
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


def test_half_the_element_moves_the_throat_by_under_one_per_cent() -> None:
    coarse, fine = halved(vamp(BACKED))
    assert coarse.throat_mm[1] == pytest.approx(fine.throat_mm[1], rel=0.01)


def test_the_sweep_runs_from_backed_to_turned() -> None:
    model = FieldModel(vamp(BACKED))
    sweep = dict(model.sweep((0.0, 90.0)))
    assert sweep[0.0].throat_mm == pytest.approx(model.solve_case("backed").throat_mm)
    assert sweep[90.0].throat_mm == pytest.approx(model.solve_case("turned").throat_mm)


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
