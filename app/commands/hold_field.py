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
from app.hold.two_models import TwoModels, beside_line, field_json, span_words, two_models, why
from app.papers import registry
from app.papers.shown import PulledOver
from app.style.model import ClothData, Style
from geometry.stretch.field.answers import FieldCase, Range


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
    return SolvedField(pulled, models, told, _field_words(pulled, models))


def _field_words(pulled: Pulled, models: TwoModels) -> str:
    field = pulled.field
    names = ", ".join(piece.name for piece in pulled.question.upper.pieces)
    lines = ["", f"the pull over {names} (flat model; the lasting trial decides):"]
    change = field.throat_change_share
    halved = "" if change is None else f"; halving them last moved the throat by {100.0 * change:.1f} %"
    lines.append(f"  {len(field.mesh.triangles)} elements of {field.size_mm:g} mm{halved}")
    asked: list[tuple[str, FieldCase, Range | None]] = [
        (case.case, case, models.line_mm.get(case.case)) for case in field.cases
    ]
    for other in pulled.cloths:
        line = models.line_mm.get(f"cloth {other.cloth.id}")
        asked.append((f"backed with {other.cloth.name}", other.case, line))
    for name, case, line in asked:
        throat = "no hold line" if case.throat_mm is None else span_words(case.throat_mm)
        beside = "" if line is None else f" (line: {span_words(line)})"
        lines.append(
            f"  {name}: throat {throat}{beside}, toe end {span_words(case.vamp_mm)}, median strain "
            f"{100.0 * case.strains.median_strain:.1f} %, "
            f"{100.0 * case.compressed_share:.0f} % of the area pushed"
        )
        for motion, called in ((case.large, "with large strain"), (case.wrinkled, "as a tension field")):
            if motion is not None:
                moved = "" if motion.throat_mm is None else f"throat {motion.throat_mm:.1f} mm, "
                lines.append(f"    {called}: {moved}toe end {motion.vamp_mm:.1f} mm")
        lines += [f"    {level} does not settle" for level in case.unsettled]
    for place in field.case("backed").peel[:1]:
        x, y = pulled.question.in_drawing(place.at_mm)
        force = f"{place.force_n_per_mm:.2f} N per mm of the backing's edge"
        lines.append(f"  most prone to peel: {place.piece}, at {x:.0f}, {y:.0f} mm, {force}")
    return "\n".join([*lines, "  " + why(models)])
