"""Pieces cut into rows and laid in order, against trying every row and every stretch's end."""

from __future__ import annotations

import numpy as np
import pytest

from nesting.free.bottom_left import Kinds, Taken, laid_in_order

ROWS, SLOPE, BEGIN = 9, 0.37, 2.0


def some_kinds(rng: np.random.Generator) -> Kinds:
    """Four items in two turns each, with one or two stretches in every row."""
    height, first_span, last_span = [], [], []
    row, left, right = [], [], []
    for _ in range(8):
        height.append(int(rng.integers(1, 5)))
        first_span.append(len(row))
        for r in range(height[-1]):
            ends = np.sort(rng.uniform(0, 60, 4 if rng.random() < 0.3 else 2))
            for a, b in ends.reshape(-1, 2):
                row.append(r)
                left.append(a)
                right.append(b)
        last_span.append(len(row))
    whole = [np.array(v, np.int64) for v in (height, first_span, last_span, row)]
    return Kinds(np.arange(0, 8, 2), np.arange(2, 10, 2), *whole, np.array(left), np.array(right))


def plain_laid_in_order(order: np.ndarray, cut: Kinds, taken: list[list[tuple[float, float]]]) -> list[tuple]:
    """Kind, row and x of each: every place that begins at the start or where something ends is tried."""
    taken = [list(row) for row in taken]
    laid = []
    for item in order.tolist():
        best = (np.inf, -1, -1, 0.0)
        for kind in range(cut.first[item], cut.last[item]):
            spans = range(cut.first_span[kind], cut.last_span[kind])
            reach = max(cut.right[k] for k in spans)
            for row in range(ROWS - cut.height[kind] + 1):
                starts = [BEGIN - min(cut.left[k] for k in spans)]
                starts += [end - cut.left[k] for k in spans for _, end in taken[row + cut.row[k]]]
                free = [
                    x
                    for x in starts
                    if x >= starts[0]
                    and not any(
                        x + cut.left[k] < end - 1e-9 and x + cut.right[k] > start + 1e-9
                        for k in spans
                        for start, end in taken[row + cut.row[k]]
                    )
                ]
                x = min(free)
                cost = x + SLOPE * row + reach
                if cost < best[0] - 1e-9:
                    best = (cost, kind, row, x)
        _, kind, row, x = best
        for k in range(cut.first_span[kind], cut.last_span[kind]):
            taken[row + cut.row[k]].append((x + cut.left[k], x + cut.right[k]))
        laid.append((kind, row, x))
    return laid


@pytest.mark.parametrize("seed", range(12))
def test_each_piece_lies_where_it_costs_least(seed: int) -> None:
    rng = np.random.default_rng(seed)
    cut, order = some_kinds(rng), rng.integers(0, 4, 14)
    before = [[(float(a), float(a + 9))] if rng.random() < 0.4 else [] for a in rng.uniform(0, 80, ROWS)]
    start, end, held = np.zeros((ROWS, 40)), np.zeros((ROWS, 40)), np.zeros(ROWS, np.int64)
    for row, stretches in enumerate(before):
        for k, (a, b) in enumerate(stretches):
            start[row, k], end[row, k], held[row] = a, b, 1
    kind, row, x, length, full = laid_in_order(order, cut, BEGIN, SLOPE, np.inf, Taken(start, end, held))
    plain = plain_laid_in_order(order, cut, before)
    assert not full
    assert [(k, r) for k, r, _ in plain] == list(zip(kind.tolist(), row.tolist(), strict=True))
    assert np.allclose([x for _, _, x in plain], x)
    ends = [px + max(cut.right[cut.first_span[k] : cut.last_span[k]]) for k, _, px in plain]
    assert length == pytest.approx(max(ends))


def test_a_row_without_room_for_another_stretch_is_told() -> None:
    cut = some_kinds(np.random.default_rng(0))
    taken = Taken(np.zeros((ROWS, 1)), np.zeros((ROWS, 1)), np.zeros(ROWS, np.int64))
    assert laid_in_order(np.zeros(9, np.int64), cut, BEGIN, SLOPE, np.inf, taken)[-1]
