"""``plan``: which lays and how many plies meet an order, nested, judged and written."""

from __future__ import annotations

import argparse
import time
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from app.commands import Outcome, say
from app.commands.arguments import (
    add_budget,
    add_order,
    add_out_folder,
    add_units,
    check_budget,
    check_folder,
    check_length,
    order_of,
)
from app.commands.many_styles import add_many, run_many
from app.commands.report import say_findings
from app.commands.solving import interruptible, solve
from app.defaults.work import EXTRA_PERCENT
from app.errors import DatabaseError, OrderError, UsageError
from app.hold.on_lay import record_hold, why_not_judged
from app.lay.job import MODES
from app.lay.kept import open_kept
from app.measures import MEASURES
from app.papers import registry
from app.papers.shown import PlannedRun
from app.plan.history import planned_runs, run_object
from app.plan.job import HEIGHT_DECIDES, WORK_FOLDER, ClothPlan, LayStore, PlanJob, cloth_ids, plan_cloth
from app.plan.kept_lays import KeptLay, read_kept, with_locked
from app.plan.locked_lays import locked_kept
from app.plan.report import plan_object, plan_text, write_plan
from app.plan.roll_list import read_rolls
from app.style.file import load_style
from app.style.model import Style
from app.style.orders import for_style, read_orders
from app.style.pieces import findings
from app.workshop.ledger import Ledger, LedgerRun, ledger_path
from geometry.said import said
from nesting.defaults import OVERCUT_SHARE, PLAN_SECONDS
from nesting.errors import CancelledError
from nesting.free import first_layout
from nesting.lay import Lay
from nesting.planning.run_plan import CuttingTable, Rates
from nesting.problem import LayProblem
from nesting.stop import Deadline


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("style", type=Path, nargs="+", help="style files; several share their cloths")
    add_order(parser)
    parser.add_argument("--each", action="store_true", help="plan every style by itself, several at once")
    add_many(parser)
    parser.add_argument("--table", type=float, required=True, metavar="MM", help="length of the table")
    parser.add_argument(
        "--plies", type=int, metavar="N", help="maximum plies (default: those of the house rules, if any)"
    )
    parser.add_argument(
        "--mode", choices=MODES, default="face-up", help="how plies are spread (default face-up)"
    )
    parser.add_argument("--cloth", default="", metavar="ID", help="only this cloth (default: all)")
    parser.add_argument(
        "--end-loss",
        type=float,
        metavar="MM",
        help="cloth lost at each end of a ply (default: the house rule)",
    )
    parser.add_argument("--sets", type=int, metavar="N", help="maximum pairs in one lay")
    parser.add_argument(
        "--extra", type=float, default=EXTRA_PERCENT.value, metavar="%", help="extra pairs for rejects"
    )
    parser.add_argument(
        "--overcut",
        type=float,
        default=100.0 * OVERCUT_SHARE.value,
        metavar="%",
        help="share of a size's pairs that may be cut beyond the order (default %(default)s)",
    )
    parser.add_argument("--setup", default="0", metavar="MONEY", help="set-up cost per lay")
    parser.add_argument("--spreading", default="0", metavar="MONEY", help="spreading cost per ply-metre")
    parser.add_argument("--cutting", default="0", metavar="MONEY", help="cutting cost per lay-metre")
    parser.add_argument("--rolls", type=Path, metavar="FILE", help="rolls in stock as CSV: roll, length_m")
    parser.add_argument(
        "--keep",
        default="",
        metavar="A,B=4",
        help="lays of the plan in the output folder to keep (=4: in 4 plies); the rest is planned again",
    )
    parser.add_argument(
        "--locked",
        action="store_true",
        help="also keep the lays of the style that were laid by hand and given back to the plan",
    )
    parser.add_argument(
        "--keep-work",
        action="store_true",
        help=f"leave {WORK_FOLDER}/ in the output folder, so that another plan there begins with its lays",
    )
    parser.add_argument(
        "--name", default="", help="name of the run on its papers and in the history (default: the style's)"
    )
    parser.add_argument("--no-history", action="store_true", help="do not enter the run in the history")
    parser.add_argument(
        "--reason",
        default="",
        metavar="TEXT",
        help="why lays that break a hold limit are written all the same; the papers show it",
    )
    add_units(parser)
    add_budget(parser, PLAN_SECONDS.value, "the whole plan")
    add_out_folder(parser)


