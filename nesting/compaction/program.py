"""A linear program put together block by block, and solved by HiGHS."""

from __future__ import annotations

import highspy
import numpy as np
from highspy._core import _Highs  # ``Highs`` prints a notice to the standard output and asks for callbacks
from numpy.typing import NDArray

Array = NDArray[np.float64]
Ints = NDArray[np.int64]


class Rows:
    """Rows that say: a sum of value x column is at most so much; they stand as they were added."""

    def __init__(self) -> None:
        self.count = 0
        self._sizes: list[Ints] = []
        self._cols: list[Ints] = []
        self._vals: list[Array] = []
        self._most: list[Array] = []

    def add(self, most: Array, *coefficients: tuple[Ints | int, Array | float]) -> None:
        """Add a row for each of ``most``: the sum of value x column is at most that; zeros are left out."""
        columns = np.empty((len(most), len(coefficients)), np.int64)
        values = np.empty((len(most), len(coefficients)))
        for k, (column, value) in enumerate(coefficients):
            columns[:, k] = column
            values[:, k] = value
        used = values != 0.0
        self._sizes.append(used.sum(axis=1))
        self._cols.append(columns[used])
        self._vals.append(values[used])
        self._most.append(most)
        self.count += len(most)

    def into(self, lp: highspy.HighsLp) -> None:
        """Write the rows into a program that has its columns."""
        lp.num_row_ = self.count
        lp.row_lower_ = np.full(self.count, -np.inf)
        lp.row_upper_ = np.concatenate([np.zeros(0), *self._most])
        matrix = lp.a_matrix_
        matrix.format_ = highspy.MatrixFormat.kRowwise
        matrix.num_col_, matrix.num_row_ = lp.num_col_, self.count
        sizes = np.concatenate([np.zeros(1, np.int64), *self._sizes])
        matrix.start_ = np.cumsum(sizes).astype(np.int32)
        matrix.index_ = np.concatenate([np.zeros(0, np.int64), *self._cols]).astype(np.int32)
        matrix.value_ = np.concatenate([np.zeros(0), *self._vals])


def least(cost: Array, rows: Rows, low: Array, high: Array) -> Array | None:
    """Return the columns between ``low`` and ``high`` that keep the rows at the least cost, None if none do.

    By the simplex method without looking for what is redundant first: on our programs presolve takes as
    long as the method itself, and the interior point method longer (measured up to 1,900 pieces).
    """
    lp = highspy.HighsLp()
    lp.num_col_ = len(cost)
    lp.col_cost_, lp.col_lower_, lp.col_upper_ = cost, low, high
    rows.into(lp)
    solver = _Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)  # ours run beside each other
    solver.setOptionValue("solver", "simplex")
    solver.setOptionValue("presolve", "off")
    solver.passModel(lp)
    solver.run()
    if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        return None
    return np.array(solver.getSolution().col_value)
