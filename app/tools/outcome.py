"""What a tool answers: what to show, select or do. The desk carries it out."""

from __future__ import annotations

from dataclasses import dataclass

from app.style.model import Style
from app.tools.board import EdgeName


@dataclass(frozen=True)
class Preview:
    """Show this style while the gesture goes on."""

    style: Style


@dataclass(frozen=True)
class Commit:
    """The gesture is done: make it one step. ``step`` names the edit (the desk has the words)."""

    step: str
    style: Style


@dataclass(frozen=True)
class Dropped:
    """The gesture was given up: show the committed style again."""


@dataclass(frozen=True)
class Refused:
    """The gesture cannot be done there; ``message`` says why, and what to do instead."""

    message: str


@dataclass(frozen=True)
class Select:
    """Select a piece ('' = none) and edges of it."""

    piece: str
    edges: frozenset[EdgeName] = frozenset()


@dataclass(frozen=True)
class Sweep:
    """Show the box being swept (board mm), or none."""

    box_mm: tuple[float, float, float, float] | None


@dataclass(frozen=True)
class Span:
    """Show a measured line (board mm), or none; ``snapped`` ends lie on drawn points."""

    from_mm: tuple[float, float] | None
    to_mm: tuple[float, float] | None
    snapped: tuple[bool, bool] = (False, False)


@dataclass(frozen=True)
class Sketch:
    """Show a line being drawn (board mm), none when empty. ``snap``: what its last point lies on.

    ``asks_side``: the line is ended, and the side that stays is asked for. ``step_mm``: its last step, in the
    piece's frame.
    """

    points_mm: tuple[tuple[float, float], ...]
    closed: bool = False
    asks_side: bool = False
    snap: str = ""
    step_mm: tuple[tuple[float, float], tuple[float, float]] | None = None


Outcome = Preview | Commit | Dropped | Refused | Select | Sweep | Span | Sketch
