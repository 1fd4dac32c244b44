"""Rows of a piece hold all of it, and leave open what it leaves open between two arms."""

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from nesting.contact.row_spans import spans

FORK = np.array(
    [
        (0.0, 0.0),
        (90.0, 0.0),
        (90.0, 50.0),
        (60.0, 50.0),
        (60.0, 10.0),
        (30.0, 10.0),
        (30.0, 50.0),
        (0.0, 50.0),
    ]
)


def test_between_two_arms_a_row_stays_open():
    rows, left, right = spans(FORK, 10.0, 5.0)
    third = [(a, b) for row, a, b in zip(rows, left, right, strict=True) if row == 3]
    assert third == [(0.0, 30.0), (60.0, 90.0)]


def test_an_opening_too_narrow_for_anything_counts_as_covered():
    rows, left, right = spans(FORK, 10.0, 31.0)
    assert [(a, b) for row, a, b in zip(rows, left, right, strict=True) if row == 3] == [(0.0, 90.0)]


@settings(deadline=None, max_examples=60)
@given(st.lists(st.floats(5.0, 60.0), min_size=3, max_size=14), st.floats(0.7, 9.0), st.floats(-80.0, 80.0))
def test_rows_hold_every_part_of_the_outline_and_little_more(radii, row_mm, up_mm):
    angle = np.linspace(0.0, 2.0 * np.pi, len(radii), endpoint=False)
    ring = np.column_stack([np.cos(angle), np.sin(angle)]) * np.array(radii)[:, None] + (0.0, up_mm)
    piece = shapely.Polygon(ring)
    boxes = [
        shapely.box(left, row * row_mm, right, (row + 1) * row_mm)
        for row, left, right in zip(*spans(ring, row_mm, 0.0), strict=True)
    ]
    covered = shapely.union_all(boxes)
    assert piece.difference(covered.buffer(1e-6)).area < 1e-6
    for box in boxes:  # each begins and ends where the outline does
        inside = piece.buffer(1e-6).intersection(box.buffer(1e-6)).bounds
        assert abs(inside[0] - box.bounds[0]) < 1e-3
        assert abs(inside[2] - box.bounds[2]) < 1e-3
