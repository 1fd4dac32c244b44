"""``cost``: what a pair takes and costs, by size, weighted by the order, and by roll width."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from app.commands import Outcome, say
from app.commands.arguments import (
    add_budget,
    add_order,
    add_units,
    check_budget,
    check_folder,
    check_length,
    order_or_one_each,
)
from app.commands.solving import solve
from app.cost.cloths import cloths_wanted, compare_cloths
from app.cost.money import with_money
from app.cost.per_pair import (
    ClothCost,
    Solver,
    Width,
    cloth_width,
    compare_widths,
    nest_width,
    net_m2_per_pair,
    pairs_in_lay,
    roll_width,
    used,
)
from app.cost.quick import quick_object, quick_text
from app.cost.report import cost_object
from app.cost.sensitivity import sensitivity
from app.cost.text import cost_text
from app.defaults.work import COST_SECONDS
from app.errors import DatabaseError, UsageError
from app.lay.kept import open_kept
from app.measures import MEASURES, Measures, typed_mm
from app.papers import registry
from app.papers.paper_folder import write_folder
from app.papers.shown import Costed
from app.style.file import load_style
from app.style.model import ClothData, Style
from app.workshop.ledger import Ledger, Proven, ledger_path
from geometry.said import said
from nesting.engine.ready import prepare
from nesting.known import Pool
from nesting.lay import Lay
from nesting.problem import LayProblem


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, help="a style file")
    add_order(parser)
    parser.add_argument(
        "--cloth", default="", metavar="ID", help="only this cloth (default: all the style uses)"
    )
    parser.add_argument(
        "--widths",
        default="",
        metavar="1200,1400,44in@2.60",
        help="whole roll widths to compare, in mm or with a unit; @ gives the price per metre",
    )
    parser.add_argument(
        "--cloths",
        default="",
        metavar="ID,ID",
        help="other cloths of the style or the register in its place, 'all' for all of them",
    )
    parser.add_argument(
        "--lay-as-on",
        type=float,
        metavar="MM",
        help="lay the pairs that suit this usable width (default: the cloth's own)",
    )
    parser.add_argument(
        "--quick", action="store_true", help="only the quick estimate from each piece's own rows: no lay yet"
    )
    parser.add_argument(
        "--sensitivity",
        action="store_true",
        help="how gap, end loss, plies and order size affect the cost (needs some more lays)",
    )
    parser.add_argument(
        "--price", metavar="PRICE", help="price per metre of the cloth (default: that of its card)"
    )
    parser.add_argument("--currency", default="", help="currency of the price")
    parser.add_argument(
        "--known", action="store_true", help="count on lays found before; search only where none serves"
    )
    add_units(parser)
    add_budget(parser, COST_SECONDS.value, "each lay")
    parser.add_argument(
        "-o", "--out", type=Path, metavar="DIR", help="write the figures as PDF, CSV and XLSX"
    )


def run(args: argparse.Namespace) -> Outcome:
    """Nest one lay a cloth and width, and count."""
    check_budget(args)
    check_length(args.lay_as_on, "lay-as-on", 50.0, 10_000.0)
    prepare()
    style = load_style(args.style)
    order = order_or_one_each(args, style)
    cloths = list(used(style, args.cloth))
    cloths[0] = _priced(cloths[0], args)

    store = open_kept(say)
    pool = Pool(None if args.fresh else store)

    def search(problem: LayProblem, label: str) -> Lay:
        lay = pool.best(problem) if args.known else None
        if lay is None:
            lay = solve(
                problem,
                seconds=args.seconds,
                seed=args.seed,
                workers=args.workers,
                label=label,
                fresh=args.fresh,
                store=store,
            )
        pool.keep(problem, lay)
        return lay

    def known(problem: LayProblem, label: str) -> Lay:
        return pool.best(problem) or search(problem, label)

    measures = MEASURES[args.units]
    if args.quick:
        return _quick(style, order, cloths, measures)
    texts = [text for text in args.widths.split(",") if text.strip()]
    wanted = [_width(cloths[0], text) for text in texts]
    others = cloths_wanted(style, args.cloths) if args.cloths else ()
    if args.out is not None:
        check_folder(args.out)
    others = tuple(cloths[0] if cloth.id == cloths[0].id else cloth for cloth in others)
    by_width = {cloth.id: [_width(cloth, text) for text in texts] for cloth in others}

    def count(solver: Solver) -> dict[str, Any]:
        costs = []
        for cloth in cloths:
            as_on_mm = args.lay_as_on or cloth.usable_width_mm
            pairs = pairs_in_lay(style, cloth.id, order, as_on_mm)
            nested = nest_width(style, cloth, order, cloth_width(cloth), solver, pairs)
            costs.append(ClothCost(cloth, nested, net_m2_per_pair(style, list(order), cloth.id)))
        widths = compare_widths(style, order, costs[0], wanted, solver) or [costs[0].nested]
        counted = cost_object(style, order, costs, widths)
        if others:
            counted["by_cloth"] = compare_cloths(style, order, costs[0], others, by_width, widths, solver)
        if args.sensitivity:
            counted["sensitivity"] = sensitivity(style, order, costs[0], solver)
        return counted

    count(search)
    pool.settle()
    payload = with_money(count(known))  # again, on the best lays of all: no figure contradicts another
    files: list[Path] = []
    if args.out is not None:
        files = _write(style, payload, cloths[0], args.out, measures)
    payload["files"] = [str(path) for path in files]
    if args.pairs is None and args.run is None:
        say("no order given: every size counts as one pair (--pairs or --run weights them)")
    text = "\n".join([cost_text(payload, measures), *(f"written: {path}" for path in files)])
    return Outcome(payload, text)


def _quick(style: Style, order: dict[str, int], cloths: Sequence[ClothData], measures: Measures) -> Outcome:
    """Count without any lay; runs in the history say how good that proved."""
    proven: dict[str, Proven | None] = dict.fromkeys(cloth.id for cloth in cloths)
    try:
        ledger = Ledger(ledger_path())
        proven = {cloth.id: ledger.proven(cloth.id) or ledger.proven() for cloth in cloths}
    except DatabaseError as error:
        say(said("the history cannot be read: {0}", error))
    payload = quick_object(style, order, cloths, proven)
    return Outcome(payload, quick_text(payload, measures))


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
        raise UsageError(said("{0} is not a price", text), remedy="write it like 2.50")
    return price


def _width(cloth: ClothData, text: str) -> Width:
    typed, at, price = (part.strip() for part in text.partition("@"))
    try:
        width = typed_mm(typed)
    except ValueError:
        width = 0.0
    if not 50.0 <= width <= 10_000.0 or (at and not price):
        raise UsageError(
            said("--widths: {0} is not a roll width", text.strip()), remedy="write 1200,1400 or 42in,44in"
        )
    return roll_width(cloth, width, _price(price) if price else None)


def _write(
    style: Style,
    payload: dict[str, Any],
    cloth: ClothData,
    out: Path,
    measures: Measures,
) -> list[Path]:
    costed = Costed(style, payload, cloth.id, measures)
    return write_folder(out, lambda draft: registry.write(costed, draft))
