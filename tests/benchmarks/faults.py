"""Faults made on purpose, counted: kills, a full disk, two desks, clocks, locks, and loads of thousands.

    PYTHONPATH=. .venv/bin/python tests/benchmarks/faults.py [--kills 200] [--seed 1] [-o faults]

Kills (-9): a process edits, saves, files cards, enters runs and use, fills lays or plans, and is killed at a
moment drawn evenly over the time it takes; what it had told of (a line on its output, whole) must be there.
Half of the kills go to what is done all day (edit, save, register, ledger), half to the engine's work
(fill, plan). Resumable: ``OUT/state.json`` says how far it came; the next run goes on there, with the same
moments drawn. Figures end in docs/reliability.md; status 1 at the first loss. By hand: it takes a while.
"""

from __future__ import annotations

import argparse
import json
import random
import shutil
import sys
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from fault_cases import CASES  # noqa: E402
from fault_ground import Lost  # noqa: E402
from fault_kills import SHARES, kill, undisturbed_s  # noqa: E402


def main() -> int:
    """Kill, break, load; count; go on where the last run stopped."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", help="cases only (separated by commas), or 'kills'")
    parser.add_argument("-o", "--out", type=Path, default=Path("faults"))
    args = parser.parse_args()
    out: Path = args.out.resolve()
    out.mkdir(parents=True, exist_ok=True)
    file = out / "state.json"
    state: dict[str, Any] = json.loads(file.read_text()) if file.exists() else {"kills": {}, "cases": {}}

    def keep() -> None:
        draft = file.with_suffix(".tmp")
        draft.write_text(json.dumps(state, indent=1))
        draft.replace(file)

    only = {name.strip() for name in args.only.split(",") if name.strip()}
    try:
        for name, case in CASES.items():
            if name in state["cases"] or (only and name not in only):
                continue
            shutil.rmtree(out / name.replace(" ", "-"), ignore_errors=True)
            state["cases"][name] = case(out / name.replace(" ", "-"))
            print(f"{name}: {state['cases'][name]}", flush=True)
            keep()
        for kind, share in SHARES.items() if not only or "kills" in only else ():
            count = round(args.kills * share / sum(SHARES.values()))
            kept = state["kills"].setdefault(kind, {"done": 0, "early": 0, "known": {}})
            folder = out / f"kill-{kind}"
            folder.mkdir(exist_ok=True)
            if "whole_s" not in kept:
                kept["whole_s"] = undisturbed_s(kind, folder)
            while kept["early"] < count:  # one that ended before its moment was no kill
                chance = random.Random(f"{args.seed} {kind} {kept['done']}")
                after_s = chance.uniform(0.05, kept["whole_s"])
                took = kill(kind, folder, kept["done"], after_s, kept["known"])
                if took is None:
                    kept["early"] += 1
                else:  # it is quicker now than when it was measured
                    kept["whole_s"] = min(kept["whole_s"], took)
                kept["done"] += 1
                keep()
            print(f"{kind}: {kept['early']} kills in {kept['done']} runs, nothing lost", flush=True)
    except Lost as error:
        print(f"LOST: {error}")
        return 1
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
