"""The trial book: entries are kept, similar ones are found, lasting trials calibrate."""

import numpy as np
import pytest
from pydantic import ValidationError

from app.workshop.trial_book import CONFIDENCE, Trial, TrialBook, TrialError, calibrate


def lasting(mark=2.0, predicted=2.5, **more):
    fields = {"kind": "lasting", "style": "Court", "upper": "nappa", "cloth": "twill", "verdict": "good"}
    return Trial(**{**fields, "mark_after_lasting_mm": mark, "predicted_mm": predicted, **more})


def test_a_trial_is_found_again(tmp_path):
    book = TrialBook(tmp_path / "trials.sqlite")
    trial = lasting(piece="Vamp", photos=("/photos/a.jpg",), note="throat on its mark")
    entry = book.add(trial)
    assert book.entries(style="Court")[0].trial == trial == entry.trial
    assert book.entries(style="Derby") == ()
    assert TrialBook(tmp_path / "trials.sqlite").entries(upper="nappa", cloth="twill")[0].id == entry.id


def test_a_trial_that_says_nothing_is_refused(tmp_path):
    book = TrialBook(tmp_path / "trials.sqlite")
    with pytest.raises(TrialError, match="without a result"):
        book.add(Trial(kind="skiving", style="Court", upper="n", cloth="t", verdict="bad", side_length_mm=3))
    with pytest.raises(ValidationError):
        Trial(kind="fused-sample", style="Court", upper="n", cloth="t", verdict="bad", ridge=4)


def test_what_was_tried_before_comes_nearest_first(tmp_path):
    book = TrialBook(tmp_path / "trials.sqlite")
    for style, upper, cloth in (
        ("Boot", "calf", "drill"),
        ("Derby", "nappa", "drill"),
        ("Derby", "calf", "twill"),
        ("Derby", "nappa", "twill"),
        ("Court", "suede", "drill"),
    ):
        book.add(lasting(style=style, upper=upper, cloth=cloth))
    found = [(e.trial.style, e.trial.upper, e.trial.cloth) for e in book.similar("nappa", ["twill"], "Court")]
    assert found == [
        ("Court", "suede", "drill"),
        ("Derby", "nappa", "twill"),
        ("Derby", "calf", "twill"),
        ("Derby", "nappa", "drill"),
    ]


def test_lasting_trials_calibrate_their_pair_only(tmp_path):
    book = TrialBook(tmp_path / "trials.sqlite")
    assert book.calibration("nappa", "twill") is None
    for mark in (3.0, 2.5):
        book.add(lasting(mark))
    few = book.calibration("nappa", "twill")
    assert few.factor == pytest.approx(1.1) and few.low is None
    book.add(lasting(2.75))
    book.add(lasting(99.0, cloth="drill"))
    found = book.calibration("nappa", "twill")
    assert (found.trials, found.factor) == (3, pytest.approx(1.1))
    assert found.low < 1.1 < found.high


def test_a_mark_short_or_long_counts_by_its_distance():
    assert calibrate([lasting(-2.5), lasting(2.5), lasting(2.5)]).factor == 1.0


def test_the_next_trial_lies_within_the_range_at_the_stated_rate():
    """Simulation: trials that scatter by a quarter about 1.2 times the prediction."""
    rng = np.random.default_rng(11)
    count, hits = 600, 0
    for _ in range(count):
        marks = 2.0 * rng.normal(1.2, 0.25, 6)
        found = calibrate([lasting(float(m), 2.0) for m in marks[:5]])
        hits += found.low <= abs(marks[5]) / 2.0 <= found.high
    slack = 3.3 * (CONFIDENCE * (1 - CONFIDENCE) / count) ** 0.5
    assert abs(hits / count - CONFIDENCE) < slack
