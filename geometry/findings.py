"""What was noticed on the way from a drawing to a backing: never lost, never a stack trace."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from geometry.said import joined, said


class Severity(StrEnum):
    """How much a finding matters to the person at the desk."""

    NOTE = "note"  # done as expected, worth knowing
    WARNING = "warning"  # something was repaired or looks wrong
    QUESTION = "question"  # a guess that a person must confirm
    ERROR = "error"  # this part of the job failed (the rest went on)


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing noticed.

    ``code`` is stable (UPPER_SNAKE) and meant for programs; ``message`` says what is there,
    ``done`` what was done about it, ``advice`` what the person can do. ``where_mm`` are points
    in the frame of the piece (or of the drawing when ``piece`` is empty).
    """

    code: str
    severity: Severity
    message: str
    done: str = ""
    advice: str = ""
    piece: str = ""
    size: str = ""
    where_mm: tuple[tuple[float, float], ...] = ()

    def __str__(self) -> str:
        place = " ".join(part for part in (self.piece, self.size) if part)
        text = said("{0}: {1}", place, self.message) if place else self.message
        return joined(text, self.done, self.advice)
