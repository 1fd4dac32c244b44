"""``edit``: draw on pieces and backings without a window, from a list of edits or by flags."""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from app.commands import Outcome
from app.commands.report import finding_json, say_findings
from app.commands.style_out import about
from app.errors import UsageError
from app.measures import counted
from app.style.checks import first_problem
from app.style.drafting.script import carry_out
from app.style.file import load_style, save_style
from app.style.model import PieceData, Style
from app.style.on_disk import fingerprint
from app.style.pieces import backings, findings
from geometry.errors import DeskError
from geometry.piece import BackingPiece


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, help="a style file")
    parser.add_argument("--edits", type=Path, metavar="FILE.json", help="a list of edits (docs/edit.md)")
    parser.add_argument(
        "--beside",
        nargs=3,
        action="append",
        default=[],
        metavar=("PIECE", "EDGE", "MM"),
        help="end the backing on a line MM inside an edge (named by its start vertex or kind)",
    )
    parser.add_argument(
        "--stay",
        nargs=4,
        action="append",
        default=[],
        metavar=("PIECE", "EDGE", "MM", "CLOTH"),
        help="one more layer along an edge, MM wide, of a cloth",
    )
    parser.add_argument(
        "--split",
        nargs=4,
        action="append",
        default=[],
        metavar=("PIECE", "X,Y", "X,Y", "MM"),
        help="split the backing along a line, its parts overlapping by MM (0: they butt)",
    )
    parser.add_argument(
        "--taper",
        nargs=4,
        action="append",
        default=[],
        metavar=("PIECE", "EDGE", "MM", "MM"),
        help="a setback that runs from one value at the edge's start to another at its end",
    )
    parser.add_argument(
        "--setback",
        nargs=3,
        action="append",
        default=[],
        metavar=("PIECE", "EDGE", "MM"),
        help="the setback of an edge, or of all edges of a kind",
    )
    parser.add_argument(
        "--break-corners",
        nargs=2,
        action="append",
        default=[],
        metavar=("PIECE", "DEG"),
        help="end edges at every corner that turns by more than DEG",
    )
    parser.add_argument(
        "-o", "--out", type=Path, metavar="STYLE2", help="where to write it (default: the style itself)"
    )
    parser.add_argument("--dry-run", action="store_true", help="say what would be done and write nothing")
    parser.add_argument("--force", action="store_true", help="replace a file that exists")


def run(args: argparse.Namespace) -> Outcome:
    """Carry all edits out and write the style; nothing is written when one of them cannot be done."""
    known = fingerprint(args.style)
    style = load_style(args.style)
    out: Path = args.style if args.out is None else args.out
    own = out.resolve() == args.style.resolve()
    if out.exists() and not own and not args.force:
        raise UsageError(
            "there is a file of this name already", file=str(out), remedy="choose another, or --force"
        )
    with about(args.style):
        asked = [*_from_flags(args), *(_from_file(args.edits) if args.edits else [])]
    edited, lines = _done(style, asked, args.style)
    sizes = edited.size_run.sizes
    try:
        derived = backings(edited, sizes)  # what cannot lie in one of the sizes is told before it is written
    except DeskError as error:
        raise UsageError(
            f"in one of the sizes {error.message}",
            file=str(args.style),
            piece=error.piece,
            remedy=error.remedy,
        ) from None
    problem = first_problem(edited)
    if problem:
        raise UsageError(
            f"the edited style is not consistent: {problem}", file=str(args.style), remedy="change it"
        )
    noticed = findings(edited, sizes)
    written = None
    if asked and not args.dry_run:
        save_style(edited, out, known=known if own else None)
        written = str(out)
    say_findings(noticed)
    payload = {
        "style": edited.name,
        "edits": list(lines),
        "written": written,
        "pieces": [_piece_json(piece, derived) for piece in edited.pieces],
        "findings": [finding_json(finding) for finding in noticed],
    }
    text = [*lines, *(_piece_lines(edited, derived) if not asked else [])]
    text.append(f"written: {written}" if written else "nothing was written")
    return Outcome(payload, "\n".join(text))


def _done(style: Style, asked: Sequence[dict[str, Any]], file: Path) -> tuple[Style, tuple[str, ...]]:
    try:
        return carry_out(style, asked)
    except DeskError as error:
        raise UsageError(error.message, file=str(file), remedy=error.remedy) from None


