"""One piece under the style's pull: what it is made of along its hold line, and how far it gives."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.findings import Finding
from geometry.stretch.hold import Hold, Material, Section, extra_mm_at, hold_at


@dataclass(frozen=True)
class PieceHold:
    """A piece under the style's pull.

    ``angle_deg`` is where the tight direction of its (first) cloth lies from the pull axis, None
    without backing; of the hand that gives more, where upper and cloth are both slanted. ``hold``
    is over the hold line; without one it is over 100 mm of fully backed piece and ``has_line`` is
    False. ``granted_deg`` is the turn on the roll that keeps the limit.
    """

    piece: str
    size: str
    angle_deg: float | None
    cloths: tuple[str, ...]
    hold: Hold
    has_line: bool
    granted_deg: float | None
    upper: Material
    backings: tuple[Material, ...]
    sections: tuple[Section, ...]
    findings: tuple[Finding, ...] = ()

    @property
    def called(self) -> str:
        """What it is called where pieces and chains stand together."""
        return self.piece

    @property
    def is_backed(self) -> bool:
        """Whether there is backing that could be turned."""
        return bool(self.backings)

    def turned(self, off_deg: float) -> Hold:
        """The hold with the backing turned off its place, to the worse side."""
        pull, limit = self.hold.pull_n_per_mm, self.hold.limit_mm
        return hold_at(off_deg, self.upper, self.backings, self.sections, pull, limit)

    def extra_mm(self, off_deg: float) -> float:
        """How many mm more the hold line gives when the backing lies turned."""
        return extra_mm_at(off_deg, self.upper, self.backings, self.sections, self.hold.pull_n_per_mm)
