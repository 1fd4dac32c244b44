"""Which of the two models put the throat nearer to where the workshop's own trials found it.

Counted are lasting trials that measured the throat and hold both predictions of their day: the line's and
the field's. They are compared trial by trial, so that a hard upper counts for both alike.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from statistics import mean, stdev
from typing import Literal

from scipy import special

from app.workshop.trial_book import CONFIDENCE, ENOUGH, TrialEntry

Model = Literal["line", "field"]


@dataclass(frozen=True)
class Reading:
    """One trial: where the throat was found, and where each model had put it, mm from the mark."""

    entry: TrialEntry
    measured_mm: float
    line_mm: float
    field_mm: float

    def of(self, model: Model) -> float:
        """Return what a model predicted."""
        return self.line_mm if model == "line" else self.field_mm


@dataclass(frozen=True)
class Score:
    """How a model did: mean distance of prediction from reading, and measured over predicted.

    ``factor`` is the mean of measured over predicted, ``scatter`` its standard deviation as a share of it:
    what no factor can make good. None with fewer than two trials.
    """

    model: Model
    miss_mm: float
    factor: float
    scatter: float | None


@dataclass(frozen=True)
class PredictionComparison:
    """Both models on the same trials; ``better`` None where their misses do not tell them apart.

    ``gain_mm`` (low, high) bounds at CONFIDENCE (Student's t, paired) how much nearer the field is in the
    mean; below zero the line is. None with fewer than ENOUGH trials.
    """

    readings: tuple[Reading, ...]
    line: Score
    field: Score
    gain_mm: tuple[float, float] | None

    @property
    def better(self) -> Model | None:
        """The model that predicted better, or None."""
        if self.gain_mm is None or self.gain_mm[0] <= 0.0 <= self.gain_mm[1]:
            return None
        return "field" if self.gain_mm[0] > 0.0 else "line"


def compare_models(entries: Iterable[TrialEntry]) -> PredictionComparison | None:
    """Return how both models did on trials that hold both predictions; None without any."""
    readings = tuple(
        Reading(entry, abs(trial.mark_after_lasting_mm), trial.predicted_mm, trial.predicted_field_mm)
        for entry in entries
        for trial in (entry.trial,)
        if trial.kind == "lasting"
        and trial.mark_after_lasting_mm is not None
        and trial.predicted_mm is not None
        and trial.predicted_field_mm is not None
    )
    if not readings:
        return None
    gains = [abs(r.measured_mm - r.line_mm) - abs(r.measured_mm - r.field_mm) for r in readings]
    gain = None
    if len(gains) >= ENOUGH:
        reach = float(special.stdtrit(len(gains) - 1, (1 + CONFIDENCE) / 2))
        reach *= stdev(gains) / len(gains) ** 0.5
        gain = (mean(gains) - reach, mean(gains) + reach)
    return PredictionComparison(readings, _score("line", readings), _score("field", readings), gain)


def _score(model: Model, readings: tuple[Reading, ...]) -> Score:
    ratios = [r.measured_mm / r.of(model) for r in readings]
    factor = mean(ratios)
    scatter = stdev(ratios) / factor if len(ratios) > 1 and factor > 0.0 else None
    return Score(model, mean(abs(r.measured_mm - r.of(model)) for r in readings), factor, scatter)
