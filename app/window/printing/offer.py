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
    ``by_size``: asks for sizes and hands. ``pages`` makes the sheets and raises AppError or
    GeometryError where it cannot (a lay with a fault)."""

    name: str
    file: str
    pages: Callable[[Choice], Sequence[Page]]
    true_size: bool = False
    by_size: bool = False


def offers(kind: type, shown: Callable[[Choice], object], *, called: str = "") -> list[Offer]:
    """Return an offer for each paper of a kind; ``shown`` gives what it shows, of this kind.

    ``called`` is added to the names of the files, where several of a kind are printed (lays).
    """
    return [
        Offer(
            paper_name(paper.code),
            f"{paper.code}-{called}" if called else paper.code,
            partial(_pages, paper, shown),
            paper.true_size,
            paper.by_size,
        )
        for paper in registry.papers_of(kind)
    ]


def _pages(paper: registry.Paper, shown: Callable[[Choice], object], choice: Choice) -> Sequence[Page]:
    return paper.pages(shown(choice), paper_language())
