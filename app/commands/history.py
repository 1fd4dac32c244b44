"""``history``: what runs were estimated, nested and used, and an estimate from similar ones."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

from app.commands import Outcome
from app.commands.arguments import add_units, check_folder
from app.commands.used import lay_entry
from app.cost.estimate import estimates
from app.cost.quick import proven_entry, proven_text
from app.cost.text import in_columns
from app.measures import MEASURES, Measures, counted
from app.papers.formats.spreadsheet import Cell, TableSheet, write_csv, write_xlsx
from app.papers.paper_folder import write_folder
from app.style.file import load_style
from app.workshop.ledger import Ledger, RunRecord, ledger_path
from geometry.said import percent


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("--style", default="", metavar="NAME", help="only this style")
    parser.add_argument("--cloth", default="", metavar="ID", help="only this cloth")
    parser.add_argument(
        "--estimate", type=Path, metavar="STYLE", help="estimate a style file's cloth from similar runs"
    )
    add_units(parser)
    parser.add_argument("-o", "--out", type=Path, metavar="DIR", help="write the runs as CSV and XLSX")


def run(args: argparse.Namespace) -> Outcome:
    """List the runs, oldest first; with --estimate say what they let a new style expect."""
    measures = MEASURES[args.units]
    if args.out is not None:
        check_folder(args.out)
    ledger = Ledger(ledger_path())
    runs = ledger.history(args.style, args.cloth)
    payload: dict[str, Any] = {"runs": [_entry(record) for record in runs]}
    lines = _runs_text(runs, measures) if runs else ["no runs yet"]
    proven = ledger.proven(args.cloth)
    payload["quick_proved"] = None if proven is None else proven_entry(proven)
    if proven is not None:
        lines.append(proven_text(proven))
    if args.estimate is not None:
        told = estimates(ledger, load_style(args.estimate), args.cloth, proven)
        payload["estimates"] = told
        lines += [_estimate_text(each, measures) for each in told]
    if args.out is not None:
        payload["files"] = [str(path) for path in _write(runs, measures, args.out)]
        lines += [f"written: {path}" for path in payload["files"]]
    return Outcome(payload, "\n".join(lines))


def _estimate_text(told: dict[str, Any], measures: Measures) -> str:
    area = measures.area_unit
    proved = told["quick_proved_m2"]
    quick = f"quick {measures.area(told['quick_m2']):.4f} {area}"
    quick += "" if proved is None else f", as it proved {measures.area(proved):.4f} {area}"
    return (
        f"{told['style']}, size {told['size']}, {told['cloth']}: about "
        f"{measures.area(told['m2_per_pair']):.4f} {area} per pair ({measures.area(told['low_m2']):.4f} to "
        f"{measures.area(told['high_m2']):.4f}), from {counted(len(told['runs']), 'run')}; "
        f"{quick}; lay it to be sure"
    )


def _entry(record: RunRecord) -> dict[str, Any]:
    return {
        "run": record.id,
        "made_at": record.made_at,
        "name": record.name,
        "style": record.style,
        "cloth": record.cloth,
        "pairs": record.pairs,
        "net_m2_per_pair": str(record.net_m2_per_pair),
        "quick_m2_per_pair": _text(record.quick_m2_per_pair),
        "nested_m2_per_pair": _text(record.nested_m2_per_pair),
        "used_m2_per_pair": _text(record.used_m2_per_pair),
        "nested_over_quick": _share(record.sums.nested_over_quick),
        "used_over_quick": _share(record.sums.used_over_quick),
        "planned_m": str(record.planned_m),
        "used_m": _text(record.used_m),
        "gross_per_net": round(record.sums.gross_per_net, 4),
        "cost": str(record.cost),
        "currency": record.currency,
        "lays": [lay_entry(lay) for lay in record.lays],
    }


def _runs_text(runs: Sequence[RunRecord], measures: Measures) -> list[str]:
    """A line per run with quick, nested and used beside each other, then its lays."""
    area, length = measures.area_unit, measures.length_unit
    heads = ["run", "made", "name", "style", "cloth", "pairs", f"planned {length}", f"used {length}"]
    heads += [f"net {area}", f"quick {area}", f"nested {area}", f"used {area}", "nested/quick", "used/quick"]
    rows = [
        [
            str(record.id),
            record.made_at[:10],
            record.name,
            record.style,
            record.cloth,
            str(record.pairs),
            *(_shown(metres, measures.length, 2) for metres in (record.planned_m, record.used_m)),
            *(_shown(m2, measures.area, 4) for m2 in _areas(record)),
            _ratio(record.sums.nested_over_quick),
            _ratio(record.sums.used_over_quick),
        ]
        for record in runs
    ]
    lines = in_columns(heads, rows)
    lays = [
        [
            str(record.id),
            lay.lay,
            *(_shown(metres, measures.length, 2) for metres in (lay.planned_m, lay.used_m, lay.variance_m)),
            "-"
            if lay.variance_m is None or not lay.planned_m
            else percent(lay.variance_m / lay.planned_m, sign=True),
            lay.note,
        ]
        for record in runs
        for lay in record.lays
    ]
    heads = ["run", "lay", f"planned {length}", f"used {length}", f"over {length}", "over", "note"]
    return [*lines, "lays:", *in_columns(heads, lays)]


def _write(runs: Sequence[RunRecord], measures: Measures, out: Path) -> list[Path]:
    area, length = measures.area_unit, measures.length_unit
    rows: list[Sequence[Cell]] = [
        (
            record.id, record.made_at[:10], record.name, record.style, record.cloth, record.pairs,
            *(_number(metres, measures.length) for metres in (record.planned_m, record.used_m)),
            *(_number(m2, measures.area) for m2 in _areas(record)),
            record.sums.nested_over_quick, record.sums.used_over_quick, record.cost, record.currency,
        )
        for record in runs
    ]  # fmt: skip
    heads = ("run", "made", "name", "style", "cloth", "pairs", f"planned {length}", f"used {length}",
             f"net {area} per pair", f"quick {area} per pair", f"nested {area} per pair",
             f"used {area} per pair", "nested / quick", "used / quick", "cost", "currency")  # fmt: skip
    lays: list[Sequence[Cell]] = [
        (record.id, lay.lay, lay.plies, lay.pairs,
         *(_number(metres, measures.length) for metres in (lay.planned_m, lay.used_m, lay.variance_m)),
         lay.note)
        for record in runs for lay in record.lays
    ]  # fmt: skip
    of_lays = (
        "run",
        "lay",
        "plies",
        "pairs",
        f"planned {length}",
        f"used {length}",
        f"over {length}",
        "note",
    )
    sheets = [TableSheet("Runs", heads, rows), TableSheet("Lays", of_lays, lays)]
    return write_folder(
        out,
        lambda draft: [write_csv(sheets, draft / "history.csv"), write_xlsx(sheets, draft / "history.xlsx")],
    )


def _areas(record: RunRecord) -> tuple[Decimal | None, ...]:
    return (
        record.net_m2_per_pair,
        record.quick_m2_per_pair,
        record.nested_m2_per_pair,
        record.used_m2_per_pair,
    )


def _shown(value: Decimal | None, unit: Callable[[float], float], digits: int) -> str:
    return "-" if value is None else f"{unit(float(value)):.{digits}f}"


def _number(value: Decimal | None, unit: Callable[[float], float]) -> float | None:
    return None if value is None else round(unit(float(value)), 6)


def _ratio(share: float | None) -> str:
    return "-" if share is None else f"{share:.3f}"


def _share(share: float | None) -> float | None:
    return None if share is None else round(share, 4)


def _text(value: Decimal | None) -> str | None:
    return None if value is None else str(value)
