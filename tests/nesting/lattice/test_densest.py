"""Lattices of pieces as they are cut: not convex, with a gap, one-way and two-way."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import Polygon

from geometry.outline import Outline
from nesting.compaction import slp
from nesting.compaction.slp import Arrangement, Contacts
from nesting.contact.penetration import depth_raster
from nesting.contact.touch import clearance, convolution
from nesting.lattice.densest import Lattice, centred, one_way, straight, two_way


def vamp() -> Outline:
    """A U with a mouth wide enough for an arm."""
    outer = [(np.cos(t) * 60, np.sin(t) * 50) for t in np.linspace(np.pi / 2, 3 * np.pi / 2, 19)]
    inner = [(np.cos(t) * 25, np.sin(t) * 22) for t in np.linspace(3 * np.pi / 2, np.pi / 2, 11)]
    return Outline.make([*outer, (70, -50), (70, -22), *inner, (70, 22), (70, 50)])


def worst_gap_mm(lattice: Lattice) -> float:
    """Smallest distance between any two copies, by shapely on a patch much larger than a piece."""
    reach = max(float(np.ptp(r, axis=0).max()) for r in lattice.rings_mm)
    pieces, centre = [], []
    for i in range(-12, 13):
        for j in range(-12, 13):
            shift = i * lattice.u_mm + j * lattice.v_mm
            for ring, at in zip(lattice.rings_mm, lattice.at_mm, strict=True):
                if np.abs(shift + at).max() < 3.0 * reach:
                    pieces.append(Polygon(ring + shift + at))
                    centre.append(i == 0 and j == 0)
    worst = np.inf
    for k, own in enumerate(centre):
        if own:
            others = [p for m, p in enumerate(pieces) if m != k]
            assert not any(p.intersection(pieces[k]).area > 1e-3 for p in others)
            worst = min(worst, float(shapely.distance(pieces[k], others).min()))
    return worst


def test_a_two_way_lattice_keeps_the_gap_everywhere() -> None:
    found = two_way(vamp(), 2.0)
    assert found is not None
    assert 2.0 - 1e-3 <= worst_gap_mm(found) < 2.01
    assert found.density == pytest.approx(2 * vamp().area_mm2 / found.cell_mm2)


def strap() -> Outline:
    """A bent strap, 270 mm long and 10 wide."""
    bend = np.linspace(-0.15, 0.15, 25)
    arcs = [radius * np.column_stack([np.sin(bend), np.cos(bend)]) for radius in (895.0, 905.0)]
    return Outline.make([*arcs[0], *arcs[1][::-1]])


@pytest.mark.parametrize("seed", range(4))
def test_a_narrow_bent_strap_nests_in_itself_whatever_chance_begins_with(seed: int) -> None:
    found = two_way(strap(), 2.0, seed=seed, starts=400, rounds=200, keep=6)
    assert found is not None
    assert worst_gap_mm(found) > 2.0 - 1e-3
    assert found.density > 0.8  # 10 mm of every 12 across, but for the ends


def test_the_half_turn_pays_and_the_gap_costs() -> None:
    both, alone, tight = two_way(vamp(), 2.0), one_way(vamp(), 2.0), two_way(vamp(), 0.0)
    assert both is not None and alone is not None and tight is not None
    assert alone.density < both.density < tight.density


def test_with_a_gap_the_grown_piece_lies_as_a_piece_without() -> None:
    """A square with a gap g lies as a square larger by g: density (a / (a + g))^2."""
    square = Outline.make([[0, 0], [50, 0], [50, 50], [0, 50]])
    found = one_way(square, 2.0)
    assert found is not None and found.density == pytest.approx((50 / 52) ** 2, abs=1e-4)


def test_straight_lattices_run_along_or_across_the_roll() -> None:
    ring = np.asarray(vamp().ring_mm)
    found = straight([ring, -ring], 2.0, starts=600)
    assert found
    for lattice in found:
        assert min(abs(lattice.u_mm[1]), abs(lattice.u_mm[0])) == 0.0
        assert worst_gap_mm(lattice) >= 2.0 - 1e-3


rings = st.lists(st.tuples(st.floats(10, 50), st.floats(0.05, 1.0)), min_size=4, max_size=10).map(
    lambda polar: np.array(
        [
            (r * np.cos(a), r * np.sin(a))
            for (r, _), a in zip(
                polar, 2 * np.pi * np.cumsum([w for _, w in polar]) / sum(w for _, w in polar), strict=True
            )
        ]
    )
)


@settings(max_examples=40, deadline=None)
@given(rings, rings, st.floats(0, 2 * np.pi), st.floats(0.3, 1.4))
def test_clearance_is_the_distance_of_the_pieces(
    a: np.ndarray, b: np.ndarray, angle: float, far: float
) -> None:
    one, two = Polygon(a), Polygon(b)
    assume(one.is_valid and two.is_valid and one.area > 50 and two.area > 50)
    a, b = (
        centred(np.asarray(Outline.of_polygon(one).ring_mm)),
        centred(np.asarray(Outline.of_polygon(two).ring_mm)),
    )
    q = 100.0 * far * np.array([np.cos(angle), np.sin(angle)])
    apart = Polygon(a).distance(translate(Polygon(b), *q))
    if apart > 1e-6:
        assert clearance(convolution(a, b), q[0], q[1]) == pytest.approx(apart, abs=1e-7)


def test_sampled_depth_is_exact_where_pieces_touch() -> None:
    ring = centred(np.asarray(vamp().ring_mm))
    raster, x0, y0 = depth_raster(ring, -ring, 1.5, 2.0)
    rng = np.random.default_rng(0)
    seen = 0
    for _ in range(800):
        i, j = int(rng.integers(raster.shape[1])), int(rng.integers(raster.shape[0]))
        moved = translate(Polygon(-ring), x0 + 1.5 * i, y0 + 1.5 * j)
        apart = Polygon(ring).distance(moved)
        if 0.0 < apart < 4.0:
            assert raster[j, i] == pytest.approx(2.0 - apart, abs=1e-3)
            seen += 1
        elif apart == 0.0 and Polygon(ring).intersection(moved).area > 0.5:
            assert raster[j, i] > 2.0
    assert seen > 20


def test_no_cell_smaller_than_its_pieces_is_squeezed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of this sharp triangle some descents end with both periods in one line, an area of nothing."""
    ring = np.array([[119.0, 9.88068826], [96.82839915, 45.13105038], [22.43861476, 69.12813139]])
    squeezed_mm2 = []

    def tighten(contacts: Contacts, cell: Arrangement, gap_mm: float, **how: Any) -> Arrangement | None:
        squeezed_mm2.append(cell.measure)
        return slp.tighten(contacts, cell, gap_mm, **how)

    monkeypatch.setattr("nesting.lattice.densest.tighten", tighten)
    assert straight([ring, -ring], 1.7981500287025072, starts=60)
    assert min(squeezed_mm2) > Polygon(ring).area
