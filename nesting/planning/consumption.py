"""What a pair takes of the cloth, with every loss counted by name: yield and utilisation apart.

*Yield* is the pieces' net area over the lay (usable width x lay length). *Utilisation* is the
same area over what is paid for: selvedges, both ends of every ply, the ends of rolls, splices and
rejects counted in. The lengths follow an identity that can be worked out by hand,

    metres per pair = (lay length + end loss) / (pairs in the lay) x (1 + roll ends + splices + rejects),

and a pair's cost is that times the price of a metre.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from nesting.errors import ProblemError

YIELD_MEANS = "yield: net area of the pieces / (usable width x lay length)"
"""Stands beside every figure of it; utilisation counts all cloth paid for and is another number."""

PER_PAIR = Decimal("0.0001")
"""Money of a pair is shown to a hundredth of a cent. Totals are never summed from it: over 1,800
pairs the rounding alone can come to 9 cents."""

CENT = Decimal("0.01")


@dataclass(frozen=True)
class Consumption:
    """A lay of ``pairs`` pairs spread once, with what is lost around it.

    ``end_loss_mm`` is lost at *each* end of every ply; ``roll_end_percent``, ``splice_percent``
    (cloth spread twice where one roll ends within a ply and the next begins) and
    ``reject_percent`` come on top of the spread length. Raises ProblemError without pairs,
    length or width, or with a loss below zero.
    """

    net_mm2: float
    lay_length_mm: float
    usable_width_mm: float
    width_mm: float
    pairs: float
    end_loss_mm: float = 0.0
    roll_end_percent: float = 0.0
    reject_percent: float = 0.0
    splice_percent: float = 0.0

    def __post_init__(self) -> None:
        if not (self.pairs > 0 and self.lay_length_mm > 0 and self.width_mm >= self.usable_width_mm > 0):
            raise ProblemError(
                "a consumption needs pairs, a length and a width", remedy="lay some pairs first"
            )
        if min(self.end_loss_mm, self.roll_end_percent, self.splice_percent, self.reject_percent) < 0:
            raise ProblemError("a loss of cloth cannot be below zero", remedy="correct the house rules")

    @property
    def lay_yield(self) -> float:
        """Net area over usable width x lay length."""
        return self.net_mm2 / (self.usable_width_mm * self.lay_length_mm)

    @property
    def ply_length_mm(self) -> float:
        """Cloth spread for one ply."""
        return self.lay_length_mm + 2.0 * self.end_loss_mm

    @property
    def extra(self) -> float:
        """Factor for the ends of rolls, splices and rejects."""
        return 1.0 + (self.roll_end_percent + self.splice_percent + self.reject_percent) / 100.0

    @property
    def spread_m(self) -> float:
        """Metres of one ply as it is spread: the lay and what is lost at both ends, no ends of rolls."""
        return self.ply_length_mm / 1000.0

    @property
    def metres(self) -> float:
        """Metres of roll that the lay takes, everything counted."""
        return self.ply_length_mm * self.extra / 1000.0

    @property
    def gross_m2(self) -> float:
        """Area of roll that the lay takes, selvedges included."""
        return self.metres * self.width_mm / 1000.0

    @property
    def utilisation(self) -> float:
        """Net area over all the cloth that is paid for."""
        return self.net_mm2 / 1e6 / self.gross_m2

    @property
    def metres_per_pair(self) -> float:
        """Metres of roll a pair takes, averaged over the lay's pairs."""
        return self.metres / self.pairs

    def metres_of(self, net_mm2: float) -> float:
        """Metres of roll that pieces of this net area take at this utilisation."""
        return net_mm2 / 1e6 / self.utilisation / (self.width_mm / 1000.0)

    def shares(self) -> dict[str, float]:
        """Return where every part of the cloth paid for goes; the shares add up to 1."""
        total = self.gross_m2 * 1e6
        lay = self.usable_width_mm * self.lay_length_mm
        ends = self.usable_width_mm * 2.0 * self.end_loss_mm
        selvedge = (self.width_mm - self.usable_width_mm) * self.ply_length_mm
        spread = self.width_mm * self.ply_length_mm
        return {
            "pieces": self.net_mm2 / total,
            "between_pieces": (lay - self.net_mm2) / total,
            "ends_of_plies": ends / total,
            "selvedge": selvedge / total,
            "ends_of_rolls": spread * self.roll_end_percent / 100.0 / total,
            "splices": spread * self.splice_percent / 100.0 / total,
            "rejects": spread * self.reject_percent / 100.0 / total,
        }


def money(metres: float, price_per_m: Decimal) -> Decimal:
    """Return what a length costs: the length to the nearest 0.001 mm, then decimal arithmetic."""
    return Decimal(f"{metres:.6f}") * price_per_m
