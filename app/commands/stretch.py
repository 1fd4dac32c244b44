"""``stretch``: from strips pulled at angles to the constants and the tight direction of a material."""

from __future__ import annotations

import argparse
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from app.cautions import caution_lines, cautions
from app.commands import Outcome
from app.commands.arguments import check_folder
from app.commands.report import finding_json, say_findings
from app.errors import UsageError
from app.hold.materials import OFF_CARD_DEG, direction_to_lay_by, how_tested, strips_of
from app.hold.verdicts import NO_MEASUREMENT
from app.measures import counted
from app.papers import registry, stretch_report
from app.papers.paper_folder import write_folder
from app.papers.shown import Tested
from app.style.file import load_style, save_style
from app.style.model import ClothData, SheetConstants, StretchReading, Style, UpperMaterial
from app.style.on_disk import fingerprint
from app.style.saved.constants import FittedStrips
from app.workshop.cloth_csv import read_readings, readings_csv, readings_form, write_table
from app.workshop.cloth_register import ClothRegister
from geometry.errors import SheetError
from geometry.pull import undirected_deg
from geometry.stretch.fit import ASSUMED_NU12, CONFIDENCE, Interval, StretchFit, fit_strips
from geometry.stretch.hand_pull import read_hand_pulls

STRIP = re.compile(r"\s*(-?[\d.]+)\s*:\s*([\d.]+)x([\d.]+)\s*:\s*(.+)")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", nargs="?", type=Path, help="a style file (default: the register)")
    parser.add_argument(
        "--cloth", default="", metavar="ID", help="which cloth (in a style, default its first)"
    )
    parser.add_argument("--upper", nargs="?", const="", metavar="NAME", help="the upper material instead")
    parser.add_argument(
        "--strip",
        action="append",
        default=[],
        metavar="ANGLE:WIDTHxGAUGE:LOAD=EXT[,LOAD=EXT]",
        help="a pulled strip, as 45:25x100:25=22.7 (degrees from the roll's length, mm, N); may be repeated",
    )
    parser.add_argument("--readings", type=Path, metavar="FILE.csv", help="strips of a table")
    parser.add_argument("--only", action="store_true", help="leave out the strips on the card")
    parser.add_argument(
        "--pull", type=float, metavar="N_PER_MM", help="working pull (default: the style's, or 1)"
    )
    parser.add_argument(
        "--nu12",
        type=float,
        default=ASSUMED_NU12,
        help=f"Poisson's ratio used where no narrowing was read ({ASSUMED_NU12:g})",
    )
    parser.add_argument(
        "--hand", metavar="0<90<45", help="quick ranking by hand: from the angle that gives least to the most"
    )
    parser.add_argument(
        "--save", action="store_true", help="keep strips, constants and direction on the card"
    )
    parser.add_argument(
        "--table",
        type=Path,
        metavar="FILE.csv",
        help="write the strips as a table, without any a form to fill in",
    )
    parser.add_argument("-o", "--out", type=Path, metavar="DIR", help="write the test report")


@dataclass(frozen=True)
class _Subject:
    """Whose strips they are, and where its card lies."""

    name: str
    card: ClothData | UpperMaterial | None
    style: Style | None
    revision: int | None
    known: str = ""
    """Fingerprint of the style's file before it was read."""

    @property
    def tests(self) -> tuple[StretchReading, ...]:
        return () if self.card is None else self.card.tests


def run(args: argparse.Namespace) -> Outcome:
    """Fit, say, and keep if asked."""
    subject = _subject(args)
    if args.hand:
        return _by_hand(args, subject)
    added = _added(args)
    readings = added if args.only else (*subject.tests, *added)
    if args.table and not readings:
        return _form(args.table, subject)
    pull = args.pull if args.pull is not None else subject.style.pull_n_per_mm if subject.style else 1.0
    strips = strips_of(readings)
    try:
        fit = fit_strips(strips, pull, nu12=args.nu12)
    except SheetError as error:
        raise SheetError(f"{subject.name}: {error.message}", remedy=error.remedy, code=error.code) from None
    say_findings(fit.findings)
    files: list[Path] = []
    if args.table:
        write_table(args.table, readings_csv(readings))
        files.append(args.table)
    if args.out is not None:
        files += _report(args, subject, readings, fit)
    saved = _save(args, subject, readings, fit) if args.save else ""
    payload = {
        "material": subject.name,
        **fit_object(fit),
        "saved": saved,
        "cautions": cautions("stretch"),
        "files": [str(f) for f in files],
    }
    return Outcome(payload, _text(subject, fit, saved, files))


