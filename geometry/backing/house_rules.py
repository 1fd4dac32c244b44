"""A workshop's own defaults for drafting. Each is common practice, no source, unless said."""

from __future__ import annotations

from dataclasses import dataclass, field

from geometry import tolerances
from geometry.defaults import KNIFE_RADIUS_MM
from geometry.edge_kinds import EDGE_RULES, EdgeKind, EdgeRule


@dataclass(frozen=True)
class DraftRules:
    """Drafting defaults; ``edge_rules`` has one entry for every kind."""

    edge_rules: dict[EdgeKind, EdgeRule] = field(default_factory=lambda: dict(EDGE_RULES))
    corner_deg: float = tolerances.CORNER_DEG
    chord_mm: float = tolerances.CHORD_MM
    mitre_limit: float = tolerances.MITRE_LIMIT
    sliver_mm: float = tolerances.SLIVER_MM
    knife_radius_mm: float = KNIFE_RADIUS_MM.value
