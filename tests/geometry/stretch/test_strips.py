"""Strips: what they say at a pull, and which are refused."""

import pytest

from geometry.errors import SheetError
from geometry.stretch.strips import PulledStrip, bend, check_strip, narrowing_at, strain_at


def strip(loads=(25.0,), extensions=(5.0,), **more):
    return PulledStrip(more.pop("angle_deg", 0.0), 25.0, 100.0, tuple(loads), tuple(extensions), **more)


def test_one_reading_is_a_straight_line():
    assert strain_at(strip(), 1.0) == pytest.approx(0.05)
    assert strain_at(strip(), 0.5) == pytest.approx(0.025)
    assert strain_at(strip(), 3.0) == pytest.approx(0.15)


def test_a_curve_passes_through_its_readings_and_never_falls_back():
    soft_first = strip((5, 12.5, 25, 50), (2.0, 3.5, 5.0, 7.0))
    assert strain_at(soft_first, 1.0) == pytest.approx(0.05)
    values = [strain_at(soft_first, p / 50) for p in range(101)]
    assert values == sorted(values)
    assert bend([soft_first], 1.0) == pytest.approx(3.5 / 2.5)
    assert bend([strip()], 1.0) is None


def test_order_of_the_readings_does_not_matter():
    assert strain_at(strip((25, 5), (5.0, 2.0)), 0.4) == strain_at(strip((5, 25), (2.0, 5.0)), 0.4)


def test_narrowing_is_read_the_same_way():
    assert narrowing_at(strip(narrowings_mm=(0.5,)), 1.0) == pytest.approx(0.02)
    assert narrowing_at(strip(), 1.0) is None


@pytest.mark.parametrize(
    ("bad", "what"),
    [
        (strip((-25,), (5,)), "a load of -25 N"),
        (strip((0,), (5,)), "a load of 0 N"),
        (strip((25,), (-1,)), "-1 mm under 25 N"),
        (strip((25,), (0,)), "0 mm under 25 N"),
        (strip((25, 50), (5,)), "2 loads but 1 extensions"),
        (strip((), ()), "0 loads"),
        (strip((25, 50), (5, 4)), "gets shorter as the load grows"),
        (strip((25, 25), (5, 4)), "the same load appears twice"),
        (strip((25,), (float("nan"),)), "not a number"),
        (strip((25,), (2500.0,)), "2500 mm on a gauge length of 100 mm"),
        (strip((25,), (5,), narrowings_mm=(1, 2)), "narrowing was not read at every load"),
        (PulledStrip(0, 0.0, 100, (25,), (5,)), "width and gauge"),
    ],
)
def test_a_strip_that_cannot_be_is_named_with_the_remedy(bad, what):
    with pytest.raises(SheetError, match="strip at 0 deg") as refusal:
        check_strip(bad)
    assert what in str(refusal.value)
    assert refusal.value.remedy


def test_a_strip_that_was_never_loaded_tells_no_stretch(recwarn) -> None:
    with pytest.raises(SheetError, match="0 N"):
        strain_at(PulledStrip(0.0, 25.0, 100.0, (0.0,), (0.0,)), 1.0)
    assert not recwarn.list
