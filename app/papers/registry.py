"""Every paper there is: what it shows, its files, who writes it and where the window prints it.

Each paper is one module with the same entry, whatever it shows::

    def pages(shown) -> list[Page]               # the sheets of its PDF
    def write(shown, out_dir: Path) -> list[Path]    # all its files, and their paths

A command writes all papers of what it has made (``write``); the window offers them (``papers_of``); the
table in docs/papers.md is this one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

from app.papers.shown import (
    CardSheet,
    Compared,
    Costed,
    Drafted,
    Held,
    Laid,
    PlannedRun,
    Pressed,
    PulledOver,
    Reinforced,
    Tested,
)
from app.words import in_language, language_asked

if TYPE_CHECKING:
    from app.papers.formats.drawing import Page


@dataclass(frozen=True)
class Paper:
    """One paper.

    ``module`` makes it of a ``shows``; ``files`` are written by the commands ``by``; ``desk`` prints it
    ('' = none). ``true_size``: drawn 1:1, never to be scaled; ``by_size``: asks for sizes and hands.
    """

    code: str
    module: str
    shows: type
    files: tuple[str, ...]
    by: tuple[str, ...]
    desk: str = ""
    true_size: bool = False
    by_size: bool = False

    def pages(self, shown: object, language: str = "") -> Sequence[Page]:
        """Return the sheets; raises AppError or GeometryError where it cannot (a lay with a fault).

        All of them are in one ``language`` ('' = the one asked for by ``papers_in``).
        """
        with in_language(language or language_asked()):
            return cast("Sequence[Page]", self._loaded().pages(shown))

    def write(self, shown: object, out_dir: Path, language: str = "") -> list[Path]:
        """Write the paper's files into ``out_dir``; raises as ``pages``, and UsageError where it cannot."""
        with in_language(language or language_asked()):
            return cast("list[Path]", self._loaded().write(shown, out_dir))

    def _loaded(self) -> Any:
        return import_module(f"app.papers.{self.module}")


def _tables(stem: str) -> tuple[str, ...]:
    return (f"{stem}.pdf", f"{stem}.csv", f"{stem}.xlsx")


PAPERS = (
    Paper(
        "boards",
        "boards",
        Drafted,
        ("boards.pdf", "boards.dxf", "boards.plt"),
        ("boards", "demo"),
        "Draft",
        true_size=True,
        by_size=True,
    ),
    Paper(
        "reinforcement-sheet",
        "reinforcement_sheet",
        Reinforced,
        ("reinforcement-sheet.pdf",),
        ("demo",),
        "Draft",
    ),
    Paper("lay-plan", "lay_plan", Laid, ("lay.pdf", "lay.dxf", "lay.plt", "lay.svg"), ("lay", "demo"), "Lay"),
    Paper("cut-ticket", "cut_ticket", Laid, _tables("cut-ticket"), ("lay", "demo"), "Lay"),
    Paper("lay-1to1", "lay_full_size", Laid, ("lay-1to1.pdf",), ("lay", "demo"), "Lay", true_size=True),
    Paper("run-plan", "run_plan", PlannedRun, _tables("run-plan"), ("plan",), "Cost"),
    Paper("cut-tickets", "run_lays", PlannedRun, (), ("plan",), "Cost"),
    Paper("press-list", "press_list", Pressed, _tables("press-list"), ("press",)),
    Paper("fabric-per-pair", "fabric_per_pair", Costed, _tables("fabric-per-pair"), ("cost", "demo"), "Cost"),
    Paper("hold-sheet", "hold_sheet", Held, ("hold-sheet.pdf",), ("hold", "demo"), "Cloth"),
    Paper("field-sheet", "field_sheet", PulledOver, ("field-sheet.pdf",), ("hold --field",), "Cloth"),
    Paper("trial-report", "trial_report", Compared, ("trial-report.pdf",), ("trial report",), "Cloth"),
    Paper("stretch-report", "stretch_report", Tested, ("stretch-report.pdf",), ("stretch",), "Cloth"),
    Paper("trace-sheet", "trace_sheet", CardSheet, ("trace-sheet.pdf",), ("trace --print-sheet",)),
)

WRITERS = frozenset(command.split()[0] for paper in PAPERS for command in paper.by)
"""The commands that write papers, and take their language."""


def papers_of(kind: type) -> tuple[Paper, ...]:
    """Return the papers that show a thing of this kind, in the order of the list."""
    return tuple(paper for paper in PAPERS if paper.shows is kind)


def write(shown: object, out_dir: Path, language: str = "") -> list[Path]:
    """Write every paper of what is shown into ``out_dir``, in one language, and return the paths."""
    return [path for paper in papers_of(type(shown)) for path in paper.write(shown, out_dir, language)]
