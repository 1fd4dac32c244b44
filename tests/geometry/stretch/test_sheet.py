"""What holds for any orthotropic sheet and any stack of them."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.errors import SheetError
from geometry.stretch.sheet import (
    Ply,
    Sheet,
    apparent_n_per_mm,
    give,
    shares_n_per_mm,
    stack_stiffness,
    turned_compliance,
)

stiffness = st.floats(0.5, 200.0)
angles = st.floats(-180.0, 180.0)


@st.composite
def sheets(draw):
    e1, e2 = draw(stiffness), draw(stiffness)
    nu = draw(st.floats(-0.9, 0.9)) * (e1 / e2) ** 0.5
    return Sheet(e1, e2, draw(stiffness), nu)


@given(sheets(), angles)
def test_stiffness_and_compliance_undo_each_other(sheet, angle):
    product = stack_stiffness([Ply(sheet, angle)]) @ turned_compliance(sheet, angle)
    assert product == pytest.approx(np.eye(3), abs=1e-8)


@given(sheets(), angles)
def test_a_turn_by_180_changes_nothing_and_a_mirror_only_the_skew(sheet, angle):
    here = turned_compliance(sheet, angle)
    assert turned_compliance(sheet, angle + 180.0) == pytest.approx(here, abs=1e-10)
    mirrored = turned_compliance(sheet, -angle) * [[1, 1, -1], [1, 1, -1], [-1, -1, 1]]
    assert mirrored == pytest.approx(here, abs=1e-12)


@given(sheets(), sheets(), angles, st.floats(0.1, 5.0))
def test_bounds_of_a_stack_stand_in_order(upper, backing, angle, pull):
    got = give([Ply(upper), Ply(backing, angle)], pull)
    slack = 1 + 1e-9
    assert 0 < got.shear_blocked <= got.shear_free * slack
    assert got.shear_free <= got.added * slack
    alone = give([Ply(upper)], pull)
    assert got.shear_free <= alone.shear_free * slack
    assert got.shear_blocked <= alone.shear_blocked * slack


@given(sheets(), sheets(), angles, st.floats(0.1, 5.0))
def test_the_sheets_carry_the_pull_between_them(upper, backing, angle, pull):
    shares = shares_n_per_mm([Ply(upper), Ply(backing, angle)], pull)
    assert sum(shares) == pytest.approx(pull, rel=1e-6)


@given(sheets())
def test_a_single_sheet_gives_as_its_strip(sheet):
    for angle in (0.0, 20.0, 90.0):
        got = give([Ply(sheet, angle)], 1.0)
        assert got.shear_free == pytest.approx(1 / apparent_n_per_mm(sheet, angle), rel=1e-6)
        assert got.added == pytest.approx(got.shear_free, rel=1e-6)


@given(sheets(), angles, st.floats(1.1, 4.0))
def test_twice_the_pull_gives_twice(sheet, angle, factor):
    assume(abs(angle) > 1e-6)
    one, more = give([Ply(sheet, angle)], 1.0), give([Ply(sheet, angle)], factor)
    assert more.shear_free == pytest.approx(factor * one.shear_free, rel=1e-9)


@pytest.mark.parametrize(
    ("constants", "what"),
    [((0, 1, 1, 0.2), "E1"), ((1, -1, 1, 0.2), "E2"), ((1, 1, 0, 0.2), "G12"), ((1, 4, 1, 0.5), "nu12")],
)
def test_impossible_sheets_are_refused_by_name(constants, what):
    with pytest.raises(SheetError, match=what):
        Sheet(*constants)


@pytest.mark.parametrize("pull", [0.0, -1.0, float("nan")])
def test_no_pull_no_answer(pull):
    with pytest.raises(SheetError, match="pull"):
        give([Ply(Sheet(1, 1, 1, 0))], pull)


def test_no_sheet_no_answer():
    with pytest.raises(SheetError, match="no sheet"):
        give([], 1.0)
