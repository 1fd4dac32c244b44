"""``hold``: how far each piece gives along its pull axis, alone and backed, against its limit."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING, Any

from app.cautions import caution_lines, cautions
from app.commands import Outcome
from app.commands.arguments import check_folder
from app.commands.report import finding_json, say_findings
from app.defaults.work import TURN_DEG
from app.errors import UsageError
from app.hold.chain import ChainHold
from app.hold.cloth_choice import TriedCloth, compare
from app.hold.verdicts import (
    FIELD_ELSEWHERE,
    NO_MEASUREMENT,
    PieceHold,
    StyleHold,
    shown_percent,
    span,
    style_hold,
)
from app.measures import counted
from app.papers import registry
from app.papers.paper_folder import write_folder
from app.papers.shown import Held
from app.style.file import load_style
from app.style.model import ClothData, HoldLine, Style
from app.workshop.cloth_register import ClothRegister, RegisterError
from app.workshop.trial_book import Calibration, calibrations

if TYPE_CHECKING:
    from app.commands.hold_field import SolvedField

ANGLES = (0.0, 2.0, 5.0, 10.0, 15.0, 30.0, 45.0, 90.0)  # close where the give grows quickly


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, help="a style file")
    parser.add_argument("--size", default="", help="size to judge (default: the base size)")
    parser.add_argument(
        "--turn", type=float, default=TURN_DEG.value, metavar="DEG", help="all backing turned by this angle"
    )
    parser.add_argument("--pull", type=float, metavar="N_PER_MM", help="pull (default: the style's)")
    parser.add_argument(
        "--compare",
        default="",
        metavar="ID,ID",
        help="other cloths of the style or the register in place of its first, 'all' for all of them; "
        "with --field over the whole upper too",
    )
    parser.add_argument(
        "--field", action="store_true", help="the pull over the whole upper: a plane model of lasting"
    )
    parser.add_argument(
        "--piece", default="", help="the piece of --field (default: those drawn assembled, else the vamp)"
    )
    parser.add_argument(
        "--sides", choices=("free", "held"), default="free", help="side lasting edges of --field"
    )
    parser.add_argument(
        "--toe", choices=("even", "pincers"), default="even", help="how the toe edge of --field is pulled"
    )
    parser.add_argument(
        "--large",
        action="store_true",
        help="--field also with large strain, and with sheets that wrinkle instead of being pushed (slower)",
    )
    parser.add_argument(
        "-o", "--out", type=Path, metavar="DIR", help="write the hold sheet, and the field sheet"
    )


def run(args: argparse.Namespace) -> Outcome:
    """Judge and say; exit status 1 when a limit is broken."""
    style = load_style(args.style)
    if args.pull is not None:
        if not 0 < args.pull < 1000:
            raise UsageError(
                f"a pull of {args.pull:g} N/mm", remedy="give one above zero; lasting takes about 1"
            )
        style = style.model_copy(update={"pull_n_per_mm": args.pull})
    if not -360 <= args.turn <= 360:
        raise UsageError(f"--turn {args.turn:g}", remedy="give an angle in degrees")
    held = style_hold(style, size=args.size, turn_deg=args.turn)
    if not held.pieces:
        raise UsageError(
            "no piece is backed or has a hold line", file=str(args.style), remedy="back a piece first"
        )
    trials = calibrations(style)
    payload = hold_object(style, held, trials)
    cloths = _cloths(style, args.compare) if args.compare else ()
    candidates = compare(style, cloths)
    if candidates:
        payload["compare"] = [_candidate(each) for each in candidates]
    say_findings(held.findings)
    field = None
    if args.field:
        from app.commands.hold_field import solve_field  # loads the finite elements

        field = solve_field(style, cloths, args)
    if field is not None:
        payload["field"] = field.told
    files: list[Path] = []
    if args.out is not None:
        files = _write(style, held, candidates, trials, args, field)
    payload["files"] = [str(path) for path in files]
    text = _text(style, held, candidates, trials) + (f"\n{FIELD_ELSEWHERE}" if field is None else field.words)
    text = "\n".join([text, *(f"written: {path}" for path in files)])
    return Outcome(payload, text, 1 if held.failing else 0)


def calibrated_mm(piece: PieceHold | ChainHold, trials: dict[str, Calibration]) -> list[float] | None:
    """Return where the next trial of a piece or chain is expected, from trials of its pair; None without.

    A chain on several cloths has no pair, so nothing is expected of it.
    """
    if len(piece.cloths) > 1 and isinstance(piece, ChainHold):
        return None
    calibration = trials.get(piece.cloths[0]) if piece.cloths and piece.has_line else None
    if calibration is None:
        return None
    low = calibration.factor if calibration.low is None else calibration.low
    high = calibration.factor if calibration.high is None else calibration.high
    return [round(piece.hold.best_mm * low, 3), round(piece.hold.best_mm * high, 3)]


def hold_object(style: Style, held: StyleHold, trials: dict[str, Calibration]) -> dict[str, Any]:
    """Return what ``hold --json`` prints."""
    return {
        "style": style.name,
        "pieces": [_piece(piece, style.piece(piece.piece).hold_line, trials) for piece in held.pieces],
        "chains": [_chain(chain, trials) for chain in held.chains],
        "cloth": held.cloth,
        "how_known": held.how_known,
        "granted_deg": held.granted_deg,
        "note": NO_MEASUREMENT,
        "cautions": cautions("hold sheet"),
        "findings": [finding_json(finding) for finding in held.findings],
    }


def _chain(chain: ChainHold, trials: dict[str, Calibration]) -> dict[str, Any]:
    hold = chain.hold
    return {
        "chain": chain.name,
        "pieces": list(chain.pieces),
        "size": chain.size,
        "pull_n_per_mm": hold.pull_n_per_mm,
        "distance_mm": _round(hold.distance_mm),
        "upper_mm": _round(hold.upper_mm),
        "with_backing_mm": [_round(hold.low_mm), _round(hold.high_mm)],
        "limit_mm": None if hold.limit_mm is None else _round(hold.limit_mm),
        "holds": hold.holds,
        "granted_deg": chain.granted_deg,
        "calibrated_mm": calibrated_mm(chain, trials),
        "slant": [
            {"off_deg": angle, "with_backing_mm": [_round(h.low_mm), _round(h.high_mm)]}
            for angle in ANGLES
            for h in (chain.turned(angle),)
        ],
    }


def _piece(piece: PieceHold, line: HoldLine | None, trials: dict[str, Calibration]) -> dict[str, Any]:
    hold = piece.hold
    slants = [] if not piece.backings else [(angle, piece.turned(angle)) for angle in ANGLES]
    return {
        "piece": piece.piece,
        "size": piece.size,
        "cloths": list(piece.cloths),
        "angle_deg": None if piece.angle_deg is None else round(piece.angle_deg, 2),
        "pull_n_per_mm": hold.pull_n_per_mm,
        "upper_percent": _round(hold.percent(hold.upper_mm)),
        "with_backing_percent": [_round(hold.percent(hold.low_mm)), _round(hold.percent(hold.high_mm))],
        "hold_line_mm": None if line is None else [list(line.from_mm), list(line.to_mm)],
        "distance_mm": _round(hold.distance_mm) if piece.has_line else None,
        "upper_mm": _round(hold.upper_mm) if piece.has_line else None,
        "with_backing_mm": [_round(hold.low_mm), _round(hold.high_mm)] if piece.has_line else None,
        "limit_mm": None if hold.limit_mm is None else _round(hold.limit_mm),
        "holds": hold.holds,
        "added_percent": _round(hold.percent(hold.added_mm)),
        "granted_deg": piece.granted_deg,
        "calibrated_mm": calibrated_mm(piece, trials),
        "sections": [{"length_mm": _round(s.length_mm), "layers": len(s.layers)} for s in piece.sections],
        "slant": [
            {
                "off_deg": angle,
                "with_backing_percent": [_round(h.percent(h.low_mm)), _round(h.percent(h.high_mm))],
            }
            for angle, h in slants
        ],
    }


def _cloths(style: Style, wanted: str) -> tuple[ClothData, ...]:
    own = {cloth.id: cloth for cloth in style.cloths}
    register = ClothRegister()
    if wanted.strip() == "all":
        others = {entry.id: entry.cloth for entry in register.entries("cloth")}
        known = [c for c in {**others, **own}.values() if c.tests or c.sheet]
        return tuple(known)
    found = []
    for name in (part.strip() for part in wanted.split(",")):
        if name in own:
            found.append(own[name])
            continue
        try:
            found.append(register.entry("cloth", name).cloth)
        except RegisterError as error:
            raise UsageError(
                f"neither the style nor the register has a cloth {name}",
                remedy=f"the style has {', '.join(own)}; {error.remedy}",
            ) from None
    return tuple(found)


def _candidate(candidate: TriedCloth) -> dict[str, Any]:
    cost = candidate.cost_per_pair
    return {
        "cloth": candidate.cloth.id,
        "name": candidate.cloth.name,
        "mass_g_per_m2": candidate.cloth.mass_g_per_m2,
        "holds": candidate.holds,
        "worst_piece": candidate.worst.called if candidate.worst else None,
        "worst_mm": [_round(candidate.worst.hold.low_mm), _round(candidate.worst.hold.high_mm)]
        if candidate.worst
        else None,
        "worst_limit_mm": candidate.worst.hold.limit_mm if candidate.worst else None,
        "net_m2_per_pair": round(candidate.net_m2_per_pair, 5),
        "net_cost_per_pair": None if cost is None else f"{cost:.4f}",
        "currency": candidate.cloth.currency,
    }


def _write(
    style: Style,
    held: StyleHold,
    candidates: tuple[TriedCloth, ...],
    trials: dict[str, Calibration],
    args: argparse.Namespace,
    field: SolvedField | None,
) -> list[Path]:
    check_folder(args.out)
    beside = FIELD_ELSEWHERE if field is None else field.beside_line

    def fill(draft: Path) -> list[Path]:
        written = registry.write(Held(style, held, args.turn, candidates, trials, beside), draft)
        return written if field is None else [*written, *field.write(style, draft)]

    return write_folder(args.out, fill)


def _text(
    style: Style,
    held: StyleHold,
    candidates: tuple[TriedCloth, ...],
    trials: dict[str, Calibration],
) -> str:
    lines = [
        f"{style.name}: give along the pull axis under {style.pull_n_per_mm:g} N/mm",
        f"cloth: {held.how_known}",
        f"  {'piece':<18}{'off':>6}  {'upper':>7}  {'backed':>12}  {'over':>7}  {'mm':>10}  {'limit':>6}  "
        "verdict       permitted tilt",
    ]
    for piece in held.pieces:
        hold = piece.hold
        off = "-" if piece.angle_deg is None else f"{abs(piece.angle_deg):.0f}"
        mm = span(hold) if piece.has_line else "-"
        over = f"{hold.distance_mm:.0f} mm" if piece.has_line else "-"
        limit = "-" if hold.limit_mm is None else f"{hold.limit_mm:.1f}"
        granted = "-" if piece.granted_deg is None else f"{piece.granted_deg:g} deg"
        lines.append(
            f"  {piece.piece:<18}{off:>6}  {hold.percent(hold.upper_mm):>6.1f}%  "
            f"{shown_percent(hold):>12}  {over:>7}  {mm:>10}  {limit:>6}  {verdict_word(piece):<13} {granted}"
        )
        calibrated = calibrated_mm(piece, trials)
        if calibrated:
            found = trials[piece.cloths[0]]
            low, high = (f"{mm:.1f}" for mm in calibrated)
            expected = f"{low}-{high}" if found.low is not None else f"about {low}"
            tried = counted(found.trials, "lasting trial")
            lines.append(f"  {'':<18}after {tried} of this pair expect {expected} mm")
    for chain in held.chains:
        if chain is held.chains[0]:
            lines.append("heel to throat over several pieces:")
        hold = chain.hold
        limit = "no limit" if hold.limit_mm is None else f"limit {hold.limit_mm:.1f} mm"
        granted = "" if chain.granted_deg is None else f"; permitted tilt {chain.granted_deg:g} deg"
        lines.append(
            f"  {chain.name:<18}{' + '.join(chain.pieces)}: {hold.distance_mm:.0f} mm, "
            f"upper {hold.upper_mm:.1f} mm, backed {span(hold)} mm, {limit}: "
            f"{verdict_word(chain)}{granted}"
        )
    if held.granted_deg is not None:
        lines.append(
            f"  every limit is kept while the lay turns no piece by more than {held.granted_deg:g} deg"
        )
    for candidate in candidates:
        if candidate is candidates[0]:
            lines.append("in place of the first cloth:")
        cost = (
            "-"
            if candidate.cost_per_pair is None
            else f"{candidate.cost_per_pair:.3f} {candidate.cloth.currency}"
        )
        word = {True: "holds", False: "breaks", None: "trial decides"}[candidate.holds]
        worst = candidate.worst
        tight = (
            f"; nearest to its limit: {worst.called}, {span(worst.hold)} of {worst.hold.limit_mm:g} mm"
            if worst
            else ""
        )
        lines.append(f"  {candidate.cloth.id:<18}{word:<14} {cost} per pair, net of waste{tight}")
    lines.append(NO_MEASUREMENT)
    lines += caution_lines("hold sheet")
    return "\n".join(lines)


def verdict_word(piece: PieceHold | ChainHold) -> str:
    """Return the verdict on a piece or chain as shown."""
    if piece.hold.limit_mm is None:
        return "no limit set"
    return {True: "holds", False: "BREAKS", None: "trial decides"}[piece.hold.holds]


def _round(value: float) -> float:
    return round(float(value), 4)
