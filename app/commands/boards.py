"""``boards``: card patterns at full size of every upper piece and its backing."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.cautions import caution_lines, cautions
from app.commands import Outcome
from app.commands.arguments import add_out_folder, add_sizes_and_hands, check_folder, sizes_and_hands
from app.commands.report import finding_json, say_findings
from app.measures import counted
from app.papers import registry
from app.papers.paper_folder import write_folder
from app.papers.shown import Drafted
from app.style.file import load_style
from app.style.pieces import findings, uppers_and_backings
from geometry.paper import paper_names


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, help="a style file")
    add_sizes_and_hands(parser)
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
    add_out_folder(parser)


def run(args: argparse.Namespace) -> Outcome:
    """Draw and write the boards; exit status 1 when a backing vanished."""
    check_folder(args.out)
    style = load_style(args.style)
    sizes, hands = sizes_and_hands(args, style)
    noticed = findings(style, sizes, hands)
    pairs = uppers_and_backings(style, sizes, hands)
    say_findings(noticed)
    drafted = Drafted(style, pairs, args.sheet, args.tiled)
    files = write_folder(args.out, lambda draft: registry.write(drafted, draft))
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
