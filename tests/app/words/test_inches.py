"""Beside inches a finding tells its lengths in inches; a name or a force is not touched."""

import pytest

from app.words.clauses import told_by
from app.words.inches import in_inches
from geometry.said import said


def told(text):
    """The text in inches; its own words are known, as all words of the core are, a name is not."""
    known = {text.template}
    return told_by(text, lambda words: words if words in known else None, str, in_inches)


@pytest.mark.parametrize(
    ("words", "values", "inches"),
    [
        ("ends within the piece for {0} mm", ["254"], "ends within the piece for 10.00 in"),
        ("gives {0} mm under {1} N/mm", ["2.5-5.1", "1"], "gives 0.098-0.201 in under 1 N/mm"),
        ("end it 3-5 mm before the feather line", [], "end it 0.12-0.20 in before the feather line"),
        ("usable {0} of {1} mm", ["254", "508"], "usable 10.00 of 20.00 in"),
        ("size {0} ({1} mm2) is smaller", ["37", "6451.6"], "size 37 (10.0000 in²) is smaller"),
        ("the plan takes {0} m", ["9.144"], "the plan takes 10.000 yd"),
        ("give 0.0001 to 100 mm", [], "give 0.000004 to 3.94 in"),
        ("a page of {0} mm", ["25,400"], "a page of 1,000.00 in"),
        ("enter it in mm", [], "enter it in mm"),
    ],
)  # fmt: skip
def test_lengths_of_a_text_are_told_in_inches(words, values, inches):
    assert told(said(words, *values)) == inches


def test_a_name_that_ends_in_mm_keeps_it():
    assert (
        told(said("{0}: the edge is {1} mm long", "Band 12 mm", "50.8"))
        == "Band 12 mm: the edge is 2.000 in long"
    )
    assert told(said("the {0} is {1} mm", "limit", "not a figure")) == "the limit is not a figure mm"


def test_a_figure_told_twice_is_told_once_in_each_unit():
    assert told(said("{0} mm, typed as {0}", "25.4")) == "1.000 in, typed as 25.4"