def run(args: argparse.Namespace) -> Outcome:
    """Plan every cloth of the run and write the lays."""
    check_budget(args)
    check_length(args.table, "table", 300.0, 100_000.0)
    check_length(args.end_loss, "end-loss", 0.0, 500.0)
    check_folder(args.out)
    if args.plies is not None and args.plies < 1:
        raise UsageError(said("--plies {0} is not valid", args.plies), remedy="give a number from 1")
    if args.each:
        return run_many(
            "plan",
            args.style,
            args.run,
            args.pairs,
            _options(args),
            (),
            args.out,
            jobs=args.jobs,
            cluster=args.cluster,
        )
    started = time.monotonic()
    styles = tuple(load_style(path) for path in args.style)
    if len({style.name for style in styles}) < len(styles):
        raise UsageError("two styles have the same name", remedy="rename one of them")
    job = _job(args, styles)
    for style, order in zip(styles, job.orders, strict=True):
        say_findings(findings(style, list(order)))
    ids = cloth_ids(job)
    store = LayStore(args.out / WORK_FOLDER)

    kept = open_kept(say)

    def nester(problem: LayProblem, seconds: float, label: str) -> Lay:
        try:
            return solve(
                problem,
                seconds=seconds,
                seed=args.seed,
                workers=args.workers,
                label=label,
                fresh=args.fresh,
                store=kept,
            )
        except CancelledError:  # a plan that is stopped is whole all the same: a quick lay stands in
            return replace(first_layout.solve(problem), stopped="cancelled")

    plans = []
    with interruptible() as cancelled:
        for i, cloth_id in enumerate(ids):
            left = args.seconds - (time.monotonic() - started)
            share = max(5.0, left / (len(ids) - i))
            stop = _Interrupted(share, cancelled)
            plans.append(plan_cloth(job, cloth_id, nester, store, seconds=share, stop=stop, tell=say))
        interrupted = cancelled()
    payload = plan_object(job, plans, time.monotonic() - started)
    if not _holds(styles, plans, args.reason.strip()):
        say("the plan was not written: a lay breaks a hold limit; give a --reason to write it so")
        return Outcome({**payload, "files": []}, "", 1)
    name = args.name or " + ".join(style.name for style in styles)
    measures = MEASURES[args.units]
    files = [
        *write_plan(payload, plans, args.out),
        *registry.write(PlannedRun(job, payload, plans, name, measures), args.out),
    ]
    payload["files"] = [str(path) for path in files]
    payload.update(_entered(list(planned_runs(job, plans, name)), args.no_history))
    if not args.keep_work and not interrupted:
        store.clear()
    return Outcome(payload, plan_text(payload, measures))


def _entered(planned: Sequence[LedgerRun], no_history: bool) -> dict[str, Any]:
    """Enter the runs in the history; one that cannot be written costs no plan: that is on disk by now."""
    if not no_history:
        try:
            ledger = Ledger(ledger_path())
            return {"runs": [ledger.plan(each) for each in planned]}
        except DatabaseError as error:
            say(said("the run is not entered in the history: {0}", error))
    return {"runs_not_entered": [run_object(each) for each in planned]}


def _holds(styles: tuple[Style, ...], plans: Sequence[ClothPlan], reason: str) -> bool:
    """Say what the lays cost the hold, and put it on record; whether they may be written."""
    broken = False
    for why in filter(None, map(why_not_judged, styles)):
        say(said("hold: not judged, {0}", why))
    for plan in plans:
        own = {each.name: each.reason for each in plan.kept}
        for lay_name in plan.names:
            why = reason or own.get(lay_name, "")
            for placed in record_hold(styles, plan.documents[lay_name], why):
                broken = broken or (placed.breaks and not why)
                say(said("hold, lay {0}: {1}", lay_name, placed))
    return not broken


