"""Sizes of paper of both worlds, upright: the one table that boards, tiles, prints and traced sheets take."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from geometry.inch import MM_PER_INCH

Series = Literal["ISO A", "ISO B", "ANSI", "Arch", "US"]


@dataclass(frozen=True)
class PaperSize:
    """A size of paper, upright. ``series`` says whose it is (``PAPERS`` names the sources)."""

    name: str
    width_mm: float
    height_mm: float
    series: Series


def _inch(name: str, width_in: float, height_in: float, series: Series) -> PaperSize:
    return PaperSize(name, width_in * MM_PER_INCH, height_in * MM_PER_INCH, series)


PAPERS: tuple[PaperSize, ...] = (
    PaperSize("A4", 210.0, 297.0, "ISO A"),
    PaperSize("A3", 297.0, 420.0, "ISO A"),
    PaperSize("A2", 420.0, 594.0, "ISO A"),
    PaperSize("A1", 594.0, 841.0, "ISO A"),
    PaperSize("A0", 841.0, 1189.0, "ISO A"),
    PaperSize("B4", 250.0, 353.0, "ISO B"),
    PaperSize("B3", 353.0, 500.0, "ISO B"),
    PaperSize("B2", 500.0, 707.0, "ISO B"),
    PaperSize("B1", 707.0, 1000.0, "ISO B"),
    PaperSize("B0", 1000.0, 1414.0, "ISO B"),
    _inch("Letter", 8.5, 11.0, "ANSI"),
    _inch("Tabloid", 11.0, 17.0, "ANSI"),
    _inch("ANSI C", 17.0, 22.0, "ANSI"),
    _inch("ANSI D", 22.0, 34.0, "ANSI"),
    _inch("ANSI E", 34.0, 44.0, "ANSI"),
    _inch("Legal", 8.5, 14.0, "US"),
    _inch("Arch A", 9.0, 12.0, "Arch"),
    _inch("Arch B", 12.0, 18.0, "Arch"),
    _inch("Arch C", 18.0, 24.0, "Arch"),
    _inch("Arch D", 24.0, 36.0, "Arch"),
    _inch("Arch E", 36.0, 48.0, "Arch"),
)
"""A and B: ISO 216. Letter and Tabloid (A and B there), ANSI C to E: ASME Y14.1. Legal and the Arch sizes:
common practice, no source."""

PAPER_MM: dict[str, tuple[float, float]] = {paper.name: (paper.width_mm, paper.height_mm) for paper in PAPERS}
"""Width and height by name."""

ALSO_CALLED = {"ledger": "Tabloid", "ansia": "Letter", "ansib": "Tabloid"}


def paper_of(text: str) -> PaperSize | None:
    """Return the paper of a name, however it is written (``arch-d``, ``Arch D``), None for an unknown one."""
    wanted = _plain(text)
    wanted = _plain(ALSO_CALLED.get(wanted, wanted))
    return next((paper for paper in PAPERS if _plain(paper.name) == wanted), None)


def paper_names() -> str:
    """Return all names in a line, as help and refusals list them."""
    return ", ".join(paper.name for paper in PAPERS)


def _plain(text: str) -> str:
    return text.strip().lower().replace(" ", "").replace("-", "")
