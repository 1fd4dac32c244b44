"""Line and field on the workshop's own trials: the misses decide, and only where they tell."""

from __future__ import annotations

import numpy as np
import pypdfium2
import pytest

from app.papers import trial_report
from app.papers.shown import Compared
from app.workshop.trial_book import Trial, TrialEntry
from app.workshop.two_predictions import compare_models


def entry(number, measured, line, field, **more) -> TrialEntry:
    fields = {"kind": "lasting", "style": "Court", "piece": "Vamp", "upper": "nappa", "cloth": "twill"}
    fields |= {"verdict": "good", "mark_after_lasting_mm": measured, "predicted_mm": line} | more
    return TrialEntry(number, "2026-03-01", "bench", Trial(**fields, predicted_field_mm=field))


def test_trials_without_both_predictions_are_not_counted() -> None:
    assert (
        compare_models([entry(1, 2.4, 1.6, None), entry(2, 2.4, None, 2.5), entry(3, None, 1.6, 2.5)]) is None
    )
    found = compare_models([entry(1, 2.4, 1.6, None), entry(2, -2.4, 1.6, 2.5)])
    assert [reading.entry.id for reading in found.readings] == [2]
    assert found.readings[0].measured_mm == 2.4, "short of the mark or past it counts alike"
    assert found.line.miss_mm == pytest.approx(0.8) and found.field.miss_mm == pytest.approx(0.1)
    assert found.gain_mm is None and found.better is None, "one trial decides nothing"


def test_the_model_that_is_nearer_on_every_trial_is_named() -> None:
    trials = [entry(k, m, m / 1.5, m * 1.02) for k, m in enumerate((2.0, 2.5, 3.0, 2.2))]
    found = compare_models(trials)
    assert found.better == "field" and 0.0 < found.gain_mm[0] < found.gain_mm[1]
    assert found.line.factor == pytest.approx(1.5) and found.line.scatter == pytest.approx(0.0, abs=1e-12)
    swapped = [entry(k, m, m * 1.02, m / 1.5) for k, m in enumerate((2.0, 2.5, 3.0, 2.2))]
    assert compare_models(swapped).better == "line"


def test_trials_that_contradict_each_other_name_none() -> None:
    trials = [entry(1, 2.0, 2.0, 3.0), entry(2, 3.0, 2.0, 3.0), entry(3, 2.5, 2.0, 3.0)]
    assert compare_models(trials).better is None


def test_two_models_that_are_alike_are_seldom_told_apart() -> None:
    """Both scatter alike about the truth: a better one is named in about the 10 % that CONFIDENCE leaves."""
    rng = np.random.default_rng(5)
    named = 0
    for _ in range(600):
        truth = rng.uniform(1.5, 4.0, 6)
        line, field = (truth + rng.normal(0.0, 0.4, 6) for _ in range(2))
        trials = [entry(k, *values) for k, values in enumerate(zip(truth, line, field, strict=True))]
        named += compare_models(trials).better is not None
    assert 0.05 < named / 600 < 0.15


def test_the_report_shows_every_trial_and_the_verdict(tmp_path) -> None:
    found = compare_models([entry(k, m, m / 1.5, m * 1.02) for k, m in enumerate(np.linspace(2.0, 4.0, 60))])
    (path,) = trial_report.write(Compared("Court C12", found), tmp_path)
    document = pypdfium2.PdfDocument(path)
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    assert len(document) == 2
    assert "the field predicts better" in " ".join(text.split())
    assert text.count("2026-03-01") == 60
