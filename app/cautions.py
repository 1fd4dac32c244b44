"""One wording for each hazard, and which papers, texts and objects carry it.

Usual cautions of the trade, from memory. They remind; they never replace the machine maker's manual, the
supplier's sheet, local rules or qualified people, which is why ``AUTHORITY`` stands with all of them.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Wording:
    """A caution in each language of the program."""

    en: str
    it: str


HAZARDS: dict[str, Wording] = {
    "cutting press": Wording(
        en=(
            "Cutting press: closes with tonnes of force. Guards and two-hand control in use, no hand "
            "under the head, nobody else within reach; isolate and lock out before setting or "
            "clearing."
        ),
        it=(
            "Trancia: si chiude con tonnellate di forza. Ripari e comando a due mani in uso, nessuna "
            "mano sotto la testa, nessun altro a portata; isolare e bloccare prima di regolare o "
            "liberare."
        ),
    ),
    "die": Wording(
        en=(
            "Dies: sharp and heavy. Gloves on, carry by the frame with the edge away from you, store "
            "edge down; take a cracked or rocking die out of use."
        ),
        it=(
            "Fustelle: taglienti e pesanti. Guanti indossati, portarle per il telaio con il filo "
            "lontano da sé, riporle con il filo in basso; mettere fuori uso la fustella incrinata o "
            "che dondola."
        ),
    ),
    "knife": Wording(
        en=(
            "Knife: cut away from the holding hand, with a cut-resistant glove on it; guard down. On "
            "a powered knife or cutting table keep clear of blade and head, and isolate before "
            "changing a blade."
        ),
        it=(
            "Lama: tagliare lontano dalla mano che tiene, con un guanto antitaglio; riparo abbassato. "
            "Con lama a motore o tavolo da taglio stare lontani da lama e testa, e isolare prima di "
            "cambiare lama."
        ),
    ),
    "hot plate": Wording(
        en=(
            "Fusing press: hot plates burn and crush. Guards and two-hand start in use, never reach "
            "in, let pieces cool before handling; use extraction for glue fumes."
        ),
        it=(
            "Termopressa: le piastre calde ustionano e schiacciano. Ripari e avvio a due mani in uso, "
            "non infilare mai le mani, lasciar raffreddare i pezzi prima di toccarli; aspirare i fumi "
            "dell'adesivo."
        ),
    ),
    "cement vapour": Wording(
        en=(
            "Solvent cement: vapour is flammable and harmful: use extraction. No flame or spark, cans "
            "closed, gloves on, safety data sheet at hand."
        ),
        it=(
            "Mastice a solvente: il vapore è infiammabile e nocivo: usare l'aspirazione. Niente "
            "fiamme né scintille, barattoli chiusi, guanti, scheda di sicurezza a portata di mano."
        ),
    ),
    "roll": Wording(
        en=(
            "Rolls: heavy. Two people or a hoist to lift one, chock it so that it cannot roll, "
            "fingers clear of the spindle."
        ),
        it=(
            "Rotoli: pesanti. In due o con un paranco per sollevarli, bloccarli con cunei perché non "
            "rotolino, dita lontane dal perno."
        ),
    ),
}
"""Hazard -> the only wording it has anywhere in the program, in each language."""

AUTHORITY = Wording(
    en=(
        "Qualified people only. Local rules, the machine maker's manual and the supplier's sheet "
        "come first: these figures are settings to check, not permission to work."
    ),
    it=(
        "Solo persone qualificate. Vengono prima le norme locali, il manuale del costruttore e la "
        "scheda del fornitore: queste cifre sono regolazioni da verificare, non un permesso di "
        "lavoro."
    ),
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


def cautions(use: str, language: str = "en") -> list[str]:
    """Return the cautions of a paper or command, ending with whose word comes first.

    Raises KeyError for a use that is not in ``USES``, AttributeError for a language without wordings.
    """
    return [getattr(wording, language) for wording in (*(HAZARDS[hazard] for hazard in USES[use]), AUTHORITY)]


def wordings(language: str) -> dict[str, str]:
    """Return every caution: English -> the same in a language."""
    return {wording.en: getattr(wording, language) for wording in (*HAZARDS.values(), AUTHORITY)}


def caution_lines(use: str) -> list[str]:
    """Return the cautions as lines of a text on the command line, which is English."""
    return [f"caution: {text}" for text in cautions(use)]
