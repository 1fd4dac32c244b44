"""``history``: what runs were planned to take and took, and an estimate from similar ones."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from app.commands import Outcome
from app.commands.used import lay_entry, lay_text
from app.cost import net_m2_per_pair
from app.errors import UsageError
from app.ledger import Ledger, RunRecord, ledger_path
from app.style.file import load_style
from app.style.pieces import used_cloths


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("--style", default="", metavar="NAME", help="only this style")
    parser.add_argument("--cloth", default="", metavar="ID", help="only this cloth")
    parser.add_argument(
        "--estimate", type=Path, metavar="STYLE", help="estimate a style file's cloth from similar runs"
    )


def run(args: argparse.Namespace) -> Outcome:
    """List the runs, oldest first; with --estimate say what they let a new style expect."""
    ledger = Ledger(ledger_path())
    runs = ledger.history(args.style, args.cloth)
    payload: dict[str, Any] = {"runs": [_entry(record) for record in runs]}
    lines = [line for record in runs for line in _lines(record)] or ["no runs yet"]
    if args.estimate is not None:
        style = load_style(args.estimate)
        base = style.size_run.base
        for cloth_id in used_cloths(style):
            if args.cloth and cloth_id != args.cloth:
                continue
            net = net_m2_per_pair(style, [base], cloth_id)[base]
            guess = ledger.estimate(net, cloth=args.cloth)
            width_m = style.cloth(cloth_id).usable_width_mm / 1000.0
            payload.setdefault("estimates", []).append(
                {
                    "style": style.name,
                    "cloth": cloth_id,
                    "size": base,
                    "net_m2": round(net, 6),
                    "m2_per_pair": round(guess.m2_per_pair, 6),
                    "low_m2": round(guess.low_m2, 6),
                    "high_m2": round(guess.high_m2, 6),
                    "metres_per_pair": round(guess.m2_per_pair / width_m, 6),
                    "runs": list(guess.from_runs),
                }
            )
            lines.append(
                f"{style.name}, size {base}, {cloth_id}: about {guess.m2_per_pair:.4f} m2 a pair "
                f"({guess.low_m2:.4f} to {guess.high_m2:.4f}), from {guess.runs} runs; lay it to be sure"
            )
        if "estimates" not in payload:
            raise UsageError(f"{style.name} takes no such cloth", remedy="leave out --cloth")
    return Outcome(payload, "\n".join(lines))


def _entry(record: RunRecord) -> dict[str, Any]:
    used = record.used_m
    return {
        "run": record.id,
        "made_at": record.made_at,
        "name": record.name,
        "style": record.style,
        "cloth": record.cloth,
        "pairs": record.pairs,
        "net_m2_per_pair": str(record.net_m2_per_pair),
        "planned_m": str(record.planned_m),
        "used_m": None if used is None else str(used),
        "gross_per_net": round(record.gross_per_net, 4),
        "cost": str(record.cost),
        "currency": record.currency,
        "lays": [lay_entry(lay) for lay in record.lays],
    }


def _lines(record: RunRecord) -> list[str]:
    used = "not all cut yet" if record.used_m is None else f"used {record.used_m} m"
    head = (
        f"run {record.id}, {record.made_at[:10]}, {record.name}: {record.style} on {record.cloth}, "
        f"{record.pairs} pairs, planned {record.planned_m} m, {used}"
    )
    return [head, *(f"  lay {lay.lay}: {lay_text(lay)}" for lay in record.lays)]
