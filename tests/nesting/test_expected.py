"""What a longer search is likely to bring: less and less, and nothing where nothing is known."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from nesting.expected import LONGER_S, SECONDS, longer_search, no_difference
from nesting.lay import Bound, Lay

LAY = Lay((), 1000.0, searched_s=6.0)


@given(st.integers(1, 20_000), st.floats(0.1, LONGER_S - 0.5), st.floats(0.0, 30.0))
def test_the_longer_was_searched_the_less_is_left_to_gain(pieces, seconds, more_s):
    before = longer_search(replace(LAY, searched_s=seconds), pieces)
    after = longer_search(replace(LAY, searched_s=seconds + more_s), pieces)
    assert before is not None and before.gain_share >= 0.0 and before.scatter > 0.0
    assert after is None or after.gain_share <= before.gain_share + 1e-12


def test_a_measured_time_and_size_has_the_measured_gain_and_the_end_of_the_curve_none():
    found = longer_search(replace(LAY, searched_s=SECONDS[1]), 100)
    assert found is not None and found.seconds == LONGER_S
    assert longer_search(replace(LAY, searched_s=LONGER_S), 100) is None


def test_nothing_is_said_where_nothing_is_known_or_the_lay_is_as_short_as_can_be():
    assert longer_search(replace(LAY, searched_s=0.0), 100) is None
    assert longer_search(replace(LAY, bound=Bound({"area": 1000.0})), 100) is None
    assert longer_search(replace(LAY, bound=Bound({"area": 900.0})), 100) is not None


def test_yields_within_the_scatter_of_both_searches_are_no_difference():
    assert no_difference(0.70, 0.713, (0.01, 0.01))
    assert not no_difference(0.70, 0.72, (0.01, 0.01))


def test_a_difference_that_a_longer_search_is_likely_to_take_away_is_none():
    small, large, scatters = 0.684, 0.636, (0.01, 0.01)
    assert not no_difference(small, large, scatters)
    assert no_difference(small, large, scatters, (0.01, 0.055)), "the large lay is further from its end"
    assert no_difference(large, small, scatters, (0.055, 0.01))
    assert no_difference(small, large, scatters, (0.0, 0.09)), "and may end as the better one"
    assert not no_difference(small, large, scatters, (0.01, 0.02))
