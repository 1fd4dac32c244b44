"""One wording for each hazard, and which papers, texts and objects carry it.

Usual cautions of the trade, from memory. They remind; they never replace the machine maker's manual, the
supplier's sheet, local rules or qualified people, which is why ``AUTHORITY`` stands with all of them.
"""

from __future__ import annotations

HAZARDS: dict[str, str] = {
    "cutting press": (
        "Cutting press: closes with tonnes of force. Guards and two-hand control in use, no hand under the "
        "head, nobody else within reach; isolate and lock out before setting or clearing."
    ),
    "die": (
        "Dies: sharp and heavy. Gloves on, carry by the frame with the edge away from you, store edge down; "
        "take a cracked or rocking die out of use."
    ),
    "knife": (
        "Knife: cut away from the holding hand, with a cut-resistant glove on it; guard down. On a powered "
        "knife or cutting table keep clear of blade and head, and isolate before changing a blade."
    ),
    "hot plate": (
        "Fusing press: hot plates burn and crush. Guards and two-hand start in use, never reach in, let "
        "pieces cool before handling; use extraction for glue fumes."
    ),
    "cement vapour": (
        "Solvent cement: vapour is flammable and harmful: use extraction. No flame or spark, cans closed, "
        "gloves on, safety data sheet at hand."
    ),
    "roll": (
        "Rolls: heavy. Two people or a hoist to lift one, chock it so that it cannot roll, fingers clear of "
        "the spindle."
    ),
}
"""Hazard -> the only wording it has anywhere in the program."""

AUTHORITY = (
    "Qualified people only. Local rules, the machine maker's manual and the supplier's sheet come first: "
    "these figures are settings to check, not permission to work."
)
"""Closes every list of cautions."""

USES: dict[str, tuple[str, ...]] = {
    "backing": ("knife",),
    "boards": ("knife",),
    "cloth": ("hot plate", "roll"),
    "cut ticket": ("knife", "roll", "hot plate", "cement vapour"),
    "demo": ("knife", "roll", "hot plate", "cement vapour"),
    "field sheet": ("hot plate", "cement vapour"),
    "hold sheet": ("hot plate", "cement vapour"),
    "lay": ("knife", "roll"),
    "plan": ("knife", "roll"),
    "press": ("cutting press", "die", "knife", "roll"),
    "reinforcement sheet": ("hot plate", "cement vapour", "knife"),
    "stretch": ("knife",),
    "trace": ("knife",),
}
"""Paper, command or dialog -> the hazards that hands meet there."""


def cautions(use: str) -> list[str]:
    """Return the cautions of a paper or command, ending with whose word comes first; raises KeyError."""
    return [*(HAZARDS[hazard] for hazard in USES[use]), AUTHORITY]


def caution_lines(use: str) -> list[str]:
    """Return the same as lines of a text on the command line."""
    return [f"caution: {text}" for text in cautions(use)]
