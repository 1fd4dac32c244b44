"""The rows of a linear program, put together block by block."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_matrix

Array = NDArray[np.float64]
Ints = NDArray[np.int64]


class Rows:
    """Rows that say: a sum of value x column is at most so much; they stand as they were added."""

    def __init__(self) -> None:
        self.count = 0
        self._rows: list[Ints] = []
        self._cols: list[Ints] = []
        self._vals: list[Array] = []
        self._most: list[Array] = []

    def add(self, most: Array, *coefficients: tuple[Ints | int, Array | float]) -> None:
        """Add a row for each of ``most``: the sum of value x column is at most that; zeros are left out."""
        rows = np.arange(self.count, self.count + len(most))
        for column, value in coefficients:
            values = np.broadcast_to(np.asarray(value, dtype=np.float64), rows.shape)
            used = values != 0.0
            self._rows.append(rows[used])
            self._cols.append(np.broadcast_to(np.asarray(column, dtype=np.int64), rows.shape)[used])
            self._vals.append(values[used])
        self._most.append(most)
        self.count += len(most)

    def matrix(self, columns: int) -> Any:
        """Return the rows as a sparse matrix."""
        at = (np.concatenate(self._rows), np.concatenate(self._cols))
        return coo_matrix((np.concatenate(self._vals), at), shape=(self.count, columns)).tocsr()

    @property
    def most(self) -> Array:
        """The right-hand sides."""
        return np.concatenate(self._most)
