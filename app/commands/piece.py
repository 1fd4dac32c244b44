"""``piece``: edits of whole pieces: half patterns, twins, pieces added, duplicated and deleted."""

from __future__ import annotations

import argparse
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

from app.commands import Outcome
from app.commands.drawing_arguments import add_unit
from app.commands.new import ask_for_unit
from app.commands.style_out import StyleOnDisk, about, add_out_arguments
from app.errors import UsageError
from app.measures import counted
from app.style.edits import EdgeName
from app.style.model import Point, Style
from app.style.whole import adding, drawn_shapes, folding, twins
from geometry import tolerances
from geometry.dxf.read import read_drawing

ACTIONS = {
    "centre": "mark --edge of --piece as the centre line of a half pattern",
    "unfold": "unfold --piece over its centre edge, or over --edge",
    "fold": "fold --piece to a half pattern, over its axis of symmetry or over --line",
    "mirror": "add the mirror image of --piece as --name; --linked keeps the two alike",
    "twin": "copy what is marked on --piece to its twin --to: edges, axis, hold line, layers",
    "link": "keep --piece and --to alike from now on",
    "unlink": "undo the link between --piece and its twin",
    "duplicate": "add a copy of --piece, as --name",
    "delete": "take --piece away",
    "add": "add pieces of another --drawing, all or --pieces",
    "rectangle": "add a rectangle --name of --size WIDTHxHEIGHT mm",
    "shape": "add a closed shape --name through --points, as 0,0 120,0 110,40",
}
HELP = "; ".join(f"{name}: {what}" for name, what in ACTIONS.items())
Told = dict[str, Any]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    add_out_arguments(parser)
    parser.add_argument("action", choices=tuple(ACTIONS), help=HELP)
    parser.add_argument("--piece", default="", metavar="NAME", help="the piece to edit")
    parser.add_argument(
        "--edge",
        metavar="START",
        help="an edge by its first vertex on the outline, as 'backing --json' gives",
    )
    parser.add_argument("--line", metavar="X,Y,X,Y", help="fold: the line, in mm; the half to its left stays")
    parser.add_argument("--to", default="", metavar="NAME", help="twin, link: the other piece")
    parser.add_argument("--name", default="", metavar="NAME", help="name of the new piece")
    parser.add_argument("--linked", action="store_true", help="mirror: keep the new piece like the old one")
    parser.add_argument("--drawing", type=Path, metavar="FILE.dxf", help="add: the other drawing")
    parser.add_argument("--pieces", default="", metavar="NAME,NAME", help="add: only these pieces of it")
    add_unit(parser, "add: unit of the drawing")
    parser.add_argument("--size", metavar="WxH", help="rectangle: width along x and height along y, in mm")
    parser.add_argument("--points", nargs="+", metavar="X,Y", help="shape: its corners in mm, in their order")
    parser.add_argument(
        "--backing-only", action="store_true", help="rectangle, shape: cut from cloth, no upper is cut"
    )


def run(args: argparse.Namespace) -> Outcome:
    """Make one edit and write the style."""
    on_disk = StyleOnDisk.read(args)
    doing: dict[str, Callable[[Style, argparse.Namespace], tuple[Style, Told]]] = {
        "centre": _centre,
        "unfold": _unfold,
        "fold": _fold,
        "mirror": _mirror,
        "twin": _twin,
        "link": _link,
        "unlink": _unlink,
        "duplicate": _duplicate,
        "delete": _delete,
        "add": _add,
        "rectangle": _rectangle,
        "shape": _shape,
    }
    with about(args.style):
        style, told = doing[args.action](on_disk.style, args)
        style = twins.follow(on_disk.style, style)
    on_disk.write(style)
    payload = {
        "style": str(on_disk.out),
        "action": args.action,
        "pieces": [
            {"name": p.name, "twin": p.twin, "backing_only": p.backing_only, "edges": len(p.edges)}
            for p in style.pieces
        ],
        **told,
    }
    lines = [f"{style.name}: {args.action} done, {counted(len(style.pieces), 'piece')}"]
    lines += [f"{name.replace('_', ' ')}: {_shown(value)}" for name, value in told.items() if value != []]
    lines.append(f"written: {on_disk.out}")
    return Outcome(payload, "\n".join(lines))


