"""What nested lays say of the length of the next one, and what a search cut short does not say."""

import pytest

from nesting.planning.length_model import LengthModel


def test_a_lay_whose_search_was_cut_short_does_not_make_a_set_look_longer() -> None:
    fair = LengthModel(1400.0, {"37": 280_000.0})  # 200 mm of cloth a set, used up entirely
    for sets in (4, 8, 16):
        fair = fair.with_lay(sets * 280_000.0, sets * 200.0 / 0.7)
    starved = fair.with_lay(106 * 280_000.0, 240_000.0)
    assert starved.per_set_mm()["37"] == pytest.approx(fair.per_set_mm()["37"])
