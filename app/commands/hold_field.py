"""The part of ``hold`` that asks the field: the plane model over the whole upper; Ctrl-C ends it."""

from __future__ import annotations

import argparse
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from app.commands import say
from app.commands.solving import interruptible
from app.hold.field import SWEEP_DEG, FieldOptions, Pulled, pull_upper
from app.hold.two_models import TwoModels, beside_line, field_json, two_models
from app.papers import registry
from app.papers.shown import PulledOver
from app.style.model import ClothData, Style


@dataclass(frozen=True, eq=False)
class SolvedField:
    """The plane model's answer: its object, the same in words, and what its sheet is made of."""

    pulled: Pulled
    models: TwoModels
    told: dict[str, Any]
    words: str

    @property
    def beside_line(self) -> str:
        """What the hold sheet says of the field beside the line's figures."""
        return beside_line(self.pulled, self.models)

    def write(self, style: Style, folder: Path) -> list[Path]:
        """Write the field sheet."""
        return registry.write(PulledOver(style, self.pulled, self.models), folder)


def solve_field(style: Style, cloths: tuple[ClothData, ...], args: argparse.Namespace) -> SolvedField:
    """Solve the plane model, telling on standard error what is at work; Ctrl-C ends it."""
    began = time.monotonic()
    options = FieldOptions(
        size=args.size,
        piece=args.piece,
        turn_deg=args.turn,
        sides_held=args.sides == "held",
        pincers=args.toe == "pincers",
        large=args.large,
    )
    with interruptible("stopping; nothing of the field is kept (Ctrl-C again gives up)") as cancelled:
        pulled = pull_upper(
            style,
            options,
            cloths=cloths,
            sweep_deg=SWEEP_DEG,
            tell=lambda what: say(f"field: {what}"),
            cancelled=cancelled,
        )
    models = two_models(style, pulled, options)
    told = field_json(pulled, models, time.monotonic() - began)
    return SolvedField(pulled, models, told, _field_words(told))


def _field_words(told: dict[str, Any]) -> str:
    lines = ["", "the pull over " + ", ".join(told["pieces"]) + " (flat model; the lasting trial decides):"]
    mesh = told["mesh"]
    lines.append(
        f"  {mesh['elements']} elements of {mesh['size_mm']:g} mm; halving them last moved the throat by "
        f"{mesh['throat_change_percent']:g} %"
    )
    for case in (*told["cases"], *told["cloths"]):
        name = f"backed with {case['name']}" if "cloth" in case else case["case"]
        throat = "no hold line" if case["throat_mm"] is None else _span_words(case["throat_mm"])
        line = "" if case["line_mm"] is None else f" (line: {_span_words(case['line_mm'])})"
        strain = case["strain_percent"]["median"]
        pushed = 100.0 * case["compressed_share"]
        lines.append(
            f"  {name}: throat {throat}{line}, toe end {_span_words(case['vamp_mm'])}, "
            f"median strain {strain} %, {pushed:.0f} % of the area pushed"
        )
        for key, called in (("large_strain", "with large strain"), ("tension_field", "as a tension field")):
            motion = case[key]
            if motion is not None:
                moved = "" if motion["throat_mm"] is None else f"throat {motion['throat_mm']:.1f} mm, "
                lines.append(f"    {called}: {moved}toe end {motion['vamp_mm']:.1f} mm")
        lines += [f"    {name} does not settle" for name in case["unsettled"]]
    for place in told["cases"][1]["peel"][:1]:
        x, y = place["at_mm"]
        force = f"{place['force_n_per_mm']:.2f} N per mm of the backing's edge"
        lines.append(f"  most prone to peel: {place['piece']}, at {x:.0f}, {y:.0f} mm, {force}")
    return "\n".join([*lines, "  " + told["why"]])


def _span_words(span: list[float]) -> str:
    low, high = (f"{value:.1f}" for value in span)
    return f"{low} mm" if low == high else f"{low} to {high} mm"
