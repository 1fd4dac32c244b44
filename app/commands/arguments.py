"""The arguments that several commands share: the order, sizes and hands, the engine's budget, the folder."""

from __future__ import annotations

import argparse
import os
from collections.abc import Sequence
from pathlib import Path

from app.defaults.work import SEED
from app.errors import UsageError
from app.lay.searching import workers_here
from app.measures import MEASURES, METRIC
from app.style.model import Style
from app.style.orders import for_style, parse_pairs, read_order
from app.style.pieces import HANDS
from geometry.piece import Hand
from geometry.said import said
from geometry.sizing.sizes import parse_sizes

GIVE_ORDER = "give --pairs 36:2,37:4 or --run FILE"


def add_order(parser: argparse.ArgumentParser) -> None:
    """Pairs per size, written out or in a file; the style's own order stands in for both."""
    group = parser.add_mutually_exclusive_group()
    group.add_argument("--pairs", metavar="36:2,37:4", help="pairs per size (default: the style's own order)")
    group.add_argument("--run", type=Path, metavar="FILE", help="an order as CSV or XLSX: size, pairs")


def order_of(args: argparse.Namespace, style: Style) -> dict[str, int]:
    """Return pairs by size: those given, else the style's own order; raises UsageError without either."""
    if args.pairs is not None:
        return for_style(parse_pairs(args.pairs), style)
    if args.run is not None:
        return for_style(read_order(args.run), style, source=str(args.run))
    if not any(style.order.values()):
        raise UsageError("no order is given", file=style.name, remedy=GIVE_ORDER)
    return for_style(style.order, style)


def order_or_one_each(args: argparse.Namespace, style: Style) -> dict[str, int]:
    """Return the order, or one pair of every size where neither is given nor kept one."""
    given = args.pairs is not None or args.run is not None or any(style.order.values())
    return order_of(args, style) if given else dict.fromkeys(style.size_run.sizes, 1)


def add_sizes_and_hands(parser: argparse.ArgumentParser) -> None:
    """Which pieces of a style."""
    parser.add_argument(
        "--sizes", default="", metavar="36-41", help="which sizes (default: all of the style)"
    )
    parser.add_argument(
        "--hands", choices=["both", *HANDS], default="both", help="which hands (default both)"
    )


def sizes_and_hands(args: argparse.Namespace, style: Style) -> tuple[Sequence[str], Sequence[Hand]]:
    """Return the sizes and hands asked for; raises SizeError for a size that the style does not have."""
    known = style.size_run.sizes
    sizes = parse_sizes(args.sizes, known=known, system=style.size_run.system) if args.sizes else known
    return sizes, HANDS if args.hands == "both" else (args.hands,)


def add_units(parser: argparse.ArgumentParser) -> None:
    """How text and papers tell cloth; JSON stays metric."""
    parser.add_argument(
        "--units",
        choices=tuple(MEASURES),
        default=METRIC.name,
        help="text and papers in m and m2, or in yd and ft2 (widths in inches); JSON stays metric",
    )


def add_out_folder(parser: argparse.ArgumentParser) -> None:
    """Where the papers go."""
    parser.add_argument(
        "-o", "--out", type=Path, default=Path("out"), metavar="DIR", help="where to write (default out)"
    )


def add_budget(parser: argparse.ArgumentParser, seconds: float, what: str = "a lay") -> None:
    """How long and with what the engine works; ``what`` the time is for."""
    parser.add_argument(
        "--seconds", type=float, default=seconds, metavar="S", help=f"time for {what} (default {seconds:g})"
    )
    parser.add_argument(
        "--workers",
        type=int,
        default=workers_here(),
        metavar="N",
        help="processors that search at once (default %(default)s)",
    )
    parser.add_argument(
        "--seed",
        type=int,
        default=SEED.value,
        metavar="N",
        help="another seed gives another lay (default %(default)s)",
    )
    parser.add_argument("--fresh", action="store_true", help="start afresh: ignore lays found before")


def check_budget(args: argparse.Namespace) -> None:
    """Raise UsageError for a budget that makes no sense."""
    if not 0.1 <= args.seconds <= 86_400:
        raise UsageError(said("--seconds {0} is not valid", f"{args.seconds:g}"), remedy="give 0.1 to 86400")
    if not 1 <= args.workers <= 256:
        raise UsageError(said("--workers {0} is not valid", args.workers), remedy="give a number from 1")
    if args.seed < 0:
        raise UsageError(said("--seed {0} is not valid", args.seed), remedy="give a number from 0")


def check_folder(out: Path) -> None:
    """Raise UsageError when a folder cannot be made there: before the work, not after it."""
    for path in (out, *out.parents):
        if path.exists():
            if not path.is_dir():
                raise UsageError("is a file, not a folder", file=str(path), remedy="choose another -o")
            if not os.access(path, os.W_OK):
                raise UsageError("may not be written to", file=str(path), remedy="choose another -o")
            return


def check_length(value: float | None, name: str, low: float, high: float) -> None:
    """Raise UsageError for a length in mm that cannot be meant."""
    if value is not None and not low <= value <= high:
        raise UsageError(
            said("--{0} {1} mm is not valid", name, f"{value:g}"),
            remedy=said("give {0} to {1}", f"{low:g}", f"{high:g}"),
        )
