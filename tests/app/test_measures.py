"""Metres and yards: exact factors, money never through a binary float."""

from __future__ import annotations

from decimal import Decimal

import pytest

from app.measures import METRIC, YARD, typed_mm


def test_the_international_yard_foot_and_inch() -> None:
    """1 yd = 0.9144 m, 1 ft2 = 0.3048^2 m2, 1 in = 25.4 mm: exact by definition."""
    assert YARD.length(0.9144) == 1.0
    assert YARD.area(0.3048 * 0.3048) == pytest.approx(1.0, abs=1e-15)
    assert YARD.width_text(1066.8) == "42 in"
    assert YARD.width_text(1400.0) == "55.12 in"
    assert METRIC.width_text(1400.0) == "1400 mm"


def test_a_length_costs_the_same_by_the_metre_and_by_the_yard() -> None:
    price = Decimal("2.50")
    assert YARD.price(price) == Decimal("2.286000")
    assert YARD.price_text(price) == "2.2860"
    assert METRIC.price_text(price) == "2.50"
    assert float(YARD.price(price)) * YARD.length(3.24) == pytest.approx(2.50 * 3.24, abs=1e-12)


@pytest.mark.parametrize(
    ("price", "told"), [("3.1", "3.10"), ("3", "3.00"), ("2.505", "2.505"), ("2.5000", "2.50"), ("0", "0.00")]
)
def test_prices_under_each_other_have_their_cents(price: str, told: str) -> None:
    assert METRIC.price_text(Decimal(price)) == told


@pytest.mark.parametrize(
    ("text", "mm"), [("1400", 1400.0), ("1.4 m", 1400.0), ("1,4m", 1400.0), ("44in", 1117.6), ('42"', 1066.8)]
)
def test_a_width_is_typed_as_the_roll_is_called(text: str, mm: float) -> None:
    assert typed_mm(text) == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize("text", ["", "wide", "-44in", "44 feet", "nan", "1e3"])
def test_what_is_not_a_width_is_refused(text: str) -> None:
    with pytest.raises(ValueError):
        typed_mm(text)
