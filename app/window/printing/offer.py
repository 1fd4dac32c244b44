"""What a desk offers to print: the papers of the registry that show what the desk has made."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from app.papers import registry
from app.window.wording.words import paper_language, paper_name
from geometry.piece import Hand

if TYPE_CHECKING:  # what writes papers is loaded when a paper is asked for
    from app.papers.formats.drawing import Page


@dataclass(frozen=True)
class Choice:
    """What a person chose in the print dialog: sheet of paper, sizes and hands to draw."""

    sheet: str
    sizes: tuple[str, ...]
    hands: tuple[Hand, ...]


@dataclass(frozen=True)
class Offer:
    """One paper on offer. ``file`` is the stem of its PDF; ``true_size``: drawn 1:1, never to be scaled;
    ``by_size``: asks for sizes and hands.

    ``prepare`` reads what the desk shows and returns the work that makes the sheets, which touches nothing of
    the window: boards of a large style take seconds. Both raise AppError or GeometryError where they cannot
    (a lay with a fault)."""

    name: str
    file: str
    prepare: Callable[[Choice], Callable[[], Sequence[Page]]]
    true_size: bool = False
    by_size: bool = False

    def pages(self, choice: Choice) -> Sequence[Page]:
        """Return the sheets at once; raises as ``prepare`` and its work."""
        return self.prepare(choice)()


def offers(kind: type, shown: Callable[[Choice], Callable[[], object]], *, called: str = "") -> list[Offer]:
    """Return an offer for each paper of a kind; ``shown`` gives the work whose result is of this kind.

    ``called`` is added to the names of the files, where several of a kind are printed (lays).
    """
    return [
        Offer(
            paper_name(paper.code),
            f"{paper.code}-{called}" if called else paper.code,
            partial(_prepare, paper, shown),
            paper.true_size,
            paper.by_size,
        )
        for paper in registry.papers_of(kind)
    ]


def _prepare(
    paper: registry.Paper, shown: Callable[[Choice], Callable[[], object]], choice: Choice
) -> Callable[[], Sequence[Page]]:
    return partial(_pages, paper, shown(choice), paper_language())


def _pages(paper: registry.Paper, work: Callable[[], object], language: str) -> Sequence[Page]:
    return paper.pages(work(), language)
