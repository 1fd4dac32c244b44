"""A workshop's own defaults for drafting. Each is common practice, no source, unless said."""

from __future__ import annotations

from dataclasses import dataclass, field

from geometry import tolerances
from geometry.defaults import KNIFE_RADIUS_MM, PRACTICE
from geometry.piece import EdgeKind


@dataclass(frozen=True)
class EdgeRule:
    """Default setback and allowance of an edge kind, with the reason shown to the user and the source."""

    setback_mm: float
    allowance_mm: float
    reason: str
    source: str = PRACTICE


EDGE_RULES: dict[EdgeKind, EdgeRule] = {
    EdgeKind.LASTING: EdgeRule(
        10.0, 15.0, "cement must reach the upper; ends 5 mm past the feather line, held by lasting"
    ),
    EdgeKind.FOLDED: EdgeRule(
        5.5, 5.0, "ends 0.5 mm inside the fold line: the fold lies flat over a single layer"
    ),
    EdgeKind.SKIVED: EdgeRule(0.0, 0.0, "both layers are skived together, so the backing is flush"),
    EdgeKind.UNDERLAY: EdgeRule(8.0, 8.0, "no bulk under the overlapping piece"),
    EdgeKind.OVERLAY: EdgeRule(1.0, 0.0, "still caught by a stitch 1.5-2 mm from the edge"),
    EdgeKind.SEAM: EdgeRule(
        2.5,
        1.5,
        "clear of the closed seam and its rubbing down",
        "allowance: leathernbd, notes on closing (web, 2018); setback: common practice, no source",
    ),
    EdgeKind.RAW: EdgeRule(2.0, 0.0, "the cloth must not show at a cut edge"),
    EdgeKind.CENTRE: EdgeRule(0.0, 0.0, "fold line of a half pattern: the backing crosses it"),
}


@dataclass(frozen=True)
class DraftRules:
    """Drafting defaults; ``edge_rules`` has one entry for every kind."""

    edge_rules: dict[EdgeKind, EdgeRule] = field(default_factory=lambda: dict(EDGE_RULES))
    corner_deg: float = tolerances.CORNER_DEG
    chord_mm: float = tolerances.CHORD_MM
    mitre_limit: float = tolerances.MITRE_LIMIT
    sliver_mm: float = tolerances.SLIVER_MM
    knife_radius_mm: float = KNIFE_RADIUS_MM.value
