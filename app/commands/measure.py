"""``measure``: lengths along edges, seam pairs, areas of all pieces; two sizes or two versions compared."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from dataclasses import asdict
from pathlib import Path
from typing import Any

from app.commands import Outcome
from app.commands.report import finding_json
from app.commands.style_out import StyleOnDisk, about, add_out_arguments
from app.errors import UsageError
from app.style.file import load_style
from app.style.model import Style
from app.style.whole import measures, seams
from geometry.sizing.sizes import parse_sizes


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    add_out_arguments(parser)
    parser.add_argument("--size", default="", help="the size measured (default: the base size)")
    parser.add_argument("--against", default="", metavar="SIZE", help="compare with another size")
    parser.add_argument(
        "--with", dest="other", type=Path, metavar="STYLE2", help="compare with another version"
    )
    parser.add_argument(
        "--sew",
        metavar="EDGE=EDGE",
        help="two edges are sewn together, each as PIECE:FIRST VERTEX, as 'Vamp:117=Quarter outer:24'",
    )
    parser.add_argument(
        "--ease",
        type=float,
        default=0.0,
        metavar="MM",
        help="intended ease: how much longer the first edge is",
    )
    parser.add_argument("--unsew", metavar="EDGE=EDGE", help="take a seam apart")


def run(args: argparse.Namespace) -> Outcome:
    """Measure; exit status 1 when a seam does not fit or is lost."""
    with about(args.style):
        return _measured(StyleOnDisk.read(args), args)


def _measured(on_disk: StyleOnDisk, args: argparse.Namespace) -> Outcome:
    style = on_disk.style
    if args.sew:
        style = seams.sew(style, *_edges(args.sew), args.ease)
    if args.unsew:
        style = seams.unsew(style, *_edges(args.unsew))
    run_ = style.size_run
    size = run_.base
    if args.size:
        size = parse_sizes(args.size, known=run_.sizes, system=run_.system)[0]
    pieces = measures.measure_pieces(style, size)
    compared: tuple[measures.PieceComparison, ...] = ()
    if args.other is not None:
        compared = measures.compare_versions(style, load_style(args.other), size)
    elif args.against:
        against = parse_sizes(args.against, known=run_.sizes, system=run_.system)[0]
        compared = measures.compare_sizes(style, size, against)
    sewn = seams.measure_seams(style, size)
    proposed = seams.propose_seams(style)
    found = seams.seam_findings(style, size)
    if style is not on_disk.style:
        on_disk.write(style)
    payload = {
        "style": style.name,
        "size": size,
        "pieces": [asdict(piece) for piece in pieces],
        "seams": [seam_object(m) for m in sewn],
        "proposed_seams": [seam_object(m) for m in proposed],
        "compared": [asdict(each) for each in compared],
        "findings": [finding_json(finding) for finding in found],
    }
    text = "\n".join(_text(style, size, pieces, sewn, proposed, compared))
    return Outcome(payload, text, 1 if found else 0)


def seam_object(seam: seams.SeamMeasure) -> dict[str, Any]:
    """Return a seam as the command prints it."""
    return {
        "first": list(seam.seam.first),
        "second": list(seam.seam.second),
        "first_mm": seam.first_mm,
        "second_mm": seam.second_mm,
        "difference_mm": seam.difference_mm,
        "ease_mm": seam.seam.ease_mm,
        "fits": seam.fits,
    }


def _edges(text: str) -> tuple[seams.SewnEdge, seams.SewnEdge]:
    found: list[seams.SewnEdge] = []
    for part in text.split("="):
        piece, colon, start = part.strip().rpartition(":")
        if not colon or not start.isdecimal():
            raise UsageError(
                f"cannot read the edge {part.strip()!r}", remedy="write it as PIECE:FIRST VERTEX"
            )
        found.append((piece, 0, int(start)))
    if len(found) != 2:
        raise UsageError(f"{text!r} does not name two edges", remedy="write them as A:12=B:30")
    return found[0], found[1]


def _text(
    style: Style,
    size: str,
    pieces: Iterable[measures.PieceMeasure],
    sewn: Iterable[seams.SeamMeasure],
    proposed: Iterable[seams.SeamMeasure],
    compared: Iterable[measures.PieceComparison],
) -> list[str]:
    lines = [
        f"{style.name}, size {size}",
        "",
        f"{'piece':24} {'upper cm2':>9} {'backing cm2':>11} {'length':>8} {'width':>8} {'perimeter':>9}",
    ]
    for piece in pieces:
        backed = sum(piece.backing_mm2) / 100
        lines.append(
            f"{piece.piece[:24]:24} {piece.area_mm2 / 100:9.2f} {backed:11.2f} {piece.along_mm:8.1f} "
            f"{piece.across_mm:8.1f} {piece.perimeter_mm:9.1f}"
        )
        for edge in piece.edges:
            lines.append(
                f"    {edge.start:4} {edge.kind:10} {edge.length_mm:8.2f} mm, net {edge.net_mm:8.2f} mm, "
                f"setback {edge.setback_mm:g}"
            )
    for title, rows in (("seams", sewn), ("possible seams (--sew pairs them)", proposed)):
        told = [_seam_line(row) for row in rows]
        lines += ["", f"{title}:", *told] if told else []
    told = [
        f"  {each.piece[:24]:24} {each.apart_mm:7.2f} mm apart at most, area {each.area_mm2[0] / 100:.2f} "
        f"against {each.area_mm2[1] / 100:.2f} cm2"
        for each in compared
    ]
    return lines + (["", "compared:", *told] if told else [])


def _seam_line(row: seams.SeamMeasure) -> str:
    (a, _, i), (b, _, j) = row.seam.first, row.seam.second
    ease = f", ease {row.seam.ease_mm:g}" if row.seam.ease_mm else ""
    fits = "" if row.fits else "  DOES NOT FIT"
    lengths = f"{row.first_mm:.2f} - {row.second_mm:.2f} = {row.difference_mm:+.2f} mm"
    return f"  {a}:{i} = {b}:{j}   {lengths}{ease}{fits}"
