"""The trial book: what fused samples, skiving checks and lasting trials showed.

Entries are added, never changed; a mistake is answered by another entry that says so. Lasting
trials calibrate the prediction for their pair of upper and cloth, with its scatter.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from statistics import mean, stdev
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field
from scipy import special

from app.errors import AppError
from app.style.model import Style
from app.workshop.database import Database
from app.workshop.folder import data_path, who
from geometry.said import joined, percent, said

_SCHEMA = """
CREATE TABLE IF NOT EXISTS trial (
    id INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, kind TEXT NOT NULL,
    style TEXT NOT NULL, piece TEXT NOT NULL, upper TEXT NOT NULL, cloth TEXT NOT NULL,
    body TEXT NOT NULL);
CREATE INDEX IF NOT EXISTS trial_pair ON trial (upper, cloth);
"""
CONFIDENCE = 0.90
"""Of the range in which the next trial is expected."""
ENOUGH = 3
"""Fewer trials say nothing useful about their scatter."""

TrialKind = Literal["fused-sample", "skiving", "lasting"]


class TrialError(AppError):
    """A trial that says nothing."""


class Trial(BaseModel):
    """One trial. What was not assessed is None; ``photos`` are paths of files, which stay where
    they are. Grades 0 (none) to 3 (reject). ``predicted_mm`` is the line's prediction of the
    day, ``predicted_field_mm`` the field's."""

    model_config = ConfigDict(frozen=True, extra="allow", allow_inf_nan=False)

    kind: TrialKind
    style: str
    piece: str = ""
    size: str = ""
    upper: str
    cloth: str
    verdict: Literal["good", "doubtful", "bad"]
    # fused sample
    peel_n_per_mm: float | None = Field(default=None, ge=0)
    composite_percent: float | None = Field(default=None, ge=0)
    show_through: int | None = Field(default=None, ge=0, le=3)
    ridge: int | None = Field(default=None, ge=0, le=3)
    # skiving check
    skive_mm: float | None = Field(default=None, ge=0)
    # lasting trial
    mark_after_lasting_mm: float | None = None
    mark_after_delasting_mm: float | None = None
    side_length_mm: float | None = None
    predicted_mm: float | None = Field(default=None, gt=0)
    predicted_field_mm: float | None = Field(default=None, gt=0)
    pull_n_per_mm: float | None = Field(default=None, gt=0)
    angle_deg: float | None = None
    photos: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True)
class TrialEntry:
    """A trial in the book."""

    id: int
    at: str
    who: str
    trial: Trial


@dataclass(frozen=True)
class Calibration:
    """What lasting trials of a pair say about the prediction.

    ``factor`` is measured over predicted, in the mean. ``low`` and ``high`` bound the next trial
    at CONFIDENCE (Student's t with the trials' own scatter); None with fewer than ENOUGH trials.
    """

    upper: str
    cloth: str
    trials: int
    factor: float
    low: float | None
    high: float | None


