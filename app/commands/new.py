"""``new``: a style file from a drawing, with everything still open listed."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.commands import Outcome
from app.commands.drawing_arguments import add_drawing, read_asked
from app.commands.report import by_piece, finding_json
from app.errors import UsageError
from app.measures import counted
from app.style.file import EXTENSION, save_style
from app.style.model import ClothData
from app.style.new import UNNAMED_CLOTH, new_style
from app.style.on_disk import fingerprint
from app.style.pieces import unconfirmed
from app.style.rules_store import load_rules
from geometry.dxf.read import ReadDrawing
from geometry.findings import Severity
from geometry.sizing.sizes import SYSTEMS, parse_sizes

DIRECTIONS = {"along": 0.0, "across": 90.0}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("drawing", type=Path, help="the DXF with the upper pieces")
    parser.add_argument("-o", "--out", type=Path, help=f"the style file to write (NAME{EXTENSION})")
    parser.add_argument("--name", default="", help="the style's name (default: the drawing's)")
    add_drawing(parser, "the house rule")
    parser.add_argument(
        "--base-size", default="", metavar="SIZE", help="the size drawn, where the file does not state it"
    )
    parser.add_argument("--sizes", default="", metavar="36-41", help="sizes to grade from the base size")
    parser.add_argument("--system", choices=SYSTEMS, default="paris", help="size system (default paris)")
    parser.add_argument("--cloth", default="", metavar="NAME", help="the reinforcement cloth")
    parser.add_argument("--width", type=float, metavar="MM", help="usable width of the cloth's roll")
    parser.add_argument(
        "--tight",
        metavar="DIRECTION",
        help="the cloth's low-stretch direction: along, across, or degrees from the roll's length",
    )
    parser.add_argument("--force", action="store_true", help="replace a style file that exists")


def run(args: argparse.Namespace) -> Outcome:
    """Read the drawing and write the style."""
    out: Path = args.out or Path.cwd() / (args.drawing.stem + EXTENSION)
    known = fingerprint(out)
    if out.exists() and not args.force:
        raise UsageError(
            "there is a file of this name already", file=str(out), remedy="choose another, or --force"
        )
    rules = load_rules()
    drawing = read_asked(args, args.drawing, rules.chord_mm)
    ask_for_unit(drawing, args.drawing)
    ask_for_frame(drawing, args.drawing)
    name = args.name.strip() or drawing.style_name or args.drawing.stem
    style, found = new_style(
        drawing,
        name=name,
        rules=rules,
        source=args.drawing.name,
        system=args.system,
        base=args.base_size,
        sizes=parse_sizes(args.sizes, system=args.system) if args.sizes else (),
        cloth=_cloth(args),
    )
    save_style(style, out, known=known)
    findings = (*drawing.findings, *found, *unconfirmed(style))
    lines = [
        f"{out}: {style.name}, {counted(len(style.pieces), 'piece')}, sizes {', '.join(style.size_run.sizes)}"
    ]
    for piece in style.pieces:
        drawn = ", ".join(piece.drawings)
        lines.append(
            f"  {piece.name}: drawn in {drawn}; {counted(len(piece.edges), 'edge')}; pull axis "
            f"{piece.pull_axis.axis_deg:g} deg from {piece.pull_axis.source}"
        )
    lines += [f"  {left.what}: left out, {left.why}" for left in drawing.left_out]
    lines += [f"  {finding.severity}: {finding}" for finding in by_piece(findings)]
    return Outcome(
        {
            "style": str(out),
            "name": style.name,
            "base": style.size_run.base,
            "sizes": list(style.size_run.sizes),
            "pieces": [
                {
                    "name": piece.name,
                    "sizes_drawn": list(piece.drawings),
                    "edges": len(piece.edges),
                    "pull_axis_deg": piece.pull_axis.axis_deg,
                    "pull_axis_from": piece.pull_axis.source,
                    "per_shoe": piece.per_shoe,
                }
                for piece in style.pieces
            ],
            "rules_from": drawing.rules_from,
            "unit": drawing.unit,
            "unit_from": drawing.unit_from,
            "left_out": [{"what": left.what, "why": left.why} for left in drawing.left_out],
            "findings": [finding_json(finding) for finding in findings],
        },
        "\n".join(lines),
    )


def ask_for_frame(drawing: ReadDrawing, file: Path) -> None:
    """Raise UsageError when a person must say whether a rectangle is the sheet's frame or a piece."""
    for finding in drawing.findings:
        if finding.code == "FRAME" and finding.severity is Severity.QUESTION:
            raise UsageError(
                finding.message, file=str(file), remedy="say which: --frame drop, or --frame keep for a piece"
            )


def ask_for_unit(drawing: ReadDrawing, file: Path) -> None:
    """Raise UsageError when a person must say in which unit the drawing is."""
    for finding in drawing.findings:
        if finding.code == "UNIT" and finding.severity is Severity.QUESTION:
            raise UsageError(
                f"the unit is open: {finding.message}", file=str(file), remedy="say which: --unit mm"
            )


def _cloth(args: argparse.Namespace) -> ClothData:
    cloth = UNNAMED_CLOTH
    if args.cloth.strip():
        words = "-".join(args.cloth.lower().split())
        cloth = cloth.model_copy(update={"id": words, "name": args.cloth.strip(), "note": ""})
    if args.width is not None:
        if not 10.0 <= args.width <= 10_000.0:
            raise UsageError(f"a usable width of {args.width:g} mm is not valid", remedy="give it in mm")
        selvedge = cloth.width_mm - cloth.usable_width_mm
        cloth = cloth.model_copy(update={"usable_width_mm": args.width, "width_mm": args.width + selvedge})
    if args.tight is not None:
        cloth = cloth.model_copy(
            update={"tight_direction_deg": _direction(args.tight), "how_known": "supplier"}
        )
    return cloth


def _direction(text: str) -> float:
    if text in DIRECTIONS:
        return DIRECTIONS[text]
    try:
        angle = float(text)
    except ValueError:
        angle = float("nan")
    if not -90.0 < angle <= 90.0:
        raise UsageError(
            f"--tight {text} is not a direction", remedy="say along, across, or an angle in (-90, 90]"
        )
    return angle
