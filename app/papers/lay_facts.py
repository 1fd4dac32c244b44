"""What the papers state about a lay: counts by piece and size, assumptions, verdict."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from app.errors import UnverifiedError
from app.lay.longer import LEAST_GAIN
from app.style.model import HouseRules, Style
from app.words import listed, say
from geometry.said import said
from nesting.verify import words
from nesting.verify.fault import Verdict

Counts = dict[str, dict[str, tuple[int, int, int]]]
"""piece -> size -> how many (left, right, without a hand)."""


MODE_WORDS = {"face-up": "glue side up", "face-to-face": "face to face"}
"""How plies are spread, as the papers say it: 'face' alone is the cloth's uncoated or coated side."""


def require_verified(verdict: Verdict, name: str) -> None:
    """Raise UnverifiedError unless the lay was found right: no unverified lay leaves the program."""
    if not verdict.ok:
        raise UnverifiedError(
            said("the lay is {0}", words(verdict, most=2)),
            file=name,
            remedy="lay it again, nothing was written",
        )


def counts_of(document: Mapping[str, Any]) -> Counts:
    """Return how often each piece lies in the lay, in the order of its first placement's name."""
    counts: Counts = {}
    for at in document["placements"]:
        row = counts.setdefault(str(at["piece"]), {})
        left, right, none = row.get(str(at.get("size", "")), (0, 0, 0))
        hand = at.get("hand", "")
        row[str(at.get("size", ""))] = (left + (hand == "left"), right + (hand == "right"), none + (not hand))
    return dict(sorted(counts.items(), key=lambda item: _natural(item[0])))


def codes_of(pieces: Iterable[str]) -> dict[str, str]:
    """Return a letter for each piece (A, B, .. Z, AA, ..), for where its name has no room."""
    return {piece: chr(65 + i % 26) * (i // 26 + 1) for i, piece in enumerate(pieces)}


def lay_title(document: Mapping[str, Any], style: Style | None) -> str:
    """Return what a lay is called: its style and its own name, told once."""
    names = (style.name if style else "", str(document.get("name", "")))
    return " · ".join(dict.fromkeys(name for name in names if name))


def count_text(count: tuple[int, int, int]) -> str:
    """Return a count as papers letter it: '4 L + 4 R'."""
    parts = [say(form, n) for n, form in zip(count, ("{0} L", "{0} R", "{0}"), strict=True) if n]
    return " + ".join(parts) or "–"


def _natural(name: str) -> list[tuple[int, int, str]]:
    """Sort key by which piece 2 comes before piece 10."""
    parts = re.split(r"(\d+)", name.casefold())
    return [(0, int(part), "") if part.isdecimal() else (1, 0, part) for part in parts if part]


def spread_words(mode: str | None) -> str:
    """Return how the cloth must be spread for the hands to come out as the papers say."""
    if mode == "face-to-face":
        return (
            "Face to face: drawn as the plies lie glue side up; every other ply lies turned over and gives "
            "the other hand, so plies are even"
        )
    return "Drawn glue side up: spread the cloth glue side up, or every left piece comes out as a right one"


def size_order(sizes: set[str]) -> list[str]:
    """Return sizes in order: numbers by value, words after them."""

    def key(size: str) -> tuple[int, float, str]:
        try:
            return 0, float(size.replace(",", ".")), size
        except ValueError:
            return 1, 0.0, size

    return sorted(sizes, key=key)


def assumptions(document: Mapping[str, Any], rules: HouseRules | None) -> list[str]:
    """Return what the lay takes for granted, one line per matter."""
    tolerance = max((float(i.get("turn_tolerance_deg", 0.0)) for i in document.get("items", ())), default=0.0)
    lines = [
        say(
            "gap between pieces {0} mm, margin at the edges {1} mm, at the ends {2} mm",
            f"{document['gap_mm']:g}",
            f"{document.get('edge_margin_mm', 0.0):g}",
            f"{document.get('end_margin_mm', 0.0):g}",
        ),
        say(
            "pull axis on the tight direction within {0} deg, half turns where the cloth allows",
            f"{tolerance:g}",
        ),
    ]
    if rules is not None:
        lines.append(
            say(
                "curves within {0} mm, knife radius {1} mm, end loss {2} mm at each end of a ply",
                f"{rules.chord_mm:g}",
                f"{rules.knife_radius_mm:g}",
                f"{rules.end_loss_mm:g}",
            )
        )
    return lines


def verdict_line(verdict: Verdict) -> str:
    """Return the verdict as it stands on every paper."""
    return words(verdict)


def likely_line(longer: Mapping[str, float] | None) -> str:
    """Return what a longer search is likely to add to the yield, '' where nothing is known or to be had."""
    if longer is None or longer["gain"] < LEAST_GAIN:
        return ""
    return say(
        "{0} s of search are likely to add {1} points to the yield.", f"{longer['seconds']:g}", points(longer)
    )


def points(longer: Mapping[str, float]) -> str:
    """Return what a longer search is likely to add, in points of yield, and how far that scatters."""
    return f"{100.0 * longer['gain']:.1f} ± {100.0 * longer['scatter']:.1f}"


def tight_words(angle_deg: float | None) -> str:
    """Return the tight direction in words."""
    if angle_deg is None:
        return "not stated"
    return {0.0: "along the roll", 90.0: "across the roll"}.get(
        float(angle_deg), say("{0} deg", f"{angle_deg:g}")
    )


def cloth_line(document: Mapping[str, Any], style: Style | None) -> str:
    """Return the lay's cloth in a line, '' where neither the lay nor a style names it."""
    told = document.get("cloth") or {}
    if style is not None and style.cloths:
        cloth = style.cloth(told.get("id", ""))
        return listed(", ")(
            p for p in (cloth.name, cloth.glue, say("lot {0}", cloth.lot) if cloth.lot else "") if p
        )
    return str(told.get("name", ""))