def _form(path: Path, subject: _Subject) -> Outcome:
    """Write the table to fill in: there is no strip yet to say anything of."""
    write_table(path, readings_form())
    text = f"{subject.name}: there are no strips yet; fill in the table and read it with --readings"
    return Outcome(
        {"material": subject.name, "strips": 0, "saved": "", "files": [str(path)]},
        f"{text}\nwritten: {path}",
    )


def fit_object(fit: StretchFit) -> dict[str, Any]:
    """Return a fit as the command prints it."""

    def interval(value: Interval) -> dict[str, float | None]:
        ends = {"low": value.low, "high": value.high}
        return {
            "value": round(value.value, 6),
            **{k: None if v is None else round(v, 6) for k, v in ends.items()},
        }

    return {
        "pull_n_per_mm": fit.pull_n_per_mm,
        "strips": fit.strips,
        "confidence": CONFIDENCE,
        "tight_deg": round(fit.tight_deg, 2),
        "tight_low_deg": None if fit.tight_low_deg is None else round(fit.tight_low_deg, 2),
        "tight_high_deg": None if fit.tight_high_deg is None else round(fit.tight_high_deg, 2),
        "tight_from": fit.tight_from,
        "tight_told": fit.tight_told,
        "e1_n_per_mm": interval(fit.e1),
        "e2_n_per_mm": interval(fit.e2),
        "g12_n_per_mm": interval(fit.g12),
        "nu12": interval(fit.nu12),
        "nu12_from": fit.nu12_from,
        "scatter": round(fit.scatter, 5),
        "misfit_p": None if fit.misfit_p is None else round(fit.misfit_p, 4),
        "bend": None if fit.bend is None else round(fit.bend, 4),
        "findings": [finding_json(finding) for finding in fit.findings],
        "note": NO_MEASUREMENT,
    }


def _subject(args: argparse.Namespace) -> _Subject:
    upper = args.upper is not None
    if upper and args.cloth:
        raise UsageError("--cloth and --upper together", remedy="ask about one of them")
    if args.style is not None:
        known = fingerprint(args.style)
        style = load_style(args.style)
        if upper:
            material = style.upper_material
            return _Subject(material.name or "upper material", material, style, None, known)
        try:
            cloth = style.cloth(args.cloth)
        except KeyError:
            raise UsageError(
                f"the style has no cloth {args.cloth or 'at all'}",
                file=str(args.style),
                remedy="its cloths are " + (", ".join(c.id for c in style.cloths) or "none"),
            ) from None
        return _Subject(cloth.name, cloth, style, None, known)
    name = args.upper if upper else args.cloth
    if not name:
        if args.save or not (args.strip or args.readings or args.hand):
            raise UsageError(
                "whose strips?", remedy="name a style, or a card of the register by --cloth or --upper"
            )
        return _Subject("strips", None, None, None)
    entry = ClothRegister().entry("upper" if upper else "cloth", name)
    return _Subject(name, entry.card, None, entry.revision)


def _added(args: argparse.Namespace) -> tuple[StretchReading, ...]:
    found = [_strip(text) for text in args.strip]
    if args.readings:
        found += read_readings(args.readings)
    return tuple(found)


def _strip(text: str) -> StretchReading:
    match = STRIP.fullmatch(text)
    try:
        if match is None:
            raise ValueError
        pairs = [pair.split("=") for pair in match[4].split(",")]
        return StretchReading(
            angle_deg=float(match[1]),
            width_mm=float(match[2]),
            gauge_mm=float(match[3]),
            loads_n=tuple(float(load) for load, _ in pairs),
            extensions_mm=tuple(float(extension) for _, extension in pairs),
        )
    except ValueError:
        raise UsageError(
            f"--strip {text} does not describe a strip",
            remedy="write ANGLE:WIDTHxGAUGE:LOAD=EXTENSION, as 45:25x100:25=22.7",
        ) from None


