"""Trial report: each lasting trial with what line and field had predicted, and which predicted better."""

from __future__ import annotations

from pathlib import Path

from app.measures import counted
from app.papers.formats.drawing import Anchor, Drawing, Page
from app.papers.formats.lettering import wrapped
from app.papers.formats.pdf import write_pdf
from app.papers.layout import pens
from app.papers.layout.sheets import MARGIN_MM
from app.papers.layout.tables import draw_table, fitting_columns
from app.papers.pictures.trial_plot import draw_comparison
from app.papers.shown import Compared
from app.words import say
from app.workshop.trial_book import CONFIDENCE, ENOUGH
from app.workshop.two_predictions import PredictionComparison, Score
from geometry.paper import PAPER_MM
from geometry.said import percent

_PLOT_MM = 92.0
_FIRST, _MORE = 24, 46
"""Rows of the table on the first sheet, under the plot, and on others."""


def write(shown: Compared, out_dir: Path) -> list[Path]:
    """Write trial-report.pdf (A4) and return its path."""
    path = out_dir / "trial-report.pdf"
    return [write_pdf(pages(shown), path, title=say("{0}: line and field", shown.name))]


def pages(shown: Compared) -> list[Page]:
    """Return the report: plot, scores and the newest trials first, the others on further sheets."""
    title, found = shown.name, shown.found
    wide, high = PAPER_MM["A4"]
    room = wide - 2 * MARGIN_MM
    rows = [_row(found, k) for k in reversed(range(len(found.readings)))]
    heads = ["trial", "day", "style and piece", "upper on cloth", "measured", "line", "field", "nearer"]
    anchors: list[Anchor] = ["right", "left", "left", "left", "right", "right", "right", "left"]
    columns = fitting_columns(heads, rows, anchors, room)
    sheets: list[Page] = []
    at = 0
    while at < len(rows) or not sheets:
        drawing = Drawing()
        y = high - MARGIN_MM - pens.TITLE
        name = say("{0}: line and field", title)
        drawing.text(MARGIN_MM, y, name, pens.HEADING, bold=True, colour=pens.INK)
        y -= 6.0
        count = _MORE
        if not sheets:
            count = _FIRST
            draw_comparison(drawing, found, MARGIN_MM + 8.0, y - _PLOT_MM - 12.0, _PLOT_MM)
            _words(drawing, comparison_words(found), MARGIN_MM + _PLOT_MM + 20.0, y - 6.0, wide)
            y -= _PLOT_MM + 28.0
        draw_table(drawing, MARGIN_MM, y, columns, rows[at : at + count])
        at += count
        sheets.append(Page(wide, high, drawing))
    return sheets


def comparison_words(found: PredictionComparison) -> list[str]:
    """Return the scores of both models and which predicted better, a sentence each."""
    words = [say("Both predictions are on record for {0}.", counted(len(found.readings), "lasting trial"))]
    words += [score_words(score) for score in (found.line, found.field)]
    return [*words, verdict_words(found)]


def score_words(score: Score) -> str:
    """Return how a model did."""
    scatter = "" if score.scatter is None else say(", scatter {0}", percent(score.scatter, 0))
    return say(
        "The {0} is off by {1} mm on average; measured / predicted {2}{3}.",
        score.model,
        f"{score.miss_mm:.1f}",
        f"{score.factor:.2f}",
        scatter,
    )


def verdict_words(found: PredictionComparison) -> str:
    """Return which model predicted better, or why nothing is said."""
    if found.gain_mm is None:
        return say("{0} trials are needed to say which predicts better.", ENOUGH)
    low, high = found.gain_mm
    between = say(
        "(the field is nearer by {0} to {1} mm on average, {2} confidence)",
        f"{low:.1f}",
        f"{high:.1f}",
        percent(CONFIDENCE, 0),
    )
    if found.better is None:
        return say("These trials do not tell which predicts better {0}.", between)
    return say("On these trials the {0} predicts better {1}.", found.better, between)


def _row(found: PredictionComparison, k: int) -> list[str]:
    reading = found.readings[k]
    trial = reading.entry.trial
    line, field = (abs(reading.measured_mm - p) for p in (reading.line_mm, reading.field_mm))
    return [
        str(reading.entry.id),
        reading.entry.at[:10],
        " ".join(part for part in (trial.style, trial.size, trial.piece) if part),
        say("{0} / {1}", trial.upper, trial.cloth),
        say("{0} mm", f"{reading.measured_mm:.1f}"),
        say("{0} mm", f"{reading.line_mm:.1f}"),
        say("{0} mm", f"{reading.field_mm:.1f}"),
        "line" if line < field else "field" if field < line else "both",
    ]


def _words(drawing: Drawing, sentences: list[str], x: float, y: float, wide: float) -> None:
    for sentence in sentences:
        for line in wrapped(sentence, pens.SMALL, wide - MARGIN_MM - x):
            drawing.text(x, y, line, pens.SMALL, colour=pens.INK)
            y -= pens.SMALL * 1.4
        y -= pens.SMALL