def _shown(value: Any) -> str:
    if isinstance(value, float):
        return f"{value:.2f}"
    return ", ".join(map(_shown, value)) if isinstance(value, list | tuple) else str(value)


def _needed(args: argparse.Namespace, *options: str) -> None:
    for option in options:
        if not getattr(args, option.replace("-", "_")):
            raise UsageError(f"piece {args.action} needs --{option}", remedy=ACTIONS[args.action])


def _edge(args: argparse.Namespace) -> EdgeName | None:
    if args.edge is None:
        return None
    try:
        return 0, int(args.edge)
    except ValueError:
        raise UsageError(
            f"--edge {args.edge} is not a number", remedy="give the edge's first vertex"
        ) from None


def _numbers(text: str, count: int, option: str, remedy: str) -> list[float]:
    try:
        values = [float(part) for part in text.split(",")]
    except ValueError:
        values = []
    if len(values) != count or not all(map(math.isfinite, values)):
        raise UsageError(f"cannot read {option} {text!r}", remedy=remedy)
    return values


def _areas(before: Style, after: Style, piece: str) -> Told:
    base = after.size_run.base
    old, new = (folding.drawn_piece(style.piece(piece), base).outline.area_mm2 for style in (before, after))
    return {"area_mm2": [old, new]}


def _centre(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "piece")
    edge = _edge(args)
    if edge is None:
        raise UsageError("piece centre needs --edge", remedy=ACTIONS["centre"])
    return folding.mark_centre(style, args.piece, edge), {"centre": edge[1]}


def _unfold(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "piece")
    after = folding.unfold(style, args.piece, _edge(args))
    return after, _areas(style, after, args.piece)


def _fold(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "piece")
    line: tuple[Point, Point] | None = None
    if args.line:
        x, y, u, v = _numbers(args.line, 4, "--line", "give two points: --line 0,0,0,100")
        line = (x, y), (u, v)
    after = folding.fold(style, args.piece, line)
    return after, _areas(style, after, args.piece)


def _mirror(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "piece", "name")
    after = twins.mirror_piece(style, args.piece, args.name, linked=args.linked)
    return after, {"added": [args.name], "linked": args.linked}


def _twin(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "piece")
    to = args.to or twins.likely_twin(style, args.piece)
    if not to:
        raise UsageError(f"no piece is the mirror image of {args.piece}", remedy="name it: --to PIECE")
    copied = twins.copy_to_twin(style, args.piece, to)
    told = {"to": to, "edges_carried": copied.carried, "away_mm": copied.away_mm}
    return copied.style, {**told, "asked_mm": [list(point) for point in copied.asked]}


def _link(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "piece", "to")
    return twins.link(style, args.piece, args.to), {"linked": True}


def _unlink(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "piece")
    return twins.unlink(style, args.piece), {"linked": False}


def _duplicate(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "piece")
    return _added(style, adding.duplicate(style, args.piece, args.name))


def _delete(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "piece")
    return adding.delete(style, args.piece), {"removed": [args.piece]}


def _add(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "drawing")
    drawing = read_drawing(
        args.drawing, unit=args.unit, chord_mm=style.rules.chord_mm, join_mm=tolerances.JOIN_MM
    )
    ask_for_unit(drawing, args.drawing)
    names = [name.strip() for name in args.pieces.split(",") if name.strip()]
    after, added = adding.add_drawn(style, drawing, names)
    return after, {"added": list(added)}


def _rectangle(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "name", "size")
    text = args.size.lower().replace("×", "x").replace("x", ",")
    width, height = _numbers(text, 2, "--size", "give width and height in mm: --size 120x18")
    after = drawn_shapes.add_rectangle(style, args.name, width, height, backing_only=args.backing_only)
    return _added(style, after)


def _shape(style: Style, args: argparse.Namespace) -> tuple[Style, Told]:
    _needed(args, "name", "points")
    points = [
        _numbers(p, 2, "--points", "give corners as X,Y: --points 0,0 120,0 110,40") for p in args.points
    ]
    corners = [(x, y) for x, y in points]
    return _added(style, drawn_shapes.add_shape(style, args.name, corners, backing_only=args.backing_only))


def _added(before: Style, after: Style) -> tuple[Style, Told]:
    known = {piece.name for piece in before.pieces}
    return after, {"added": [piece.name for piece in after.pieces if piece.name not in known]}
