"""What a default is: a figure taken where nobody has said another, with its unit, reason and source.

Each package keeps its own (``geometry.defaults``, ``nesting.defaults``, ``app.defaults``); the code takes the
figure from there and nowhere else, and docs/defaults.md is made of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

Number = TypeVar("Number", int, float)

PRACTICE = "common practice, no source"
"""The trade does so, or close to it, and no source that a reader can find was found."""

OURS = "our own choice, no source"
"""About the program, not about the trade: how long it works, how finely it reads."""

NOTHING_ADDED = "none needed: zero adds nothing until somebody enters a figure"
"""For a default of zero that leaves the drawing or the cloth as it is."""


@dataclass(frozen=True)
class Default(Generic[Number]):
    """``value`` in ``unit``; ``what`` it is, in the words of the desk; ``reason`` why this and not another.

    ``source`` is a published source that a reader can find, or one of the words above.
    """

    value: Number
    unit: str
    what: str
    reason: str
    source: str


NOTCH_DEPTH_MM = Default(
    3.0,
    "mm",
    "Depth of a notch whose drawing gives none",
    "seen when laying pieces together, and less than a lasting margin or lap (notches are 2 to 6 mm deep)",
    PRACTICE,
)

KNIFE_RADIUS_MM = Default(
    0.0,
    "mm",
    "Minimum knife corner radius",
    "corners of the backing stay sharp until the radius of the workshop's knife is entered",
    NOTHING_ADDED,
)

RELIEF_WIDTH_MM = Default(
    2.0,
    "mm",
    "Width of a relief cut at the edge",
    "the two sides of the V close when the fold is turned over, and do not overlap",
    PRACTICE,
)

LETTERS_MM = Default(
    4.0,
    "mm",
    "Height of a word written on a piece",
    "read at arm's length on a board, and small enough for a strap",
    PRACTICE,
)
