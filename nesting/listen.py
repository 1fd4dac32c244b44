"""What an engine tells while it works."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Protocol

from nesting.lay import Lay


class PhaseCode(StrEnum):
    """What an engine is at; the words for it stand in ``PHASE_WORDS`` and in the window's table."""

    STARTING = "starting"
    FIRST_LAYOUT = "first-layout"
    ROWS = "rows"
    ORDERS = "orders"
    SEARCH = "search"
    OPENINGS = "openings"
    WINDOWS = "windows"
    SQUEEZE = "squeeze"
    SHORTEN = "shorten"
    AROUND_FIXED = "around-fixed"


PHASE_WORDS: dict[PhaseCode, str] = {
    PhaseCode.STARTING: "starting",
    PhaseCode.FIRST_LAYOUT: "first layout",
    PhaseCode.ROWS: "rows",
    PhaseCode.ORDERS: "orders",
    PhaseCode.SEARCH: "search",
    PhaseCode.OPENINGS: "openings",
    PhaseCode.WINDOWS: "windows",
    PhaseCode.SQUEEZE: "squeeze",
    PhaseCode.SHORTEN: "shorten",
    PhaseCode.AROUND_FIXED: "shorten around what is fixed",
}


@dataclass(frozen=True)
class Phase:
    """What an engine is at, and the section of the lay it is about.

    ``section`` of ``sections`` counts from 1 where the lay is made of several; ``times`` is how often the
    one section is laid. 0 where that does not apply.
    """

    code: PhaseCode
    section: int = 0
    sections: int = 0
    times: int = 0

    def of_section(self, section: int, sections: int, times: int) -> Phase:
        """Return the phase as one of a section, where there are several or it is laid several times."""
        if sections > 1:
            return replace(self, section=section, sections=sections)
        return replace(self, times=times) if times > 1 else self

    @property
    def words(self) -> str:
        """The phase in English, as commands print it."""
        name = PHASE_WORDS[self.code]
        if self.sections:
            return f"{name}, section {self.section} of {self.sections}"
        return f"{name}, a section laid {self.times} times" if self.times else name


class Listener(Protocol):
    """Hears of phases and of better lays."""

    def phase(self, phase: Phase) -> None:
        """The engine is now at ``phase``."""

    def better(self, lay: Lay) -> None:
        """A complete lay shorter than any before (not yet verified)."""


class Silent:
    """Hears nothing."""

    def phase(self, phase: Phase) -> None:
        """Ignore."""

    def better(self, lay: Lay) -> None:
        """Ignore."""
