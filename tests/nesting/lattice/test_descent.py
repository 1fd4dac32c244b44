"""The descent of lattice cells on sampled depths, against the same descent written plainly."""

from __future__ import annotations

import numpy as np
import pytest

from nesting.contact.penetration import depth_at, depth_table
from nesting.lattice.descent import MOST_AWAY, descend

WEDGE = np.array([(-14, -10), (16, -8), (6, 18)], float)
TABLE = depth_table([WEDGE, -WEDGE], 0.8, 1.0)
SCALE, UNIT = 26.0, 900.0


def plain_depths(p: np.ndarray, weight: float) -> tuple[float, float, np.ndarray]:
    """Of a cell u, v, offset of the half turn: (area, worst depth, gradient of area and penalty)."""
    u, v, at = p[:2], p[2:4], [np.zeros(2), p[4:6]]
    det = u[0] * v[1] - u[1] * v[0]
    grad = np.zeros(6)
    grad[:4] = np.sign(det) * np.array([v[1], -v[0], -u[1], u[0]]) / UNIT
    worst = 0.0
    for i, j in ((0, 0), (0, 1), (1, 1)):
        for m in range(-MOST_AWAY, MOST_AWAY + 1):
            for n in range(-MOST_AWAY, MOST_AWAY + 1):
                if i == j and (m, n) <= (0, 0):
                    continue
                raster, sign = TABLE.pair[i, j], -1.0 if TABLE.flip[i, j] else 1.0
                q = sign * (at[j] - at[i] + m * u + n * v)
                d, gx, gy = depth_at(TABLE.cells, TABLE.start[raster], TABLE.box[raster], TABLE.h_mm, *q)
                worst = max(worst, d)
                pull = weight * 2.0 * d * sign / SCALE**2 * np.array([gx, gy])
                grad[:2] += m * pull
                grad[2:4] += n * pull
                if j == 1 and i == 0:
                    grad[4:] += pull
    return abs(det), worst, grad


def plain_descend(p: np.ndarray, hold: int, rounds: int) -> tuple[np.ndarray, float, float]:
    """Adam (Kingma & Ba 2015, without its correction of the first steps) for up to eight rounds on a cell
    whose first period lies along x: before the first v is brought near, and the offset into the cell."""
    p = p.copy()
    p[2] -= np.round(p[2] / p[0]) * p[0]
    m, n = np.round(np.linalg.solve(p[:4].reshape(2, 2).T, p[4:]))
    p[4:] -= m * p[:2] + n * p[2:4]
    first, second = np.zeros(6), np.zeros(6)
    for r in range(rounds):
        part = r / rounds
        _, _, g = plain_depths(p, 2.0 * 10.0 ** (3.0 * part))
        g[1] = 0.0
        g[hold if hold >= 0 else 1] = 0.0
        first, second = 0.8 * first + 0.2 * g, 0.95 * second + 0.05 * g * g
        p -= SCALE * (0.04 * (1.0 - part) + 0.002) * first / (np.sqrt(second) + 1e-12)
    area, worst, _ = plain_depths(p, 1.0)
    return p, area, worst


@pytest.mark.parametrize("hold", [-1, 0, 3])
@pytest.mark.parametrize("seed", range(4))
def test_a_cell_goes_down_as_the_plain_descent_does(seed: int, hold: int) -> None:
    rng = np.random.default_rng(seed)
    params = np.column_stack(
        [rng.uniform(22, 40, 3), np.zeros(3), rng.uniform(-60, 60, 3), rng.uniform(20, 40, 3)]
        + [rng.uniform(-40, 40, 3), rng.uniform(-30, 30, 3)]
    )
    plain = [plain_descend(p, hold, 7) for p in params]
    before = params.copy()
    area, worst = descend(params, True, hold, 7, SCALE, UNIT, TABLE)
    for k, (p, plain_area, plain_worst) in enumerate(plain):
        assert params[k] == pytest.approx(p, abs=1e-6)
        assert area[k] == pytest.approx(plain_area, rel=1e-6)
        assert worst[k] == pytest.approx(plain_worst, abs=1e-5)
        assert hold < 0 or params[k, hold] == before[k, hold]
