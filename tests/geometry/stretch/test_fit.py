"""The fit gives back known sheets, is as sure as it says, and refuses what tells nothing."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.errors import SheetError
from geometry.pull import undirected_deg
from geometry.stretch.fit import CONFIDENCE, extensions, fit_strips
from geometry.stretch.sheet import Sheet, apparent_n_per_mm, turned_compliance
from geometry.stretch.strips import PulledStrip

THREADS = (0.0, 45.0, 90.0)
FOUR = (0.0, 45.0, 90.0, 135.0)
SIX = (0.0, 30.0, 60.0, 90.0, 120.0, 150.0)


def strips_of(sheet, tight_deg, angles, *, repeats=1, noise=0.0, rng=None, pull=1.0, narrow=False):
    out = []
    for angle in angles:
        for _ in range(repeats):
            s = turned_compliance(sheet, tight_deg - angle)
            factor = np.exp(rng.normal(0.0, noise)) if rng else 1.0
            shrunk = (float(-s[1, 0] * 25 * pull * factor),) if narrow else ()
            out.append(
                PulledStrip(
                    angle, 25.0, 100.0, (25.0 * pull,), (float(s[0, 0] * 100 * pull * factor),), shrunk
                )
            )
    return out


@st.composite
def cloths(draw):
    e1 = draw(st.floats(20, 60))
    return Sheet(e1, e1 * draw(st.floats(0.3, 0.8)), draw(st.floats(0.8, 4.0)), draw(st.floats(0.05, 0.4)))


@settings(max_examples=40, deadline=None)
@given(cloths(), st.floats(-89, 90))
def test_clean_strips_give_the_sheet_back(sheet, tight):
    """Narrowing measured, six angles: all four constants and the direction."""
    fit = fit_strips(strips_of(sheet, tight, SIX, narrow=True), 1.0)
    assert abs(undirected_deg(fit.tight_deg - tight)) < 0.05
    assert fit.nu12_from == "measured"
    got = (fit.sheet.e1_n_per_mm, fit.sheet.e2_n_per_mm, fit.sheet.g12_n_per_mm)
    assert got == pytest.approx((sheet.e1_n_per_mm, sheet.e2_n_per_mm, sheet.g12_n_per_mm), rel=5e-3)
    assert fit.sheet.nu12 == pytest.approx(sheet.nu12, abs=0.01)


@settings(max_examples=40, deadline=None)
@given(cloths(), st.sampled_from([0.0, 90.0]))
def test_three_angles_tell_along_from_across(sheet, tight):
    fit = fit_strips(strips_of(sheet, tight, THREADS, repeats=2), 1.0, nu12=sheet.nu12)
    assert fit.tight_deg == tight
    assert fit.tight_told and fit.tight_from == "threads"
    assert fit.sheet.g12_n_per_mm == pytest.approx(sheet.g12_n_per_mm, rel=1e-6)
    assert "TIGHT_BY_THREADS" in {f.code for f in fit.findings}


def test_the_fitted_curve_passes_through_the_strips():
    sheet = Sheet(40, 16, 1.2, 0.2)
    angles = np.array(SIX)
    drawn = extensions(sheet, 20.0, angles, 2.0)
    assert drawn == pytest.approx([2.0 / apparent_n_per_mm(sheet, 20 - a) for a in angles], rel=1e-12)


@pytest.mark.parametrize(
    ("angles", "repeats", "slanted"), [(FOUR, 3, True), (SIX, 2, True), (THREADS, 3, False)]
)
def test_the_stated_confidence_covers_the_truth_at_its_rate(angles, repeats, slanted):
    """Simulation: strips that scatter by 5 %; the bounds are 3.3 standard deviations of the count."""
    rng = np.random.default_rng(7)
    count = 160
    hits = dict.fromkeys(("e1", "e2", "g12", "tight"), 0)
    told = 0
    for _ in range(count):
        e1 = rng.uniform(20, 60)
        sheet = Sheet(e1, e1 * rng.uniform(0.3, 0.8), rng.uniform(0.8, 4.0), 0.2)
        tight = rng.uniform(-90, 90) if slanted else 90.0 * rng.integers(2)
        strips = strips_of(sheet, tight, angles, repeats=repeats, noise=0.05, rng=rng)
        fit = fit_strips(strips, 1.0, reading_mm=0.01)
        for name, truth in zip(("e1", "e2", "g12"), (e1, sheet.e2_n_per_mm, sheet.g12_n_per_mm), strict=True):
            interval = getattr(fit, name)
            hits[name] += interval.low <= truth <= interval.high
        if not fit.tight_told:
            continue
        told += 1
        if slanted:
            off = undirected_deg(tight - fit.tight_deg)
            hits["tight"] += fit.tight_low_deg - fit.tight_deg <= off <= fit.tight_high_deg - fit.tight_deg
        else:
            hits["tight"] += abs(undirected_deg(tight - fit.tight_deg)) < 1
    assert told > 0.8 * count
    for name, hit in hits.items():
        of = told if name == "tight" else count
        slack = 3.3 * (CONFIDENCE * (1 - CONFIDENCE) / of) ** 0.5
        assert hit / of > CONFIDENCE - slack, name


def test_more_repeats_make_it_surer():
    rng = np.random.default_rng(3)
    sheet = Sheet(40, 16, 1.2, 0.2)
    few = fit_strips(strips_of(sheet, 0, SIX, repeats=2, noise=0.05, rng=rng), 1.0)
    many = fit_strips(strips_of(sheet, 0, SIX, repeats=12, noise=0.05, rng=rng), 1.0)
    assert many.e1.high / many.e1.low < few.e1.high / few.e1.low
    assert many.tight_high_deg - many.tight_low_deg < few.tight_high_deg - few.tight_low_deg


def test_equal_repeats_are_no_surer_than_the_rule_they_were_read_with():
    sheet = Sheet(40, 16, 1.2, 0.2)
    fit = fit_strips(strips_of(sheet, 0, SIX, repeats=3), 1.0, reading_mm=0.5)
    assert fit.e1.low < 0.98 * 40 and fit.e1.high > 1.02 * 40


def codes(fit):
    return {finding.code for finding in fit.findings}


def test_a_sheet_the_same_all_round_is_said_to_be_so():
    rng = np.random.default_rng(1)
    same = Sheet(10, 10, 10 / 2.6, 0.3)
    fit = fit_strips(strips_of(same, 0, SIX, repeats=3, noise=0.03, rng=rng), 1.0, nu12=0.3)
    assert {"NEARLY_THE_SAME", "TIGHT_UNTOLD"} <= codes(fit)
    assert not fit.tight_told


def test_as_tight_along_as_across_the_direction_is_not_told():
    rng = np.random.default_rng(2)
    fit = fit_strips(strips_of(Sheet(30, 30, 1.5, 0.2), 0, FOUR, repeats=3, noise=0.05, rng=rng), 1.0)
    assert "TIGHT_UNTOLD" in codes(fit)


def test_without_repeats_it_says_that_it_cannot_say_how_sure():
    fit = fit_strips(strips_of(Sheet(40, 16, 1.2, 0.2), 0, THREADS), 1.0)
    assert "NO_REPEATS" in codes(fit)
    assert fit.e1.low is None and fit.e1.value == pytest.approx(40)


def test_a_curve_that_bends_is_taken_at_its_secant():
    def bent(angle, full):
        return PulledStrip(angle, 25, 100, (6.25, 12.5, 25.0), (0.5 * full, 0.7 * full, full))

    strips = [bent(a, e) for a, e in ((0, 2.5), (45, 22.0), (90, 6.25)) for _ in range(2)]
    fit = fit_strips(strips, 1.0)
    assert "BENDS" in codes(fit) and fit.bend == pytest.approx(1.4)
    assert fit.sheet.e1_n_per_mm == pytest.approx(40, rel=1e-6)
    assert fit_strips(strips, 0.5).sheet.e1_n_per_mm == pytest.approx(0.5 / 0.0175, rel=1e-6)


def test_a_pull_beyond_the_test_is_remarked():
    assert "BEYOND_TEST" in codes(fit_strips(strips_of(Sheet(40, 16, 1.2, 0.2), 0, THREADS, repeats=2), 2.0))


def test_angles_that_fit_no_sheet_are_remarked():
    rng = np.random.default_rng(4)
    strips = strips_of(Sheet(40, 16, 1.2, 0.2), 0, SIX, repeats=3, noise=0.02, rng=rng)
    odd = [
        PulledStrip(
            s.angle_deg, 25, 100, s.loads_n, (s.extensions_mm[0] * (2.5 if s.angle_deg == 60 else 1),)
        )
        for s in strips
    ]
    assert "POOR_FIT" in codes(fit_strips(odd, 1.0))
    assert "POOR_FIT" not in codes(fit_strips(strips, 1.0))


@pytest.mark.parametrize(
    ("angles_and_extensions", "pull", "what"),
    [
        ([], 1.0, "no strips"),
        ([(0, 2.5), (0, 2.6)], 1.0, "one angle only"),
        ([(0, 2.5), (180, 2.6)], 1.0, "one angle only"),
        ([(0, 2.5), (90, 6.0)], 1.0, "do not give the shear"),
        ([(0, 2.5), (0, 7.0), (45, 22), (90, 6)], 1.0, "contradict each other"),
        ([(0, 2.5), (45, 0.9), (90, 6)], 1.0, "any sheet"),
        ([(0, 2.5), (45, 22), (90, 6)], 0.0, "a pull of 0"),
        ([(0, -2.5), (45, 22), (90, 6)], 1.0, "strip at 0 deg"),
    ],
)
def test_data_that_tell_nothing_are_refused_with_the_remedy(angles_and_extensions, pull, what):
    strips = [PulledStrip(a, 25, 100, (25.0,), (e,)) for a, e in angles_and_extensions]
    with pytest.raises(SheetError, match=what) as refusal:
        fit_strips(strips, pull)
    assert refusal.value.remedy
