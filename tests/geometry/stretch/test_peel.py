"""Peel-prone places: what the cloth carries up to its edge, the glue must pass back into the upper there."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import shapely

from geometry.edge_kinds import EdgeKind
from geometry.stretch.field.upper import FieldLayer, FieldModel, FieldPiece, FieldUpper
from geometry.stretch.hold import fixed
from geometry.stretch.sheet import Sheet

UPPER, CLOTH = Sheet(12.0, 12.0, 6.0, 0.0), Sheet(36.0, 36.0, 18.0, 0.0)
PULL = 1.2


def strap(layer: shapely.Geometry, angle_deg: float = 0.0, cloth: Sheet = CLOTH):
    """A strap of 160 x 40 mm that may draw in freely, backed on ``layer``."""
    box = shapely.box(0, 0, 160, 40)
    ring = np.array(box.exterior.coords)

    def kind(middle):
        return {0.0: EdgeKind.SEAM, 160.0: EdgeKind.LASTING}.get(float(middle[0]), EdgeKind.RAW)

    edges = tuple((kind((a + b) / 2.0), np.array([a, b])) for a, b in pairwise(ring))
    piece = FieldPiece("Strap", box, edges, fixed(UPPER), (FieldLayer(layer, fixed(cloth, angle_deg)),))
    return FieldModel(FieldUpper((piece,), PULL)).solve_case("backed")


def test_across_a_strap_the_glue_passes_the_cloths_share_of_the_pull() -> None:
    """Closed form: without narrowing, sheets side by side carry the pull as their stiffnesses do."""
    case = strap(shapely.box(50, 0, 110, 40))
    (edge,) = case.edges
    assert len(edge.points_mm) > 10 and set(np.round(edge.points_mm[:, :, 0].ravel())) == {50.0, 110.0}
    share = PULL * 36.0 / (36.0 + 12.0)
    assert np.abs(edge.force_n_per_mm[:, 0]) == pytest.approx(share, rel=1e-6)
    assert np.abs(edge.force_n_per_mm[:, 1]).max() < 1e-6
    assert all(place.force_n_per_mm == pytest.approx(share, rel=1e-6) for place in case.peel)
    assert {round(place.at_mm[0]) for place in case.peel} == {50, 110}, "both ends, equally"


def test_along_an_edge_that_runs_with_the_pull_the_glue_passes_shear_only_near_the_ends() -> None:
    case = strap(shapely.box(30, 10, 130, 30))
    worst = case.peel[0]
    assert min(abs(worst.at_mm[0] - x) for x in (30.0, 130.0)) < 6.0
    (edge,) = case.edges
    middles = edge.points_mm.mean(axis=1)
    sides = np.abs(middles[:, 0] - 80.0) < 20.0
    assert np.abs(edge.force_n_per_mm[sides]).max() < 0.1 * worst.force_n_per_mm


def test_cloth_on_the_bias_passes_shear_along_its_edge() -> None:
    stiff_one_way = Sheet(60.0, 6.0, 3.0, 0.0)
    straight = strap(shapely.box(50, 0, 110, 40), 0.0, stiff_one_way)
    slanted = strap(shapely.box(50, 0, 110, 40), 30.0, stiff_one_way)
    assert straight.peel[0].shear_n_per_mm < 1e-6
    assert slanted.peel[0].shear_n_per_mm > 0.1


def test_without_backing_nothing_peels() -> None:
    case = strap(shapely.Polygon())
    assert case.edges == () and case.peel == ()


def test_places_are_the_worst_first_and_apart_from_each_other() -> None:
    case = strap(shapely.box(30, 10, 130, 30))
    forces = [place.force_n_per_mm for place in case.peel]
    assert forces == sorted(forces, reverse=True) and len(forces) <= 5
    for one, other in pairwise(case.peel):
        assert np.hypot(*np.subtract(one.at_mm, other.at_mm)) > 10.0
        assert one.length_mm > 0.0 and len(one.stretch_mm) > 0
