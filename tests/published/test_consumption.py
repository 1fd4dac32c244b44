"""Cloth and cost of a pair against worked examples."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from nesting.errors import ProblemError
from nesting.planning.consumption import Consumption, money


def lay_of_forty(**losses: float) -> Consumption:
    """A lay of 3.20 m for 40 pairs on 1.40 m, 2 cm lost at each end of a ply."""
    return Consumption(
        net_mm2=3.4e6,
        lay_length_mm=3200.0,
        usable_width_mm=1400.0,
        width_mm=1400.0,
        pairs=40,
        end_loss_mm=20.0,
        **losses,
    )


def test_metres_and_area_of_a_pair() -> None:
    """3.24 m / 40 = 0.0810 m and x 1.40 m = 0.1134 m2 (derived; 2 cm at each end of a ply:
    texeducation and stitchdiary, web)."""
    lay = lay_of_forty()
    assert lay.metres_per_pair == pytest.approx(0.0810, abs=1e-12)
    assert lay.gross_m2 / 40 == pytest.approx(0.1134, abs=1e-12)


def test_cost_of_a_pair() -> None:
    """At 2.50 a metre 0.2025; with 1 % roll ends and 2 % rejects 0.208575 (derived identity)."""
    price = Decimal("2.50")
    assert money(lay_of_forty().metres_per_pair, price) == Decimal("0.2025")
    dear = lay_of_forty(roll_end_percent=1.0, reject_percent=2.0)
    assert money(dear.metres_per_pair, price) == Decimal("0.208575")


def test_end_loss_of_a_hundred_plies() -> None:
    """6 m lay, 100 plies, 2 cm at each end: 4.00 m lost, 0.6623 % of 604 m (inputs: texeducation,
    web; result derived)."""
    ply = Consumption(1e6, 6000.0, 1400.0, 1400.0, 1, end_loss_mm=20.0)
    assert (ply.ply_length_mm - ply.lay_length_mm) * 100 / 1000 == pytest.approx(4.0)
    assert ply.shares()["ends_of_plies"] == pytest.approx(0.006623, abs=5e-7)


def test_yield_and_utilisation_are_two_numbers() -> None:
    lay = Consumption(
        net_mm2=3.5e6, lay_length_mm=3200.0, usable_width_mm=1400.0, width_mm=1420.0, pairs=40,
        end_loss_mm=20.0, roll_end_percent=1.0,
    )  # fmt: skip
    assert lay.lay_yield == pytest.approx(0.78125)
    assert lay.utilisation == pytest.approx(3.5 / (3.24 * 1.01 * 1.42))
    assert lay.utilisation < lay.lay_yield


@given(
    st.floats(1e3, 1e8), st.floats(10, 1e5), st.floats(100, 3000), st.floats(0, 100), st.floats(0, 100),
    st.floats(0, 10), st.floats(0, 10),
)  # fmt: skip
def test_every_part_of_the_cloth_is_accounted_for(
    net: float, length: float, width: float, selvedge: float, end: float, rolls: float, rejects: float
) -> None:
    lay = Consumption(min(net, length * width), length, width, width + selvedge, 7, end, rolls, rejects)
    shares = lay.shares()
    assert sum(shares.values()) == pytest.approx(1.0)
    assert min(shares.values()) >= -1e-9
    assert lay.metres_of(lay.net_mm2) == pytest.approx(lay.metres)


def test_nothing_can_be_said_without_pairs() -> None:
    with pytest.raises(ProblemError, match="pairs"):
        Consumption(1.0, 1.0, 1.0, 1.0, 0)


def test_no_loss_is_below_zero() -> None:
    with pytest.raises(ProblemError, match="below zero"):
        lay_of_forty(splice_percent=-1.0)