def _from_file(path: Path) -> list[dict[str, Any]]:
    try:
        data = json.loads(path.read_text(encoding="utf-8-sig"))
    except OSError as error:
        raise UsageError(
            f"cannot be read ({error.strerror})", file=str(path), remedy="check the name"
        ) from None
    except (UnicodeDecodeError, ValueError, RecursionError) as error:
        where = f" at line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        raise UsageError(f"is not JSON{where}", file=str(path), remedy="write a list of edits") from None
    if not isinstance(data, list):
        raise UsageError("does not hold a list of edits", file=str(path), remedy='write [{"do": ...}, ...]')
    return data


def _from_flags(args: argparse.Namespace) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = []
    for piece, degrees in args.break_corners:
        found.append({"do": "break_corners", "piece": piece, "corner_deg": _mm(degrees)})
    for piece, edge, mm in args.setback:
        named = {"edge": int(edge)} if edge.isdigit() else {"of_kind": edge}
        found.append({"do": "setback", "piece": piece, "mm": _mm(mm), **named})
    for piece, edge, first, last in args.taper:
        found.append(
            {"do": "taper", "piece": piece, "edge": _edge(edge), "from_mm": _mm(first), "to_mm": _mm(last)}
        )
    for piece, edge, mm in args.beside:
        line = {"edge": _edge(edge), "inward_mm": _mm(mm)}
        found.append({"do": "cut", "piece": piece, "beside": line, "keep": "inner"})
    for piece, edge, mm, cloth in args.stay:
        band = {"edge": _edge(edge), "width_mm": _mm(mm)}
        found.append({"do": "region", "piece": piece, "layer": "new", "cloth": cloth, "band": band})
    for piece, start, stop, mm in args.split:
        ends = [[_mm(v) for v in point.split(",")] for point in (start, stop)]
        found.append({"do": "split", "piece": piece, "line": ends, "overlap_mm": _mm(mm)})
    return found


def _edge(text: str) -> int | str:
    return int(text) if text.isdigit() else text


def _mm(text: str) -> float:
    try:
        return float(text)
    except ValueError:
        raise UsageError(
            f"{text!r} is not a number", remedy="give millimetres with a decimal point"
        ) from None


def _piece_json(piece: PieceData, derived: Sequence[BackingPiece]) -> dict[str, Any]:
    layers = []
    for number, layer in enumerate(piece.layers):
        mine = [b for b in derived if b.upper.name == piece.name and b.layer == number]
        by_size = {b.upper.size: b for b in mine if b.upper.hand == piece.hand}
        layers.append(
            {
                "cloth": layer.cloth,
                "cuts": len(layer.cuts) + (layer.keep is not None),
                "changes": len(layer.changes),
                "splits": len(layer.splits),
                "joined": list(layer.joins),
                "parts": {
                    size: [
                        {"name": b.part_name(k), "area_mm2": outline.area_mm2}
                        for k, outline in enumerate(b.outlines)
                    ]
                    for size, b in by_size.items()
                },
            }
        )
    edges = [
        {
            "edge": [e.ring, e.start],
            "kind": e.kind.value,
            "setback_mm": e.setback_mm,
            "setback_end_mm": e.setback_end_mm,
        }
        for e in piece.edges
    ]
    details = [detail.what for detail in piece.details]
    return {"name": piece.name, "edges": edges, "layers": layers, "details": details}


def _piece_lines(style: Style, derived: Sequence[BackingPiece]) -> list[str]:
    """What there is to edit: every piece with its edges, layers and what is drawn on them."""
    lines = []
    for piece in style.pieces:
        told = _piece_json(piece, derived)
        names = ", ".join(f"{e['edge'][1]} {e['kind']}" for e in told["edges"] if e["edge"][0] == 0)
        lines.append(f"{piece.name}: edges {names}")
        for number, layer in enumerate(told["layers"], start=1):
            drawn = ", ".join(
                counted(layer[f"{w}s"], w) for w in ("cut", "change", "split") if layer[f"{w}s"]
            )
            joined = f", with {', '.join(layer['joined'])}" if layer["joined"] else ""
            lines.append(
                f"  layer {number} of {layer['cloth'] or style.cloths[0].id}: {drawn or 'whole'}{joined}"
            )
        if told["details"]:
            lines.append(f"  drawn: {', '.join(told['details'])}")
    return lines
