"""Size labels as people write them, and what cannot be read."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.errors import SizeError
from geometry.sizing import sizes


@pytest.mark.parametrize(
    ("text", "labels"),
    [
        ("36-41", ("36", "37", "38", "39", "40", "41")),
        ("36,38-40", ("36", "38", "39", "40")),
        ("40; 36 , 36", ("36", "40")),
        ("36-37.5", ("36", "36.5", "37", "37.5")),
        ("37 1/2", ("37.5",)),
        ("6½", ("6.5",)),
        ("9,10", ("9", "10")),
        ("36..38", ("36", "37", "38")),
    ],
)
def test_lists_of_sizes(text, labels):
    assert sizes.parse_sizes(text) == labels


def test_mondopoint_goes_in_fives():
    assert sizes.parse_sizes("235-250", system="mondopoint") == ("235", "240", "245", "250")


def test_a_range_means_the_sizes_that_there_are():
    known = ("36", "36.5", "37", "38", "39")
    assert sizes.parse_sizes("36-38", known=known) == ("36", "36.5", "37", "38")
    assert sizes.parse_sizes("S,36", known=("S", "36")) == ("36", "S")
    assert sizes.parse_sizes("37.0", known=known) == ("37",)
    with pytest.raises(SizeError, match=r"no size 40.*36, 36\.5"):
        sizes.parse_sizes("36-40", known=known)


@pytest.mark.parametrize("text", ["", ",", "36-", "-36", "a", "36-37-38", "41-36", "1-100000", "3_6"])
def test_what_cannot_be_read_is_refused_with_a_remedy(text):
    with pytest.raises(SizeError) as caught:
        sizes.parse_sizes(text)
    assert caught.value.remedy


def test_sizes_stand_in_order_of_their_numbers():
    assert sizes.in_order(["10", "9", "XL", "9.5", "9 1/4"]) == ("9", "9 1/4", "9.5", "10", "XL")


@given(st.integers(10, 560))
def test_a_size_written_and_read_is_the_same(halves):
    assert sizes.size_number(sizes.size_label(halves / 2.0)) == halves / 2.0


def test_an_unknown_system_names_the_known_ones():
    with pytest.raises(SizeError, match="paris"):
        sizes.last_length_mm("cm", "37")


def test_a_girth_that_makes_no_sense_is_refused():
    with pytest.raises(SizeError, match="girth"):
        sizes.grade_factors("paris", "37", "38", 0.0)
    with pytest.raises(SizeError, match="girth"):
        sizes.grade_factors("paris", "40", "1", 100.0)


@given(st.sampled_from(sizes.SYSTEMS), st.integers(33, 48))
def test_the_base_size_grades_to_itself(system, size):
    assert sizes.grade_factors(system, size, size, 220.0) == (1.0, 1.0)
