"""Sampled depths: what a raster says at its cells, and between them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import RegularGridInterpolator
from shapely.affinity import translate
from shapely.geometry import Polygon

from nesting.contact.cells import finest_cell_mm
from nesting.contact.penetration import (
    BLOCK,
    PARTS,
    DepthTable,
    depth_at,
    depth_raster,
    depth_table,
    least_depths,
)

FORK = np.array([(0, 0), (30, 0), (30, 25), (20, 25), (20, 10), (10, 10), (10, 25), (0, 25)], float)
WEDGE = np.array([(-4, -3), (5, -2), (3, 6)], float)
TABLE = depth_table([FORK, WEDGE], 0.8, 1.5)


def plain_depth_raster(a: np.ndarray, b: np.ndarray, q: tuple[float, float], gap: float) -> float:
    """Gap less distance: what a cell holds where the pieces lie apart."""
    return gap - Polygon(a).distance(translate(Polygon(b), *q))


def plain_depth_at(table: DepthTable, raster: int, q: tuple[float, float]) -> float:
    """Bilinear between the four cells about an offset, by scipy; 0 outside and where it is negative."""
    x0, y0, nx, ny = table.box[raster]
    nx, ny, h = int(nx), int(ny), table.h_mm
    cells = table.cells[table.start[raster] : table.start[raster] + nx * ny].reshape(ny, nx)
    grid = (y0 + h * np.arange(ny), x0 + h * np.arange(nx))
    read = RegularGridInterpolator(grid, cells.astype(float), bounds_error=False, fill_value=0.0)
    return max(0.0, float(read((q[1], q[0]))))


@pytest.mark.parametrize("deep", [True, False])
def test_a_raster_is_exact_where_pieces_lie_near_and_apart(deep: bool) -> None:
    raster, x0, y0 = depth_raster(FORK, WEDGE, 0.8, 1.5, deep)
    seen = 0
    for j in range(0, raster.shape[0], 2):
        for i in range(0, raster.shape[1], 2):
            plain = plain_depth_raster(FORK, WEDGE, (x0 + 0.8 * i, y0 + 0.8 * j), 1.5)
            if 0.0 < plain < 1.5:
                assert raster[j, i] == pytest.approx(plain, abs=1e-4)
                seen += 1
            elif plain < 0.0:
                assert raster[j, i] < 1e-4
    assert seen > 20


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 1), st.integers(0, 1), st.floats(-45, 45), st.floats(-45, 45))
def test_between_cells_a_depth_is_bilinear(one: int, other: int, x: float, y: float) -> None:
    raster = int(TABLE.pair[one, other])
    d, gx, gy = depth_at(TABLE.cells, TABLE.start[raster], TABLE.box[raster], TABLE.h_mm, x, y)
    assert d == pytest.approx(plain_depth_at(TABLE, raster, (x, y)), abs=1e-4)
    if d == 0.0:
        assert gx == gy == 0.0


def plain_least_depths(cells: np.ndarray, h: float) -> list[int]:
    """Least of each block and of the cells next to it, in PARTS of a cell."""
    ny, nx = cells.shape
    return [
        int(np.clip(np.floor(cells[j : j + BLOCK + 1, i : i + BLOCK + 1].min() / h * PARTS), 0, 255))
        for j in range(0, ny - 1, BLOCK)
        for i in range(0, nx - 1, BLOCK)
    ]


@pytest.mark.parametrize("raster", range(3))
def test_a_place_is_never_less_deep_than_its_block_says(raster: int) -> None:
    box, start = TABLE.box[raster], TABLE.start[raster]
    nx, ny = int(box[2]), int(box[3])
    plain = plain_least_depths(TABLE.cells[start : start + nx * ny].reshape(ny, nx), TABLE.h_mm)
    told = np.empty(len(plain), np.uint8)
    least_depths(TABLE.cells, start, box, TABLE.h_mm, told)
    first = TABLE.least_start[raster]
    assert told.tolist() == plain == TABLE.least[first : first + len(plain)].tolist()
    assert max(plain) > 8
    rng = np.random.default_rng(raster)
    for fx, fy in rng.uniform(0.0, (nx - 1.001, ny - 1.001), (200, 2)):
        block = (int(fy) // BLOCK) * ((nx - 2) // BLOCK + 1) + int(fx) // BLOCK
        q = box[:2] + TABLE.h_mm * np.array([fx, fy])
        deep = depth_at(TABLE.cells, start, box, TABLE.h_mm, q[0], q[1])[0]
        assert deep >= plain[block] * TABLE.h_mm / PARTS - 1e-9


def test_a_table_reads_a_pair_from_either_side() -> None:
    """B seen from A at q is A seen from B at -q: one raster serves both."""
    a, b = int(TABLE.pair[0, 1]), int(TABLE.pair[1, 0])
    assert a == b and TABLE.flip[0, 1] != TABLE.flip[1, 0]


@pytest.mark.parametrize("most", [2e4, 1e5])
def test_a_table_is_sampled_so_that_it_holds_what_is_allowed(most: float) -> None:
    """So the memory of a table does not grow with the sizes of an order."""
    rings = [np.array([[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]]) for w, h in ((40, 20), (60, 35), (25, 80))]
    rings += [-r for r in rings]  # half turns share their tables
    size = np.array([np.ptp(r, axis=0) for r in rings])
    held = len(depth_table(rings, finest_cell_mm(size, most), 0.0).cells)
    assert 0.5 * most < held < 1.25 * most
