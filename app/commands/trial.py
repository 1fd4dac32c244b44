"""``trial``: the trial book, what fused samples, skiving checks and lasting trials showed."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from app.commands import Outcome, say
from app.commands.arguments import check_folder
from app.errors import UsageError
from app.hold.trial_prediction import predicted
from app.measures import counted
from app.papers import registry
from app.papers.paper_folder import write_folder
from app.papers.shown import Compared
from app.papers.trial_report import comparison_words
from app.style.file import load_style
from app.workshop.trial_book import (
    CONFIDENCE,
    Calibration,
    Trial,
    TrialBook,
    TrialEntry,
    calibration_text,
)
from app.workshop.two_predictions import PredictionComparison, compare_models

ACTIONS = ("list", "add", "similar", "calibration", "models")
NOTHING_COMPARED = "no lasting trial holds both predictions yet: enter them with 'trial add' on a hold line"
RESULTS = {
    "peel": ("peel_n_per_mm", "N/mm", "fused sample: peel force of the bond per width"),
    "composite": ("composite_percent", "%", "fused sample: stretch of upper with backing at the pull"),
    "show-through": (
        "show_through",
        "0-3",
        "fused sample: weave or colour showing, 0 none to 3 reject",
    ),
    "ridge": ("ridge", "0-3", "fused sample: edge showing, 0 none to 3 reject"),
    "skive": ("skive_mm", "mm", "skiving check: thickness left at the edge"),
    "mark": ("mark_after_lasting_mm", "mm", "lasting: distance of the throat from its mark after lasting"),
    "mark-delasted": (
        "mark_after_delasting_mm",
        "mm",
        "lasting: distance of the throat from its mark after delasting",
    ),
    "side-length": ("side_length_mm", "mm", "lasting: side length after lasting"),
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument(
        "action",
        nargs="?",
        default="list",
        choices=ACTIONS,
        help="list (the default); add: enter a trial; similar: what was tried before for similar styles; "
        "calibration: what lasting trials say about the predictions; models: which predicted better, line "
        "or field (of all trials, or of a style's upper and cloths)",
    )
    parser.add_argument("style", nargs="?", type=Path, help="a style file")
    parser.add_argument(
        "--kind",
        choices=("fused-sample", "skiving", "lasting"),
        default="lasting",
        help="kind of trial (default lasting)",
    )
    parser.add_argument(
        "--piece",
        default="",
        help="which piece or chain (lasting: the one over whose hold line the throat moved)",
    )
    parser.add_argument("--size", default="", help="size lasted (default: the base size)")
    parser.add_argument(
        "--cloth", default="", metavar="ID", help="cloth (default: of the piece, or the first)"
    )
    parser.add_argument("--upper", default="", help="upper material (default: the style's)")
    for option, (name, unit, text) in RESULTS.items():
        parser.add_argument(f"--{option}", dest=name, type=float, metavar=unit, help=text)
    parser.add_argument(
        "--photo", action="append", default=[], metavar="PATH", help="a picture; may be repeated"
    )
    parser.add_argument("--verdict", choices=("good", "doubtful", "bad"), help="add: the verdict")
    parser.add_argument("--note", default="", help="what else was seen")
    parser.add_argument("-o", "--out", type=Path, metavar="DIR", help="models: write the trial report")


def run(args: argparse.Namespace) -> Outcome:
    """Do one action on the book."""
    book = TrialBook()
    if args.action == "add":
        return _add(book, args)
    if args.action == "list":
        style = load_style(args.style).name if args.style else ""
        found = book.entries(style=style, upper=args.upper, cloth=args.cloth)
        return _told(found, f"{counted(len(found), 'trial')} in {book.path}")
    if args.action == "models":
        return _models(book, args)
    if args.style is None:
        raise UsageError(f"trial {args.action} needs a style file", remedy=f"trial {args.action} STYLE")
    style_read = load_style(args.style)
    upper = args.upper or style_read.upper_material.name
    cloths = [args.cloth] if args.cloth else [cloth.id for cloth in style_read.cloths]
    if args.action == "similar":
        found = book.similar(upper, cloths, style_read.name)
        return _told(found, f"{counted(len(found), 'trial')} bear on {style_read.name}, nearest first")
    found = book.entries(upper=upper)
    compared = compare_models(entry for entry in found if entry.trial.cloth in cloths)
    calibrations = [c for cloth in cloths if (c := book.calibration(upper, cloth))]
    lines = [calibration_text(c) for c in calibrations] or [
        f"no lasting trial of {upper or 'this upper'} with its cloths yet"
    ]
    lines += [] if compared is None else comparison_words(compared)
    payload = {
        "calibrations": [calibration_object(c) for c in calibrations],
        "models": models_object(compared),
    }
    return Outcome(payload, "\n".join(lines))


def _models(book: TrialBook, args: argparse.Namespace) -> Outcome:
    """Both models on the trials of a style's upper and cloths, or on all of the book."""
    title, upper, cloths = "all trials", args.upper, {args.cloth} if args.cloth else None
    if args.style is not None:
        style = load_style(args.style)
        title, upper = style.name, args.upper or style.upper_material.name
        cloths = cloths or {cloth.id for cloth in style.cloths}
    entries = [e for e in book.entries(upper=upper) if cloths is None or e.trial.cloth in cloths]
    found = compare_models(entries)
    files: list[Path] = []
    if found is not None and args.out is not None:
        files = _write_report(title, found, args.out)
    told = comparison_words(found) if found else [NOTHING_COMPARED]
    payload = {"models": models_object(found), "files": [str(path) for path in files]}
    return Outcome(payload, "\n".join([*told, *(f"written: {path}" for path in files)]))


