"""What the independent judge finds wrong with a lay."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class FaultKind(StrEnum):
    """Kinds of fault."""

    OVERLAP = "overlap"
    GAP = "gap"
    OUTSIDE = "outside"  # beyond the usable width, margins or the lay's length
    FLAW = "flaw"  # on a flaw of the roll
    AXIS = "axis"  # pull axis off the tight direction
    HAND = "hand"  # outline is the mirror image of what it says it is
    SHAPE = "shape"  # outline is not the piece's
    MISSING = "missing"
    SURPLUS = "surplus"
    PINNED = "pinned"  # a piece pinned by hand is not where it was pinned
    LABEL = "label"  # a name, place or tolerance written beside a piece is not its item's
    PAIRS = "pairs"  # the pairs, plies or hands stated are not what the pieces make up
    LENGTH = "length"  # the stated length or yield is not what the placements give


@dataclass(frozen=True)
class Fault:
    """One fault: which placements (their indices), by how much."""

    kind: FaultKind
    placements: tuple[int, ...]
    amount_mm: float | None = None
    amount_deg: float | None = None
    message: str = ""


@dataclass(frozen=True)
class Verdict:
    """The judgement of a lay; ``checked`` says against what (gap, margins, tolerance)."""

    faults: tuple[Fault, ...]
    checked: str = ""

    @property
    def ok(self) -> bool:
        """Whether nothing is wrong."""
        return not self.faults
