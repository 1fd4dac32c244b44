"""The cautions in the language of the window; the table itself stands in ``app.cautions``."""

from __future__ import annotations

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication
from PySide6.QtWidgets import QLabel

from app.cautions import cautions

SAID: tuple[str, ...] = tuple(
    str(text)
    for text in (
        QT_TRANSLATE_NOOP(
            "Caution",
            "Cutting press: closes with tonnes of force. Guards and two-hand control in use, no hand under the head, nobody else within reach; isolate and lock out before setting or clearing.",
        ),
        QT_TRANSLATE_NOOP(
            "Caution",
            "Dies: sharp and heavy. Gloves on, carry by the frame with the edge away from you, store edge down; take a cracked or rocking die out of use.",
        ),
        QT_TRANSLATE_NOOP(
            "Caution",
            "Knife: cut away from the holding hand, with a cut-resistant glove on it; guard down. On a powered knife or cutting table keep clear of blade and head, and isolate before changing a blade.",
        ),
        QT_TRANSLATE_NOOP(
            "Caution",
            "Fusing press: hot plates burn and crush. Guards and two-hand start in use, never reach in, let pieces cool before handling; use extraction for glue fumes.",
        ),
        QT_TRANSLATE_NOOP(
            "Caution",
            "Solvent cement: vapour is flammable and harmful: use extraction. No flame or spark, cans closed, gloves on, safety data sheet at hand.",
        ),
        QT_TRANSLATE_NOOP(
            "Caution",
            "Rolls: heavy. Two people or a hoist to lift one, chock it so that it cannot roll, fingers clear of the spindle.",
        ),
        QT_TRANSLATE_NOOP(
            "Caution",
            "Qualified people only. Local rules, the machine maker's manual and the supplier's sheet come first: these figures are settings to check, not permission to work.",
        ),
    )
)
"""Every wording of the table, where the translator finds it (a test holds the two together)."""


def told_cautions(use: str) -> str:
    """Return the cautions of a paper, command or dialog, a paragraph each."""
    return "\n".join(QCoreApplication.translate("Caution", text) for text in cautions(use))


def caution_label(use: str) -> QLabel:
    """Return them as a label for a form or dialog."""
    label = QLabel(told_cautions(use))
    label.setWordWrap(True)
    label.setProperty("role", "soft")
    return label
