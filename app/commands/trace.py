"""``trace``: card patterns from a photograph on a printed sheet, or from a scan, as outlines."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from app.cautions import caution_lines, cautions
from app.commands import Outcome
from app.commands.pieces import piece_json
from app.errors import UsageError
from app.measures import counted
from app.papers import registry
from app.papers.formats.drawing import Drawing, Pen
from app.papers.formats.dxf import write_dxf
from app.papers.pictures.pieces import draw_details
from app.papers.shown import CardSheet
from app.style.file import EXTENSION, save_style
from app.style.on_disk import fingerprint
from app.style.whole.traced import traced_style
from app.words import in_language, language_asked, told
from geometry.errors import GeometryError
from geometry.paper import paper_names
from geometry.piece import DrawnPiece
from geometry.trace.read import CALLED, Traced, trace_picture
from geometry.trace.sheet import trace_sheet

PEN = Pen(0.25)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("picture", type=Path, nargs="?", metavar="PICTURE", help="a photograph or a scan")
    parser.add_argument("--sheet", default="", metavar="A3", help="the printed sheet the cards lie on")
    parser.add_argument("--dpi", type=float, metavar="N", help="resolution of a flatbed scan, dots per inch")
    parser.add_argument(
        "--print-sheet", default="", metavar="A3", help="write the sheet to print: " + paper_names()
    )
    parser.add_argument("-o", "--out", type=Path, metavar="OUT.dxf", help="the outlines, or the sheet as PDF")
    parser.add_argument("--style", type=Path, metavar=f"NAME{EXTENSION}", help="also a style of the pieces")
    parser.add_argument("--base-size", default="", metavar="SIZE", help="the size of the cards, for --style")
    parser.add_argument("--no-notches", action="store_true", help="nicks stay in the outline")
    parser.add_argument("--no-lines", action="store_true", help="what is drawn on a card is left out")
    parser.add_argument("--force", action="store_true", help="replace files that exist")


def run(args: argparse.Namespace) -> Outcome:
    """Print the sheet, or trace a picture."""
    if args.print_sheet:
        return _print(args)
    if args.picture is None:
        raise UsageError("no picture is named", remedy="name one, or --print-sheet A3 for the sheet")
    if bool(args.sheet) == (args.dpi is not None):
        raise UsageError(
            "the scale is open",
            file=str(args.picture),
            remedy="give --sheet A3 for a photograph, --dpi 300 for a scan",
        )
    if args.style is not None and not args.base_size:
        raise UsageError("--style needs the size of the cards", remedy="say which: --base-size 37")
    for path in (args.out, args.style):
        if path is not None and path.exists() and not args.force:
            raise UsageError(
                "there is a file of this name already", file=str(path), remedy="choose another, or --force"
            )
    known = fingerprint(args.style)
    with in_language(language_asked()):  # a name is written into drawing and style, where it stays
        called = told(CALLED)
    traced = trace_picture(
        args.picture,
        sheet=args.sheet,
        dpi=args.dpi,
        notches=not args.no_notches,
        lines=not args.no_lines,
        called=called,
    )
    files = []
    if args.out is not None:
        files.append(write_dxf(_drawn(traced.pieces), args.out))
    if args.style is not None:
        _write_style(traced, args, known)
        files.append(args.style)
    payload: dict[str, Any] = {
        "pieces": [piece_json(piece) for piece in traced.pieces],
        "uncertainty_mm": round(traced.uncertainty_mm, 4),
        "scale_from": traced.scale_from,
        "markers": traced.markers,
        "cautions": cautions("trace"),
        "files": [str(path) for path in files],
    }
    return Outcome(payload, _text(traced, args, files))


def _print(args: argparse.Namespace) -> Outcome:
    sheet = trace_sheet(args.print_sheet)
    out = args.out or Path(f"trace-sheet-{sheet.name}.pdf")
    if out.exists() and not args.force:
        raise UsageError(
            "there is a file of this name already", file=str(out), remedy="choose another, or --force"
        )
    registry.write(CardSheet(sheet, out.name), out.parent)
    payload = {"sheet": sheet.name, "markers": len(sheet.markers), "files": [str(out)]}
    return Outcome(payload, f"{out}: sheet {sheet.name}, print it at 100 % and check the 100 mm square")


def _drawn(pieces: tuple[DrawnPiece, ...]) -> Drawing:
    drawing = Drawing()
    for piece in pieces:
        for ring in piece.outline.rings_mm:
            drawing.line(ring, PEN, "upper", closed=True)
        draw_details(drawing, piece.notches, piece.marks)
        inside = piece.outline.polygon.representative_point()
        drawing.text(inside.x, inside.y, piece.name, 4.0, "text", anchor="middle")
    return drawing


def _write_style(traced: Traced, args: argparse.Namespace, known: str) -> None:
    try:
        style = traced_style(
            traced.pieces,
            name=args.style.name.removesuffix(EXTENSION),
            source=args.picture.name,
            base=args.base_size,
        )
    except GeometryError as error:
        raise UsageError(error.message, file=str(args.picture), remedy=error.remedy) from None
    save_style(style, args.style, known=known)


def _text(traced: Traced, args: argparse.Namespace, files: list[Path]) -> str:
    scale = f"{traced.markers} markers" if traced.scale_from == "markers" else f"{args.dpi:g} dpi"
    lines = [
        f"{args.picture}: "
        f"{counted(len(traced.pieces), 'card')}; scale from {scale}; +- {traced.uncertainty_mm:.2f} mm"
    ]
    for piece in traced.pieces:
        x0, y0, x1, y1 = piece.outline.bbox_mm
        holes = len(piece.outline.holes_mm)
        lines.append(
            f"  {piece.name}: {x1 - x0:.1f} x {y1 - y0:.1f} mm, "
            f"{piece.outline.area_mm2 / 100:.2f} cm2, {holes} holes, "
            f"notches: {len(piece.notches)}, lines drawn on it: {len(piece.marks)}"
        )
    lines.append("check one length of a card against its outline before it is cut from")
    lines += caution_lines("trace")
    lines += [f"written: {path}" for path in files]
    return "\n".join(lines)
