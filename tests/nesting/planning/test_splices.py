"""A ply of two rolls: each piece comes whole from one of them, and little cloth lies double."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.planning.splices import SPARE_MM, splices


def test_pieces_in_columns_are_spliced_between_them():
    spans = [(k * 300.0, k * 300.0 + 290.0) for k in range(6) for _ in range(4)]
    for place in splices(spans, 1790.0):
        assert place.overlap_mm == pytest.approx(2 * SPARE_MM - 10.0)
        assert (place.ends_mm - SPARE_MM) % 300.0 == pytest.approx(290.0)


def test_a_short_lay_is_not_spliced():
    assert splices([(0.0, 300.0), (310.0, 600.0)], 600.0) == ()


@given(st.lists(st.tuples(st.floats(0, 2800), st.floats(20, 400)), min_size=2, max_size=60))
def test_no_piece_is_cut_from_two_rolls(pieces):
    spans = [(low, low + long) for low, long in pieces]
    length = max(high for _, high in spans)
    for place in splices(spans, length):
        for low, high in spans:
            assert high <= place.ends_mm - SPARE_MM + 1e-6 or low >= place.begins_mm + SPARE_MM - 1e-6
        assert 0.0 < place.begins_mm <= place.ends_mm < length
