"""``sizes``: the size run of a style, shown and changed."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from dataclasses import asdict
from typing import Any

from app.commands import Outcome
from app.commands.style_out import StyleOnDisk, about, add_out_arguments
from app.errors import UsageError
from app.measures import counted
from app.style.model import Style
from app.style.whole import sizes

ACTIONS = {
    "show": "the run, its steps, and how many pieces are drawn, graded or cut as another size (the default)",
    "add": "SIZES: add sizes, as 36-41 or 38.5",
    "remove": "SIZE: take a size out, with its drawings",
    "base": "SIZE: make it the base size",
    "system": "NAME: paris, uk, us-men, us-women or mondopoint",
    "girth": "MM: ball girth of the base size",
    "draw": "SIZE: keep the graded outlines as drawings of that size, of all pieces or of --piece",
    "grade": "SIZE: forget its drawings: graded from the base size again, all pieces or --piece",
    "grading": "HOW: both, length, width or none: how --piece grows from size to size",
    "cut-as": "36=37,38=39: cut those sizes of --piece in the shape of another; none: each its own",
}
HELP = "; ".join(f"{name} {what}" for name, what in ACTIONS.items())


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    add_out_arguments(parser)
    parser.add_argument("action", nargs="?", default="show", choices=tuple(ACTIONS), help=HELP)
    parser.add_argument("what", nargs="?", default="", help="what the action needs")
    parser.add_argument("--piece", default="", metavar="NAME", help="only this piece")


def run(args: argparse.Namespace) -> Outcome:
    """Show the run, or make one edit and write the style."""
    on_disk = StyleOnDisk.read(args)
    style = on_disk.style
    if args.action != "show":
        if not args.what:
            raise UsageError(f"sizes {args.action} needs a value", remedy=ACTIONS[args.action])
        doing: dict[str, Callable[[Style, argparse.Namespace], Style]] = {
            "add": lambda s, a: sizes.add_sizes(s, a.what),
            "remove": lambda s, a: sizes.remove_size(s, a.what),
            "base": lambda s, a: sizes.set_base(s, a.what),
            "system": lambda s, a: sizes.set_system(s, a.what),
            "girth": lambda s, a: sizes.set_girth(s, _number(a.what)),
            "draw": lambda s, a: sizes.draw_size(s, a.what, _pieces(a)),
            "grade": lambda s, a: sizes.grade_size(s, a.what, _pieces(a)),
            "grading": _grading,
            "cut-as": _cut_as,
        }
        with about(args.style):
            style = doing[args.action](style, args)
        on_disk.write(style)
    payload = sizes_object(style)
    payload["style"] = None if args.action == "show" else str(on_disk.out)
    return Outcome(payload, report(style) + ("" if args.action == "show" else f"\nwritten: {on_disk.out}"))


def sizes_object(style: Style) -> dict[str, Any]:
    """Return the size run as the command prints it."""
    run_ = style.size_run
    return {
        "system": run_.system,
        "base": run_.base,
        "base_girth_mm": run_.base_girth_mm,
        "graded": run_.graded,
        "sizes": [asdict(row) for row in sizes.size_rows(style)],
        "pieces": [
            {
                "piece": piece.name,
                "grading": piece.grading,
                "cut_as": piece.cut_as,
                "sizes": {size: sizes.how_made(style, piece, size) for size in run_.sizes},
            }
            for piece in style.pieces
        ],
    }


def report(style: Style) -> str:
    """Return the size run for reading."""
    run_ = style.size_run
    lines = [
        f"{style.name}: {counted(len(run_.sizes), 'size')}, {run_.system}, base size {run_.base}, "
        f"ball girth {run_.base_girth_mm:g} mm",
        "",
        f"{'size':>6} {'last mm':>8} {'step':>6} {'girth mm':>9} {'step':>6}  "
        f"{'drawn':>5} {'graded':>6} {'as another':>10} {'missing':>7}",
    ]
    for row in sizes.size_rows(style):
        last = "" if row.last_step_mm is None else f"{row.last_step_mm:+.2f}"
        girth = "" if row.girth_step_mm is None else f"{row.girth_step_mm:+.2f}"
        name = row.size + ("*" if row.base else " ")
        lines.append(
            f"{name:>6} {row.last_mm:8.2f} {last:>6} {row.girth_mm:9.2f} {girth:>6}  "
            f"{row.drawn:5} {row.graded:6} {row.cut_as:10} {row.missing:7}"
        )
    for piece in style.pieces:
        if piece.grading != "both":
            lines.append(f"{piece.name}: graded {piece.grading}")
        if piece.cut_as:
            told = ", ".join(f"{size} as {other}" for size, other in piece.cut_as.items())
            lines.append(f"{piece.name}: cut {told}")
    return "\n".join(lines)


def _pieces(args: argparse.Namespace) -> tuple[str, ...]:
    return (args.piece,) if args.piece else ()


def _number(text: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise UsageError(f"{text!r} is not a number", remedy="give mm, as 220") from None


def _needs_piece(args: argparse.Namespace) -> str:
    if not args.piece:
        raise UsageError(f"sizes {args.action} needs --piece", remedy=ACTIONS[args.action])
    return str(args.piece)


def _grading(style: Style, args: argparse.Namespace) -> Style:
    if args.what not in ("both", "length", "width", "none"):
        raise UsageError(f"a piece does not grow by {args.what!r}", remedy=ACTIONS["grading"])
    return sizes.set_grading(style, _needs_piece(args), args.what)


def _cut_as(style: Style, args: argparse.Namespace) -> Style:
    name, same = _needs_piece(args), {}
    for part in [] if args.what == "none" else args.what.split(","):
        size, equals, other = part.partition("=")
        if not equals:
            raise UsageError(f"cannot read {part!r}", remedy="write 36=37, or none")
        same[size.strip()] = other.strip()
    return sizes.set_cut_as(style, name, same)
