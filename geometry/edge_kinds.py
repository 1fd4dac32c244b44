"""The kinds of edge, in one table: what each means, its house rule, and how it is drawn and keyed.

Whoever adds a kind adds it here; rules, papers, window and tests go by the table.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from geometry.defaults import PRACTICE


class EdgeKind(StrEnum):
    """What happens to a stretch of an upper's outline when the shoe is made."""

    LASTING = "lasting"
    FOLDED = "folded"
    SKIVED = "skived"
    UNDERLAY = "underlay"
    OVERLAY = "overlay"
    SEAM = "seam"
    RAW = "raw"
    CENTRE = "centre"


@dataclass(frozen=True)
class EdgeRule:
    """Default setback and allowance of an edge kind, with the reason shown to the user and the source."""

    setback_mm: float
    allowance_mm: float
    reason: str
    source: str = PRACTICE


@dataclass(frozen=True)
class PaperLine:
    """A kind's line on paper, told apart without colour: its width and its dashes (on, off, ...)."""

    width_mm: float
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class ScreenLine:
    """A kind's line on the screen: colours by day and by night, width in px, dashes in line widths."""

    day: str
    night: str
    width_px: float
    dash: tuple[float, ...] = ()


@dataclass(frozen=True)
class EdgeKindEntry:
    """All that is particular to a kind: its key at the desk, its meaning, its rule and its lines."""

    key: str
    meaning: str
    rule: EdgeRule
    paper: PaperLine
    screen: ScreenLine


EDGE_KINDS: dict[EdgeKind, EdgeKindEntry] = {
    EdgeKind.LASTING: EdgeKindEntry(
        "1",
        "Pulled under the last and cemented to the insole.",
        EdgeRule(10.0, 15.0, "cement must reach the upper; ends 5 mm past the feather line, held by lasting"),
        PaperLine(0.55),
        ScreenLine("#a33b00", "#ff9a5c", 3.2),
    ),
    EdgeKind.FOLDED: EdgeKindEntry(
        "2",
        "Turned over and cemented; the backing stops short of the fold.",
        EdgeRule(5.5, 5.0, "ends 0.5 mm inside the fold line: the fold lies flat over a single layer"),
        PaperLine(0.35, (6.0, 1.6)),
        ScreenLine("#0a5fb4", "#6fb7ff", 2.4, (6.0, 2.5)),
    ),
    EdgeKind.SKIVED: EdgeKindEntry(
        "3",
        "Upper and backing are thinned together towards the edge.",
        EdgeRule(0.0, 0.0, "both layers are skived together, so the backing is flush"),
        PaperLine(0.35, (6.0, 1.4, 0.5, 1.4)),
        ScreenLine("#7a2f8f", "#dc9cf0", 2.4, (6.0, 2.0, 1.0, 2.0)),
    ),
    EdgeKind.UNDERLAY: EdgeKindEntry(
        "4",
        "Goes under another piece; no bulk is wanted there.",
        EdgeRule(8.0, 8.0, "no bulk under the overlapping piece"),
        PaperLine(0.35, (2.4, 1.2)),
        ScreenLine("#00564d", "#6fe6d6", 2.4, (2.2, 2.0)),
    ),
    EdgeKind.OVERLAY: EdgeKindEntry(
        "5",
        "Lies over another piece and is stitched down.",
        EdgeRule(1.0, 0.0, "still caught by a stitch 1.5-2 mm from the edge"),
        PaperLine(0.35, (8.0, 1.2, 0.5, 1.2, 0.5, 1.2)),
        ScreenLine("#0a7ea4", "#86d8f5", 1.8),
    ),
    EdgeKind.SEAM: EdgeKindEntry(
        "6",
        "Joined to another piece by a closed seam.",
        EdgeRule(
            2.5,
            1.5,
            "clear of the closed seam and its rubbing down",
            "allowance: leathernbd, notes on closing (web, 2018); setback: common practice, no source",
        ),
        PaperLine(0.45, (0.5, 1.1)),
        ScreenLine("#cf3486", "#ff6cb0", 2.6, (1.0, 1.6)),
    ),
    EdgeKind.RAW: EdgeKindEntry(
        "7",
        "Cut and left as it is; the cloth must not show.",
        EdgeRule(2.0, 0.0, "the cloth must not show at a cut edge"),
        PaperLine(0.18),
        ScreenLine("#3f434c", "#d5d2ca", 1.3),
    ),
    EdgeKind.CENTRE: EdgeKindEntry(
        "8",
        "Fold line of a half pattern: the piece goes on beyond it.",
        EdgeRule(0.0, 0.0, "fold line of a half pattern: the backing crosses it"),
        PaperLine(0.25, (12.0, 1.4, 2.5, 1.4)),
        ScreenLine("#8a6d00", "#f2d24b", 1.8, (9.0, 2.0, 2.0, 2.0, 2.0, 2.0)),
    ),
}
"""One entry per kind, in the order of the keys."""

EDGE_RULES: dict[EdgeKind, EdgeRule] = {kind: entry.rule for kind, entry in EDGE_KINDS.items()}
"""The house rule of each kind, where nobody has set another."""
