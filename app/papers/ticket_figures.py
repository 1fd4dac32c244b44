"""The figures of a cut ticket, counted from the lays themselves."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from app.errors import UsageError
from app.lay.job import shapes
from app.papers.lay_facts import Counts, counts_of, size_order
from app.style.model import ClothData, Style
from app.words import listed
from geometry.said import said
from nesting.planning.consumption import Consumption
from nesting.verify.fault import Verdict

Mode = Literal["face-up", "face-to-face"]


@dataclass(frozen=True)
class TicketLay:
    """One lay of the order: its lay.json object, its verdict, how many plies, and how spread."""

    name: str
    document: dict[str, Any]
    verdict: Verdict
    plies: int
    mode: Mode = "face-up"

    @property
    def layers(self) -> float:
        """How often the lay gives its pairs: every ply, or every two plies face to face."""
        return self.plies if self.mode == "face-up" else self.plies / 2

    @property
    def length_mm(self) -> float:
        """Length of the lay."""
        return float(self.document["length_mm"])


@dataclass(frozen=True)
class CutTicket:
    """An order of one style on one cloth. Fields left '' are printed as lines to fill in by hand."""

    style: Style
    pairs: dict[str, int]
    lays: tuple[TicketLay, ...]
    cloth_id: str = ""
    order: str = ""
    last: str = ""
    colour: str = ""
    date: str = ""
    roll_number: str = ""
    notes: tuple[str, ...] = field(default=())

    @property
    def cloth(self) -> ClothData:
        """The cloth that is cut."""
        return self.style.cloth(self.cloth_id)

    @property
    def sizes(self) -> list[str]:
        """All sizes ordered or cut, in order."""
        return size_order(set(self.pairs) | {s for row in self.pieces.values() for s in row if s})

    @property
    def pieces(self) -> Counts:
        """How many of each piece and size come out of all lays and plies, by hand."""
        total: dict[str, dict[str, list[float]]] = {}
        for lay in self.lays:
            for piece, row in counts_of(lay.document).items():
                for size, (left, right, none) in row.items():
                    some = total.setdefault(piece, {}).setdefault(size, [0.0, 0.0, 0.0])
                    if lay.mode == "face-to-face":  # every outline gives one hand, then the other
                        left = right = left + right
                    for k, count in enumerate((left, right, none)):
                        some[k] += count * lay.layers
        return {
            piece: {size: (int(c[0]), int(c[1]), int(c[2])) for size, c in row.items()}
            for piece, row in total.items()
        }

    @property
    def shoes_cut(self) -> dict[str, tuple[int, int]]:
        """Whole (left, right) shoes of each size that all lays give: the scarcest piece decides."""
        pieces = self.pieces
        out = {}
        for size in self.sizes:
            need = Counter[str]()
            for shape in shapes(self.style, [size], ("left",), self.cloth.id):
                need[shape.piece] += shape.per_shoe
            counts = [(pieces.get(name, {}).get(size, (0, 0, 0)), count) for name, count in need.items()]
            left, right = (min((c[hand] // n for c, n in counts), default=0) for hand in (0, 1))
            out[size] = (left, right)
        return out

    @property
    def pairs_cut(self) -> dict[str, int]:
        """Whole pairs of each size that all lays give."""
        return {size: min(shoes) for size, shoes in self.shoes_cut.items()}

    def consumption(self, lay: TicketLay) -> Consumption:
        """What one ply of a lay takes; raises UsageError where the lay holds no whole pair."""
        pairs = sum(dict(lay.document.get("pairs") or {}).values()) or self._pairs_of(lay)
        if pairs <= 0:
            raise UsageError(
                said("lay {0} holds no pairs", lay.name), remedy="make the ticket from a lay of this style"
            )
        width = max(self.cloth.width_mm, float(lay.document["roll"]["usable_width_mm"]))
        rules = self.style.rules
        return Consumption(
            net_mm2=float(lay.document["net_area_mm2"]),
            lay_length_mm=lay.length_mm,
            usable_width_mm=float(lay.document["roll"]["usable_width_mm"]),
            width_mm=width,
            pairs=pairs * lay.layers / lay.plies,
            end_loss_mm=rules.end_loss_mm,
            roll_end_percent=rules.roll_end_percent,
            reject_percent=rules.reject_percent,
            splice_percent=rules.splice_percent,
        )

    def _pairs_of(self, lay: TicketLay) -> int:
        alone = CutTicket(
            self.style, {}, (TicketLay(lay.name, lay.document, lay.verdict, 2, lay.mode),), self.cloth_id
        )
        return sum(alone.pairs_cut.values()) // (2 if lay.mode == "face-up" else 1)


def sections_of(document: Mapping[str, Any]) -> str:
    """Return the pairs of a lay in words: '36: 1, 37: 2'."""
    pairs = document.get("pairs")
    if pairs:
        return listed(", ")(said("{0}: {1}", size, count) for size, count in pairs.items())
    counts = counts_of(document)
    sizes = size_order({size for row in counts.values() for size in row})
    return said("sizes {0}", ", ".join(sizes))
