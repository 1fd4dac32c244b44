"""Linear programs put together here, against those that scipy puts together (its own copy of the solver)."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from nesting.compaction.program import Rows, least


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 12), st.integers(0, 20))
def test_the_least_cost_is_that_which_scipy_finds(seed: int, columns: int, count: int) -> None:
    rng = np.random.default_rng(seed)
    matrix = rng.normal(size=(count, columns)) * (rng.random((count, columns)) < 0.4)
    most, cost = rng.normal(size=count) + 0.3, rng.normal(size=columns)
    low, high = -rng.random(columns), rng.random(columns)
    rows = Rows()
    half = count // 2
    for part in (slice(0, half), slice(half, count)):  # two blocks
        rows.add(most[part], *((k, matrix[part, k]) for k in range(columns)))
    found = least(cost, rows, low, high)
    plain = linprog(
        cost,
        A_ub=matrix if count else None,
        b_ub=most if count else None,
        bounds=np.column_stack([low, high]),
        method="highs",
    )
    assert (found is None) == (plain.status != 0)
    if found is not None:
        assert (found >= low - 1e-6).all() and (found <= high + 1e-6).all()
        assert (matrix @ found <= most + 1e-6).all()
        assert cost @ found == pytest.approx(plain.fun, abs=1e-5)


def test_nothing_is_written_where_another_process_reads(capfd: pytest.CaptureFixture[str]) -> None:
    assert least(np.ones(1), Rows(), np.zeros(1), np.ones(1)) == pytest.approx(0.0)
    assert capfd.readouterr() == ("", "")
