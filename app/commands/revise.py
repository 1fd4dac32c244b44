"""``revise``: a revised drawing brought into a style; what was marked on the old pieces stays."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.commands import Outcome
from app.commands.drawing_arguments import add_join, add_unit
from app.commands.new import ask_for_unit
from app.commands.style_out import about
from app.errors import UsageError
from app.style.file import load_style, save_style
from app.style.on_disk import fingerprint
from app.style.revision.revise import Revision, revise, revision_json
from geometry.dxf.read import read_drawing


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, help="a style file")
    parser.add_argument("drawing", type=Path, help="the revised drawing, a DXF")
    parser.add_argument(
        "-o",
        "--out",
        type=Path,
        metavar="STYLE2",
        help="where to write the revised style (default: report only)",
    )
    add_unit(parser)
    add_join(parser)
    parser.add_argument(
        "--names",
        choices=("ask", "keep", "swap"),
        default="ask",
        help="where two names look swapped: keep them as drawn, or match those pieces by shape",
    )
    parser.add_argument(
        "--refuse", default="", metavar="PIECE,PIECE", help="pieces that stay as they are in the style"
    )
    parser.add_argument(
        "--keep-removed", action="store_true", help="keep pieces that the revised drawing does not hold"
    )
    parser.add_argument("--force", action="store_true", help="replace a file that exists")


def run(args: argparse.Namespace) -> Outcome:
    """Match, carry over, report; write the revised style where asked and nothing is left open."""
    out: Path | None = args.out
    known = fingerprint(out)
    style = load_style(args.style)
    if out is not None and out.exists() and not args.force and out.resolve() != args.style.resolve():
        raise UsageError(
            "there is a file of this name already", file=str(out), remedy="choose another, or --force"
        )
    drawing = read_drawing(
        args.drawing,
        unit=args.unit,
        chord_mm=style.rules.chord_mm,
        join_mm=args.join,
    )
    ask_for_unit(drawing, args.drawing)
    refused = [name.strip() for name in args.refuse.split(",") if name.strip()]
    unknown = [name for name in refused if all(piece.name != name for piece in style.pieces)]
    if unknown:
        names = ", ".join(piece.name for piece in style.pieces)
        raise UsageError(
            f"--refuse: {style.name} has no piece {unknown[0]}",
            file=str(args.style),
            remedy=f"its pieces are {names}",
        )
    options = {"source": args.drawing.name, "refused": refused, "keep_removed": args.keep_removed}
    with about(args.style):
        revision = revise(style, drawing, **options)
        if revision.open and args.names == "swap":
            pairs = [(each.piece, each.other) for each in revision.asked if each.code == "NAMES_SWAPPED"]
            swapped = [name for pair in pairs for name in pair]
            revision = revise(style, drawing, by_shape=swapped, **options)
    payload = revision_json(revision)
    waits = revision.open and args.names == "ask"
    payload["style"] = None
    if out is not None and not waits:
        save_style(revision.style, out, known=known)
        payload["style"] = str(out)
    text = _text(revision)
    if waits:
        text += "\nnothing was written: give --names keep or --names swap"
    elif out is None:
        text += "\nnothing was written: name the revised style with -o"
    else:
        text += f"\nwritten: {out}"
    return Outcome(payload, text, 1 if waits else 0)


def _text(revision: Revision) -> str:
    lines = []
    for each in revision.matched:
        match, edges = each.match, each.edges
        name = match.piece if match.new_name == match.piece else f"{match.piece} (drawn as {match.new_name})"
        lines.append(
            f"{name}: matched by {match.by}, moved by up to {match.max_move_mm:.1f} mm, "
            f"{edges.carried} edges carried, {len(edges.asked)} to confirm"
        )
    lines += [f"{piece.name}: added" for piece in revision.added]
    lines += [f"{piece.name}: not in the revised drawing" for piece in revision.removed]
    lines += [f"{each.piece}: {each.message}" for each in revision.asked]
    lines += [f"lay {name}: older than its pieces, fill it again" for name in revision.stale_lays]
    return "\n".join(lines)
