"""Chains of hold lines: pieces that the pull stretches one after another, heel to throat.

A quarter and the vamp it is sewn to share the pull, and the throat moves by what both give. Seams
are taken as stiff: an overlap of two backed layers gives less than either, which is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.hold.piece_hold import PieceHold
from app.style.model import HoldChain
from geometry.findings import Finding, Severity
from geometry.said import said
from geometry.stretch.hold import Hold, granted_turn_deg, in_chain


@dataclass(frozen=True)
class ChainHold:
    """A chain under the style's pull. ``granted_deg`` is the turn of all its backing that keeps the limit."""

    name: str
    size: str
    parts: tuple[PieceHold, ...]
    hold: Hold
    granted_deg: float | None
    findings: tuple[Finding, ...] = ()

    @property
    def called(self) -> str:
        """What it is called where pieces and chains stand together."""
        return self.name

    @property
    def cloths(self) -> tuple[str, ...]:
        """The cloths behind its pieces, by id."""
        return tuple(dict.fromkeys(cloth for part in self.parts for cloth in part.cloths))

    @property
    def angle_deg(self) -> float | None:
        """Where the cloth of its first backed piece lies from the pull axis."""
        return next((part.angle_deg for part in self.parts if part.angle_deg is not None), None)

    @property
    def has_line(self) -> bool:
        """Every link has one."""
        return True

    @property
    def is_backed(self) -> bool:
        """Whether any link has backing that could be turned."""
        return any(part.is_backed for part in self.parts)

    @property
    def pieces(self) -> tuple[str, ...]:
        """The names of its pieces."""
        return tuple(part.piece for part in self.parts)

    def turned(self, off_deg: float) -> Hold:
        """The hold with the backing of every piece turned off its place, to the worse side."""
        return self.with_turns({part.piece: off_deg for part in self.parts})

    def with_turns(self, off_deg: dict[str, float]) -> Hold:
        """The hold with the backing of each piece turned by its own angle (0 where not named)."""
        return in_chain([_turned(p, off_deg.get(p.piece, 0.0)) for p in self.parts], self.hold.limit_mm)


def chain_holds(
    chains: Sequence[HoldChain], pieces: Sequence[PieceHold], size: str, length: float
) -> tuple[tuple[ChainHold, ...], tuple[Finding, ...]]:
    """Judge the chains of a style from its judged pieces; limits go with the last's ``length``.

    A chain with a piece that has no hold line is not judged, and the second answer says so.
    """
    by_name = {piece.piece: piece for piece in pieces if piece.has_line}
    found, unjudged = [], []
    for chain in chains:
        missing = [name for name in chain.pieces if name not in by_name]
        if missing or not chain.pieces:
            unjudged.append(
                Finding(
                    code="CHAIN_WITHOUT_LINE",
                    severity=Severity.WARNING,
                    message=said(
                        "chain {0}: {1} has no hold line", chain.name, ", ".join(missing) or "no piece"
                    ),
                    done="the chain is not judged",
                    advice="draw the line from heel to throat, or take the chain apart",
                    piece=missing[0] if missing else "",
                    size=size,
                )
            )
            continue
        limit = None if chain.limit_mm is None else chain.limit_mm * length
        found.append(_judged(chain.name, size, tuple(by_name[name] for name in chain.pieces), limit))
    return tuple(found), tuple(unjudged)


def _judged(name: str, size: str, parts: tuple[PieceHold, ...], limit: float | None) -> ChainHold:
    hold = in_chain([part.hold for part in parts], limit)
    granted = None
    if limit is not None and any(part.is_backed for part in parts):

        def kept(angle: float) -> bool:
            return in_chain([_turned(part, angle) for part in parts]).high_mm <= limit

        granted = granted_turn_deg(kept)
    findings = []
    if hold.holds is not True and limit is not None:
        broken = hold.holds is False
        low, high = f"{hold.low_mm:.1f}", f"{hold.high_mm:.1f}"
        gives = low if low == high else f"{low}-{high}"
        findings.append(
            Finding(
                code="HOLD_BROKEN" if broken else "HOLD_UNSURE",
                severity=Severity.ERROR if broken else Severity.WARNING,
                message=said(
                    "chain {0} gives {1} mm under {2} N/mm, limit {3} mm",
                    name,
                    gives,
                    f"{hold.pull_n_per_mm:g}",
                    f"{limit:g}",
                ),
                advice="turn the cloth, take a tighter or a second layer, or try it on the last"
                if broken
                else "a lasting trial must decide",
                piece=parts[0].piece,
                size=size,
            )
        )
    return ChainHold(name, size, parts, hold, granted, tuple(findings))


def _turned(part: PieceHold, off_deg: float) -> Hold:
    return part.turned(off_deg) if off_deg and part.is_backed else part.hold
