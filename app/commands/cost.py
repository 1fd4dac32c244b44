"""``cost``: what a pair takes and costs, by size, weighted by the order, and by roll width."""

from __future__ import annotations

import argparse
import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from app.atomic import whole_folder
from app.commands import Outcome, say
from app.commands.order_arguments import add_budget, add_order, check_budget, order_of
from app.cost import (
    ClothCost,
    Width,
    cloth_width,
    compare_widths,
    cost_object,
    nest_width,
    net_m2_per_pair,
    roll_width,
    used,
)
from app.errors import UsageError
from app.papers import fabric_per_pair
from app.solving import solve
from app.style.file import load_style
from app.style.model import ClothData, Style
from nesting.lay import Lay
from nesting.problem import LayProblem

UNITS = {"": 1.0, "mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, '"': 25.4, "inch": 25.4}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, help="a style file")
    add_order(parser, required=False)
    parser.add_argument(
        "--cloth", default="", metavar="ID", help="only this cloth (default: all the style uses)"
    )
    parser.add_argument(
        "--widths",
        default="",
        metavar="1200,1400,44in@2.60",
        help="whole roll widths to compare, in mm or with a unit; @ gives the price of a metre",
    )
    parser.add_argument(
        "--price", metavar="PRICE", help="price of a metre of the cloth (default: its card's)"
    )
    parser.add_argument("--currency", default="", help="currency of the price")
    add_budget(parser, 10.0)
    parser.add_argument(
        "-o", "--out", type=Path, metavar="DIR", help="write the figures as PDF, CSV and XLSX"
    )


def run(args: argparse.Namespace) -> Outcome:
    """Nest one lay a cloth and width, and count."""
    check_budget(args)
    style = load_style(args.style)
    order = order_of(args, style)
    cloths = list(used(style, args.cloth))
    cloths[0] = _priced(cloths[0], args)

    def solver(problem: LayProblem, label: str) -> Lay:
        return solve(problem, seconds=args.seconds, seed=args.seed, workers=args.workers, label=label)

    wanted = [_width(cloths[0], text) for text in args.widths.split(",") if text.strip()]
    costs = []
    for cloth in cloths:
        nested = nest_width(style, cloth, order, cloth_width(cloth), solver)
        costs.append(ClothCost(cloth, nested, net_m2_per_pair(style, list(order), cloth.id)))
    widths = compare_widths(style, order, costs[0], wanted, solver) or [costs[0].nested]
    payload = cost_object(style, order, costs, widths)
    files: list[Path] = []
    if args.out is not None:
        files = _write(style, payload, order, costs[0].cloth, args.out)
    payload["files"] = [str(path) for path in files]
    if args.pairs is None and args.run is None:
        say("no order given: every size counts as one pair (--pairs or --run weights them)")
    return Outcome(payload, _text(payload, files))


def _priced(cloth: ClothData, args: argparse.Namespace) -> ClothData:
    fields: dict[str, object] = {}
    if args.price is not None:
        fields["price_per_m"] = _price(args.price)
    if args.currency:
        fields["currency"] = args.currency
    return cloth.model_copy(update=fields)


def _price(text: str) -> Decimal:
    try:
        price = Decimal(text.replace(",", "."))
    except InvalidOperation:
        price = Decimal("NaN")
    if not price.is_finite() or price < 0:
        raise UsageError(f"{text} is no price", remedy="write it like 2.50")
    return price


def _width(cloth: ClothData, text: str) -> Width:
    match = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*(mm|cm|m|in|inch|\")?\s*(?:@\s*(\S+))?\s*", text)
    width = float(match[1]) * UNITS[match[2] or ""] if match else 0.0
    if match is None or not 50.0 <= width <= 10_000.0:
        raise UsageError(f"--widths: {text.strip()} is no roll width", remedy="write 1200,1400 or 42in,44in")
    return roll_width(cloth, width, _price(match[3]) if match[3] else None)


def _write(
    style: Style, payload: dict[str, Any], order: dict[str, int], cloth: ClothData, out: Path
) -> list[Path]:
    try:
        with whole_folder(out) as draft:
            written = fabric_per_pair.write(style, payload, draft, pairs=order, cloth_id=cloth.id)
            return [out / path.relative_to(draft) for path in written]
    except OSError as error:
        raise UsageError(
            f"cannot be written ({error.strerror or error})", file=str(out), remedy="choose another folder"
        ) from None


@dataclass(frozen=True)
class _Row:
    """A line of the table on screen."""

    name: str
    net_m2: float
    gross_m2: float
    metres: float
    cost: str | None

    def __str__(self) -> str:
        cost = "-" if self.cost is None else self.cost
        return f"  {self.name:>8}  {self.net_m2:8.4f}  {self.gross_m2:8.4f}  {self.metres:8.4f}  {cost:>9}"


def _text(payload: dict[str, Any], files: list[Path]) -> str:
    lines = [f"{payload['style']}, fabric of a pair ({payload['currency']})"]
    lines.append("      size    net m2  gross m2    metres       cost")
    for pair in payload["per_pair"]:
        lines.append(str(_Row(pair["size"], pair["net_m2"], pair["gross_m2"], pair["metres"], pair["cost"])))
    average = payload["average"]
    lines.append(
        str(_Row("average", average["net_m2"], average["gross_m2"], average["metres"], average["cost"]))
    )
    lines.append(
        f"yield of the lay {payload['yield']:.1%}; "
        f"utilisation of the cloth paid for {payload['utilisation']:.1%}"
    )
    total = payload["total"]
    metres = ", ".join(f"{cloth} {length:.2f} m" for cloth, length in total["metres"].items())
    cost = "" if total["cost"] is None else f", {total['cost']} {payload['currency']}"
    lines.append(f"the whole order of {total['pairs']} pairs: {metres}{cost}")
    if len(payload["widths"]) > 1:
        lines.append("  width mm    usable     yield  metres/pair  cost/pair")
        for width in payload["widths"]:
            lines.append(
                f"  {width['width_mm']:8.1f}  {width['usable_width_mm']:8.1f}  {width['yield']:8.1%}  "
                f"{width['metres_per_pair']:11.4f}  {width['cost_per_pair'] or '-':>9}"
            )
    for quick in payload["quick"]:
        lines.append(
            f"quick estimate from each piece's own rows ({quick['cloth']}): "
            f"{quick['metres_per_pair']:.4f} m a pair without ends; "
            f"the nested lay takes {quick['nested_over_estimate']:.2f} of that"
        )
    lines += [f"assumed: {line}" for line in payload["assumptions"]]
    lines.append(payload["verdict"])
    lines += [f"written: {path}" for path in files]
    return "\n".join(lines)