def _options(args: argparse.Namespace) -> list[str]:
    """Return the words that every job of many is given; only the one who asks keeps a history."""
    if args.rolls is not None:
        raise UsageError("rolls are shared out in one plan", remedy="leave out --each or --rolls")
    words = ["--table", f"{args.table:g}", "--mode", args.mode, "--seconds", str(args.seconds)]
    words += ["--seed", str(args.seed), "--workers", "1", "--extra", f"{args.extra:g}"]
    words += ["--overcut", f"{args.overcut:g}", "--setup", args.setup, "--spreading", args.spreading]
    words += ["--cutting", args.cutting, "--units", args.units, "--no-history"]
    for name, value in (("plies", args.plies), ("sets", args.sets), ("end-loss", args.end_loss)):
        words += [f"--{name}", f"{value:g}"] if value is not None else []
    words += ["--reason", args.reason] if args.reason else []
    words += ["--locked"] if args.locked else []
    return words + (["--cloth", args.cloth] if args.cloth else [])


class _Interrupted(Deadline):
    """A deadline that also ends when the person stopped the command."""

    def __init__(self, seconds: float, cancelled: object) -> None:
        super().__init__(seconds)
        self._asked = cancelled

    def __call__(self) -> bool:
        if callable(self._asked) and self._asked():
            self.cancel()
        return super().__call__()


def _job(args: argparse.Namespace, styles: tuple[Style, ...]) -> PlanJob:
    rules, orders = styles[0].rules, _orders(args, styles)
    plies = args.plies if args.plies is not None else rules.max_plies
    if plies is None and rules.cutting_height_mm:
        plies = HEIGHT_DECIDES
    if plies is None:
        raise UsageError("how many plies may be cut at once is not known", remedy="give --plies N")
    return PlanJob(
        styles=styles,
        orders=orders,
        table=CuttingTable(args.table, plies, rules.end_loss_mm if args.end_loss is None else args.end_loss),
        rates=Rates(
            cloth_per_m=Decimal(0),
            per_lay=_money(args.setup, "setup"),
            spread_per_ply_m=_money(args.spreading, "spreading"),
            cut_per_lay_m=_money(args.cutting, "cutting"),
        ),
        mode=args.mode,
        cloth_id=args.cloth,
        extra=_percent(args.extra, "extra"),
        overcut=_percent(args.overcut, "overcut"),
        max_sets=args.sets,
        rolls=read_rolls(args.rolls) if args.rolls else (),
        kept=_kept(args, styles, orders),
    )


def _kept(
    args: argparse.Namespace, styles: tuple[Style, ...], orders: tuple[dict[str, int], ...]
) -> dict[str, tuple[KeptLay, ...]]:
    kept = read_kept(args.out, args.keep) if args.keep else {}
    if not args.locked:
        return kept
    if len(styles) > 1:
        raise UsageError("locked lays are of one style", remedy="plan it by itself, or leave out --locked")
    return with_locked(kept, locked_kept(styles[0], orders[0]))


def _orders(args: argparse.Namespace, styles: tuple[Style, ...]) -> tuple[dict[str, int], ...]:
    if len(styles) == 1 or args.run is None:
        return tuple(order_of(args, style) for style in styles)
    by_style = read_orders(args.run)
    unknown = [name for name in by_style if name not in {style.name for style in styles}]
    if unknown:
        raise OrderError(
            said(
                "{0} is none of the styles given ({1})", unknown[0], ", ".join(style.name for style in styles)
            ),
            file=str(args.run),
            remedy="write the styles' names as in their files",
        )
    return tuple(
        for_style(by_style[style.name], style, source=str(args.run)) if style.name in by_style else {}
        for style in styles
    )


def _money(text: str, name: str) -> Decimal:
    try:
        amount = Decimal(text.replace(",", "."))
    except InvalidOperation:
        amount = Decimal(-1)
    if not amount.is_finite() or amount < 0:
        raise UsageError(
            said("--{0} {1} is not an amount of money", name, text), remedy="give a number from 0"
        )
    return amount


def _percent(value: float, name: str) -> float:
    if not 0.0 <= value <= 100.0:
        raise UsageError(said("--{0} {1} is not valid", name, f"{value:g}"), remedy="give 0 to 100")
    return value / 100.0
