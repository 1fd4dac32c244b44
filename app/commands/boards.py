"""``boards``: card patterns at full size of every upper piece and its backing."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.atomic import whole_folder
from app.cautions import caution_lines, cautions
from app.commands import Outcome
from app.commands.report import finding_json, say_findings
from app.errors import UsageError
from app.measures import counted
from app.papers import registry
from app.papers.shown import Drafted
from app.style.file import load_style
from app.style.pieces import HANDS, findings, uppers_and_backings
from geometry.paper import paper_names
from geometry.said import said
from geometry.sizing.sizes import parse_sizes


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, help="a style file")
    parser.add_argument(
        "--sizes", default="", metavar="36-41", help="which sizes (default: all of the style)"
    )
    parser.add_argument("--hands", choices=["both", *HANDS], default="both")
    parser.add_argument(
        "--sheet",
        default="",
        metavar="NAME|roll:MM",
        help=f"paper: {paper_names()}, or a roll of that width (default: smallest A4 to A0 that holds all)",
    )
    parser.add_argument(
        "--tiled",
        action="store_true",
        help="cut boards larger than A4 (or --sheet NAME) into pages to stick together",
    )
    parser.add_argument(
        "-o", "--out", type=Path, default=Path("out"), metavar="DIR", help="where to write (default out)"
    )


def run(args: argparse.Namespace) -> Outcome:
    """Draw and write the boards; exit status 1 when a backing vanished."""
    if args.out.exists() and not args.out.is_dir():
        raise UsageError("is a file, not a folder", file=str(args.out), remedy="choose another -o")
    style = load_style(args.style)
    known = style.size_run.sizes
    sizes = parse_sizes(args.sizes, known=known, system=style.size_run.system) if args.sizes else known
    hands = HANDS if args.hands == "both" else (args.hands,)
    noticed = findings(style, sizes, hands)
    pairs = uppers_and_backings(style, sizes, hands)
    say_findings(noticed)
    try:
        with whole_folder(args.out) as draft:
            written = registry.write(Drafted(style, pairs, args.sheet, args.tiled), draft)
            files = [args.out / path.relative_to(draft) for path in written]
    except OSError as error:
        raise UsageError(
            said("cannot be written ({0})", error.strerror or error),
            file=str(args.out),
            remedy="choose another folder",
        ) from None
    vanished = [
        f"{upper.name} {upper.size} {upper.hand}" for upper, b in pairs if b is not None and not b.outlines
    ]
    lines = [
        f"{style.name}: boards of {counted(len(style.pieces), 'piece')} in {counted(len(sizes), 'size')}"
    ]
    lines += [f"nothing is left of the backing of {name}" for name in vanished]
    lines += caution_lines("boards")
    lines += [f"written: {path}" for path in files]
    payload = {
        "style": style.name,
        "sizes": list(sizes),
        "hands": list(hands),
        "vanished": vanished,
        "findings": [finding_json(finding) for finding in noticed],
        "cautions": cautions("boards"),
        "files": [str(path) for path in files],
    }
    return Outcome(payload, "\n".join(lines), 1 if vanished else 0)
