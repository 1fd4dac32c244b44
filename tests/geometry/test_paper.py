"""The table of paper sizes: what the standards say of each series."""

from itertools import pairwise

import pytest

from geometry.paper import PAPERS, paper_of


def series(name):
    return [paper for paper in PAPERS if paper.series == name]


@pytest.mark.parametrize("name", ["ISO A", "ISO B"])
def test_a_sheet_of_iso_216_cut_in_half_is_the_next_smaller_to_the_millimetre_below(name):
    for small, large in pairwise(series(name)):
        assert small.height_mm == large.width_mm
        assert small.width_mm == large.height_mm // 2


@pytest.mark.parametrize("name", ["ANSI", "Arch"])
def test_an_american_sheet_cut_in_half_is_the_next_smaller(name):
    for small, large in pairwise(series(name)):
        assert small.height_mm == pytest.approx(large.width_mm)
        assert small.width_mm == pytest.approx(large.height_mm / 2)


def test_every_sheet_stands_upright_and_has_a_name_of_its_own():
    assert all(paper.width_mm < paper.height_mm for paper in PAPERS)
    assert len({paper.name.lower() for paper in PAPERS}) == len(PAPERS)


@pytest.mark.parametrize(
    ("written", "name"),
    [("a4", "A4"), ("letter", "Letter"), ("arch-d", "Arch D"), (" Ledger", "Tabloid"), ("ANSI A", "Letter")],
)
def test_a_name_is_known_however_it_is_written(written, name):
    paper = paper_of(written)
    assert paper is not None and paper.name == name


def test_a_sheet_that_nobody_sells_is_not_guessed():
    assert paper_of("A7½") is None
