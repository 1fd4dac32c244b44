"""The press list as tables: dies, what each cuts, its rows, the stacks, the cloth, what is assumed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.cautions import cautions
from app.papers.formats.spreadsheet import TableSheet
from app.press.cuts import cuts_words
from app.press.report import SPREAD_WORDS, knife_words
from app.words import listed, say

TRIAL_STROKE = (
    "Layers, pressure and depth of stroke: as the press maker's sheet says, proved by a trial stroke. Lay "
    "the piece of the lowest layer and of the top one on the board before the run."
)
GLUE_ON_GLUE = (
    "Glue on glue may stick: try a short stack face to face first, and mark left and right before it is "
    "parted."
)
"""Trials before the stack is cut (common practice, no source); the hazards stand in ``app.cautions``."""


def before_the_run(spread: str) -> tuple[str, ...]:
    """Return what is tried before a stack of this spread is cut."""
    return (TRIAL_STROKE, GLUE_ON_GLUE) if spread == "face-to-face" else (TRIAL_STROKE,)


def press_sheets(payload: Mapping[str, Any]) -> list[TableSheet]:
    """Return the list as tables: dies, what each cuts, its rows, cloths, what is assumed."""
    dies = [
        (
            die["die"], cuts_words(die["cuts"]), die["cloth"], die["edge_mm"], die["area_mm2"],
            die["pieces_needed"], die["layers"], die["strokes"], die["stacks"], die["pieces_cut"],
            die["rows_run"], die["step_mm"], die["row_pitch_mm"], die["row_shift_mm"],
            *(die["turned_at_mm"] or (None, None)), die["pieces_per_m"], die["length_mm"] / 1000.0,
            die["yield"], die["rows_yield"], die["cloth_m"], die["rows_m"], listed("; ")(die["notes"]),
        )
        for die in payload["dies"]
    ]  # fmt: skip
    cuts = [
        (die["die"], cut["piece"], cut["size"], cut["hand"], cut["needed"], cut["layers"])
        for die in payload["dies"]
        for cut in die["cuts"]
    ]
    rows = [
        (die["die"], n + 1, "half turned" if r["turned"] else "as drawn", r["x_mm"], r["y_mm"], r["places"])
        for die in payload["dies"]
        for n, r in enumerate(die["rows"])
    ]
    blocks = [
        (
            stack["cloth"], stack["stack"], n, block["die"], m,
            "half turned" if r["turned"] else "as drawn", r["x_mm"], r["y_mm"], r["places"],
        )
        for stack in payload["stacks"]
        for n, block in enumerate(stack["blocks"], 1)
        for m, r in enumerate(block["rows"], 1)
    ]  # fmt: skip
    cloths = [
        (
            cloth, told["layers"], told["dies"], told["strokes"], told["usable_width_mm"], told["metres"],
            told["own_strips_m"], told["rows_m"], told["net_m2"], told["yield"], told["utilisation"],
        )
        for cloth, told in payload["cloths"].items()
    ]  # fmt: skip
    facts = [
        ("style", payload["style"]),
        ("spread", SPREAD_WORDS[payload["spread"]]),
        *((say("pairs of {0}", size), count) for size, count in payload["pairs_ordered"].items()),
        *(("assumed", text) for text in payload["assumptions"]),
        *((("knife lay", knife_words(payload["knife"])),) if "knife" in payload else ()),
        *(("before the run", text) for text in before_the_run(payload["spread"])),
        *(("caution", text) for text in cautions("press")),
    ]
    return [
        TableSheet(
            "Dies",
            (
                "die", "cuts", "cloth id", "knife mm", "area mm2", "pieces needed", "layers", "strokes",
                "stacks", "pieces cut", "rows run", "step mm", "pitch mm", "row shift mm", "turned along mm",
                "turned across mm", "pieces per metre", "strip m", "yield", "yield of rows", "cloth m",
                "cloth m, endless rows", "notes",
            ),
            dies,
        ),
        TableSheet("Cuts", ("die", "piece", "size", "hand", "needed", "layers lie"), cuts),
        TableSheet("Rows", ("die", "row", "way", "x mm", "y mm", "places"), rows),
        TableSheet(
            "Stacks", ("cloth id", "stack", "block", "die", "row", "way", "x mm", "y mm", "places"), blocks
        ),
        TableSheet(
            "Cloth",
            (
                "cloth id", "layers", "dies", "strokes", "usable width mm", "cloth m",
                "cloth m, each die on its own strip", "cloth m, endless rows", "net m2", "yield",
                "utilisation",
            ),
            cloths,
        ),
        TableSheet("Press list", ("item", "value"), facts),
    ]  # fmt: skip
