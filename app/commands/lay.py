"""``lay``: the backing of some pairs arranged on the roll, judged, and written for the cutter."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from app.cautions import caution_lines, cautions
from app.commands import Outcome, say
from app.commands.arguments import (
    add_budget,
    add_order,
    add_out_folder,
    check_budget,
    check_folder,
    check_length,
    order_of,
)
from app.commands.many_styles import add_many, run_many
from app.commands.report import say_findings
from app.commands.solving import solve
from app.defaults.work import PLIES
from app.errors import UsageError
from app.hold.on_lay import BY_THE_LINE, record_hold
from app.lay.job import MODES, LayJob, document_of, judged, other_cloths, pieces_by_hand, problem_of
from app.lay.kept import open_kept
from app.lay.longer import longer_text
from app.lay.remnant_file import read_remnant
from app.measures import counted
from app.papers.lay_folder import write_lay_files
from app.style.file import load_style
from app.style.model import Style
from app.style.pieces import findings
from app.tolerances import MOST_GAP_MM
from geometry.said import percent
from nesting.defaults import LAY_SECONDS
from nesting.engine.ready import prepare
from nesting.errors import TooLongError
from nesting.planning.consumption import YIELD_MEANS
from nesting.verify.fault import Verdict

MOST_HOURS = 168.0
"""A week: longer is a slip of the keyboard."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, nargs="+", help="style files; each is laid by itself")
    add_order(parser)
    parser.add_argument("--cloth", default="", metavar="ID", help="which cloth (default: the style's first)")
    parser.add_argument(
        "--width", type=float, metavar="MM", help="usable width of the roll (default: the cloth's)"
    )
    parser.add_argument(
        "--gap", type=float, metavar="MM", help="gap between pieces (default: the house rule)"
    )
    parser.add_argument(
        "--mode", choices=MODES, default="face-up", help="how plies are spread (default face-up)"
    )
    parser.add_argument(
        "--plies",
        type=int,
        default=PLIES.value,
        metavar="N",
        help="plies cut at once (default 1, or 2 face to face)",
    )
    parser.add_argument(
        "--max-length", type=float, metavar="MM", help="greatest length of the lay (that of a table, say)"
    )
    parser.add_argument(
        "--reason",
        default="",
        metavar="TEXT",
        help="why a lay that breaks the style's hold limit is written all the same; the papers show it",
    )
    parser.add_argument(
        "--remnant", type=Path, metavar="FILE", help="a drawing of the remnant to cut from, x along its roll"
    )
    parser.add_argument(
        "--remnant-unit",
        choices=("auto", "mm", "cm", "m", "in"),
        default="auto",
        help="unit of that drawing (default: as the file says)",
    )
    parser.add_argument(
        "--widths", default="", metavar="1160,1360", help="several usable widths, each a lay of its own"
    )
    add_many(parser)
    add_budget(parser, LAY_SECONDS.value)
    parser.add_argument(
        "--improve",
        type=float,
        metavar="HOURS",
        help="keep improving for this many hours at low priority; Ctrl-C ends with the best so far",
    )
    add_out_folder(parser)


def run(args: argparse.Namespace) -> Outcome:
    """Lay, judge, write; exit status 1 and nothing written when the lay has a fault."""
    check_budget(args)
    check_length(args.width, "width", 50.0, 10_000.0)
    check_length(args.gap, "gap", 0.0, MOST_GAP_MM)
    check_hours(args.improve)
    check_length(args.max_length, "max-length", 50.0, 1e6)
    check_folder(args.out)
    widths = [_width(text) for text in args.widths.split(",") if text.strip()]
    if len(args.style) > 1 or widths:
        if args.remnant is not None:
            raise UsageError("a remnant is for one style", remedy="lay the styles one by one")
        if args.improve is not None:
            raise UsageError("--improve is for one lay", remedy="improve the lays one by one")
        return run_many(
            "lay",
            args.style,
            args.run,
            args.pairs,
            _options(args),
            widths,
            args.out,
            jobs=args.jobs,
            cluster=args.cluster,
        )
    prepare()
    style = load_style(args.style[0])
    plies = 2 if args.mode == "face-to-face" and args.plies == 1 else args.plies
    job = LayJob(
        style=style,
        pairs=order_of(args, style),
        cloth_id=args.cloth,
        mode=args.mode,
        plies=plies,
        width_mm=args.width,
        gap_mm=args.gap,
        max_length_mm=args.max_length,
        remnant=None if args.remnant is None else read_remnant(args.remnant, args.remnant_unit),
    )
    problem = problem_of(job)
    noticed = findings(style, list(job.pairs))
    try:
        lay = solve(
            problem,
            seconds=args.seconds if args.improve is None else 3600.0 * args.improve,
            seed=args.seed,
            workers=args.workers,
            store=open_kept(say),
            fresh=args.fresh,
            improve=args.improve is not None,
        )
    except TooLongError as error:
        if args.remnant is None:
            raise
        raise UsageError(
            f"the pairs do not all go on the remnant: {error.message}",
            file=str(args.remnant),
            remedy="lay fewer, take a larger remnant, or give more --seconds",
        ) from None
    say_findings(noticed)
    for name in other_cloths(job):
        say(f"not in this lay: the pieces cut from {name}; lay them with --cloth")
    verdict = judged(problem, lay)
    document = document_of(job, problem, lay)
    if not verdict.ok:
        for fault in verdict.faults[:10]:
            say(f"fault: {fault.message}")
        say(f"the lay was not written: {counted(len(verdict.faults), 'fault')}")
        return Outcome({**document, "files": []}, "", 1)
    if not _holds(style, document, args.reason.strip()):
        say("the lay was not written: it breaks the style's hold limit; give a --reason to write it so")
        return Outcome({**document, "files": []}, "", 1)
    files = write_lay_files(style, job, document, verdict, args.out)
    told = {**document, "cautions": cautions("lay"), "files": [str(path) for path in files]}
    return Outcome(told, _text(job, document, verdict, files))


