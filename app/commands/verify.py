"""``verify``: judge a lay.json on what stands in it, whoever made it."""

from __future__ import annotations

import argparse
from pathlib import Path

from app.commands import Outcome
from app.measures import counted
from nesting.files import lay_file
from nesting.verify import verify_document


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("lay", type=Path, help="a lay.json")


def run(args: argparse.Namespace) -> Outcome:
    """Check the lay; exit status 1 when it has a fault."""
    document = lay_file.read(args.lay)
    verdict = verify_document(document)
    faults = []
    for fault in verdict.faults:
        entry: dict[str, object] = {"kind": fault.kind.value, "placements": list(fault.placements)}
        if fault.amount_mm is not None:
            entry["amount_mm"] = fault.amount_mm
        if fault.amount_deg is not None:
            entry["amount_deg"] = fault.amount_deg
        faults.append({**entry, "message": fault.message})
    said = "verified" if verdict.ok else f"{counted(len(faults), 'fault')}"
    lines = [f"{args.lay}: {said}; {verdict.checked}"]
    lines += [f"  {fault.kind}: {fault.message}" for fault in verdict.faults]
    payload = {"ok": verdict.ok, "faults": faults, "checked": verdict.checked}
    return Outcome(payload, "\n".join(lines), 0 if verdict.ok else 1)
