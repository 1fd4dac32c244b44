"""Cut ticket: what is cut from which roll, in which lays, and what was really cut."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal

from app.style.model import Style
from nesting.fault import Verdict


@dataclass(frozen=True)
class TicketLay:
    """One lay of the order: its lay.json object, its verdict, how many plies, and how spread."""

    name: str
    document: dict[str, Any]
    verdict: Verdict
    plies: int
    mode: Literal["face-up", "face-to-face"] = "face-up"


@dataclass(frozen=True)
class CutTicket:
    """An order of one style on one cloth. Fields left '' are printed as lines to fill in by hand."""

    style: Style
    pairs: dict[str, int]
    lays: tuple[TicketLay, ...]
    cloth_id: str = ""
    order: str = ""
    last: str = ""
    colour: str = ""
    date: str = ""
    roll_number: str = ""
    notes: tuple[str, ...] = field(default=())


def write(ticket: CutTicket, out_dir: Path) -> list[Path]:
    """Write cut-ticket.pdf, .csv and .xlsx; raises UnverifiedError when any lay is not verified."""
    raise NotImplementedError
