"""``used``: enter what a lay of a planned run actually took."""

from __future__ import annotations

import argparse
from decimal import Decimal, InvalidOperation
from typing import Any

from app.commands import Outcome
from app.errors import UsageError
from app.workshop.ledger import LayRecord, Ledger, ledger_path
from geometry.said import percent


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("run", type=int, help="number of the run, as plan and history show it")
    parser.add_argument("lay", help="name of the lay (A, B, ...)")
    parser.add_argument("metres", help="metres of cloth used, all plies and their ends")
    parser.add_argument("--note", default="", help="why it differs")


def run(args: argparse.Namespace) -> Outcome:
    """Enter it and say how far it is from the plan."""
    try:
        metres = Decimal(args.metres.replace(",", "."))
    except InvalidOperation:
        raise UsageError(f"{args.metres} is not a length in metres", remedy="give a number") from None
    if not metres.is_finite():
        raise UsageError(f"{args.metres} is not a length in metres", remedy="give a number")
    record = Ledger(ledger_path()).used(args.run, args.lay, metres, args.note)
    payload = lay_entry(record)
    return Outcome(payload, f"run {args.run} lay {args.lay}: {lay_text(record)}")


def lay_entry(record: LayRecord) -> dict[str, Any]:
    """Return a lay of the history as a JSON object."""
    return {
        "run": record.run,
        "lay": record.lay,
        "plies": record.plies,
        "pairs": record.pairs,
        "planned_m": str(record.planned_m),
        "used_m": None if record.used_m is None else str(record.used_m),
        "variance_m": None if record.variance_m is None else str(record.variance_m),
        "note": record.note,
    }


def lay_text(record: LayRecord) -> str:
    """Return planned, used and the difference in words."""
    if record.used_m is None or record.variance_m is None:
        return f"planned {record.planned_m} m, not cut yet"
    share = f" ({percent(record.variance_m / record.planned_m, sign=True)})" if record.planned_m else ""
    note = f", {record.note}" if record.note else ""
    return f"planned {record.planned_m} m, used {record.used_m} m, {record.variance_m:+} m{share}{note}"
