"""The hold of pieces as they lie on a lay: what turning them off the tight direction costs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.errors import UsageError
from app.hold.verdicts import span, style_hold
from app.style.model import HoldChain, HoldLine, Style
from app.words.carried import texts_of, with_words
from geometry.errors import SheetError
from geometry.pull import undirected_deg
from geometry.said import joined, said
from geometry.stretch.hold import Hold

BY_THE_LINE = (
    "These mm follow the hold line, a strip of one width; the field model (hold --field) takes the whole "
    "piece and tells why it may say other."
)


@dataclass(frozen=True)
class PlacedHold:
    """Pieces of a lay that lie turned off the tight direction, or break their limit.

    ``off_deg`` is the turn, ``extra_mm`` what it adds to the hold line (best estimate). Of a chain
    that breaks its limit ``piece`` is the chain's name, ``chained`` its pieces, and ``off_deg`` the
    largest turn among them.
    """

    piece: str
    size: str
    hand: str
    count: int
    off_deg: float
    extra_mm: float
    hold: Hold
    chained: tuple[str, ...] = ()

    @property
    def breaks(self) -> bool:
        """Whether the limit is broken."""
        return self.hold.holds is False

    def __str__(self) -> str:
        who = f"{self.piece} {self.size} {self.hand}".strip()
        counted = " + ".join(self.chained) if self.chained else said("{0} in the lay", self.count)
        text: str = said("chain {0} ({1})" if self.chained else "{0} ({1})", who, counted)
        if self.off_deg >= 0.05:
            off, extra = f"{self.off_deg:.1f}", f"{self.extra_mm:+.1f}"
            text = said("{0}: {1}", text, said("turned {0} deg off the tight direction, {1} mm", off, extra))
        gives, limit = span(self.hold), self.hold.limit_mm
        if limit is None:
            return joined(text, said("gives {0} mm under the pull", gives))
        return joined(text, said("gives {0} mm under the pull, limit {1} mm", gives, f"{limit:g}"))


def lay_hold(style: Style, document: Mapping[str, Any]) -> tuple[PlacedHold, ...]:
    """Judge the pieces of a lay (the object of lay.json) where they lie.

    Returned are those turned off the tight direction and those that break their limit, turned or
    not, the same ones counted together; and the chains that break theirs, with each piece as the
    lay turns it most, though none of their pieces does so alone. In a lay of several styles a
    piece's name may carry its style's before it. A style whose stretch is not known gives none
    (``record_hold`` says so).
    """
    sizes = {str(at["size"]) for at in document["placements"]} & set(style.size_run.sizes)
    try:
        held = {size: style_hold(style, size=size) for size in sizes}
    except (UsageError, SheetError):
        return ()
    tight = float(document["roll"]["tight_direction_deg"])
    counts: dict[tuple[str, str, str, float], int] = {}
    for at in document["placements"]:
        name = str(at["piece"]).split(", layer ")[0].split(", part ")[0]
        off = round(abs(undirected_deg(float(at["pull_axis_deg"]) - tight)), 1)
        key = (name, str(at["size"]), str(at["hand"]), off)
        counts[key] = counts.get(key, 0) + 1
    found = []
    most: dict[tuple[str, str], dict[str, float]] = {}
    broken: dict[tuple[str, str], set[str]] = {}
    for (name, size, hand, off), count in counts.items():
        at_rest = held[size].pieces if size in held else ()
        piece = next(
            (p for p in at_rest if p.has_line and name in (p.piece, f"{style.name} {p.piece}")),
            None,
        )
        if piece is None:
            continue
        turns = most.setdefault((size, hand), {})
        turns[piece.piece] = max(off, turns.get(piece.piece, 0.0))
        hold = piece.turned(off) if off else piece.hold
        broken.setdefault((size, hand), set()).update([piece.piece] if hold.holds is False else [])
        if off or hold.holds is False:
            extra = hold.best_mm - piece.hold.best_mm
            found.append(PlacedHold(name, size, hand, count, off, extra, hold))
    for (size, hand), turns in most.items():
        for chain in held[size].chains:
            if not turns.keys() & set(chain.pieces) or broken[size, hand] & set(chain.pieces):
                continue
            hold = chain.with_turns(turns)
            if hold.holds is False:
                off = max(turns.get(name, 0.0) for name in chain.pieces)
                extra = hold.best_mm - chain.hold.best_mm
                found.append(PlacedHold(chain.name, size, hand, 0, off, extra, hold, chain.pieces))
    return tuple(sorted(found, key=lambda p: (-p.extra_mm, p.piece, p.size, p.hand)))


def record_hold(
    styles: Sequence[Style], document: dict[str, Any], reason: str = ""
) -> tuple[PlacedHold, ...]:
    """Put on record in a lay's document what ``lay_hold`` finds in it, with the reason to cut it so.

    Returns what was found. A lay in which one breaks its limit is not to be written without a reason.
    A style with limits that could not be judged is put on record too: no entry would look like a pass.
    """
    weak = tuple(placed for style in styles for placed in lay_hold(style, document))
    unjudged = [why for style in styles if (why := why_not_judged(style))]
    if weak or unjudged:
        record = {
            "pieces": [str(placed) for placed in weak],
            "broken": any(placed.breaks for placed in weak),
            "not_judged": unjudged,
            "reason": reason,
        }
        document["hold"] = {**record, "words": texts_of(record)}
    return weak


def why_not_judged(style: Style) -> str:
    """Return why a style with hold limits cannot be judged; '' when it can, or has no limits."""
    limited: list[HoldLine | HoldChain] = [p.hold_line for p in style.pieces if p.hold_line]
    if all(each.limit_mm is None for each in (*limited, *style.hold_chains)):
        return ""
    try:
        style_hold(style)
    except (UsageError, SheetError) as error:
        return said("{0}: {1}", style.name, error.message)
    return ""


def hold_notes(document: Mapping[str, Any]) -> tuple[str, ...]:
    """Return what the papers of a lay must say of the hold: every piece on record, and the reason.

    A record read from a lay.json is said in the language of the paper as one just made is.
    """
    hold = document.get("hold")
    if not hold:
        return ()
    hold = with_words(hold, hold.get("words", {}))
    unjudged = (said("Hold NOT JUDGED, {0}", why) for why in hold.get("not_judged", ()))
    reason = (said("Written despite this, because: {0}", hold["reason"]),) if hold["reason"] else ()
    beside = (BY_THE_LINE,) if hold["pieces"] else ()
    return (*(said("Hold: {0}", line) for line in hold["pieces"]), *beside, *unjudged, *reason)
