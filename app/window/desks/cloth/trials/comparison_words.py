"""How line and field did on the workshop's own trials, in words."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication

from app.window.widgets.lengths import Lengths
from app.workshop.trial_book import ENOUGH
from app.workshop.two_predictions import PredictionComparison

translate = QCoreApplication.translate


def comparison_said(found: PredictionComparison, lengths: Lengths) -> list[str]:
    """Return the scores of both models, and which predicted better or why nothing is said."""
    said = []
    names = {"line": translate("Trials", "Line"), "field": translate("Trials", "Field")}
    for score in (found.line, found.field):
        text = translate("Trials", "{0}: off by {1} on average, measured over predicted {2}").format(
            names[score.model], lengths.text(score.miss_mm), lengths.decimal(score.factor, 2)
        )
        if score.scatter is not None:
            text += translate("Trials", ", scatter {0} %").format(lengths.decimal(100 * score.scatter, 0))
        said.append(text)
    said.append(_verdict(found, lengths))
    return said


def _verdict(found: PredictionComparison, lengths: Lengths) -> str:
    if found.gain_mm is None:
        return translate("Trials", "{0} trials with both predictions show which predicts better.").format(
            ENOUGH
        )
    low, high = (lengths.text(mm) for mm in found.gain_mm)
    between = translate("Trials", "the field is nearer by {0} to {1} on average").format(low, high)
    if found.better is None:
        return translate("Trials", "These trials do not show which predicts better: {0}.").format(between)
    if found.better == "field":
        return translate("Trials", "On these trials the field predicts better: {0}.").format(between)
    return translate("Trials", "On these trials the line predicts better: {0}.").format(between)