def _options(args: argparse.Namespace) -> list[str]:
    """Return the words that every job of many is given."""
    words = ["--mode", args.mode, "--plies", str(args.plies), "--seconds", str(args.seconds)]
    words += ["--seed", str(args.seed), "--workers", "1"] + (["--fresh"] if args.fresh else [])
    for name, value in (("cloth", args.cloth), ("reason", args.reason)):
        words += [f"--{name}", value] if value else []
    for name, length in (("gap", args.gap), ("max-length", args.max_length), ("width", args.width)):
        words += [f"--{name}", f"{length:g}"] if length is not None else []
    return words


def check_hours(hours: float | None) -> None:
    """Raise UsageError for hours that nobody waits for."""
    if hours is not None and not 0.0 < hours <= MOST_HOURS:
        raise UsageError(f"--improve {hours:g} is not valid", remedy=f"give hours up to {MOST_HOURS:g}")


def _width(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise UsageError(f"--widths {text} is not a width", remedy="give widths in mm: 1160,1360") from None


def _holds(style: Style, document: dict[str, Any], reason: str) -> bool:
    """Say what the lay costs the hold, and put it on record; whether the lay may be written."""
    weak = record_hold([style], document, reason)
    for placed in weak:
        say(f"hold: {placed}")
    if weak:
        say(BY_THE_LINE)
    for said in document.get("hold", {}).get("not_judged", ()):
        say(f"hold: not judged, {said}")
    return bool(reason) or not any(placed.breaks for placed in weak)


def _text(job: LayJob, document: dict[str, Any], verdict: Verdict, files: list[Path]) -> str:
    pairs = ", ".join(f"{size}: {count}" for size, count in job.pairs.items())
    hands = pieces_by_hand(document)
    left = sum(count for (_, hand), count in hands.items() if hand == "left")
    right = sum(count for (_, hand), count in hands.items() if hand == "right")
    bound = max(document.get("lower_bound_mm", {}).values(), default=0.0)
    lines = [
        f"{job.style.name} on {job.cloth.name}, {document['roll']['usable_width_mm']:g} mm usable",
        f"pairs in the lay {pairs}",
        f"{counted(len(document['placements']), 'piece')} ({left} left, {right} right), length "
        f"{document['length_mm'] / 1000:.3f} m, yield {percent(document['yield'])}"
        + longer_text(document["longer_search"])
        + (
            f"; no lay can be shorter than {bound / 1000:.3f} m, this one is "
            f"{percent(document['length_mm'] / bound - 1.0)} longer"
            if bound
            else ""
        ),
    ]
    if job.mode == "face-to-face":
        lines.append(
            "face to face: the lay holds left pieces only, every second ply gives the right ones; "
            f"{counted(job.plies, 'ply')}, always an even number"
        )
    if job.plies > 1:
        cut = ", ".join(f"{size}: {count}" for size, count in job.pairs_cut.items())
        lines.append(f"{counted(job.plies, 'ply')} give pairs {cut}")
    lines.append(f"verified: {verdict.checked}")
    lines += [YIELD_MEANS, *caution_lines("lay")]
    lines += [f"written: {path}" for path in files]
    return "\n".join(lines)
