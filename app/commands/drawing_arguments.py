"""The arguments of the commands that read a drawing: its unit, its gaps, its frame, its grade rules."""

from __future__ import annotations

import argparse
from pathlib import Path

from geometry import tolerances
from geometry.dxf.read import ReadDrawing, read_drawing

UNITS = ("auto", "mm", "cm", "m", "in")


def add_unit(parser: argparse.ArgumentParser, what: str = "unit of the drawing") -> None:
    """The unit of what is drawn; ``what`` is the help."""
    parser.add_argument("--unit", choices=UNITS, default="auto", help=what)


def add_join(parser: argparse.ArgumentParser) -> None:
    """How far apart the ends of lines may lie that belong together."""
    parser.add_argument(
        "--join",
        type=float,
        default=tolerances.JOIN_MM,
        metavar="MM",
        help="largest gap between line ends that is closed (default %(default)s)",
    )


def add_drawing(parser: argparse.ArgumentParser, chord_default: str) -> None:
    """All of them; ``chord`` is None where none is given, and the help says what is taken then."""
    add_unit(parser)
    parser.add_argument(
        "--chord",
        type=float,
        metavar="MM",
        help=f"largest distance between a curve and its polyline (default {chord_default})",
    )
    add_join(parser)
    parser.add_argument(
        "--frame",
        choices=("ask", "keep", "drop"),
        default="ask",
        help="a rectangle that looks like the sheet's frame: keep it as a piece, or drop it (default: ask)",
    )
    parser.add_argument(
        "--rules",
        metavar="FILE.rul",
        help="grade rule file (default: the one of the drawing's name beside it)",
    )


def read_asked(args: argparse.Namespace, path: Path, chord_mm: float) -> ReadDrawing:
    """Read a drawing as those arguments ask, ``chord_mm`` where none is given; raises DrawingError."""
    return read_drawing(
        path,
        unit=args.unit,
        chord_mm=chord_mm if args.chord is None else args.chord,
        join_mm=args.join,
        rules=args.rules,
        frame=args.frame,
    )