def _by_hand(args: argparse.Namespace, subject: _Subject) -> Outcome:
    if subject.card is not None and not isinstance(subject.card, ClothData):
        raise UsageError("--hand is for cloths", remedy="pull strips of the upper and enter them")
    tight, finding = read_hand_pulls(args.hand)
    say_findings([finding])
    saved = ""
    if args.save and isinstance(subject.card, ClothData):
        note = f"{subject.card.note} Tight direction by hand pull {args.hand}.".strip()
        card = subject.card.model_copy(
            update={"tight_direction_deg": tight, "how_known": "assumed", "note": note}
        )
        saved = _keep(args, subject, card)
    text = f"{subject.name}: gives least at {tight:g} deg from the roll's length, by hand ({args.hand})"
    payload = {"material": subject.name, "tight_deg": tight, "by": "hand", "saved": saved,
               "findings": [finding_json(finding)]}  # fmt: skip
    return Outcome(payload, "\n".join([text, str(finding), *([f"kept in {saved}"] if saved else [])]))


def _save(
    args: argparse.Namespace, subject: _Subject, readings: tuple[StretchReading, ...], fit: StretchFit
) -> str:
    fitted = FittedStrips(
        strips=fit.strips, pull_n_per_mm=fit.pull_n_per_mm, nu12_measured=fit.nu12_from == "measured"
    )
    sheet = SheetConstants(
        e1_n_per_mm=round(fit.sheet.e1_n_per_mm, 4),
        e2_n_per_mm=round(fit.sheet.e2_n_per_mm, 4),
        g12_n_per_mm=round(fit.sheet.g12_n_per_mm, 5),
        nu12=round(fit.sheet.nu12, 4),
        fitted=fitted,
    )
    if subject.card is None:
        raise UsageError("there is no card to keep the strips on", remedy="name a style or --cloth")
    update: dict[str, Any] = {"tests": readings, "sheet": sheet}
    if isinstance(subject.card, ClothData):
        if not fit.tight_told:
            raise UsageError(
                f"the strips of {subject.name} do not determine its tight direction; nothing was kept",
                remedy="pull more repeats, or keep a direction found by hand with --hand",
            )
        update |= {"tight_direction_deg": direction_to_lay_by(fit), "how_known": how_tested(readings)}
    return _keep(args, subject, subject.card.model_copy(update=update))


def _keep(args: argparse.Namespace, subject: _Subject, card: ClothData | UpperMaterial) -> str:
    if subject.style is None:
        register = ClothRegister()
        register.save(card, seen=subject.revision)
        return str(register.path)
    if isinstance(card, ClothData):
        cloths = tuple(card if c is subject.card else c for c in subject.style.cloths)
        style = subject.style.model_copy(update={"cloths": cloths})
    else:
        style = subject.style.model_copy(update={"upper_material": card})
    save_style(style, args.style, known=subject.known)
    return str(args.style)


def _report(
    args: argparse.Namespace, subject: _Subject, readings: tuple[StretchReading, ...], fit: StretchFit
) -> list[Path]:
    strips = strips_of(readings)
    zero = "pull axis" if args.upper is not None else "along the roll"
    tested = Tested(subject.name, strips, fit, zero, how_tested(readings))
    check_folder(args.out)
    return write_folder(args.out, lambda draft: registry.write(tested, draft))


def _text(subject: _Subject, fit: StretchFit, saved: str, files: list[Path]) -> str:
    shown = " (EXAMPLE, invented readings)" if how_tested(subject.tests) == "example" else ""
    lines = [f"{subject.name}{shown}: {counted(fit.strips, 'strip')}, secants at {fit.pull_n_per_mm:g} N/mm"]
    lines += [
        f"  {what:<18} {value:>12}  {between}" for what, value, between in stretch_report.result_rows(fit)
    ]
    if isinstance(subject.card, ClothData) and fit.tight_told:
        off = abs(undirected_deg(fit.tight_deg - subject.card.tight_direction_deg))
        if off > OFF_CARD_DEG:
            lines.append(
                f"THE CARD SAYS {subject.card.tight_direction_deg:g} DEG, the strips {round(fit.tight_deg)}: "
                "correct it (--save), and lay the pieces again"
            )
    lines += [f"  {finding}" for finding in fit.findings]
    lines.append(NO_MEASUREMENT)
    lines += caution_lines("stretch")
    if saved:
        lines.append(f"kept in {saved}")
    lines += [f"written: {path}" for path in files]
    return "\n".join(lines)