class TrialBook:
    """The book, in one file; raises DatabaseError when it cannot be used."""

    def __init__(self, path: Path | None = None) -> None:
        self.path = data_path("trials.sqlite") if path is None else path
        self._db = Database(self.path, _SCHEMA, 1)

    def check(self, trial: Trial) -> None:
        """Raise TrialError when a trial measured nothing of its kind."""
        wanted = {
            "fused-sample": ("peel_n_per_mm", "composite_percent", "show_through", "ridge"),
            "skiving": ("skive_mm",),
            "lasting": ("mark_after_lasting_mm", "mark_after_delasting_mm", "side_length_mm"),
        }[trial.kind]
        if all(getattr(trial, name) is None for name in wanted) and not trial.note:
            raise TrialError(
                said("a {0} trial of {1} without a result", trial.kind, trial.style),
                remedy=said("give at least one of {0}, or a note", ", ".join(wanted)),
            )

    def add(self, trial: Trial) -> TrialEntry:
        """Enter a trial; raises TrialError when it measured nothing of its kind."""
        self.check(trial)
        at, by = datetime.now(UTC).isoformat(timespec="seconds"), who()
        with self._db.write() as db:
            number = db.execute(
                "INSERT INTO trial (at, who, kind, style, piece, upper, cloth, body)"
                " VALUES (?,?,?,?,?,?,?,?)",
                (
                    at,
                    by,
                    trial.kind,
                    trial.style,
                    trial.piece,
                    trial.upper,
                    trial.cloth,
                    trial.model_dump_json(exclude_defaults=True),
                ),
            ).lastrowid
        assert number is not None
        return TrialEntry(number, at, by, trial)

    def entries(self, *, style: str = "", upper: str = "", cloth: str = "") -> tuple[TrialEntry, ...]:
        """Return the trials of a style, upper and cloth ('' = all), oldest first."""
        with self._db.read() as db:
            rows = db.execute(
                "SELECT * FROM trial WHERE (?='' OR style=?) AND (?='' OR upper=?) AND (?='' OR cloth=?)"
                " ORDER BY id",
                (style, style, upper, upper, cloth, cloth),
            ).fetchall()
        return tuple(
            TrialEntry(row["id"], row["at"], row["who"], Trial.model_validate_json(row["body"]))
            for row in rows
        )

    def similar(self, upper: str, cloths: Iterable[str], style: str = "") -> tuple[TrialEntry, ...]:
        """Return what was tried before that bears on a style, nearest first.

        The same upper on the same cloth, then the same cloth, then the same upper; the newest
        first among equals. Trials of ``style`` itself come before all.
        """
        wanted = set(cloths)

        def nearness(entry: TrialEntry) -> int:
            trial = entry.trial
            same = 2 * (trial.cloth in wanted) + (trial.upper == upper)
            return same + 4 * bool(style and trial.style == style)

        found = [entry for entry in self.entries() if nearness(entry)]
        return tuple(sorted(found, key=lambda entry: (-nearness(entry), -entry.id)))

    def calibration(self, upper: str, cloth: str) -> Calibration | None:
        """Return what lasting trials say about predictions for a pair; None without any.

        Trials with a predicted figure and the mark's distance after lasting count.
        """
        return calibrate(entry.trial for entry in self.entries(upper=upper, cloth=cloth))


def calibrate(trials: Iterable[Trial]) -> Calibration | None:
    """Return the calibration of trials of one pair; see ``TrialBook.calibration``."""
    counted = [
        trial
        for trial in trials
        if trial.kind == "lasting"
        and trial.predicted_mm is not None
        and trial.mark_after_lasting_mm is not None
    ]
    if not counted:
        return None
    ratios = [
        abs(trial.mark_after_lasting_mm) / trial.predicted_mm  # type: ignore[arg-type,operator]
        for trial in counted
    ]
    factor = mean(ratios)
    low = high = None
    if len(ratios) >= ENOUGH:
        reach = float(special.stdtrit(len(ratios) - 1, (1 + CONFIDENCE) / 2))
        reach *= stdev(ratios) * (1 + 1 / len(ratios)) ** 0.5
        low, high = max(0.0, factor - reach), factor + reach
    return Calibration(counted[0].upper, counted[0].cloth, len(ratios), factor, low, high)


def calibrations(style: Style) -> dict[str, Calibration]:
    """Return what lasting trials say about the style's upper on each cloth, by cloth id.

    Without a trial book there is nothing to learn from: an empty dict.
    """
    book = TrialBook()
    found = {cloth.id: book.calibration(style.upper_material.name, cloth.id) for cloth in style.cloths}
    return {name: calibration for name, calibration in found.items() if calibration is not None}


def calibration_text(found: Calibration) -> str:
    """Return a calibration in words."""
    pair = said("{0} on {1}", found.upper, found.cloth)
    factor = f"{found.factor:.2f}"
    text = said("{0}: measured over predicted {1}, trials: {2}", pair, factor, found.trials)
    if found.low is None or found.high is None:
        return joined(text, said("{0} trials are needed to say how they scatter", ENOUGH))
    low, high = f"{found.low:.2f}", f"{found.high:.2f}"
    return joined(text, said("the next within {0} to {1} ({2})", low, high, percent(CONFIDENCE, 0)))