def _write_report(title: str, found: PredictionComparison, out: Path) -> list[Path]:
    check_folder(out)
    return write_folder(out, lambda draft: registry.write(Compared(title, found), draft))


def models_object(found: PredictionComparison | None) -> dict[str, Any] | None:
    """Return both models side by side as the command prints them; None without a trial of both."""
    if found is None:
        return None
    return {
        "trials": [
            {
                "id": each.entry.id,
                "measured_mm": each.measured_mm,
                "line_mm": each.line_mm,
                "field_mm": each.field_mm,
            }
            for each in found.readings
        ],
        **{
            score.model: {
                "miss_mm": round(score.miss_mm, 3),
                "factor": round(score.factor, 4),
                "scatter": None if score.scatter is None else round(score.scatter, 4),
            }
            for score in (found.line, found.field)
        },
        "field_nearer_mm": None if found.gain_mm is None else [round(mm, 3) for mm in found.gain_mm],
        "better": found.better,
        "confidence": CONFIDENCE,
    }


def calibration_object(found: Calibration) -> dict[str, Any]:
    """Return a calibration as the command prints it."""
    return {
        "upper": found.upper,
        "cloth": found.cloth,
        "trials": found.trials,
        "factor": round(found.factor, 4),
        "low": None if found.low is None else round(found.low, 4),
        "high": None if found.high is None else round(found.high, 4),
        "confidence": CONFIDENCE,
    }


def entry_object(entry: TrialEntry) -> dict[str, Any]:
    """Return a trial as the command prints it."""
    return {"id": entry.id, "at": entry.at, "who": entry.who, **entry.trial.model_dump(mode="json")}


def _add(book: TrialBook, args: argparse.Namespace) -> Outcome:
    if args.style is None:
        raise UsageError(
            "trial add needs a style file", remedy="trial add STYLE --piece NAME --mark MM --verdict good"
        )
    if args.verdict is None:
        raise UsageError("a trial needs a verdict", remedy="give --verdict good, doubtful or bad")
    style = load_style(args.style)
    piece = next((p for p in style.pieces if p.name == args.piece), None)
    chain = next((c for c in style.hold_chains if c.name == args.piece), None)
    if chain is not None:
        piece = style.piece(chain.pieces[0])
    if args.piece and piece is None:
        raise UsageError(
            f"the style has no piece {args.piece}",
            file=str(args.style),
            remedy="its pieces and chains are "
            + ", ".join([*(p.name for p in style.pieces), *(c.name for c in style.hold_chains)]),
        )
    layers = [layer.cloth for layer in piece.layers] if piece else []
    cloth = (
        args.cloth
        or next((name for name in layers if name), "")
        or (style.cloths[0].id if style.cloths else "")
    )
    upper = args.upper or style.upper_material.name
    if not upper or not cloth:
        raise UsageError(
            "upper and cloth must have names: trials are filed under them", remedy="give --upper and --cloth"
        )
    size = args.size or style.size_run.base
    for path in args.photo:
        if not Path(path).is_file():
            say(f"warning: there is no file {path}; its path is noted all the same")
    data: dict[str, Any] = {name: getattr(args, name) for name, _, _ in RESULTS.values()}
    try:
        trial = Trial(
            kind=args.kind,
            style=style.name,
            piece=args.piece,
            size=size,
            upper=upper,
            cloth=cloth,
            verdict=args.verdict,
            photos=tuple(str(Path(path).resolve()) for path in args.photo),
            note=args.note,
            **data,
            **(predicted(style, args.piece, size, note=_note) if args.kind == "lasting" else {}),
        )
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        raise UsageError(f"{first['loc'][0]}: {first['msg'].lower()}", remedy="correct the result") from None
    entry = book.add(trial)
    lines = [f"entered as trial {entry.id} in {book.path}", _line(entry)]
    if trial.predicted_mm is not None and trial.mark_after_lasting_mm is not None:
        lines.append(
            f"  predicted {trial.predicted_mm:.1f} mm, measured {abs(trial.mark_after_lasting_mm):g} mm"
        )
        if trial.predicted_field_mm is not None:
            lines.append(f"  predicted by the field {trial.predicted_field_mm:.1f} mm")
        calibration = book.calibration(upper, cloth)
        lines += [calibration_text(calibration)] if calibration else []
    return Outcome(entry_object(entry), "\n".join(lines))


def _note(text: str) -> None:
    say(f"note: {text}")


def _told(found: tuple[TrialEntry, ...], head: str) -> Outcome:
    payload = {"trials": [entry_object(entry) for entry in found]}
    return Outcome(payload, "\n".join([head, *(_line(entry) for entry in found)]))


def _line(entry: TrialEntry) -> str:
    trial = entry.trial
    results = [
        f"{option} {getattr(trial, name):g}{'' if unit == '0-3' else ' ' + unit}"
        for option, (name, unit, _) in RESULTS.items()
        if getattr(trial, name) is not None
    ]
    photos = f", {counted(len(trial.photos), 'photo')}" if trial.photos else ""
    what = " ".join(part for part in (trial.style, trial.piece, trial.size) if part)
    note = f" - {trial.note}" if trial.note else ""
    return (
        f"  {entry.id:>4}  {entry.at[:10]}  {trial.kind:<12} {what}: {trial.upper} on {trial.cloth}: "
        f"{', '.join(results) or 'no figures'}; {trial.verdict}{photos}{note}"
    )
