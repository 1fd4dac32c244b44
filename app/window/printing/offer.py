"""What a desk offers to print."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

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
class Paper:
    """One paper. ``file`` is the stem of its PDF; ``true_size``: drawn 1:1, never to be scaled;
    ``by_size``: asks for sizes and hands. ``pages`` makes the sheets and raises AppError or
    GeometryError where it cannot (a lay with a fault)."""

    name: str
    file: str
    pages: Callable[[Choice], Sequence[Page]]
    true_size: bool = False
    by_size: bool = False
